"""The section as the page shows it: the same drawing as on paper, with what a hand may take hold of on top."""

from __future__ import annotations

import json
from collections.abc import Sequence
from xml.sax.saxutils import quoteattr

from lakewright.api.look import Look
from lakewright.documents import ink
from lakewright.documents.scene import Point
from lakewright.documents.section import section
from lakewright.documents.svg import number, shape_rows, view_box
from lakewright.web.parts import PARTS

PIXELS_A_MM = 4.7
"""ours: small type of the drawing, 2.5 mm high, is then 12 pixels."""

NARROWEST, WIDEST = 118.0, 300.0  # mm; ours: below the first, flags and levels have no room beside each other
GRIP = 4.5
"""ours: half the width of what a finger takes hold of [mm]: 42 pixels at `PIXELS_A_MM`."""


def drawing(look: Look, pixels: float, part: str) -> tuple[str, tuple[str, ...]]:
    """The section for a window so many pixels wide, as SVG, and the names of findings that found no room on it."""
    width = min(max(pixels / PIXELS_A_MM, NARROWEST), WIDEST)
    height = max(0.42 * width, 84.0)
    drawn = section(look.site, look.shown.findings, width, height)
    rows = [
        f'<svg {view_box(drawn.scene)} class="section" role="group" aria-label="Section of the site">',
        *shape_rows(drawn.scene),
        *(_grip(each.name, each.title, drawn.anchors[each.name], each.name == part) for each in PARTS),
        _surface(look, drawn.anchors["water"], drawn.surface),
        "</svg>",
    ]
    return "\n".join(rows), drawn.unplaced


def _grip(name: str, title: str, at: Point, taken: bool) -> str:
    place = f'cx="{number(at[0])}" cy="{number(at[1])}" r="{number(GRIP)}"'
    pressed = "true" if taken else "false"
    label = quoteattr(f"{title}: take it in hand")
    return (
        f'<circle class="grip" data-part={quoteattr(name)} role="button" tabindex="0" aria-pressed="{pressed}"'
        f' aria-label={label} fill="{ink.INK}" fill-opacity="0" {place}/>'
    )


def _surface(look: Look, at: Point, levels: Sequence[Point]) -> str:
    """The handle on the water, which goes from day to day."""
    x, y = at
    day = -1 if look.day is None else look.day
    words = "all days" if look.day is None else look.days[look.day]
    heights = quoteattr(json.dumps([round(level, 2) for _, level in levels]))
    return (
        f'<g class="surface" role="slider" tabindex="0" aria-label="The day" aria-valuemin="-1"'
        f' aria-valuemax="{len(levels) - 1}" aria-valuenow="{day}" aria-valuetext={quoteattr(words)}'
        f' data-levels={heights} data-y="{number(y)}">'
        f'<rect x="{number(x - 13)}" y="{number(y - GRIP)}" width="26" height="{number(2 * GRIP)}" fill="{ink.SHEET}"'
        f' fill-opacity="0"/>'
        f'<rect class="knob" x="{number(x - 6)}" y="{number(y - 1.6)}" width="12" height="3.2" rx="1.6"'
        f' fill="{ink.SHEET}" stroke="{ink.WATERLINE}" stroke-width="0.3"/>'
        f'<path d="M{number(x - 2)} {number(y - 0.4)} h4 M{number(x - 2)} {number(y + 0.4)} h4"'
        f' stroke="{ink.WATERLINE}" stroke-width="0.25"/></g>'
    )
