"""The lists of a job, as a spreadsheet and as CSV."""

from __future__ import annotations

from lakewright.documents.lists import LEVELS, Table, cut_table, making_table, parts_table, price_table
from lakewright.documents.paper import mark_of
from lakewright.documents.workbook import table_csv, xlsx
from lakewright.errors import AskError
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.state.bill import bill_of
from lakewright.state.cut_list import knocked_down, making_of
from lakewright.state.stand import stand_of
from lakewright.stock.load import Stock


def list_files(job: Job, stock: Stock, assembly: Assembly, report: Report) -> dict[str, bytes]:
    """Parts, cut list, what it takes and price as one XLSX, each as a CSV too, by the end of each file’s name.

    Raises
    ------
    AskError where nothing is priced, or what writes a spreadsheet is not installed
    """
    tables = tables_of(job, stock, assembly, report)
    named = {f"{table.name.lower().replace(' ', '-')}.csv": table_csv(table).encode("utf-8") for table in tables[1:]}
    book = xlsx(tables, report.title or "Job", mark_of(report), job.job.date, report.units)
    return {"lists.xlsx": book, **named}


def tables_of(job: Job, stock: Stock, assembly: Assembly, report: Report) -> tuple[Table, ...]:
    """The lists of a job as tables, the parts first.

    Raises
    ------
    AskError where nothing is priced
    """
    if report.priced is None:
        raise AskError("no lists: no suction pump will do here, so nothing is built and nothing priced")
    own = job.price.level or "counter"
    bills = {
        level: report.priced.bill if level == own else bill_of(_at(job, level), stock, assembly) for level in LEVELS
    }
    stand = stand_of(job, stock, assembly)
    return (
        parts_table(bills, own, stock, report.units),
        cut_table(making_of(stand, stock), report.units),
        making_table(making_of(stand, stock), knocked_down(stand), report.units),
        price_table(report.priced.quote),
    )


def _at(job: Job, level: str) -> Job:
    """The same job at the prices of a level."""
    return job.model_copy(update={"price": job.price.model_copy(update={"level": level})})
