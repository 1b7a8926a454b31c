"""The look of the page: its style sheet over the colours of paper, and the same by lamplight."""

from __future__ import annotations

from functools import cache
from importlib import resources

from lakewright.documents import ink
from lakewright.documents.bench import FILLS

# ours: each colour of paper by lamplight: night for paper, lamp-coloured ink, the water darker the deeper.
LAMPLIGHT = {
    ink.PAPER: "#1b1a17",
    ink.SHEET: "#24221e",
    ink.INK: "#e9e2d2",
    ink.SOFT: "#b3ac9d",
    ink.HAIR: "#4a463d",
    **dict(zip(ink.WATER, ("#24404c", "#213a46", "#1e3540", "#1b303a", "#182b34", "#15262e"), strict=True)),
    ink.WATERLINE: "#7fb9cd",
    ink.ICE: "#3d4a50",
    ink.ICE_EDGE: "#9db8c4",
    ink.SAND: "#3a3227",
    ink.SAND_EDGE: "#a88f66",
    ink.SAND_MARK: "#5b4f3b",
    ink.RED: "#e3705f",
    ink.OCHRE: "#dba63a",
    ink.GREEN: "#6fbf92",
    ink.GREY: "#a3acb3",
    ink.OCHRE_TINT: "#3a2f14",
    ink.GREEN_TINT: "#1f3529",
    ink.RED_TINT: "#40211d",
    ink.PIPE_WATER: "#51626a",
    ink.LENS_WATER: "#203842",
    ink.LEVEL_NAME: "#8fc4d6",
    FILLS["fitting"]: "#3d3a33",
    FILLS["ballast"]: "#4d4b45",
}

NAMES = {
    "paper": ink.PAPER,
    "sheet": ink.SHEET,
    "ink": ink.INK,
    "soft": ink.SOFT,
    "hair": ink.HAIR,
    "water": ink.WATERLINE,
    "red": ink.RED,
    "ochre": ink.OCHRE,
    "green": ink.GREEN,
    "grey": ink.GREY,
    "ochre-tint": ink.OCHRE_TINT,
    "green-tint": ink.GREEN_TINT,
    "red-tint": ink.RED_TINT,
}


@cache
def style() -> str:
    """The style sheet: the colours by name, ours by lamplight where the reader's machine is dark, then the rest."""
    sheets = (resources.files("lakewright.web").joinpath(f"static/{name}.css") for name in ("page", "leaves", "book"))
    rest = "\n".join(sheet.read_text(encoding="utf-8") for sheet in sheets)
    plain = "".join(f"--{name}:{colour};" for name, colour in NAMES.items())
    dark = "".join(f"--{name}:{LAMPLIGHT[colour]};" for name, colour in NAMES.items())
    drawn = "\n".join(
        f':is(.section,.drawn) [fill="{day}"]{{fill:{night}}}:is(.section,.drawn) [stroke="{day}"]{{stroke:{night}}}'
        for day, night in LAMPLIGHT.items()
    )
    return f":root{{{plain}}}\n@media (prefers-color-scheme:dark){{:root{{{dark}}}\n{drawn}\n}}\n{rest}"
