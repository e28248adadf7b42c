"""Every route of the application, whatever kind: what the walking tests walk."""

from collections.abc import Iterator
from dataclasses import dataclass

from fastapi import FastAPI
from fastapi.routing import iter_route_contexts


@dataclass(frozen=True)
class Walked:
    """One method of one path template."""

    method: str
    path: str

    def __str__(self) -> str:
        return f"{self.method} {self.path}"

    @property
    def is_api(self) -> bool:
        return self.path.startswith("/api/v1/")


def walked(app: FastAPI) -> Iterator[Walked]:
    """Methods and paths; a kind of route nobody thought of is an error here, not a gap."""
    for route in iter_route_contexts(app.routes):
        if route.path == "/static":
            continue
        assert route.path, route
        assert route.methods, route
        for method in sorted(route.methods - {"HEAD"}):
            yield Walked(method, route.path)
