"""Small searches over real stock: the example with its parts open, and fewer options of each."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np

from benchmarks.run import opened
from lakewright.job.models import Job
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.search.options import problem_of
from lakewright.search.parts import Index, Problem
from lakewright.state.assemble import facts_of
from lakewright.state.control_facts import BY_FLOW, BY_SPEED, STORE
from lakewright.stock.load import load_stock

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"

EVERYTHING = {
    "stand.riser": "open",
    "stand.inlet.stock": "open",
    "stand.inlet.screen": "open",
    "delivery.stock": "open",
    "delivery.flow_control": "open",
}
"""What the opened example still names."""

MOST = {
    "spot": 3,
    "riser": 2,
    "foot valve": 2,
    "screen": 2,
    "line": 3,
    "pump place": 3,
    "pump": 4,
    "flow control": 2,
    "delivery": 2,
    "tank": 3,
}
"""Options of each part in a small problem, at the most."""


def job_with(changes: dict[str, str] | None = None) -> Job:
    """The opened example, both kinds of pump, with some fields changed."""
    text = opened(EXAMPLE.read_text(encoding="utf-8"))
    return read_job_text(set_values(text, {"pump.kind": "open", **(changes or {})}))


def whole(changes: dict[str, str] | None = None) -> Problem:
    """All that job may choose."""
    return _whole(tuple((changes or {}).items()))


@cache
def _whole(changes: tuple[tuple[str, str], ...]) -> Problem:
    job, stock = job_with(dict(changes)), load_stock()
    return problem_of(job, stock, facts_of(job, stock))


def some_of(problem: Problem, which: dict[str, Index | slice]) -> Problem:
    """The same with some options of the parts named."""
    return problem.take(**{name.replace(" ", "_"): kept for name, kept in which.items()})


def small(seed: int, changes: dict[str, str] | None = None) -> Problem:
    """A few options of each part, another few for each seed; every third seed leaves everything open."""
    draw = np.random.default_rng(seed)
    problem = whole({**(EVERYTHING if seed % 3 == 0 else {}), **(changes or {})})

    def few(size: int, most: int) -> Index:
        return np.sort(draw.choice(size, min(size, int(draw.integers(1, most + 1))), replace=False))

    return some_of(problem, {part.name: few(part.size, MOST[part.name]) for part in problem.parts if part.name in MOST})


NO_SWITCH = {"delivery.cut_in": "", "delivery.cut_out": "", "delivery.tank": "open"}
CONTROLLED: dict[str, dict[str, str]] = {
    BY_FLOW: {**NO_SWITCH, "delivery.controller.start": "22 psi"},
    BY_SPEED: {**NO_SWITCH, "delivery.controller.holds": "30 psi"},
    STORE: {
        **NO_SWITCH,
        "delivery.tank": "",
        "delivery.store.volume": "400 gal",
        "delivery.store.low": "30 ft",
        "delivery.store.booster.stock": "centrifugal, 1/2 hp",
        "delivery.store.booster.height": "28 ft",
        "need.per_day": "400 gal",
        "protection.dry_run": "",
        "protection.cut_off": "",
    },
}
"""What the opened example says, with something else in place of its pressure switch."""


def controlled(kind: str, seed: int) -> Problem:
    """A small problem with something else in place of its pressure switch."""
    return small(seed, {"delivery.control": kind, **CONTROLLED[kind]})


def good() -> Problem:
    """Some hundred designs among which many pass and several hold."""
    which = {
        "spot": slice(5, None, 13),
        "line": slice(3, None, 5),
        "pump place": slice(4, None, 9),
        "pump": slice(6, 9),
        "tank": slice(None, None, 3),
    }
    return some_of(whole(), which)
