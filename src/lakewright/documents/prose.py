"""Paragraphs and columns: words of several looks, wrapped by measured width and set in rows that never overlap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from lakewright.documents import ink
from lakewright.documents.scene import Circle, Path, Scene, Text


@dataclass(frozen=True)
class Run:
    """Words of one look."""

    words: str
    weight: str = ink.REGULAR
    colour: str = ink.INK


@dataclass(frozen=True)
class Row:
    """Shapes from 0, 0 down, and how high they are."""

    shapes: tuple[Path | Circle | Text, ...]
    height: float


@dataclass
class Block:
    """A heading and its rows."""

    title: str
    rows: list[Row] = field(default_factory=list)


def paragraph(
    runs: Sequence[Run],
    width: float,
    size: float = ink.SMALL,
    indent: float = 0.0,
    before: Sequence[Path | Circle | Text] = (),
    after: float = 0.9,
) -> Row:
    """Runs of words in lines of at most a width [mm], all of them indented."""
    lead = ink.leading(size)
    texts: list[Text] = []
    x, y = indent, ink.rise(size)
    for run in runs:
        for word in ink.plain(run.words).split(" "):
            for piece in ink.wrapped(word, width - indent, size, run.weight):
                long = ink.width(piece, size, run.weight)
                if x > indent and x + long > width:
                    x, y = indent, y + lead
                texts.append(Text(x, y, piece, "prose", size, run.weight, run.colour))
                x += long + ink.width(" ", size, run.weight)
    return Row((*before, *_joined(texts, size)), y + ink.DESCENT * size * ink.POINT + after)


def _joined(texts: Sequence[Text], size: float) -> list[Text]:
    """Neighbours of one look on one line as one text."""
    joined: list[Text] = []
    for text in texts:
        last = joined[-1] if joined else None
        if last and (last.y, last.weight, last.colour) == (text.y, text.weight, text.colour):
            longer = f"{last.words} {text.words}"
            if abs(last.x + ink.width(longer, size, last.weight) - text.x - text.width) < 0.01:
                joined[-1] = Text(last.x, last.y, longer, last.role, size, last.weight, last.colour)
                continue
        joined.append(text)
    return joined


def heading(words: str) -> Row:
    """The title of a block."""
    base = ink.rise(ink.HEAD)
    return Row((Text(0.0, base, words, "heading", ink.HEAD, ink.BOLD),), base + 2.1)


Column = list[Row]


def flowed(blocks: Sequence[Block], columns: int, height: float, apart: bool = False) -> list[Column] | None:
    """Blocks one after another down the columns, the last in a column of its own where it is to stand apart.

    Nothing where they do not fit.
    """
    filled: list[Column] = [[]]
    used = 0.0
    for block in blocks:
        rows = [heading(block.title), *block.rows]
        for n, row in enumerate(rows):
            space = 2.0 if n == 0 and used > 0.0 else 0.0
            # A heading is never the last thing in a column.
            need = row.height + space + (rows[1].height if n == 0 and len(rows) > 1 else 0.0)
            if used > 0.0 and (used + need > height or (apart and n == 0 and block is blocks[-1])):
                filled.append([])
                used, space = 0.0, 0.0
            if space:
                filled[-1].append(Row((), space))
                used += space
            filled[-1].append(row)
            used += row.height
            if used > height:
                return None
    return filled if len(filled) <= columns else None


def in_order(blocks: Sequence[Block], columns: int, height: float) -> list[Column] | None:
    """Each block in columns of its own, the spare ones going to the longest; nothing where that is too many."""
    counts = [1] * len(blocks)
    while sum(counts) <= columns:
        made = [_even(block, count, height) for block, count in zip(blocks, counts, strict=True)]
        worst = [n for n, columns_made in enumerate(made) if columns_made is None]
        if not worst:
            return [column for columns_made in made if columns_made for column in columns_made]
        counts[worst[0]] += 1
    return None


def _even(block: Block, columns: int, height: float) -> list[Column] | None:
    """A block in so many columns of about one height."""
    rows = [heading(block.title), *block.rows]
    least = sum(row.height for row in rows) / columns
    for share in (1.0, 1.05, 1.1, 1.2, 1.35, 1.6, 2.0):
        limit = min(least * share + 0.01, height)
        found = flowed([block], columns, limit)
        if found is not None:
            # Further columns begin level with the first one's rows.
            top = Row((), heading(block.title).height)
            return [found[0], *([top, *column] for column in found[1:])] if _fits(found, top, height) else None
    found = flowed([block], columns, height)
    top = Row((), heading(block.title).height)
    if found is None or not _fits(found, top, height):
        return None
    return [found[0], *([top, *column] for column in found[1:])]


def _fits(found: Sequence[Column], top: Row, height: float) -> bool:
    return all(sum(row.height for row in column) + top.height <= height + 1e-6 for column in found[1:])


def put(scene: Scene, columns: Sequence[Column], left: float, top: float, width: float, gap: float) -> None:
    """Set columns side by side."""
    for n, column in enumerate(columns):
        y = top
        for row in column:
            scene.add(*(shape.moved(left + n * (width + gap), y) for shape in row.shapes))
            y += row.height
