"""Widths, wrapping and the two ways a scene is written."""

from __future__ import annotations

import json
from xml.etree import ElementTree

import pytest

from lakewright.documents import ink, measure_fonts
from lakewright.documents.layout import Room
from lakewright.documents.prose import Block, Run, flowed, paragraph
from lakewright.documents.scene import Box, Scene, Text, area, segment_meets
from lakewright.documents.svg import svg

WORDS = "Water reaches the pump without boiling, in every case \u2212 été, naïve, Żółw"


def test_the_table_of_widths_is_current() -> None:
    pytest.importorskip("fontTools")
    table = json.loads((measure_fonts.FOLDER / "widths.json").read_text(encoding="utf-8"))
    for weight in (ink.REGULAR, ink.BOLD):
        assert measure_fonts.measured(weight) == table[weight]


@pytest.mark.law
def test_width_adds_up_and_grows_with_size() -> None:
    parts = ink.width("Water ", 8.0) + ink.width("level", 8.0)
    assert ink.width("Water level", 8.0) == pytest.approx(parts)
    assert ink.width("Water", 16.0) == pytest.approx(2.0 * ink.width("Water", 8.0))
    assert ink.width("\u6c34", 10.0) == pytest.approx(10.0 * ink.POINT)


@pytest.mark.law
@pytest.mark.parametrize("widest", [8.0, 15.0, 30.0, 60.0])
def test_wrapped_lines_keep_to_the_width_and_lose_no_letter(widest: float) -> None:
    lines = ink.wrapped(WORDS, widest, 8.0)
    assert max(ink.width(line, 8.0) for line in lines) <= widest
    assert "".join(lines).replace(" ", "") == WORDS.replace(" ", "")


def test_figures_get_a_true_minus_and_keep_their_unit() -> None:
    assert ink.typeset("-2.5 ft, two-stage, 1-1/2 in, 2026-05-03") == (
        "\u22122.5\u00a0ft, two-stage, 1-1/2\u00a0in, 2026-05-03"
    )


def test_svg_is_well_formed_whatever_is_written() -> None:
    scene = Scene(50.0, 20.0, "<&>\x00\ud800")
    scene.add(Text(1.0, 5.0, '<b> & "\x0b" \ufffe', 'a"role'), area([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0)], "x", "#fff"))
    root = ElementTree.fromstring(svg(scene))
    texts = root.findall("{http://www.w3.org/2000/svg}text")
    assert texts[0].text == '<b> & " "'
    assert "Charis SIL" in root.attrib["font-family"]
    assert "serif" in root.attrib["font-family"]


@pytest.mark.law
def test_a_paragraph_keeps_to_its_column_and_its_lines_do_not_meet() -> None:
    runs = [Run("fails", ink.BOLD), Run(WORDS), Run("Do: move the pump.", ink.REGULAR, ink.SOFT)]
    row = paragraph(runs, 40.0, indent=4.0)
    boxes = [shape.box for shape in row.shapes if isinstance(shape, Text)]
    assert min(box.left for box in boxes) >= 4.0
    assert max(box.right for box in boxes) <= 40.0 + 1e-9
    assert max(box.bottom for box in boxes) <= row.height
    assert not [1 for n, a in enumerate(boxes) for b in boxes[n + 1 :] if a.meets(b, slack=0.02)]


def test_columns_that_do_not_fit_are_refused() -> None:
    rows = [paragraph([Run(WORDS)], 40.0) for _ in range(10)]
    assert flowed([Block("many", rows)], 2, 30.0) is None
    fitted = flowed([Block("many", rows)], 4, 30.0)
    assert fitted is not None
    assert sum(len(column) for column in fitted) == 11


def test_room_is_found_beside_what_is_taken_and_not_where_there_is_none() -> None:
    room = Room(Box(0.0, 0.0, 30.0, 10.0), words=[Box(0.0, 0.0, 20.0, 10.0)])
    places = [Box(5.0, 2.0, 10.0, 5.0), Box(22.0, 2.0, 28.0, 5.0), Box(26.0, 2.0, 34.0, 5.0)]
    assert room.first_free(places) == 1
    assert room.first_free(places[:1]) is None


def test_a_line_that_only_touches_a_box_does_not_run_through_it() -> None:
    box = Box(0.0, 0.0, 10.0, 5.0)
    assert segment_meets((-5.0, 2.0), (15.0, 3.0), box)
    assert not segment_meets((-5.0, 0.0), (15.0, 0.0), box)
    assert not segment_meets((12.0, -5.0), (12.0, 15.0), box)
