"""Rows of text as CSV that no spreadsheet runs, and that comes back letter by letter."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from lakewright.cells import BAR, might_run


def inert(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula; `bare` brings it back.

    >>> inert("=1+1"), bare(inert("=1+1")), bare(inert("'so"))
    ("'=1+1", '=1+1', "'so")
    """
    return f"{BAR}{cell}" if might_run(cell) or cell.startswith(BAR) else cell


def bare(cell: str) -> str:
    """A cell as it was before it was made inert."""
    return cell.removeprefix(BAR)


def written(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Rows as CSV under their heads, each line ended by a line feed alone."""
    return "".join(f"{','.join(_quoted(inert(str(cell))) for cell in row)}\n" for row in (head, *rows))


def _quoted(cell: str) -> str:
    # The library's writer leaves a lone carriage return bare, at which its reader ends the row.
    return f'"{cell.replace(chr(34), 2 * chr(34))}"' if set(cell) & set(',"\r\n') else cell


def read(text: str) -> list[tuple[int, list[str]]]:
    """The rows of a CSV, each with the number of its last line, heads first; the lines may end as on any system.

    Raises
    ------
    csv.Error where it is none
    """
    lines = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True)
    return [(lines.line_num, [bare(cell) for cell in row]) for row in lines if row]
