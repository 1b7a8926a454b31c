"""What a sweep found, as tables for a spreadsheet and for a program."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence

from lakewright.errors import AskError


def table_csv(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Rows of text as CSV, a cell that a spreadsheet would take for a formula made inert."""
    out = io.StringIO()
    lines = csv.writer(out, lineterminator="\n")
    lines.writerow(heads)
    lines.writerows([inert(cell) for cell in row] for row in rows)
    return out.getvalue()


def inert(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula; a plain number stays one."""
    if cell[:1] not in ("=", "+", "-", "@", "\t", "\r") or cell[1:].replace(".", "", 1).isdigit():
        return cell
    return f"'{cell}"


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
