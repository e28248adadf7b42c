"""The words that rows of the store may carry, each declared once."""

from enum import StrEnum


class Role(StrEnum):
    """What a member may do: an owner also manages people, tokens and settings."""

    OWNER = "owner"
    MEMBER = "member"


class FileState(StrEnum):
    """Where an import or a lot stands; an import is never `needs_model` or `evaluating`."""

    READING = "reading"
    NEEDS_COLUMNS = "needs_columns"
    NEEDS_MODEL = "needs_model"
    EVALUATING = "evaluating"
    READY = "ready"
    FAILED = "failed"


class ModelState(StrEnum):
    """Where a model version stands; one a shop is active."""

    TRAINING = "training"
    FITTED = "fitted"
    ACTIVE = "active"
    FAILED = "failed"


class JobState(StrEnum):
    """Where a job stands; the last three are final."""

    QUEUED = "queued"
    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"


class JobKind(StrEnum):
    """What a job does; its subject is an import, a model version or a lot."""

    IMPORT_SALES = "import_sales"
    TRAIN_MODEL = "train_model"
    BACKTEST = "backtest"
    EVALUATE_LOT = "evaluate_lot"


class Queue(StrEnum):
    """Who does it: quick work a person waits for, or long work."""

    QUICK = "quick"
    LONG = "long"
