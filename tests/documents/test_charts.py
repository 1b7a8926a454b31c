"""The charts of pump and grade line: texts never meet, what is drawn is what was found, grey keeps its meaning."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations
from pathlib import Path as File

import numpy as np
import pytest

from lakewright.api.curve_sheets import grade_scene, path_of, pump_scene, running_of
from lakewright.api.packet import packet
from lakewright.api.report import report_on
from lakewright.documents import ink
from lakewright.documents.chart import Plot, runs, spread
from lakewright.documents.grade_chart import grade_chart
from lakewright.documents.pump_chart import DASHES, FILLS, pump_chart
from lakewright.documents.scene import Box, Circle, Path, Scene
from lakewright.errors import AskError
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Report
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.curves import curves_of
from lakewright.state.grade_line import grade_line
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock
from tests.job.example import EXAMPLE
from tests.test_report import NEVER_SAID

pytestmark = pytest.mark.law

NAMES = ("year_round_cabin", "stream_irrigation", "stock_tank")
VARIANTS: tuple[dict[str, str], ...] = (
    {},
    {"job.title": "=1+1 <b>&amp;</b> \u05e9\u05dc\u05d5\u05dd #set text() " * 3},
    {"pump.height": "2 ft", "delivery.height": "-4 ft"},
    {"pump.height": "16 ft"},
    {"delivery.height": "90 ft"},
    {"delivery.cut_in": "25 psi", "delivery.cut_out": "27 psi"},
    {"holding.arrangement": "foot valve only"},
    {"delivery.length": "2000 ft"},
    {"treatment.flow_control": "", "delivery.flow_control": "5 gpm"},
)


@cache
def made(name: str, variant: int, system: str) -> tuple[Assembly, Report]:
    text = (EXAMPLE.parent / f"{name}.toml").read_text(encoding="utf-8")
    job = read_job_text(set_values(text, {**VARIANTS[variant], "job.units": system}))
    assembly = facts_of(job, load_stock())
    return assembly, report_on(job, assembly, stock=load_stock())


@cache
def drawn(name: str, variant: int, system: str) -> tuple[Scene, Scene]:
    assembly, report = made(name, variant, system)
    facts = assembly.facts
    state = walk(facts)
    curves = curves_of(facts, state.flow.flow)
    grade = grade_line(facts, state)
    pump = pump_chart(curves, running_of(facts, state), facts.pump_kind == "jet", report)
    return pump, grade_chart(grade, path_of(facts, state, grade), report)


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("variant", range(len(VARIANTS)))
@pytest.mark.parametrize("name", NAMES)
def test_texts_never_meet_and_never_leave_the_paper(name: str, variant: int, system: str) -> None:
    for scene in drawn(name, variant, system):
        inner = scene.frame.grown(-5.0)
        boxes = [(text.box, text.words) for text in scene.texts()]
        assert [words for box, words in boxes if not inner.holds(box)] == []
        assert [(a[1], b[1]) for a, b in combinations(boxes, 2) if a[0].meets(b[0], slack=0.05)] == []
        assert min(text.size for text in scene.texts()) >= 7.0
        assert not NEVER_SAID.search(" ".join(words for _, words in boxes))


@pytest.mark.parametrize("variant", range(len(VARIANTS)))
@pytest.mark.parametrize("name", NAMES)
def test_lines_and_bands_stay_inside_their_frames(name: str, variant: int) -> None:
    for scene in drawn(name, variant, "US"):
        frames = [_box(shape) for shape in scene.shapes if isinstance(shape, Path) and shape.role == "frame"]
        assert len(frames) == 2
        kept = ("pump", "system", "available", "required", "grade", "rest", "worst", "boils", "pipe")
        for shape in scene.shapes:
            if isinstance(shape, Path) and shape.role in kept:
                for run in shape.runs:
                    for point in run:
                        assert any(frame.grown(0.01).holds_point(point) for frame in frames), shape.role


def _box(path: Path) -> Box:
    xs, ys = zip(*path.runs[0], strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


@pytest.mark.parametrize("name", NAMES)
def test_every_case_has_its_mark_in_both_parts(name: str) -> None:
    assembly, _ = made(name, 0, "US")
    marks = [shape for shape in drawn(name, 0, "US")[0].shapes if isinstance(shape, Circle) and shape.role == "case"]
    count = len(walk(assembly.facts).flow.flow)
    # Two stand in the key.
    assert len(marks) == 2 * count + 2
    rings = [mark for mark in marks if mark.fill == ink.SHEET]
    assert len(rings) == count + 1


def grey(colour: str) -> float:
    """How light a colour is in grey, from 0 to 1. Source: ITU-R BT.709, luma of red, green and blue."""
    red, green, blue = (int(colour[n : n + 2], 16) / 255.0 for n in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_in_grey_no_meaning_hangs_on_a_colour() -> None:
    assert len(set(DASHES.values())) == len(FILLS)
    looks: dict[str, set[tuple[float, tuple[float, ...]]]] = {}
    for shape in drawn("year_round_cabin", 0, "US")[1].shapes:
        if isinstance(shape, Path) and shape.stroke:
            looks.setdefault(shape.role, set()).add((shape.weight, shape.dash))
    apart = [look for role in ("worst", "boils", "rest", "grade", "pipe") for look in looks[role]]
    assert len(set(apart)) == len(apart) == 5
    # What is filled is lighter than any line over it.
    fills = [grey(fill) for fill in FILLS.values()]
    assert min(fills) - max(grey(colour) for colour in (ink.INK, ink.WATERLINE, ink.RED, ink.GREY)) > 0.15


def test_a_line_is_cut_where_it_leaves_the_frame() -> None:
    plot = Plot(Box(0.0, 0.0, 10.0, 10.0), (0.0, 10.0), (0.0, 10.0))
    assert runs(plot, [0.0, 10.0], [-5.0, 15.0]) == [[(2.5, 10.0), (7.5, 0.0)]]
    assert runs(plot, [0.0, 4.0, 6.0, 10.0], [1.0, 1.0, float("nan"), 1.0]) == [[(0.0, 9.0), (4.0, 9.0)]]
    assert runs(plot, [0.0, 1.0], [11.0, 12.0]) == []
    assert spread([]) == (0.0, 1.0)


def test_the_first_lines_say_what_the_report_says() -> None:
    _, report = made("year_round_cabin", 0, "US")
    pump, grade = drawn("year_round_cabin", 0, "US")
    (first,) = (text.words for text in pump.texts() if text.role == "first line")
    assert re.fullmatch(r"Pump and system: [\d.]+.gpm at 30.psi on the worst day", first)
    assert report.first_line.startswith(first.replace("\u00a0", " ").removeprefix("Pump and system: "))
    said = " ".join(text.words for text in pump.texts())
    for finding in report.findings:
        if finding.name == "suction_stays_liquid":
            assert finding.message.split(",")[0] in said.replace("\u00a0", " ")
    assert any("from boiling" in text.words for text in grade.texts())


def test_the_packet_writes_them(tmp_path: File) -> None:
    written = {file.name for file in packet(EXAMPLE, tmp_path, ["pump", "grade"])}
    assert {f"{EXAMPLE.stem}-{end}" for end in ("pump.pdf", "pump.svg", "grade.pdf", "grade.svg")} <= written


@pytest.mark.message
def test_without_a_pump_there_are_no_curves() -> None:
    for name, words in (
        ("year_round_cabin_open", "no pump is chosen yet"),
        ("no_suction_pump", "no suction pump will do"),
    ):
        text = (EXAMPLE.parent / f"{name}.toml").read_text(encoding="utf-8")
        job = read_job_text(text)
        assembly = facts_of(job, load_stock())
        for scene in (pump_scene, grade_scene):
            with pytest.raises(AskError, match=f"no curves: {words}"):
                scene(assembly, report_on(job, assembly))
    assert np.isfinite(walk(made("year_round_cabin", 0, "US")[0].facts).flow.flow).all()
