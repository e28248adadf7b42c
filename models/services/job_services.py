"""Which service does which kind of job.  Imported by workers only: the bodies load what they compute with."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from models.services.run_backtest import run_backtest
from models.services.run_evaluation import run_evaluation
from models.services.run_import import run_import
from models.services.run_training import run_training
from models.services.running import Running
from models.store.states import JobKind

SERVICES: Mapping[JobKind, Callable[[Running], None]] = MappingProxyType(
    {
        JobKind.IMPORT_SALES: run_import,
        JobKind.TRAIN_MODEL: run_training,
        JobKind.BACKTEST: run_backtest,
        JobKind.EVALUATE_LOT: run_evaluation,
    }
)
