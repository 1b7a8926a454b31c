"""Small searches over real stock: the example with its parts open, and fewer options of each."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from benchmarks.run import opened
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.search.parts import Part, Problem, problem_of
from lakewright.state.assemble import facts_of
from lakewright.stock.load import load_stock

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"


def whole(changes: dict[str, str] | None = None) -> Problem:
    """All the opened example may choose, both kinds of pump."""
    text = opened(EXAMPLE.read_text(encoding="utf-8"))
    job = read_job_text(set_values(text, {"pump.kind": "open", **(changes or {})}))
    stock = load_stock()
    return problem_of(job, stock, facts_of(job, stock))


def every(part: Part, step: int, first: int = 0) -> Part:
    """Every so manieth option of a part."""
    columns = {name: column[first::step] for name, column in part.columns.items()}
    return Part(
        part.name, part.labels[first::step], columns, part.price[first::step], part.price_per_length[first::step]
    )


def small(seed: int, changes: dict[str, str] | None = None) -> Problem:
    """A few options of each part, another few for each seed."""
    draw = np.random.default_rng(seed)
    problem = whole(changes)

    def few(part: Part, most: int) -> Part:
        step = int(draw.integers(max(1, part.size // most), part.size + 1))
        return every(part, step, int(draw.integers(0, step)) % part.size)

    pumps = tuple(problem.pumps[n] for n in sorted(draw.choice(len(problem.pumps), 4, replace=False)))
    return replace(
        problem,
        spot=few(problem.spot, 4),
        line=few(problem.line, 5),
        place=few(problem.place, 4),
        tank=few(problem.tank, 3),
        pumps=pumps,
    )


def good() -> Problem:
    """Some hundred designs among which many pass and several hold."""
    problem = whole()
    return replace(
        problem,
        spot=every(problem.spot, 13, 5),
        line=every(problem.line, 5, 3),
        place=every(problem.place, 9, 4),
        tank=every(problem.tank, 3),
        pumps=problem.pumps[6:9],
    )
