"""The page in a real browser: its first load, and each of many edits until the page is drawn anew."""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from tests.web.browser import chromium, settle

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "examples" / "year_round_cabin.toml"
EDITS = 200

# Ten fields of seven parts, each with two values to go between.
FIELDS = {
    "water": {"site.levels.low": ("-2.5 ft", "-2.75 ft"), "site.levels.flood": ("2 ft", "2.25 ft")},
    "inlet": {"stand.at": ("170 ft", "165 ft"), "stand.riser": ("24 in", "20 in"), "stand.form": ("upright", "side")},
    "suction line": {"suction.along": ("3 %", "5 %")},
    "pump": {"pump.height": ("7.5 ft", "8 ft"), "pump.stock": ("centrifugal, 1 hp", "centrifugal, 1-1/2 hp")},
    "tank": {"delivery.cut_in": ("30 psi", "32 psi")},
    "tap": {"need.flow": ("8 gpm", "7 gpm")},
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
            for key, values in fields.items():
                yield view.evaluate(TIMED, [key, values[(turn + 1) % 2]])
