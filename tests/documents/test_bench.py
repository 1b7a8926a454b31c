"""The bench drawing: to scale, every part of it numbered, every dimension that of the stand, and no two texts meet."""

from __future__ import annotations

import math
import re
from collections import Counter
from fractions import Fraction
from itertools import combinations

import pytest

from lakewright.documents.bench import Bench, bench
from lakewright.documents.dimension import FIGURE
from lakewright.documents.scene import Box, Circle, Leader, segment_meets
from lakewright.documents.stand_view import END_ON, FRONT, PLAN
from lakewright.errors import AskError
from lakewright.state.placed import Stand
from lakewright.stock.measure import FOOT, INCH
from tests.documents.benches import FEW, MANY, made, report, system_of
from tests.promises import NEVER_SAID
from tests.state.random_stands import STOCK, stand

STANDS = [*FEW, *(pytest.param(seed, marks=pytest.mark.slow) for seed in MANY)]


def words_of(drawn: Bench) -> str:
    return " ".join(text.words for text in drawn.scene.texts()).replace("\u00a0", " ")


def measured(drawn: Bench, view: str, name: str) -> list[float]:
    return [each.measure.value for each in drawn.dimensions if (each.view, each.measure.name) == (view, name)]


@pytest.mark.parametrize("seed", STANDS)
def test_texts_never_meet_and_never_leave_the_paper(seed: int) -> None:
    _, drawn = made(seed)
    inner = drawn.scene.frame.grown(-5.0)
    boxes = [(text.box, text.words) for text in drawn.scene.texts()]
    assert [words for box, words in boxes if not inner.holds(box)] == []
    assert [(a[1], b[1]) for a, b in combinations(boxes, 2) if a[0].meets(b[0], slack=0.05)] == []
    assert min(text.size for text in drawn.scene.texts()) >= 7.0


@pytest.mark.parametrize("seed", STANDS)
def test_no_ring_and_no_leader_meets_a_text_of_another(seed: int) -> None:
    _, drawn = made(seed)
    numbers = [text for text in drawn.scene.texts() if text.role == "item number"]
    others = [text.box for text in drawn.scene.texts() if text.role != "item number"]
    rings = [shape for shape in drawn.scene.shapes if isinstance(shape, Circle) and shape.role == "item ring"]
    for ring in rings:
        around = Box(ring.x - ring.radius, ring.y - ring.radius, ring.x + ring.radius, ring.y + ring.radius)
        assert not any(around.meets(box, slack=0.05) for box in others)
        assert sum(around.meets(text.box) for text in numbers) == 1
    leaders = [shape for shape in drawn.scene.shapes if isinstance(shape, Leader)]
    assert len(leaders) == len(rings) == len(numbers)
    for leader in leaders:
        assert not any(segment_meets(leader.start, leader.end, text.box) for text in drawn.scene.texts())


@pytest.mark.parametrize("seed", STANDS)
def test_every_part_is_an_item_and_every_item_drawn_has_its_number_once(seed: int) -> None:
    built, drawn = made(seed)
    assert sorted(part for item in drawn.items for part in item.parts) == list(range(len(built.placed)))
    for item in drawn.items:
        assert {built.placed[part].part.name for part in item.parts} <= {item.name}
        assert item.count == (len(item.parts) or dict(built.beside)[item.name])
        lengths = {round(built.placed[part].length, 8) for part in item.parts if not math.isnan(item.length)}
        assert lengths <= {round(item.length, 8)}
    counts = Counter(text.words for text in drawn.scene.texts() if text.role == "item number")
    assert counts == Counter(str(item.number) for item in drawn.items if item.parts)


@pytest.mark.parametrize("seed", STANDS)
def test_dimensions_are_those_of_the_stand(seed: int) -> None:
    built, drawn = made(seed)
    tops = [end[2] for placed in built.placed for segment in placed.segments for end in segment]
    if not built.tips:
        assert measured(drawn, FRONT, "overall")[0] >= max(tops) - min(tops) - 1e-9
        return
    assert measured(drawn, FRONT, "frame") == pytest.approx([built.axis_height])
    assert built.inlet_height in [pytest.approx(value) for value in
                                  measured(drawn, FRONT, "entrance") + measured(drawn, FRONT, "frame")]  # fmt: skip
    assert max(measured(drawn, FRONT, "overall") or measured(drawn, FRONT, "entrance")) >= max(tops) - 1e-9
    reaches = [math.hypot(x, y) for x, y, _ in built.tips]
    for value in measured(drawn, PLAN, "reach"):
        assert min(abs(value - reach) for reach in reaches) < 1e-9
    on_paper = {round(end[axis], 7) for placed in built.placed for _, end in placed.segments for axis in (0, 1)}
    for each in drawn.dimensions:
        if each.view == PLAN and each.measure.name == "overall":
            # From one thing that is there to another: the leg that takes the line has no tip to measure to.
            axis = 0 if each.measure.way == "across" else 1
            assert {abs(round(at[axis], 7)) for at in (each.measure.start, each.measure.end)} <= set(map(abs, on_paper))
    sides = {round(abs(placed.middle[1]), 6) for placed in built.placed if placed.role == "side"}
    assert sides <= {round(value, 6) for value in measured(drawn, PLAN, "spine")}
    wide = max(y for _, y, _ in built.tips) - min(y for _, y, _ in built.tips)
    assert wide <= END_ON or any(value == pytest.approx(wide) for value in measured(drawn, PLAN, "overall"))


@pytest.mark.parametrize("seed", FEW)
def test_it_is_to_the_scale_it_names(seed: int) -> None:
    _, drawn = made(seed)
    if system_of(seed) == "SI":
        ratio = float(drawn.scale.words.removeprefix("1 : "))
    else:
        size, unit = drawn.scale.words.removeprefix("1 in = ").split()
        ratio = float(size) * {"in": INCH, "ft": FOOT}[unit] / INCH
    assert f"scale {drawn.scale.words}" in " ".join(t.words for t in drawn.scene.texts() if t.role == "strip")
    for each in drawn.dimensions:
        (x0, y0), (x1, y1) = each.line
        paper = math.hypot(x1 - x0, y1 - y0)
        # ours: scales of feet are printed to six figures.
        assert paper == pytest.approx(1000.0 * each.measure.value / ratio, rel=1e-5)


@pytest.mark.parametrize("seed", FEW)
def test_figures_are_the_measures_as_the_trade_writes_them(seed: int) -> None:
    _, drawn = made(seed)
    step, unit = (0.001, "mm") if system_of(seed) == "SI" else (INCH / 16.0, "in")
    for each in drawn.dimensions:
        figure, word = each.figure.words.replace("\u00a0", " ").split()
        whole, _, rest = figure.partition("-")
        shown = float(Fraction(whole) + Fraction(rest or 0)) * (0.001 if unit == "mm" else INCH)
        assert (word, each.figure.role) == (unit, FIGURE)
        assert abs(shown - each.measure.value) <= 0.5 * step + 1e-9


@pytest.mark.message
def test_every_stand_is_told_its_cautions_in_words_we_stand_by() -> None:
    dry, wet, hung = (bench(stand(1, **given), STOCK, report("US")) for given in (
        {"form": "upright", "legs": 4, "wet": False}, {"form": "upright", "legs": 4, "wet": True},
        {"form": "hung", "legs": 0},
    ))  # fmt: skip
    assert "The frame floods: drill it as the table says" in words_of(dry)
    assert "drill 2 x 1/4 in" in words_of(dry)
    assert "The legs carry suction: drill nothing." in words_of(wet)
    assert "drill 2" not in words_of(wet)
    assert "whether that bears it is not judged here" in words_of(hung)
    for drawn in (dry, wet, hung):
        assert "Local codes and a licensed professional come before this drawing." in words_of(drawn)
        assert NEVER_SAID.findall(words_of(drawn)) == []


@pytest.mark.message
def test_what_cannot_be_had_stands_on_it_and_without_any_part_there_is_none() -> None:
    gap = "[stand] riser is not given, or open"
    drawn = bench(stand(2, form="upright", legs=4, riser=math.nan), STOCK, report("US"))
    assert gap in words_of(drawn).replace("\u2013 ", "")
    nothing: Stand = stand(2, size="6")
    assert nothing.placed == ()
    with pytest.raises(AskError, match=re.escape("no bench drawing: the stand has no parts; no tee of 6 in")):
        bench(nothing, STOCK, report("US"))
