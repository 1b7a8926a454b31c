"""What a packet may hold besides its sheets of paper: one function and one line in SHEETS each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from lakewright.api.diary_sheets import diary_files
from lakewright.api.everything import everything_files
from lakewright.api.list_sheets import list_files
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.stock.load import Stock

SHEETS: Mapping[str, Callable[[Job, Stock, Assembly, Report], dict[str, bytes]]] = {
    "lists": list_files,
    "calendar": diary_files,
    "everything": everything_files,
}
"""Files by the names they are asked by."""
