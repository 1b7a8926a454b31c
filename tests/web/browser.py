"""The machine's own Chromium, without a head."""

from __future__ import annotations

import shutil
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def chromium_path() -> str:
    """Where the machine has it.

    Raises
    ------
    FileNotFoundError where it has none: the page is tried in a real browser or not at all
    """
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    if found is None:
        raise FileNotFoundError(
            f"no browser of {', '.join(NAMES)} is on the path; the tests of the page need one: apt-get install chromium"
        )
    return found


@contextmanager
def chromium(play: Any) -> Iterator[Any]:
    """A browser of this machine, closed in the end."""
    browser = play.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
    try:
        yield browser
    finally:
        browser.close()


SETTLED = "document.body.dataset.shown !== undefined && document.body.dataset.shown === document.body.dataset.asked"


def settle(view: Any, within: float = 10.0) -> None:
    """Wait until what is shown is of the draft as it stands. The page's policy lets nobody wait inside it."""
    end = time.monotonic() + within
    while not view.evaluate(SETTLED):
        assert time.monotonic() < end, "the page did not come to rest"
        view.wait_for_timeout(20)
