"""What can go wrong, as data.  No HTTP here: api/http/errors.py maps each class to a status.

LotwrightError
+-- NotFound            no such thing in this shop
+-- Conflict            the state does not allow it now
|   +-- StaleVersion    it was changed since it was read
|   +-- NotTogether     lots that were not drawn together, so that nothing can be said of their sum
|   +-- LeaseLost       another worker holds this job now
+-- Rejected            the input cannot be used as it is
|   +-- Unreadable      a file that is empty, broken or not a table
|   +-- NeedsColumns    a table whose columns must be named first
|   +-- NeedsReason     more is risked than was meant, and nothing says why
|   +-- TooLarge        over a limit of size, rows or time
+-- NotAllowed          known, but may not do this
+-- NotSignedIn         nobody we know
+-- Cancelled           the job was asked to stop
+-- DiskFull            nothing can be written until someone makes room
"""

from collections.abc import Mapping, Sequence
from typing import Any

from models.values.problems import Problems
from models.values.questions import Question


class LotwrightError(Exception):
    """Carries one sentence a seller understands."""

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


class NotFound(LotwrightError): ...


class Conflict(LotwrightError): ...


class StaleVersion(Conflict): ...


class NotTogether(Conflict):
    """`lots` names each lot to evaluate again with the reason, `basis` what all must be evaluated with, as JSON."""

    def __init__(self, message: str, lots: Mapping[str, str], basis: Mapping[str, Any]) -> None:
        super().__init__(message)
        self.lots = dict(lots)
        self.basis = dict(basis)


class LeaseLost(Conflict): ...


class Rejected(LotwrightError):
    """`faults` names each key with its reason, where there are several."""

    def __init__(self, message: str, faults: Mapping[str, str] | None = None) -> None:
        super().__init__(message)
        self.faults = dict(faults or {})


class Unreadable(Rejected):
    """`problems` names the rows where the file was a table, but every row of it had to be set aside."""

    def __init__(self, message: str, faults: Mapping[str, str] | None = None, problems: Problems | None = None) -> None:
        super().__init__(message, faults)
        self.problems = problems


class TooLarge(Rejected): ...


class NeedsColumns(Rejected):
    """The table was read, but something must be said first.

    `missing` are the keys of the mapping to give: columns that are not recognised, or answers to `questions`; `headers`
    are the file's own, in order; `found` are the columns that were recognised all the same.
    """

    def __init__(
        self,
        message: str,
        missing: Sequence[str],
        headers: Sequence[str],
        questions: Sequence[Question] = (),
        found: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(message)
        self.missing = tuple(missing)
        self.headers = tuple(headers)
        self.questions = tuple(questions)
        self.found = dict(found or {})


class NeedsReason(Rejected):
    """`adds` is what it would add, as JSON."""

    def __init__(self, message: str, adds: Mapping[str, Any]) -> None:
        super().__init__(message, {"reason": "say why"})
        self.adds = dict(adds)


class NotAllowed(LotwrightError): ...


class NotSignedIn(LotwrightError): ...


class Cancelled(LotwrightError): ...


class DiskFull(LotwrightError):
    """Always the same words: there is one thing to do about it."""

    def __init__(self, message: str = "The disk is full: make room, then try again.") -> None:
        super().__init__(message)
