"""A job priced: its bill of parts, and the quote that stands on it."""

from __future__ import annotations

from dataclasses import dataclass

from lakewright.job.models import Job
from lakewright.state.assemble import Assembly
from lakewright.state.bill import Bill, bill_of
from lakewright.state.quote import PartsCost, Quote, quote_of
from lakewright.state.works import works_of
from lakewright.stock.load import Stock


@dataclass(frozen=True, slots=True)
class Priced:
    """What a job is built of, and what it costs."""

    bill: Bill
    quote: Quote


def priced(job: Job, stock: Stock, assembly: Assembly) -> Priced:
    """Price a job: parts, work, what goes with them."""
    bill = bill_of(job, stock, assembly)
    parts = PartsCost(bill.price, bill.in_water, bill.gaps)
    return Priced(bill, quote_of(job, parts, works_of(job, assembly, bill.joints)))
