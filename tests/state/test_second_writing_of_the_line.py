"""Pipe and place make the suction line: wall, rise, pockets and trench, against `benchmarks/plain.py`."""

from __future__ import annotations

import random
import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from benchmarks import plain
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.state.assemble import facts_of
from lakewright.state.facts import Facts
from lakewright.state.wall import WALL
from lakewright.stock.load import Stock, load_stock

pytestmark = pytest.mark.law

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
PIPES = sorted(load_stock().pipes)
WAYS = 100
"""ours: jobs with soundings, ground, route and trench made up."""

NEARNESS = 1e-9
"""How near the two writings must be, relative."""

Points = list[tuple[float, float]]


@cache
def stock() -> Stock:
    return load_stock()


def facts(text: str) -> Facts:
    return facts_of(read_job_text(text), stock(), "job.toml").facts


def example(changes: dict[str, str]) -> str:
    return set_values(EXAMPLE.read_text(encoding="utf-8"), changes)


def wall_twice(name: str, sunlit: bool | None, given: dict[str, float]) -> tuple[dict[str, float], plain.Job]:
    """The facts of the wall as the program has them, and as the second writing has."""
    lit = {} if sunlit is None else {"suction.sunlit": str(sunlit).lower()}
    ratings = {f"suction.{field}": f"{value / 1e3} kPa" for field, value in given.items()}
    suction = facts(example({"suction.stock": name, **lit, **ratings})).suction
    pipe = stock().pipes[name]
    row = {
        "compound": pipe.compound,
        "outside": pipe.outside,
        "wall": pipe.wall,
        "rating": pipe.rating,
        "vacuum_rating": pipe.vacuum_rating,
        "coiled": len(pipe.coils) > 0,
        "threaded": pipe.ports[0].kind.startswith("thread"),
    }
    return {each: float(getattr(suction, each)[0]) for each in WALL}, plain.wall_facts(row, sunlit, given)


@pytest.mark.parametrize("name", PIPES)
def test_the_wall_of_every_pipe_in_stock_is_the_same_twice(name: str) -> None:
    for sunlit in (True, False, None):
        ours, theirs = wall_twice(name, sunlit, {})
        assert ours == pytest.approx(theirs, rel=NEARNESS, abs=0.0), sunlit


@pytest.mark.parametrize("given", [{"vacuum_rating": 7e4}, {"pressure_rating": 3e5}])
@pytest.mark.parametrize("compound", sorted({pipe.compound for pipe in load_stock().pipes.values()}))
def test_a_rating_of_the_job_stands_over_the_wall_twice(compound: str, given: dict[str, float]) -> None:
    name = next(name for name in PIPES if stock().pipes[name].compound == compound)
    ours, theirs = wall_twice(name, True, given)
    assert ours == pytest.approx(theirs, rel=NEARNESS, abs=0.0)


def rising(rng: random.Random, count: int, most: float) -> list[float]:
    return sorted({round(rng.uniform(0.1, most), 2) for _ in range(count)})


def rows(table: str, second: str, points: Points) -> str:
    return "".join(f'[[{table}]]\ndistance = "{x} m"\n{second} = "{y} m"\n' for x, y in points)


def way_twice(seed: int) -> tuple[dict[str, float], dict[str, float]]:
    """Slope, pocket and trench of a made-up bank and bed, as the program has them and as the second writing has."""
    rng = random.Random(f"way {seed}")
    soundings = [(0.0, 0.0), *((out, round(rng.uniform(0.2, 9.0), 2)) for out in [*rising(rng, 5, 60.0), 70.0])]
    ground = [(0.0, 0.0), *((up, round(rng.uniform(-0.3, 4.0), 2)) for up in rising(rng, 3, 30.0))]
    routed = rng.random() < 0.4
    route = [(x, round(rng.uniform(-6.0, 3.0), 2)) for x in [0.0, *rising(rng, 6, 80.0)]] if routed else []
    stand, trench = round(rng.uniform(20.0, 75.0), 2), round(rng.uniform(1.0, 60.0), 2)
    distance, height = round(rng.uniform(1.0, 40.0), 2), round(rng.uniform(0.5, 5.0), 2)
    text = example(
        {
            "stand.at": f"{stand} m",
            "pump.distance": f"{distance} m",
            "pump.height": f"{height} m",
            "suction.buried_from": f"{trench} m",
        }
    )
    text = re.sub(r"\[\[site\.(soundings|ground)\]\]\n(\w.*\n)+", "", text)
    text += rows("site.soundings", "depth", soundings) + rows("site.ground", "height", ground)
    text += rows("suction.route", "height", route)
    made = facts(text)
    lowest = float(np.min(made.days.level))
    laid = route or plain.ground_line(soundings, ground, distance, height)
    in_water = [point for point in route if point[1] <= 0.0] or plain.bed_line(soundings, stand)
    ours = {name: float(getattr(made.suction, name)[0]) for name in ("slope", "pocket_length", "buried_to")}
    return ours, {
        "slope": plain.least_slope(laid, lowest),
        "pocket_length": plain.pocket_length(in_water),
        "buried_to": -plain.depth_at(soundings, trench),
    }


def test_the_way_of_a_made_up_line_is_the_same_twice() -> None:
    pockets = falls = unknown = 0
    for seed in range(WAYS):
        ours, theirs = way_twice(seed)
        assert ours == pytest.approx(theirs, rel=NEARNESS, abs=1e-12, nan_ok=True), seed
        pockets += theirs["pocket_length"] > 0.0
        unknown += np.isnan(theirs["pocket_length"])
        falls += theirs["slope"] < 0.0
    # ours: each kind now and then, or the comparison proves little.
    assert min(pockets, WAYS - pockets - unknown, falls, WAYS - falls) >= WAYS // 20
    assert unknown > 0


def test_a_pocket_by_the_second_writing_is_where_a_walker_finds_it() -> None:
    # A walker with a stick: a step counts where any later step stands lower. Steps of a centimetre.
    line = [(0.0, -5.0), (10.0, -3.0), (20.0, -4.0), (40.0, 0.0), (44.0, -1.0), (50.0, 0.5)]
    where = np.arange(0.005, 50.0, 0.01)
    up = np.interp(where, *zip(*line, strict=True))
    lower_later = np.minimum.accumulate(up[::-1])[::-1] < up
    # ours: each end of a pocket is met to a step.
    assert plain.pocket_length(line) == pytest.approx(0.01 * lower_later.sum(), abs=0.01 * 2 * len(line))
