"""A signed-in browser on a running service.  Skipped where there is no Chromium."""

import shutil
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import uvicorn

sys.path.insert(0, str(Path(__file__).parents[1] / "api"))  # the shops of the API's tests

from api_world import Shop, World, empty_tables, open_world
from backtest_document import backtest_document
from full_shop import Full, fill

PROGRAM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update", "--enable-logging=stderr", "--window-size=500,900",
    "--virtual-time-budget=4000", "--dump-dom",
)  # fmt: skip
PROBE = b"""
const root = document.documentElement;
root.style.width = "360px";  // a phone's: the program makes no window narrower than 500, which takes the same styles
root.dataset.width = root.getBoundingClientRect().width;
root.dataset.wide = [...document.querySelectorAll("body *")]
  .filter((one) => one.getBoundingClientRect().right > 361 && !one.closest(".scroll, svg, .skip"))
  .map((one) => one.tagName + "." + one.className).join(" ");
"""


@dataclass(frozen=True)
class Seen:
    """What a browser made of a page: its document after scripts, and its log."""

    document: str
    log: str


@dataclass(frozen=True)
class Screen:
    """A browser of one signed-in seller."""

    world: World
    shop: Shop
    full: Full
    address: str
    profiles: Callable[[], Path]

    def look(self, path: str) -> Seen:
        profile = f"--user-data-dir={self.profiles()}"
        assert PROGRAM is not None
        command = [PROGRAM, *FLAGS, profile, self.address + path]
        done = subprocess.run(command, check=True, capture_output=True, text=True, timeout=60)
        return Seen(done.stdout, done.stderr)


class SignedIn:
    """Gives every request the session's cookie, and every page a probe that measures it."""

    def __init__(self, app: Any, cookie: str) -> None:
        self.app = app
        self.cookie = (b"cookie", f"lotwright_session={cookie}".encode())

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        if scope["type"] == "http" and scope["path"] == "/static/probe.js":
            headers = [(b"content-type", b"text/javascript")]
            await send({"type": "http.response.start", "status": 200, "headers": headers})
            await send({"type": "http.response.body", "body": PROBE})
            return
        if scope["type"] == "http":
            scope = {**scope, "headers": [*scope["headers"], self.cookie]}
        await self.app(scope, receive, self.probed(send))

    @staticmethod
    def probed(send: Any) -> Any:
        async def sending(message: Any) -> None:
            if message["type"] == "http.response.start":
                kept = [one for one in message["headers"] if one[0] != b"content-length"]
                message = {**message, "headers": kept}
            elif b"</body>" in message.get("body", b""):
                probe = b'<script src="/static/probe.js" defer></script></body>'
                message = {**message, "body": message["body"].replace(b"</body>", probe)}
            await send(message)

        return sending


@pytest.fixture(scope="module")
def screen(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Screen]:
    """A service on a free port of this machine."""
    if PROGRAM is None:
        pytest.skip("there is no Chromium here")
    folder = tmp_path_factory.mktemp("browser")
    world = open_world(empty_tables(folder / "tables"), folder / "world")
    shop = world.shop("tern")
    full = fill(world, shop)
    with world.store.write() as work:
        work.models.save_backtest(shop.id, work.models.require(shop.id, full.number).id, backtest_document())
    cookie = world.browser(shop).cookies["lotwright_session"]
    server = uvicorn.Server(uvicorn.Config(SignedIn(world.app, cookie), port=0, log_level="warning", lifespan="off"))
    running = threading.Thread(target=server.run)
    running.start()
    while not server.started:
        running.join(0.05)
    port = server.servers[0].sockets[0].getsockname()[1]
    yield Screen(world, shop, full, f"http://127.0.0.1:{port}", lambda: tmp_path_factory.mktemp("profile"))
    server.should_exit = True
    running.join()
    world.close()
