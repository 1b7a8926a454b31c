"""Scenes as pages of a PDF. Shapes and texts are handed over as they stand: nothing is laid out a second time."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module, resources

from lakewright.documents import ink
from lakewright.documents.scene import Circle, Leader, Path, Scene, Text
from lakewright.documents.svg import number
from lakewright.errors import AskError

NEEDS_TYPST = "a sheet is printed by typst, which is not installed; install it with: pip install 'lakewright[packet]'"


def pages(scenes: Sequence[Scene], title: str) -> bytes:
    """A PDF with a page a scene; the same scenes give the same bytes.

    Raises
    ------
    AskError where typst is not installed
    """
    return compiled(source(scenes, title), "pdf")


def pictures(scenes: Sequence[Scene], ppi: float = 144.0) -> bytes:
    """The first page as a PNG, for looking at."""
    return compiled(source(scenes[:1], ""), "png", ppi)


def compiled(text: str, form: str, ppi: float = 144.0) -> bytes:
    """Typst's work, with our fonts and no others of the machine's."""
    try:
        # By its name: types are checked where it need not be installed.
        typst = import_module("typst")
    except ImportError:
        raise AskError(NEEDS_TYPST) from None
    with resources.as_file(resources.files("lakewright.documents").joinpath("fonts")) as fonts:
        made = typst.compile(
            text.encode("utf-8"), format=form, font_paths=[str(fonts)], ignore_system_fonts=True, ppi=ppi
        )
    if not isinstance(made, bytes):
        raise TypeError("one document was asked for")
    return made


def source(scenes: Sequence[Scene], title: str) -> str:
    """The typst text of the pages. No date but the job's own stands in it, and no path."""
    rows = [
        f"#set document(title: {typst_string(title)}, date: none)",
        f"#set text(font: {typst_string(ink.FONT)}, kerning: false, ligatures: false, hyphenate: false,"
        ' top-edge: "baseline", bottom-edge: "baseline")',
        "#set par(spacing: 0pt, leading: 0pt)",
    ]
    for at, scene in enumerate(scenes):
        size = f"width: {number(scene.width)}mm, height: {number(scene.height)}mm"
        rows.append(f"#set page({size}, margin: 0mm, fill: rgb({typst_string(ink.SHEET)}))")
        if at:
            rows.append("#pagebreak()")
        rows += [_shape(shape) for shape in scene.flat()]
    return "\n".join([*rows, ""])


def _shape(shape: Path | Circle | Text | Leader) -> str:
    if isinstance(shape, Text):
        bold = ', weight: "bold"' if shape.weight == ink.BOLD else ""
        look = f"size: {number(shape.size)}pt, fill: rgb({typst_string(shape.colour)}){bold}"
        # A box of the measured width keeps a line from being broken at the page's edge.
        words = f"box(width: {number(shape.width + 5.0)}mm, text({look}, {typst_string(ink.plain(shape.words))}))"
        return _placed(shape.x, shape.y, words)
    if isinstance(shape, Circle):
        look = _look(shape.fill, shape.stroke, shape.weight)
        round_shape = f"circle(radius: {number(shape.radius)}mm, {look})"
        return _placed(shape.x - shape.radius, shape.y - shape.radius, round_shape)
    return _path(shape.path if isinstance(shape, Leader) else shape)


def _path(shape: Path) -> str:
    steps = []
    for run in shape.runs:
        (x, y), *rest = run
        steps.append(f"curve.move(({number(x)}mm, {number(y)}mm))")
        steps += [f"curve.line(({number(x)}mm, {number(y)}mm))" for x, y in rest]
        if shape.closed:
            steps.append("curve.close()")
    look = _look(shape.fill, shape.stroke, shape.weight, shape.dash, shape.see_through)
    return _placed(0.0, 0.0, f"curve({look}, {', '.join(steps)})")


def _look(fill: str, stroke: str, weight: float, dash: tuple[float, ...] = (), share: float = 1.0) -> str:
    def colour(name: str) -> str:
        thin = f".transparentize({round(100.0 * (1.0 - share))}%)" if share < 1.0 else ""
        return f"rgb({typst_string(name)}){thin}"

    inside = f"fill: {colour(fill)}" if fill else "fill: none"
    if not stroke:
        return f"{inside}, stroke: none"
    steps = f", dash: ({', '.join(f'{number(step)}mm' for step in dash)})" if dash else ""
    return f'{inside}, stroke: (paint: {colour(stroke)}, thickness: {number(weight)}mm, join: "round"{steps})'


def _placed(x: float, y: float, what: str) -> str:
    return f"#place(top + left, dx: {number(x)}mm, dy: {number(y)}mm, {what})"


def place_all(scene: Scene) -> str:
    """The shapes of a scene in a box of its size, to stand among other things in typst."""
    size = f"width: {number(scene.width)}mm, height: {number(scene.height)}mm"
    edges = '#set text(kerning: false, ligatures: false, top-edge: "baseline", bottom-edge: "baseline")'
    shapes = " ".join(_shape(shape) for shape in scene.flat())
    return f"box({size})[{edges}; #set par(spacing: 0pt, leading: 0pt); {shapes}]"


def typst_string(text: str) -> str:
    """Words as typst writes a string; no character of theirs means anything to it."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
