"""What the store hands out: plain frozen values.  Times are aware UTC datetimes, money is in minor units."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Generic, Literal, NewType, TypeVar

from models.store.states import FileState, JobKind, JobState, ModelState, Queue, Role
from models.values.given import Given
from models.values.problems import Caution, StatedTotals
from models.values.questions import Question

ShopId = NewType("ShopId", str)
T = TypeVar("T")


@dataclass(frozen=True)
class Page(Generic[T]):
    """Some of a list; `next` is the cursor of what follows, None at the end."""

    items: tuple[T, ...]
    next: str | None


@dataclass(frozen=True)
class Upload:
    """A file on its way in; `chunks` may be of any size and are read once."""

    filename: str
    chunks: Iterable[bytes]


@dataclass(frozen=True)
class UploadRecord:
    """A file kept: `size` in bytes."""

    id: str
    filename: str
    size: int
    sha256: str


@dataclass(frozen=True)
class ShopRecord:
    """One seller's workspace."""

    id: ShopId
    name: str
    time_zone: str  # IANA name
    currency: str  # ISO 4217
    created_at: dt.datetime


@dataclass(frozen=True)
class UserRecord:
    """A person."""

    id: str
    email: str


@dataclass(frozen=True)
class Caller:
    """Who asks, and for which shop.  `session_id` is None when a token was shown."""

    shop: ShopId
    user_id: str
    email: str
    role: Role
    via: Literal["token", "session"]
    session_id: str | None = None
    token: str | None = None  # the token's name, where one was shown


@dataclass(frozen=True)
class TokenRecord:
    """A bearer token without its secret, which is not kept."""

    id: str
    name: str
    created_at: dt.datetime
    revoked_at: dt.datetime | None


@dataclass(frozen=True)
class SettingsRecord:
    """What a shop has given; `version` is for If-Match."""

    given: Given
    version: int


@dataclass(frozen=True)
class SourceRecord:
    """Who offers lots, with the buying terms given for it."""

    id: str
    name: str
    given: Given
    version: int


@dataclass(frozen=True)
class FileFacts:
    """What reading a file told: rows = kept + set_aside; `headers` are all of the file, `missing` must be named."""

    mapping: Mapping[str, str]
    headers: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    rows: int = 0
    kept: int = 0
    set_aside: int = 0
    cautions: tuple[Caution, ...] = ()
    stated: tuple[StatedTotals, ...] = ()  # the file's own totals, beside ours
    questions: tuple[Question, ...] = ()  # what must be said before it can be read; their keys are `missing`
    found: Mapping[str, str] = field(default_factory=dict)  # the columns that were recognised all the same
    confidence: Mapping[str, float] = field(default_factory=dict)  # how sure each header of `mapping` is, 0 to 1
    remembered: Mapping[str, str] = field(default_factory=dict)  # what of `mapping` was said of an earlier file
    shop_cautions: tuple[Caution, ...] = ()  # what all files of a history together leave unsaid, when this was read


@dataclass(frozen=True)
class ImportRecord:
    """One file of sold history; `added` new sales, `already_known` rows that were there before."""

    id: str
    number: int
    filename: str
    size: int
    state: FileState
    error: str | None
    file: FileFacts
    added: int
    already_known: int
    created_at: dt.datetime


@dataclass(frozen=True)
class SaleRecord:
    """One row of sold history as a list shows it; money a unit in minor units, None for blank."""

    import_id: str
    row: int
    title: str
    brand: str
    category: str
    condition: str | None
    quantity: int
    tag_each: float | None
    sold_price: float | None
    listed_on: dt.date | None
    sold_on: dt.date | None


@dataclass(frozen=True)
class ModelVersionRecord:
    """One fitted set of regressions; `facts` is what training told of itself, as JSON."""

    id: str
    number: int
    state: ModelState
    as_of: dt.date
    seed: int
    fingerprint: str | None
    sales_used: int | None
    learned: Given
    facts: Mapping[str, Any]
    error: str | None
    created_at: dt.datetime
    trained_at: dt.datetime | None
    backtest: Mapping[str, Any] | None = None  # how near it would have been on the shop's own past, once that is known

    @property
    def fitted(self) -> bool:
        """True where lots can be evaluated with it."""
        return self.state in (ModelState.FITTED, ModelState.ACTIVE)


@dataclass(frozen=True)
class CeilingStampRecord:
    """A ceiling as a seller fixed it: hammer prices in minor units, `evaluation_ceiling` 0 where that was a pass.

    `adds` is what the seller was shown that raising it adds, as JSON; None where nothing was raised.
    """

    number: int
    amount: float
    evaluation_number: int
    evaluation_ceiling: float
    reason: str | None
    adds: Mapping[str, Any] | None
    fixed_by: str
    token: str | None
    fixed_at: dt.datetime


@dataclass(frozen=True)
class LotRecord:
    """A lot; `lines`, `units` and `tag_total` once its manifest is read.  `as_of` None: the shop's date when asked."""

    id: str
    name: str
    source: str | None
    filename: str
    state: FileState
    error: str | None
    given: Given
    seed: int
    as_of: dt.date | None
    file: FileFacts
    lines: int
    units: int
    tag_total: float | None
    evaluation_id: str | None
    created_at: dt.datetime
    fixed: CeilingStampRecord | None = None  # the ceiling as it was fixed last


@dataclass(frozen=True)
class LineEditRecord:
    """What the seller typed in for the line at `row` of the manifest; `version` is for If-Match."""

    row: int
    looked_up: tuple[float, ...] = ()  # sold prices of one unit [minor units]
    action: str | None = None  # list | bundle | skip | never, None: left to us
    version: int = 1


@dataclass(frozen=True)
class EvaluationRecord:
    """One immutable evaluation; `document` is the contract's evaluation with its ids."""

    id: str
    lot_id: str
    number: int
    model_version: int
    seed: int
    as_of: dt.date
    draw_format: int
    created_at: dt.datetime
    document: Mapping[str, Any]


@dataclass(frozen=True)
class EvaluationSummary:
    """One evaluation in a list of a lot's evaluations; amounts are the document's own decimal strings."""

    id: str
    number: int
    model_version: int
    seed: int
    as_of: dt.date
    verdict: str
    amount: str
    current: bool
    created_at: dt.datetime


@dataclass(frozen=True)
class JobRecord:
    """One piece of background work as its shop sees it; `progress` is a share 0..1."""

    id: str
    kind: JobKind
    queue: Queue
    state: JobState
    subject_id: str
    progress: float
    step: str
    attempt: int
    error: str | None
    cancel_requested: bool
    created_at: dt.datetime
    started_at: dt.datetime | None
    finished_at: dt.datetime | None


@dataclass(frozen=True)
class ClaimedJob:
    """A job this worker holds: `attempt` fences every write; `payload` was frozen when it was queued."""

    id: str
    shop: ShopId
    kind: JobKind
    queue: Queue
    subject_id: str
    attempt: int
    payload: Mapping[str, Any]


@dataclass(frozen=True)
class StoredAnswer:
    """The answer first given under an Idempotency-Key."""

    request_fingerprint: str
    status: int
    body: Mapping[str, Any]
