"""Forget what is only kept for a while: finished jobs, files, old answers, expired sign-ins."""

from dataclasses import dataclass

from models.services.environment import Environment
from models.store.unit_of_work import UnitOfWork

DAY_MS = 24 * 60 * 60 * 1000
ANSWER_DAYS = 2


@dataclass(frozen=True)
class Pruned:
    """How many rows of each went."""

    jobs: int
    uploads: int
    answers: int
    sign_ins: int


def prune(work: UnitOfWork, environment: Environment) -> Pruned:
    """Delete what is older than the environment's days; sales, lots, lines and evaluations stay."""
    return Pruned(
        work.jobs.prune(environment.job_days * DAY_MS),
        work.uploads.prune(environment.upload_days * DAY_MS),
        work.answers.prune(ANSWER_DAYS * DAY_MS),
        work.people.prune(),
    )
