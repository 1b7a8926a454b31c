"""The section as the page shows it: the same drawing as on paper, with what a hand may take hold of on top."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from xml.sax.saxutils import quoteattr

from lakewright.api.look import Look
from lakewright.documents import ink
from lakewright.documents.flags import word_for
from lakewright.documents.scene import Flag, Point
from lakewright.documents.section import section
from lakewright.documents.svg import number, shape_rows, view_box
from lakewright.web.parts import PARTS

PIXELS_A_MM = 4.7
"""ours: small type of the drawing, 2.5 mm high, is then 12 pixels."""

NARROWEST, WIDEST = 190.0, 300.0  # mm; ours: below the first there is no room for flags: a phone moves it sideways
GRIP = 4.5
"""ours: half the width of what a finger takes hold of [mm]: 42 pixels at `PIXELS_A_MM`."""

KNOB = (13.0, 4.2)
"""ours: width and height of the handle on the water [mm]."""


def drawing(look: Look, pixels: float, part: str) -> tuple[str, tuple[str, ...]]:
    """The section for a window so many pixels wide, as SVG, and the names of findings that found no room on it.

    In the order the keyboard goes: the water's days, the parts from lake to tap, the flags.
    """
    width = min(max(pixels / PIXELS_A_MM, NARROWEST), WIDEST)
    height = max(0.42 * width, 84.0)
    drawn = section(look.site, look.shown.findings, width, height, KNOB)
    below = replace(drawn.scene, shapes=[shape for shape in drawn.scene.shapes if not isinstance(shape, Flag)])
    _, *flags = shape_rows(replace(drawn.scene, shapes=list(drawn.scene.flags())))
    rows = [
        f'<svg {view_box(drawn.scene)} class="section" role="group" aria-label="Section of the site">',
        *shape_rows(below),
        _surface(look, drawn.anchors["water"], drawn.surface),
        *(_grip(each.name, each.title, drawn.anchors[each.name], each.name == part) for each in PARTS),
        *flags,
        "</svg>",
    ]
    return "\n".join(rows), tuple(word_for(name) for name in drawn.unplaced)


def _grip(name: str, title: str, at: Point, taken: bool) -> str:
    place = f'cx="{number(at[0])}" cy="{number(at[1])}" r="{number(GRIP)}"'
    pressed = "true" if taken else "false"
    label = quoteattr(f"{title}: take it in hand")
    return (
        f'<circle class="grip" data-part={quoteattr(name)} role="button" tabindex="0" aria-pressed="{pressed}"'
        f' aria-label={label} fill="{ink.INK}" fill-opacity="0" {place}/>'
    )


def _surface(look: Look, at: Point, levels: Sequence[Point]) -> str:
    """The handle on the water, which goes from day to day; nothing where the job names no day."""
    if not levels:
        return ""
    x, y = levels[0][0], at[1]
    wide, high = KNOB
    day = -1 if look.day is None else look.day
    words = "all days" if look.day is None else look.days[look.day]
    heights = quoteattr(json.dumps([round(level, 2) for _, level in levels]))
    edge = f'stroke="{ink.WATERLINE}"'
    return (
        f'<g class="surface" role="slider" tabindex="0" aria-label="The water on a day" aria-valuemin="-1"'
        f' aria-valuemax="{len(levels) - 1}" aria-valuenow="{day}" aria-valuetext={quoteattr(words)}'
        f' data-levels={heights} data-y="{number(y)}">'
        f'<rect x="{number(x - 0.5 * wide)}" y="{number(y - GRIP)}" width="{number(wide)}"'
        f' height="{number(2.0 * GRIP)}" fill="{ink.SHEET}" fill-opacity="0"/>'
        f'<rect class="knob" x="{number(x - 0.4 * wide)}" y="{number(y - 0.5 * high)}" width="{number(0.8 * wide)}"'
        f' height="{number(high)}" rx="{number(0.5 * high)}" fill="{ink.SHEET}" {edge} stroke-width="0.35"/>'
        f'<path d="M{number(x - 1.2)} {number(y - 0.6)} l1.2 -0.9 l1.2 0.9 M{number(x - 1.2)} {number(y + 0.6)}'
        f' l1.2 0.9 l1.2 -0.9" fill="none" {edge} stroke-width="0.35"/></g>'
    )
