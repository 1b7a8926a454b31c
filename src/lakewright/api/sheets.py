"""What a packet may hold beside its sheets of paper: one function and one line in SHEETS each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.stock.load import Stock

SHEETS: Mapping[str, Callable[[Job, Stock, Assembly, Report], dict[str, bytes]]] = {}
"""Files by the names they are asked by."""
