"""The words of the bench drawing: the table of parts, what is to be noted, cautions."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.items import Item
from lakewright.documents.prose import Block, Row, Run, paragraph
from lakewright.documents.scene import Text, ending_at
from lakewright.state.placed import Stand
from lakewright.state.stand_frame import HOLE

NUMBER, COUNT, LENGTH = 5.0, 8.0, 17.0
"""ours: widths of the columns for the number, how many, and the cut length [mm]; the part has the rest."""
ALWAYS = (
    # common practice, no source, for both.
    "Tape every male thread. Plastic is tightened by hand, then a turn or two with a strap wrench, never with a pipe "
    "wrench.",
    "Wear glasses to cut and drill. Lift in pieces and with two; over water wear a vest and do not work alone.",
    # ours
    "Fittings differ by maker: measure those in hand before pipe is cut.",
    "Invented parts and figures until the shop's own stock is read in. Local codes and a licensed professional come "
    "before this drawing.",
)
WET = (
    # common practice, no source
    "The legs carry suction: drill nothing. Every cap and joint must seal; fill the stand and look for drips before it "
    "goes into the water."
)
DRY = (
    # common practice, no source
    "The frame floods: drill it as the table says, low on the side of the pipe, and nothing else. A frame that holds "
    "air floats."
)
HANGING = "What is hung or floats is held by what it hangs from: whether that bears it is not judged here."


def blocks(stand: Stand, items: Sequence[Item], more: Sequence[str], system: str, column: float) -> list[Block]:
    """What stands beside the drawing, in columns of a width [mm]; `more` is to be noted besides."""
    made = [Block("Parts", [_head(column), *(_row(item, system, column) for item in items)])]
    if stand.gaps:
        made.append(Block("Not in it", [_bullet(gap, column, ink.RED) for gap in stand.gaps]))
    made.append(
        Block("To note", [_bullet(note, column) for note in (*_notes(stand, items, system), *more, *stand.notes)])
    )
    made.append(Block("Cautions", [_bullet(caution, column) for caution in _cautions(stand)]))
    return made


def _head(column: float) -> Row:
    base = ink.rise(ink.SMALL)
    part = column - NUMBER - COUNT - LENGTH
    texts = (
        Text(0.0, base, "no.", "table", colour=ink.SOFT),
        Text(NUMBER + 1.0, base, "part", "table", colour=ink.SOFT),
        ending_at(NUMBER + part + COUNT, base, "count", "table", colour=ink.SOFT),
        ending_at(column, base, "cut length", "table", colour=ink.SOFT),
    )
    return Row(texts, ink.leading(ink.SMALL) + 0.6)


def _row(item: Item, system: str, column: float) -> Row:
    """A line of the table; the part's name on as many lines as it needs."""
    base, lead = ink.rise(ink.SMALL), ink.leading(ink.SMALL)
    part = column - NUMBER - COUNT - LENGTH
    name = ink.wrapped(item.name + _work(item, system), part - 1.5, ink.SMALL)
    texts = [Text(NUMBER + 1.0, base + n * lead, words, "table") for n, words in enumerate(name)]
    texts.append(ending_at(NUMBER - 1.0, base, str(item.number), "table", weight=ink.BOLD))
    texts.append(ending_at(NUMBER + part + COUNT, base, _count(item, system), "table"))
    if not math.isnan(item.length):
        length = ink.typeset(units.show(item.length, "part", system))
        texts.append(ending_at(column, base, length, "table", weight=ink.BOLD))
    return Row(tuple(texts), base + (len(name) - 1) * lead + 1.5)


def _work(item: Item, system: str) -> str:
    """What is done to a piece: cut and threaded, drilled."""
    done = ["cut and thread"] if item.cut else []
    done += [f"drill {item.holes} x {units.show(HOLE, 'part', system)}"] if item.holes else []
    return f"; {', '.join(done)}" if done else ""


def _count(item: Item, system: str) -> str:
    return units.show(item.count, "length", system) if item.by_length else f"{item.count:g}"


def _notes(stand: Stand, items: Sequence[Item], system: str) -> Iterator[str]:
    if any(not math.isnan(item.length) for item in items):
        yield "Cut length is from end to end, threads and all. Nipples are bought at that length."
    if not stand.tips and not math.isnan(stand.inlet_height):
        height = units.show(stand.inlet_height, "depth", system)
        yield f"Hangs with its entrance {height} over the bed."
    ballast = math.fsum(placed.mass for placed in stand.placed if placed.role == "ballast")
    if ballast:
        pieces = sum(placed.role == "ballast" for placed in stand.placed)
        mass = units.show(ballast, "mass", system)
        yield f"Ballast: {pieces} pieces, {mass} in all, strapped low on the legs from the tip inward, one on another."
    step = "1 mm" if system == "SI" else "1/16 in"
    yield f"Each dimension is rounded to {step} by itself: measure, do not add them up."


def _cautions(stand: Stand) -> tuple[str, ...]:
    return ((WET if stand.wet else DRY) if stand.tips else HANGING, *ALWAYS)


def _bullet(words: str, column: float, colour: str = ink.INK) -> Row:
    dash = Text(0.0, ink.rise(ink.SMALL), "\u2013", "prose", colour=ink.SOFT)
    words = words[:1].upper() + words[1:]
    return paragraph([Run(ink.typeset(words), colour=colour)], column, indent=2.6, before=[dash])
