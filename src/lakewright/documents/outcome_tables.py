"""What a sweep found, as tables for a spreadsheet and for a program."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping, Sequence

from lakewright.cells import BAR, might_run
from lakewright.errors import AskError


def table_csv(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Rows of text as CSV, a cell that a spreadsheet would take for a formula made inert."""
    out = io.StringIO()
    lines = csv.writer(out, lineterminator="\n")
    lines.writerow(heads)
    lines.writerows([_cell(cell) for cell in row] for row in rows)
    return out.getvalue()


_SIGNED = re.compile(r"[-+][0-9]+(\.[0-9]+)?")


def inert(cell: str) -> str:
    """Words that no spreadsheet takes for a formula."""
    cell = cell.replace("\r", " ")  # the library's writer leaves one bare, and a reader would end the row at it
    return f"{BAR}{cell}" if might_run(cell) else cell


def _cell(cell: str) -> str:
    return cell if _SIGNED.fullmatch(cell) else inert(cell)


def table_parquet(columns: Mapping[str, Sequence[str] | Sequence[float]]) -> bytes:
    """Columns of text or numbers as Parquet.

    Raises
    ------
    AskError where what writes it is not installed
    """
    try:
        import pyarrow as pa
        import pyarrow.parquet as pq
    except ImportError as error:
        raise AskError(
            f"Parquet needs {error.name}, which is not installed; install lakewright with its extra: "
            "pip install 'lakewright[sweep]', or leave --parquet out"
        ) from None
    out = io.BytesIO()
    pq.write_table(pa.table(dict(columns)), out)
    return out.getvalue()
