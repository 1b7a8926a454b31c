"""A scene as SVG: in millimetres, texts as text with the font named and others to fall back on."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

from lakewright.documents import ink
from lakewright.documents.scene import Circle, Flag, Leader, Path, Point, Scene, Shape, Text

TEXT_STYLE = "text{white-space:pre;font-kerning:none;font-variant-ligatures:none}"
"""What keeps words as wide as they were measured."""


def svg(scene: Scene) -> str:
    """The scene as the text of an SVG file.

    A letter of another font may be wider: `textLength` keeps the words inside the place measured for them.
    """
    size = f'width="{number(scene.width)}mm" height="{number(scene.height)}mm"'
    family = quoteattr(f"'{ink.FONT}', {ink.FALLBACK}")
    rows = [f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view_box(scene)} font-family={family}>']
    if scene.title:
        rows.append(f"<title>{escape(ink.plain(scene.title))}</title>")
    rows.append(f"<style>{TEXT_STYLE}</style>")
    return "\n".join([*rows, *shape_rows(scene), "</svg>", ""])


def view_box(scene: Scene) -> str:
    """The attribute that tells an SVG its millimetres."""
    return f'viewBox="0 0 {number(scene.width)} {number(scene.height)}"'


def shape_rows(scene: Scene) -> list[str]:
    """The paper and every shape on it, one element a line."""
    paper = f'<rect width="100%" height="100%" fill="{ink.PAPER}"/>'
    return [paper, *(row for shape in scene.shapes for row in _rows(shape))]


def _rows(shape: Shape) -> list[str]:
    if isinstance(shape, Flag):
        group = f'<g class="flag" data-check={quoteattr(shape.name)} data-status={quoteattr(shape.status)}>'
        return [group, *(row for part in shape.parts for row in _rows(part)), "</g>"]
    if isinstance(shape, Text):
        return [_text(shape)]
    if isinstance(shape, Circle):
        place = f'cx="{number(shape.x)}" cy="{number(shape.y)}" r="{number(shape.radius)}"'
        return [f"<circle class={quoteattr(shape.role)} {place}{_look(shape.fill, shape.stroke, shape.weight)}/>"]
    return [_path(shape.path if isinstance(shape, Leader) else shape)]


def _path(shape: Path) -> str:
    steps = " ".join(_run(run, shape.closed) for run in shape.runs)
    dash = f' stroke-dasharray="{" ".join(map(number, shape.dash))}"' if shape.dash else ""
    thin = f' opacity="{number(shape.see_through)}"' if shape.see_through < 1.0 else ""
    look = _look(shape.fill, shape.stroke, shape.weight)
    return f'<path class={quoteattr(shape.role)} d="{steps}"{look}{dash}{thin} stroke-linejoin="round"/>'


def _run(run: Sequence[Point], closed: bool) -> str:
    steps = " L".join(f"{number(x)} {number(y)}" for x, y in run)
    return f"M{steps}{' Z' if closed else ''}"


def _text(text: Text) -> str:
    bold = ' font-weight="bold"' if text.weight == ink.BOLD else ""
    place = f'x="{number(text.x)}" y="{number(text.y)}" font-size="{number(text.size * ink.POINT)}"'
    long = f' textLength="{number(text.width)}" lengthAdjust="spacingAndGlyphs"'
    words = escape(ink.plain(text.words))
    return f'<text class={quoteattr(text.role)} {place}{bold}{long} fill="{text.colour}">{words}</text>'


def _look(fill: str, stroke: str, weight: float) -> str:
    line = f' stroke="{stroke}" stroke-width="{number(weight)}"' if stroke else ""
    return f' fill="{fill or "none"}"{line}'


def number(value: float) -> str:
    """A length as text: to a thousandth of a millimetre, without an idle zero.

    >>> number(1.50), number(-0.0001), number(20.0)
    ('1.5', '0', '20')
    """
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
