"""Cells of a table that no spreadsheet takes for a formula."""

from __future__ import annotations

STARTS = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")
"""What a spreadsheet may take for the start of a formula, the wide forms of other scripts among it. memory: as the
usual advice against formulas in CSV lists them."""

UNSEEN = "\ufeff\u200b \u00a0"
"""ours: what nobody sees before a cell's first letter, and what a spreadsheet may pass over."""

BAR = "'"
"""The mark that bars a cell from being run."""


def might_run(cell: str) -> bool:
    """Whether a spreadsheet might take a cell for a formula.

    >>> might_run("=1+1"), might_run(" @x"), might_run("1-1/2 in")
    (True, True, False)
    """
    return cell.lstrip(UNSEEN).startswith(STARTS)
