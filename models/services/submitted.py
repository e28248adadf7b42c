"""What every submission answers: the thing made and the job that will finish it."""

from dataclasses import dataclass
from typing import Generic, TypeVar

from models.store.records import JobRecord

S = TypeVar("S")


@dataclass(frozen=True)
class Submitted(Generic[S]):
    """An import, a model version (the training) or a lot, and its job."""

    subject: S
    job: JobRecord
