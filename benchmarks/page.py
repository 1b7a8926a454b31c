"""The page in a real browser: its first load, and each of many edits until the page is drawn anew."""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from tests.web.browser import chromium, settle

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "examples" / "year_round_cabin.toml"
EDITS = 200

# Ten fields of six parts, and what is typed in each: no number comes twice, so that nothing is known from before.
FIELDS: dict[str, dict[str, Callable[[int], str]]] = {
    "water": {
        "site.levels.low": lambda turn: f"-{2.5 + 0.01 * turn:.2f} ft",
        "site.levels.flood": lambda turn: f"{2.0 + 0.01 * turn:.2f} ft",
    },
    "inlet": {
        "stand.at": lambda turn: f"{170 - 0.5 * turn:.1f} ft",
        "stand.riser": lambda turn: f"{24 - 0.2 * turn:.1f} in",
        "stand.form": lambda turn: ("side", "upright")[turn % 2],
    },
    "suction line": {"suction.along": lambda turn: f"{3 + 0.1 * turn:.1f} %"},
    "pump": {
        "pump.height": lambda turn: f"{7.5 + 0.02 * turn:.2f} ft",
        "pump.stock": lambda turn: ("centrifugal, 1-1/2 hp", "centrifugal, 1 hp")[turn % 2],
    },
    "tank": {"delivery.cut_in": lambda turn: f"{30 + 0.1 * turn:.1f} psi"},
    "tap": {"need.flow": lambda turn: f"{8 - 0.05 * turn:.2f} gpm"},
}

# From the event that a hand makes to the first frame after the page was drawn anew, all as the browser's clock has it.
TIMED = """([key, value]) => new Promise(done => {
  const field = document.querySelector(`#fields [data-key="${key}"]`), start = performance.now();
  const before = document.body.dataset.shown;
  new MutationObserver((_, watch) => {
    if (document.body.dataset.shown === before || document.body.dataset.shown !== document.body.dataset.asked) return;
    watch.disconnect();
    document.querySelector("#drawing svg").getBoundingClientRect();
    requestAnimationFrame(() => setTimeout(() => done(performance.now() - start), 0));
  }).observe(document.body, { attributes: true, attributeFilter: ["data-shown"] });
  field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
})"""


@contextmanager
def served(file: Path) -> Iterator[str]:
    """The address of the page of a job file, served by a process of its own."""
    command = [sys.executable, "-u", "-m", "lakewright", "serve", str(file), "--port", "0", "--book"]
    with (
        tempfile.TemporaryDirectory() as folder,
        subprocess.Popen([*command, f"{folder}/book.sqlite"], stdout=subprocess.PIPE, text=True) as process,
    ):
        try:
            assert process.stdout is not None
            yield process.stdout.readline().split(" is at ")[1].split(";")[0]
        finally:
            process.terminate()


def page_row() -> dict[str, Any]:
    """The page of the year-round cabin: first load, and 200 edits of ten fields, debounce and drawing included."""
    from playwright.sync_api import sync_playwright

    with served(EXAMPLE) as address, sync_playwright() as play, chromium(play) as browser:
        view = browser.new_page(viewport={"width": 1440, "height": 900})
        start = time.perf_counter()
        view.goto(address)
        view.wait_for_selector("body[data-shown='1']")
        load = time.perf_counter() - start
        times = sorted(_edits(view))
    return {
        "first load s": load,
        "edits": len(times),
        "edit median ms": statistics.median(times),
        "edit 95th percentile ms": times[int(0.95 * len(times)) - 1],
        "edit slowest ms": times[-1],
    }


def _edits(view: Any) -> Iterator[float]:
    """Milliseconds of each edit, the fields by turns within their part."""
    many = EDITS // sum(len(fields) for fields in FIELDS.values())
    for part, fields in FIELDS.items():
        view.click(f'#part [data-part="{part}"]')
        settle(view)
        for turn in range(many):
            for key, typed in fields.items():
                yield view.evaluate(TIMED, [key, typed(turn)])
