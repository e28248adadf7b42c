"""How far is it?  A bar on stderr where a person looks on; nothing in a pipe or a log."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskProgressColumn, TextColumn, TimeElapsedColumn

Report = Callable[[float, str], None]


@contextmanager
def shown_progress(what: str) -> Iterator[Report]:
    """A function to report to: share done (0 to 1) and the step's name."""
    console = Console(stderr=True)
    columns = (TextColumn("{task.description}"), BarColumn(), TaskProgressColumn(), TimeElapsedColumn())
    with Progress(*columns, console=console, transient=True, disable=not console.is_terminal) as progress:
        task = progress.add_task(what, total=1.0)

        def report(share: float, step: str) -> None:
            progress.update(task, completed=share, description=f"{what}: {step}" if step else what)

        yield report
