"""The look of everything drawn: colours, line weights, sizes of type, and how wide words are."""

from __future__ import annotations

import json
import re
import unicodedata
from functools import cache, lru_cache
from importlib import resources

# ours: warm paper and dark ink; water by depth, bed in sand; one red, one ochre, one green, and nothing else.
PAPER, SHEET = "#f7f3e9", "#fdfbf5"
INK, SOFT, HAIR = "#1d2b38", "#59646d", "#cfc9b8"
WATER = ("#dcedf2", "#cbe2ea", "#b7d5e0", "#a2c6d4", "#8db7c7", "#79a7b9")
WATERLINE, LEVEL_NAME, PIPE_WATER, LENS_WATER = "#2e7086", "#1f5568", "#dfeaee", "#eef6f8"
ICE, ICE_EDGE = "#ffffff", "#5b8ba0"
SAND, SAND_EDGE, SAND_MARK = "#e6dbc2", "#a3875c", "#cdbb94"
RED, OCHRE, GREEN, GREY = "#ad2f25", "#8f6200", "#1f6845", "#66707a"
OCHRE_TINT, GREEN_TINT, RED_TINT = "#fcf3da", "#d5e6da", "#f3d6d0"

FONT = "Charis SIL"
FALLBACK = "Charter, Georgia, 'Times New Roman', serif"
REGULAR, BOLD = "regular", "bold"

# Sizes of type in points; none is smaller than the first. ours: the least that is read at arm's length.
SMALL, FLAG, BODY, HEAD, LINE, TITLE = 7.0, 7.5, 8.0, 9.0, 10.5, 13.0
POINT = 25.4 / 72.0  # mm
ASCENT, DESCENT = 0.80, 0.25  # of the size, above and below the baseline. ours: covers capitals with accents
LEADING = 1.26  # of the size, from line to line. ours

# Line weights in mm. ours: three that stay apart when copied.
FINE, THIN, BOLD_LINE = 0.13, 0.22, 0.40


@cache
def _widths(weight: str) -> dict[str, float]:
    text = resources.files("lakewright.documents").joinpath("fonts/widths.json").read_text(encoding="utf-8")
    table = json.loads(text)
    em = float(table["units_per_em"])
    return {letter: int(width) / em for width, letters in table[weight].items() for letter in letters}


@lru_cache(maxsize=1 << 16)
def width(words: str, size: float, weight: str = REGULAR) -> float:
    """Measured width of words [mm] at a size [points]. A letter that was not measured counts as one em.

    >>> round(width("lift", 10.0), 2) < round(width("lift", 10.0, BOLD), 2)
    True
    """
    table = _widths(weight)
    return sum(table.get(letter, 1.0) for letter in words) * size * POINT


def leading(size: float) -> float:
    """Distance from line to line [mm] at a size [points]."""
    return size * POINT * LEADING


def rise(size: float) -> float:
    """How high letters stand over their baseline [mm] at a size [points]."""
    return ASCENT * size * POINT


def plain(words: str) -> str:
    """Words on one line: whatever is no printing character becomes a space.

    >>> plain("two\\nlines")
    'two lines'
    """
    return plain_within(words).strip()


def plain_within(words: str) -> str:
    """The same of words that stand beside others: a space at their ends stays.

    >>> plain_within("in two\\nlines ")
    'in two lines '
    """
    kept = (" " if unicodedata.category(letter) in ("Cc", "Cs", "Co", "Cn", "Zl", "Zp") else letter for letter in words)
    return re.sub(r"[^\S\u00a0]+", " ", "".join(kept))


UNITS = "ft|in|mm|m|ft/s|m/s|psi|kPa|inHg|gpm|L/s|gal|L|s|min|F|C|%|hp|W|lb|kg|in2|cm2"
"""Units that stay on the line of their figure."""


def typeset(words: str) -> str:
    """Words with a true minus before a figure, and figures that keep their units beside them.

    >>> typeset("-2.5 ft by 1-1/2 in") == "\u22122.5\u00a0ft by 1-1/2\u00a0in"
    True
    """
    signed = re.sub(r"(?<![\w-])-(?=\d)", "\u2212", words)
    return re.sub(rf"(?<=\d) (?=(?:{UNITS})(?![\w/]))", "\u00a0", signed)


def kept_together(words: str) -> str:
    """Parts of a line with a point between them; a short one is never broken.

    >>> kept_together("a lift \u00b7 2 tight") == "a\u00a0lift \u00b7 2\u00a0tight"
    True
    """
    # ours: a part of three words or so.
    parts = words.split(" \u00b7 ")
    return " \u00b7 ".join(part.replace(" ", "\u00a0") if len(part) <= 24 else part for part in parts)


def wrapped(words: str, widest: float, size: float, weight: str = REGULAR) -> list[str]:
    """Words in lines of at most a width [mm]; a word wider than that is cut.

    >>> wrapped("one two", 1000.0, 8.0)
    ['one two']
    """
    lines: list[str] = []
    line = ""
    for word in plain(words).split(" "):
        longer = f"{line} {word}" if line else word
        if width(longer, size, weight) <= widest:
            line = longer
            continue
        if line:
            lines.append(line)
        *cut, line = _cut(word, widest, size, weight)
        lines += cut
    return [*lines, line] if line else lines


def _cut(word: str, widest: float, size: float, weight: str) -> list[str]:
    """A word in pieces no wider than a width; each piece has one letter at least."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and width(pieces[-1] + letter, size, weight) > widest:
            pieces.append("")
        pieces[-1] += letter
    return pieces
