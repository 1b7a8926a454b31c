"""A job of one's own on a page of its own, in a real browser that is watched: no error, and nothing from outside."""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx
import pytest

from tests.web.browser import chromium, settle

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@dataclass
class Server:
    """`lakewright serve` in a process of its own; killed and started again where a test asks for it."""

    file: Path
    port: int = 0
    process: subprocess.Popen[str] | None = None

    def start(self) -> None:
        """Start it, at the same port as before."""
        command = [sys.executable, "-u", "-m", "lakewright", "serve", str(self.file), "--port", str(self.port)]
        command += ["--book", str(self.file.with_suffix(".sqlite"))]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        said = self.process.stdout.readline()
        assert " is at http://127.0.0.1:" in said, said or self.process.communicate()[1]
        self.port = int(said.split("127.0.0.1:")[1].split("/")[0])

    def stop(self, how: signal.Signals = signal.SIGKILL) -> tuple[int, str]:
        """Stop it; its exit code, and what it said of that."""
        assert self.process is not None
        self.process.send_signal(how)
        _, said = self.process.communicate(timeout=20)
        return self.process.returncode, said

    @property
    def address(self) -> str:
        """Where its page is."""
        return f"http://127.0.0.1:{self.port}/"


@dataclass
class Watched:
    """A page in the browser, and what went wrong on it."""

    view: Any
    wrong: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)

    def text(self, piece: str) -> str:
        """What is read in a piece of the page, in one line."""
        return " ".join(self.view.inner_text(f"#{piece}").split())

    def draft(self) -> str:
        """The job file as it stands on the page."""
        value: str = self.view.input_value("#draft")
        return value

    def set(self, key: str, value: str) -> None:
        """Type into a field of the part in hand."""
        self.view.fill(f'#fields [data-key="{key}"]', value)

    def settle(self) -> None:
        """Wait until what is shown is of the draft as it stands."""
        settle(self.view)


def unfold(page: Watched, name: str) -> None:
    """Unfold a leaf, and wait until it is made."""
    if not page.view.locator(f"#leaf-{name}[open]").count():
        page.view.click(f"#leaf-{name} > summary")
    page.view.wait_for_selector(f"#leaf-{name}:not([aria-busy]) .body > *", timeout=60_000)


def copied(folder: Path, name: str = "year_round_cabin.toml") -> Path:
    """An example with its waters in a folder of its own."""
    shutil.copytree(EXAMPLES / "waters", folder / "waters", dirs_exist_ok=True)
    return Path(shutil.copy(EXAMPLES / name, folder / name))


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play, chromium(play) as opened:
        yield opened


@pytest.fixture(scope="session")
def cabin(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The year-round cabin, served to all tests that leave the server alone."""
    server = Server(copied(tmp_path_factory.mktemp("cabin")))
    server.start()
    yield server
    server.stop()


@pytest.fixture
def own_server(tmp_path: Path) -> Iterator[Server]:
    """A server that a test may kill, and whose file it may write before starting it."""
    server = Server(copied(tmp_path))
    yield server
    if server.process is not None and server.process.poll() is None:
        server.stop()


@pytest.fixture
def opened(browser: Any) -> Iterator[Callable[..., Watched]]:
    """Opens a page in a window of its own; in the end nothing may have gone wrong on it."""
    watched: list[Watched] = []

    def open_page(server: Server, wide: int = 1440, high: int = 900, anew: bool = True, **look: Any) -> Watched:
        if anew:
            # The tests share a server, whose draft outlives each of them.
            httpx.post(f"{server.address}draft", json={"step": "restart"}).raise_for_status()
        context = browser.new_context(viewport={"width": wide, "height": high}, **look)
        context.set_default_timeout(10_000)
        page = Watched(context.new_page())
        page.view.on(
            "console", lambda said: page.wrong.append(said.text) if said.type in ("error", "warning") else None
        )
        page.view.on("pageerror", lambda error: page.wrong.append(str(error)))
        page.view.on("dialog", lambda dialog: (page.wrong.append(f"a dialog: {dialog.message}"), dialog.dismiss()))
        page.view.on(
            "request",
            lambda asked: None if asked.url.startswith((server.address, "data:")) else page.outside.append(asked.url),
        )
        page.view.goto(server.address)
        page.settle()
        watched.append(page)
        return page

    yield open_page
    for page in watched:
        page.view.context.close()
        assert page.wrong == []
        assert page.outside == []
