"""Small jobs drawn at random, each with some parts open, and the stock they choose from. Everything is invented."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import numpy as np

from lakewright import units
from lakewright.errors import JobError
from lakewright.job.models import Job
from lakewright.job.read import read_job
from lakewright.search.option import open_quantity, quantity, said
from lakewright.search.options import problem_of
from lakewright.search.parts import Problem
from lakewright.state.assemble import facts_of
from lakewright.state.gather import OPEN
from lakewright.stock.load import Stock, load_stock
from lakewright.stock.table import Table

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
ENDS = ("plain", "ties", "nothing passes", "one passes", "unknown")
"""What is made sure of in every fifth job."""

MOST = 18
"""Candidates of a job, at the most."""

OPENED: Mapping[str, Mapping[str, Any]] = {
    "spot": {"stand.at": open_quantity()},
    "form": {"stand.form": OPEN, "stand.inlet.attitude": None},
    "riser": {"stand.riser": open_quantity()},
    "foot valve": {"stand.inlet.stock": OPEN},
    "screen": {"stand.inlet.screen": OPEN},
    "line": {"suction.stock": OPEN},
    "pump place": {"pump.distance": open_quantity(), "pump.height": open_quantity()},
    "pump": {"pump.stock": OPEN, "pump.kind": OPEN},
    "flow control": {"delivery.flow_control": open_quantity()},
    "delivery": {"delivery.stock": OPEN},
    "tank": {"delivery.tank": OPEN},
}
Row = TypeVar("Row")


@cache
def some_stock(number: int) -> Stock:
    """A few rows of each table that a search chooses from; the last tank and pump twice, under another name."""
    rng, stock = random.Random(f"stock {number}"), load_stock()
    lines = [n for n, p in stock.pipes.items() if ("polyethylene" in p.family or "hose" in p.family) and p.bore > 0.03]
    named = {
        "polyethylene, SIDR 9, 1 in",
        "polyethylene, SIDR 9, 1-1/4 in",
        "polyethylene, SIDR 11.5, 1-1/2 in",
        "suction hose, 2 in",
    }
    kept = {n for n, p in stock.pipes.items() if "polyethylene" not in p.family and p.family != "HDPE"}
    valves = {"foot valve, spring, 1-1/2 in", "foot valve, spring, 2 in"}
    screens = {"cylinder screen, 4 x 12 in", "cylinder screen, 6 x 18 in"}
    return replace(
        stock,
        pipes=only(stock.pipes, kept | named | set(rng.sample(lines, 2))),
        foot_valves=only(stock.foot_valves, valves | set(rng.sample(list(stock.foot_valves), 2))),
        screens=only(stock.screens, screens | set(rng.sample(list(stock.screens), 1))),
        pumps=twice(only(stock.pumps, {"centrifugal, high-head, 3/4 hp", *rng.sample(list(stock.pumps), 3)})),
        jets=only(stock.jets, set(rng.sample(list(stock.jets), 2))),
        tanks=twice(only(stock.tanks, {"diaphragm tank, 100 gal", *rng.sample(list(stock.tanks), 2)})),
    )


def only(table: Table[Row], names: set[str]) -> Table[Row]:
    """Some rows of a table."""
    return {name: row for name, row in table.items() if name in names}  # type: ignore[return-value]


def twice(table: Table[Row]) -> Table[Row]:
    """A table with its last row once more, under another name."""
    name, row = list(table.items())[-1]
    twin = replace(row, name=f"{name}, the same")  # type: ignore[type-var]
    return {**table, twin.name: twin}  # type: ignore[return-value,attr-defined]


@cache
def base(name: str) -> Job:
    return read_job(EXAMPLES / name)


@cache
def drawn(seed: int, attempt: int = 0) -> tuple[Job, Stock, Problem]:
    """A job with one to three parts open, what it chooses from, and its few candidates."""
    rng = random.Random(f"search {seed} {attempt}")
    stock = some_stock(seed % 4)
    job = said(base(rng.choice(["year_round_cabin.toml", "stream_irrigation.toml"])), dict(_values(rng, seed)))
    for part in rng.sample(sorted(OPENED), rng.randint(1, 3)):
        job = said(job, OPENED[part])
    if ENDS[seed % 5] == "ties":
        job = said(job, OPENED["tank"])
    try:
        problem = problem_of(job, stock, facts_of(job, stock))
    except JobError:
        return drawn(seed, attempt + 1)
    few = few_of(problem, rng, ties=ENDS[seed % 5] == "ties")
    return (job, stock, few) if few.choices else drawn(seed, attempt + 1)


def _values(rng: random.Random, seed: int) -> Iterator[tuple[str, Any]]:
    yield "site.elevation", None if ENDS[seed % 5] == "unknown" else quantity(rng.uniform(0.0, 1500.0))
    yield "need.flow", quantity(rng.uniform(2e-4, 9e-4))
    form = rng.choice(["upright", "side", "low"])
    yield "stand.form", form
    yield "stand.inlet.attitude", {"upright": "up"}.get(form, "side")
    yield "stand.riser", quantity(rng.uniform(0.2, 0.8))
    if rng.random() < 0.4:
        yield "stand.frame", rng.choice(["1-1/2", "2"])
    high = 60.0 if ENDS[seed % 5] == "nothing passes" else 4.0
    yield "delivery.height", quantity(rng.uniform(2.5, 4.0) + high - 4.0)
    yield "delivery.length", quantity(rng.uniform(70.0, 110.0))
    cut_in = rng.choice([20, 30])
    yield "delivery.cut_in", quantity(units.read(f"{cut_in} psi", "pressure"))
    yield "delivery.cut_out", quantity(units.read(f"{cut_in + 20} psi", "pressure"))


def few_of(problem: Problem, rng: random.Random, ties: bool) -> Problem:
    """So few options of each part that there are few candidates; where ties are wanted, the last two tanks stay."""
    sizes = {part.name: part.size for part in problem.parts}
    while np.prod(list(sizes.values())) > MOST:
        largest = max(sizes, key=lambda name: (sizes[name], name))
        sizes[largest] -= 1
    which: dict[str, Any] = {}
    for part in problem.parts:
        chosen = rng.sample(range(part.size), sizes[part.name])
        if ties and part.name == "tank":
            chosen = [part.size - 2, part.size - 1, *chosen][: max(2, sizes[part.name])]
        which[part.name.replace(" ", "_")] = np.array(sorted(set(chosen)))
    return problem.take(**which)
