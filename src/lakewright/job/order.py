"""The order of a job file's rows: two neighbours change places, and every other byte stays as it was."""

from __future__ import annotations

from copy import deepcopy

from lakewright.errors import AskError
from lakewright.job.layout import Layout, Path
from lakewright.job.read import toml_data
from lakewright.job.write import keys_of, value_at

WAYS = {"earlier": -1, "later": 1}
"""Which neighbour a row changes places with."""


def moved(text: str, dotted: str, way: str) -> str:
    """The text with one row before or after its neighbour; where it has none on that side, as it was.

    Parameters
    ----------
    dotted : the row, counted from 1: `treatment.steps.2`
    way : one of `WAYS`

    Raises
    ------
    AskError where there is no such row, or it cannot be moved in place
    """
    keys = keys_of(dotted)
    number = keys[-1]
    if not isinstance(number, int) or way not in WAYS:
        raise AskError(f"{dotted} {way} is no row and a way such as treatment.steps.2 earlier")
    try:
        data, layout = deepcopy(toml_data(text)), Layout(text)  # what is read is kept for others: a copy
    except (ValueError, IndexError, RecursionError) as problem:
        raise AskError(f"the file is not TOML, so no row in it can be moved: {problem}") from None
    found = value_at(data, keys[:-1])
    rows = found if isinstance(found, list) else []
    if number >= len(rows):
        raise AskError(f"{dotted}: there are {len(rows)} rows")
    other = number + WAYS[way]
    if not 0 <= other < len(rows):
        return text
    first, second = sorted((number, other))
    (start, end), (begin, stop) = (_span(text, (*keys[:-1], n), layout) for n in (first, second))
    changed = text[:start] + text[begin:stop] + text[end:begin] + text[start:end] + text[stop:]
    rows[first], rows[second] = rows[second], rows[first]
    if end > begin or _read(changed) != repr(data):
        raise AskError(f"{dotted} cannot be moved in place in this file; move it by hand")
    return changed


def _span(text: str, row: Path, layout: Layout) -> tuple[int, int]:
    """Where a row begins and ends: an item in brackets, or headers with what is under them and the remarks above."""
    if row in layout.items:
        return layout.items[row]
    blocks = [block for block in layout.blocks if block.path[: len(row)] == row]
    if not blocks:
        return (0, len(text))
    start = text.rfind("\n", 0, blocks[0].start) + 1
    while start and text[text.rfind("\n", 0, start - 1) + 1 : start].lstrip().startswith("#"):
        start = text.rfind("\n", 0, start - 1) + 1
    end = text.find("\n", max(block.end for block in blocks))
    return start, len(text) if end < 0 else end


def _read(text: str) -> str:
    """What a text says, in words that can be laid beside another's; as such, nan equals itself."""
    try:
        return repr(toml_data(text))
    except ValueError:
        return ""
