"""The report on one design: walk from lake to tap, ask every check, put it in words."""

from __future__ import annotations

from lakewright.checks.registry import judge
from lakewright.job.models import Job
from lakewright.report import Report, report
from lakewright.state.assemble import Assembly
from lakewright.state.priced import priced
from lakewright.state.walk import walk
from lakewright.stock.load import Stock


def report_on(job: Job, assembly: Assembly, stock: Stock | None = None) -> Report:
    """Everything about one design of a job, the one whose facts the assembly holds; priced where a stock is given."""
    facts = assembly.facts
    state = walk(facts)
    cost = None if stock is None else priced(job, stock, assembly)
    return report(job, assembly, facts, state, judge(state, facts.limits), cost)
