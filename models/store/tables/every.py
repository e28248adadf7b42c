"""All tables together: whoever needs the whole schema imports `metadata` from here."""

from models.store.tables import evaluations, files, jobs, lots, model_versions, people, sales, shops, work_log
from models.store.tables.base import metadata

__all__ = ["evaluations", "files", "jobs", "lots", "metadata", "model_versions", "people", "sales", "shops", "work_log"]
