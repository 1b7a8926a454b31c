"""The bench drawing as DXF: full size in the job's units, with dimensions that measure what they are drawn on.

Words, rings and leaders are carried over from the sheet at the drawing's scale: it is laid out once.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from typing import Any

from lakewright.documents import ink
from lakewright.documents.bench import Bench
from lakewright.documents.dimension import ARROW, BEYOND, FIGURE, GAP, ROLE, Dimension, Placing
from lakewright.documents.outline import Arc, Outline
from lakewright.documents.scene import Circle, Leader, Path, Point, Text
from lakewright.documents.stand_view import FRONT, StandView
from lakewright.errors import AskError
from lakewright.stock.measure import INCH, MILLIMETRE

NEEDS_EZDXF = "a DXF is written by ezdxf, which is not installed; install it with: pip install 'lakewright[packet]'"
UNITS = {"US": (INCH, 1, 0), "SI": (MILLIMETRE, 4, 1)}
"""Of the drawing [m], its code in the file ($INSUNITS), and whether that is metric ($MEASUREMENT)."""
LAYERS = {
    "pipe": 7, "fitting": 8, "metal": 30, "valve": 94, "screen": 140, "ballast": 9, "pad": 34, "hidden": 8,
    "centre": 1, "bed": 34, "dimension": 5, "item": 7, "words": 7, "sheet": 8,
}  # fmt: skip
"""Layers by what is on them, and their colours by AutoCAD's index."""
LINETYPES = {"hidden": "DASHED", "centre": "CENTER", "ballast": "PHANTOM"}
OF_ROLE = {
    "centre line": "centre", "bed": "bed", "item leader": "item", "item dot": "item", "item ring": "item",
    "item number": "item", "piece length": "item", "rule": "sheet", "strip": "sheet",
}  # fmt: skip
"""Layers of what is carried over from the sheet; words of any other role are on their own."""
DASHES = 3.2
"""ours: millimetres of paper to a unit of ezdxf's patterns, so that dashes are as long as on the sheet."""
DRAWN_ANEW = ("fill", "outline", "bare", ROLE, FIGURE)
DECIMAL, FRACTIONAL = 2, 5
"""How figures are written: $DIMLUNIT."""


def dxf(bench: Bench, system: str) -> bytes:
    """The drawing as the bytes of a DXF file; the same drawing gives the same bytes.

    Raises
    ------
    AskError where ezdxf is not installed
    """
    try:
        # By its name: types are checked where it need not be installed.
        ezdxf = import_module("ezdxf")
    except ImportError:
        raise AskError(NEEDS_EZDXF) from None
    with _without_the_day(ezdxf):
        document = _document(ezdxf, bench, system)
        # ezdxf takes the classes in use from a set, whose order changes from run to run.
        for name in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(name)
        out = io.StringIO()
        document.write(out)
    return out.getvalue().encode("utf-8")


@contextmanager
def _without_the_day(ezdxf: Any) -> Iterator[None]:
    """No date, and no number drawn at random, while a file is written."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


class _Full:
    """From the sheet to full size: the origin is that of the front view, y up, lengths in the drawing's units."""

    def __init__(self, bench: Bench, system: str) -> None:
        self.unit, self.code, self.metric = UNITS[system]
        self.front = bench.views[FRONT][1]
        self.mm = self.front.mm * self.unit
        """Millimetres of paper to a unit of the drawing."""

    def from_paper(self, at: Point) -> Point:
        """A point of the sheet."""
        return (at[0] - self.front.x) / self.mm, (self.front.y - at[1]) / self.mm

    def from_view(self, place: Placing, at: Point) -> Point:
        """A point of a view, in metres: where the view lies is rounded, lengths in it are not."""
        x, y = self.from_paper((place.x, place.y))
        return x + at[0] / self.unit, y - at[1] / self.unit


def _document(ezdxf: Any, bench: Bench, system: str) -> Any:
    full = _Full(bench, system)
    document = ezdxf.new("R2010", setup=["linetypes"], units=full.code)
    document.header["$MEASUREMENT"] = full.metric
    document.header["$LTSCALE"] = DASHES / full.mm
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour, linetype=LINETYPES.get(name, "CONTINUOUS"))
    document.styles.add("words", font="CharisSIL-Regular.ttf")
    document.styles.add("words bold", font="CharisSIL-Bold.ttf")
    _dimension_style(document, full, system)
    space = document.modelspace()
    for view, place in bench.views.values():
        _view(space, full, view, place)
    for shape in bench.scene.flat():
        if shape.role not in DRAWN_ANEW:
            _carried(ezdxf, space, full, shape)
    for each in bench.dimensions:
        _dimension(space, full, each, bench.views[each.view][1])
    return document


def _dimension_style(document: Any, full: _Full, system: str) -> None:
    """A style in which a figure is what is measured, in the trade's way."""
    style = document.dimstyles.new("bench")
    height = ink.SMALL * ink.POINT / full.mm
    wanted = {
        "dimtxt": 0.7 * height, "dimasz": ARROW / full.mm, "dimexe": BEYOND / full.mm, "dimexo": GAP / full.mm,
        "dimgap": GAP / full.mm, "dimscale": 1.0, "dimlfac": 1.0, "dimzin": 0, "dimtad": 0, "dimtih": 1, "dimtoh": 1,
        "dimtix": 1, "dimtmove": 2, "dimblk": "", "dimtxsty": "words", "dimclrd": 0, "dimclre": 0, "dimclrt": 0,
        "dimlunit": DECIMAL if system == "SI" else FRACTIONAL, "dimfrac": 2, "dimdec": 0 if system == "SI" else 4,
        "dimpost": "<> mm" if system == "SI" else "<> in",
    }  # fmt: skip
    for name, value in wanted.items():
        style.dxf.set(name, value)


# What is drawn.


def _view(space: Any, full: _Full, view: StandView, place: Placing) -> None:
    for outline in view.outlines:
        _outline(space, full, outline, place)


def _outline(space: Any, full: _Full, outline: Outline, place: Placing) -> None:
    inside = outline.body.over and outline.body.role != "ballast"
    look = {"layer": "hidden" if inside else outline.body.role}
    for start, end in (*outline.edges, *outline.marks):
        space.add_line(full.from_view(place, start), full.from_view(place, end), dxfattribs=look)
    for arc in outline.arcs:
        _arc(space, full, arc, place, look)


def _arc(space: Any, full: _Full, arc: Arc, place: Placing, look: dict[str, str]) -> None:
    middle, radius = full.from_view(place, (arc.u, arc.v)), arc.radius / full.unit
    if arc.whole:
        space.add_circle(middle, radius, dxfattribs=look)
    else:
        # With y up instead of down, an angle turns its sign, and an arc its ends.
        start, end = math.degrees(-arc.end) % 360.0, math.degrees(-arc.start) % 360.0
        space.add_arc(middle, radius, start, end, dxfattribs=look)


def _dimension(space: Any, full: _Full, each: Dimension, place: Placing) -> None:
    """A dimension entity on the points it measures; its figure stands where it stands on the sheet."""
    measure, box = each.measure, each.figure.box
    start, end = full.from_view(place, measure.start), full.from_view(place, measure.end)
    base, angle = full.from_paper(each.line[0]), {"across": 0.0, "up": 90.0}.get(measure.way)
    if angle is None:
        base, angle = start, math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    made = space.add_linear_dim(
        base=base, p1=start, p2=end, angle=angle, location=full.from_paper(box.middle), text=each.figure.words,
        text_rotation=0.0, dimstyle="bench", dxfattribs={"layer": "dimension"},
    )  # fmt: skip
    made.render()
    # The block shows the figure as we write it; the entity shows what it measures, whatever becomes of it.
    made.dimension.dxf.text = "<>"
    made.dimension.dxf.actual_measurement = made.dimension.get_measurement()


def _carried(ezdxf: Any, space: Any, full: _Full, shape: Path | Circle | Text | Leader) -> None:
    """A shape of the sheet at the drawing's scale."""
    look = {"layer": OF_ROLE.get(shape.role, "words")}
    if isinstance(shape, Text):
        _words(ezdxf, space, full, shape, look)
    elif isinstance(shape, Circle):
        space.add_circle(full.from_paper((shape.x, shape.y)), shape.radius / full.mm, dxfattribs=look)
    else:
        path = shape.path if isinstance(shape, Leader) else shape
        for run in path.runs:
            space.add_lwpolyline([full.from_paper(at) for at in run], close=path.closed, dxfattribs=look)


def _words(ezdxf: Any, space: Any, full: _Full, text: Text, look: dict[str, str]) -> None:
    """Words fitted to their measured width, so that no other font makes them meet."""
    style = "words bold" if text.weight == ink.BOLD else "words"
    # A text's height is that of its capitals. memory: seven tenths of the size.
    height = 0.7 * text.size * ink.POINT / full.mm
    entity = space.add_text(ink.plain(text.words), height=height, dxfattribs={**look, "style": style})
    ends = full.from_paper((text.x, text.y)), full.from_paper((text.x + text.width, text.y))
    entity.set_placement(*ends, align=ezdxf.enums.TextEntityAlignment.FIT)
