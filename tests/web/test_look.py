"""The colours of the page, on paper and by lamplight: every one has its night, and every text can be read."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from lakewright.api.demo import examples
from lakewright.api.look import look
from lakewright.api.packet import told_of
from lakewright.api.paper import PAPER
from lakewright.documents import ink
from lakewright.documents.bench import FILLS
from lakewright.documents.bind import Drawn
from lakewright.documents.section import section
from lakewright.documents.svg import shape_rows
from lakewright.errors import AskError
from lakewright.web.look import LAMPLIGHT, style

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
TEXT_LEAST, SHAPE_LEAST = 4.5, 3.0  # WCAG 2.2, 1.4.3 (AA) and 1.4.11


def luminance(colour: str) -> float:
    """Relative luminance. Source: WCAG 2.2, definition of relative luminance."""
    shares = [int(colour[n : n + 2], 16) / 255.0 for n in (1, 3, 5)]
    red, green, blue = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio. Source: WCAG 2.2, definition of contrast ratio."""
    low, high = sorted([luminance(one), luminance(other)])
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("colours, printed", [(("#000000", "#ffffff"), 21.0), (("#777777", "#ffffff"), 4.48)])
def test_contrast_agrees_with_known_pairs(colours: tuple[str, str], printed: float) -> None:
    # Black on white is 21 by the definition itself; #777 on white is the well-known grey that just falls short.
    assert contrast(*colours) == pytest.approx(printed, abs=0.005)


# Texts of page and drawing, each with everything it may stand on.
TEXTS = [
    *((text, ground) for text in (ink.INK, ink.SOFT) for ground in (ink.PAPER, ink.SHEET)),
    *((text, ground) for text in (ink.RED, ink.OCHRE, ink.GREEN, ink.GREY) for ground in (ink.PAPER, ink.SHEET)),
    (ink.SHEET, ink.RED),
    (ink.PAPER, ink.INK),
    (ink.INK, ink.OCHRE_TINT),
    (ink.OCHRE, ink.OCHRE_TINT),
    (ink.INK, ink.GREEN_TINT),
    (ink.INK, ink.RED_TINT),
    (ink.INK, ink.SAND),
    (ink.INK, ink.LENS_WATER),
    # Links and legends beneath the section, and figures on parts of the stand.
    *((ink.WATERLINE, ground) for ground in (ink.PAPER, ink.SHEET)),
    *((ink.INK, ground) for ground in FILLS.values()),
    *((ink.LEVEL_NAME, ground) for ground in (ink.PAPER, *ink.WATER[:3])),
]


@pytest.mark.parametrize("text, ground", TEXTS)
@pytest.mark.parametrize("night", [False, True], ids=["paper", "lamplight"])
def test_every_text_can_be_read(text: str, ground: str, night: bool) -> None:
    found = contrast(LAMPLIGHT[text], LAMPLIGHT[ground]) if night else contrast(text, ground)
    assert found >= TEXT_LEAST


@pytest.mark.parametrize("night", [False, True], ids=["paper", "lamplight"])
@pytest.mark.parametrize("edge", [ink.WATERLINE, ink.SOFT, ink.OCHRE, ink.INK])
def test_what_shows_a_field_or_the_keyboard_stands_out(edge: str, night: bool) -> None:
    for ground in (ink.PAPER, ink.SHEET):
        found = contrast(LAMPLIGHT[edge], LAMPLIGHT[ground]) if night else contrast(edge, ground)
        assert found >= SHAPE_LEAST


@pytest.mark.parametrize("name", sorted(file.name for file in EXAMPLES.glob("*.toml")))
def test_every_colour_of_the_drawing_has_its_night(name: str) -> None:
    file = EXAMPLES / name
    seen = look(file.read_text(encoding="utf-8"), file)
    drawn = "\n".join(shape_rows(section(seen.site, seen.shown.findings).scene))
    assert set(re.findall(r"#[0-9a-f]{6}", drawn)) <= set(LAMPLIGHT)


@pytest.mark.parametrize("name", sorted(examples()))
def test_every_colour_of_the_sheets_has_its_night(name: str) -> None:
    told = told_of(EXAMPLES / name, search=False)
    for sheet in ("bench", "plan"):
        try:
            drawn = PAPER[sheet](told)
        except AskError:
            continue
        assert isinstance(drawn, Drawn)
        assert set(re.findall(r"#[0-9a-f]{6}", "\n".join(shape_rows(drawn.scene)))) <= set(LAMPLIGHT), sheet


def test_the_style_sheet_names_its_colours_by_day_and_by_night() -> None:
    sheet = style()
    used = set(re.findall(r"var\(--([\w-]+)\)", sheet))
    day, night = sheet.split("@media (prefers-color-scheme:dark)")[:2]
    assert used
    assert all(f"--{name}:#" in day and f"--{name}:#" in night for name in used)
