"""The chart of places and the plan: texts never meet, what is to scale is, and what nobody has said is said."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path as File

import numpy as np
import pytest

from lakewright.api.check import check
from lakewright.documents.place_chart import Place, Places, place_chart
from lakewright.documents.plan import Plan, plan
from lakewright.documents.scene import Circle, Path, Scene
from lakewright.report import Report

EXAMPLES = File(__file__).resolve().parents[2] / "examples"
NEVER_SAID = re.compile(r"\b(safe|safely|safety|approved|compliant|guaranteed)\b", re.IGNORECASE)
SEEDS = [*range(20), *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(20, 300))]
CHECKS = (
    *("water covers the inlet", "inlet stands clear of the bed", "inlet stays below the ice"),
    *("stand is outside breakers", "water covers the inlet in a trough", "boats pass over the inlet"),
    *("waves leave silt lying", "stand does not slide", "stand does not tip"),
)
STATUSES = ("fails", "tight", "holds", "unknown", "not asked")


@cache
def report(system: str) -> Report:
    return replace(check(EXAMPLES / "year_round_cabin.toml"), units=system)


def bed(random: np.random.Generator) -> tuple[tuple[float, float], ...]:
    far = float(np.exp(random.uniform(np.log(3.0), np.log(400.0))))
    xs = np.concatenate([[0.0], np.sort(random.uniform(0.02, 0.98, random.integers(1, 9))), [1.0]]) * far
    return tuple(zip(xs.tolist(), np.cumsum(random.uniform(0.0, 4.0, len(xs))).tolist(), strict=True))


def made_places(seed: int) -> Places:
    random = np.random.default_rng(seed)
    soundings = bed(random)
    names = CHECKS[: int(random.integers(1, len(CHECKS) + 1))]
    ats = np.linspace(0.1, 1.0, 40) * soundings[-1][0]
    price = np.cumsum(random.choice([0.0, 0.0, 0.0, 5200.0], 40)) + 4600.0
    places = tuple(
        Place(
            float(at),
            float(np.interp(at, *zip(*soundings, strict=True))),
            float(cents) if seed % 7 else math.nan,
            tuple(random.choice(STATUSES, len(names)).tolist()),
        )
        for at, cents in zip(ats, price, strict=True)
    )
    low = -float(random.uniform(0.0, 3.0))
    return Places(
        bed=soundings,
        places=places,
        best=int(random.integers(40)),
        inlet=float(random.uniform(0.4, 1.2)),
        asked=float(ats[3]) if seed % 2 else math.nan,
        asked_depth=places[3].depth,
        levels=(("usual water", 0.0), ("late September, after a dry summer", low), ("under the ice", low - 0.7)),
        depths=(("daylight has faded", 9.0), ("warm layer of summer ends", 8.6)),
        checks=names,
        name="101 ft from the edge in 14.1 ft of water",
        reasons=tuple("stand does not slide: tight, 1.34 times what would slide it" for _ in range(seed % 7 + 1)),
    )  # fmt: skip


def made_plan(seed: int) -> Plan:
    random = np.random.default_rng(1000 + seed)
    soundings = bed(random) if seed % 5 else ()
    far = soundings[-1][0] if soundings else 40.0
    return Plan(
        units="SI" if seed % 2 else "US",
        bearing=float(random.uniform(0.0, 360.0)) if seed % 3 else math.nan,
        soundings=soundings,
        stand=far * float(random.uniform(0.1, 1.0)) if seed % 11 else math.nan,
        depth=4.0,
        pump=float(random.uniform(0.5, 60.0)) if seed % 13 else math.nan,
        delivery=float(np.exp(random.uniform(1.0, 6.0))),
        coordinates="46.20118 N, 91.30452 W" if seed % 2 else "",
        sights=tuple((f"mark {n} on the far shore", float(random.uniform(0.0, 360.0))) for n in range(seed % 4)),
        wind=float(random.uniform(0.0, 360.0)) if seed % 2 else math.nan,
        fetch=1900.0,
        note="Septic field behind the house." if seed % 3 else "",
    )


def drawn(seed: int, kind: str) -> Scene:
    system = "SI" if seed % 2 else "US"
    return place_chart(made_places(seed), report(system)) if kind == "chart" else plan(made_plan(seed), report(system))


@pytest.mark.parametrize("kind", ["chart", "plan"])
@pytest.mark.parametrize("seed", SEEDS)
def test_texts_never_meet_and_never_leave_the_paper(seed: int, kind: str) -> None:
    scene = drawn(seed, kind)
    inner = scene.frame.grown(-5.0)
    boxes = [(text.box, text.words) for text in scene.texts()]
    assert [words for box, words in boxes if not inner.holds(box)] == []
    assert [(a[1], b[1]) for a, b in combinations(boxes, 2) if a[0].meets(b[0], slack=0.05)] == []
    assert min(text.size for text in scene.texts()) >= 7.0
    assert not NEVER_SAID.search(" ".join(words for _, words in boxes))


@pytest.mark.law
@pytest.mark.parametrize("seed", range(40))
def test_a_plan_is_to_its_scale_and_turned_as_it_says(seed: int) -> None:
    site = made_plan(seed)
    scene = plan(site, report(site.units))
    dots = [shape for shape in scene.shapes if isinstance(shape, Circle) and shape.role == "sounding"]
    if not dots:
        return
    strip = [text.words for text in scene.texts() if text.role == "strip"]
    words = strip[strip.index("scale") + 1]
    if site.units == "SI":
        mm = 1000.0 / float(words.partition(":")[2])
    else:
        long, unit = words.partition("=")[2].split()
        mm = 25.4 / (float(long) * (0.3048 if unit == "ft" else 0.0254))
    run = (dots[-1].x - dots[0].x, dots[-1].y - dots[0].y)
    assert math.hypot(*run) == pytest.approx(mm * site.soundings[-1][0], rel=1e-6)
    turned = math.degrees(math.atan2(run[0], -run[1])) % 360.0
    wanted = site.bearing if site.north_up else 180.0
    assert abs((turned - wanted + 180.0) % 360.0 - 180.0) < 1e-6
    assert ("north up" in " ".join(text.words for text in scene.texts())) == site.north_up


@pytest.mark.law
@pytest.mark.parametrize("seed", range(20))
def test_a_strip_says_what_holds_where(seed: int) -> None:
    """Widths of all marks of a status are its share of the places, and their heights say which it is in grey too."""
    places = made_places(seed)
    scene = place_chart(places, report("US"))
    tall: dict[str, set[float]] = {}
    for shape in scene.shapes:
        if isinstance(shape, Path) and shape.role in ("fails", "tight", "holds", "unknown"):
            ys = [y for run in shape.runs for _, y in run]
            tall.setdefault(shape.role, set()).add(round(max(ys) - min(ys), 6))
    assert {role for place in places.places for role in place.statuses} - {"not asked"} <= set(tall)
    heights = [max(tall[role]) for role in ("fails", "tight", "unknown", "holds") if role in tall]
    assert heights == sorted(heights, reverse=True)
    assert len(set(heights)) == len(heights)
