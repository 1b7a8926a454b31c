"""What the sheets of a packet may speak of: the report, the job, and what is worked out for paper alone."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from typing import Any

import numpy as np

from lakewright import units
from lakewright.documents.pick_ticket import picks_of
from lakewright.documents.pump_house import PumpHouse
from lakewright.documents.said import Sayer
from lakewright.documents.shore_sheet import Carried, ShoreTask
from lakewright.gauges import reading_words
from lakewright.haul import haul_words
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.state.cut_list import knocked_down
from lakewright.state.facts import Facts
from lakewright.state.labour import HOUR, stints_of
from lakewright.state.quote import Quote, summary
from lakewright.state.stand import stand_of
from lakewright.state.stated import stated
from lakewright.state.walk import State, walk
from lakewright.state.works import works_of
from lakewright.stock.load import Stock
from lakewright.working import working_of


def sayer_of(job: Job, stock: Stock, assembly: Assembly, report: Report, more: Mapping[str, Any]) -> Sayer:
    """Who gives the sheets of a job their words.

    `more` is what else they may speak of, by name: the options of a search.
    """
    system = report.units
    sources: dict[str, Any] = {"report": report, "job": job, "stated": stated(job)}
    sources["house"] = pump_house(assembly.facts, walk(assembly.facts))
    sources["gauges"] = {
        f"{each.gauge} {each.when}": reading_words(each, system).removeprefix(f"{each.gauge} ")
        for each in report.gauges
    }
    sources["haul"] = haul_words(report.haul, system)
    sources["bundles"] = bundles_of(job, stock, assembly)
    sources["working"] = working_of(assembly, report.findings, assembly.facts.pump_kind, system)
    if report.priced is not None:
        sources["bill"] = report.priced.bill.by_station
        sources["tasks"] = tasks_of(job, assembly, report.priced.bill.joints)
        sources["picks"] = picks_of(report.priced.bill)
        sources["price"] = charges(report.priced.quote)
    return Sayer(system, {**sources, **more})


def bundles_of(job: Job, stock: Stock, assembly: Assembly) -> tuple[Carried, ...]:
    """What of the stand is carried in one piece; nothing where its parts are not known yet."""
    bundles = Counter(
        (each.what, round(each.dry, 6), round(each.wet, 6)) for each in knocked_down(stand_of(job, stock, assembly))
    )
    return tuple(
        Carried(f"{what}, {count} of them" if count > 1 else what, dry, wet)
        for (what, dry, wet), count in bundles.items()
        if dry > 0.0
    )


def tasks_of(job: Job, assembly: Assembly, joints: int) -> tuple[ShoreTask, ...]:
    """The tasks of the day at the shore, with their hours and people."""
    stints = stints_of(works_of(job, assembly, joints), job.price.crew)
    return tuple(
        ShoreTask(
            stint.task.what,
            "not known" if stint.hours is None else units.show(float(stint.hours) * HOUR, "hours", "SI"),
            str(stint.people),
            stint.task.needs,
        )
        for stint in stints
        if stint.task.where == "site"
    )


def charges(quote: Quote) -> tuple[tuple[str, str], ...]:
    """What makes up a price, and last what it comes to; what is not in it and how it is paid stand elsewhere."""
    rows = summary(quote)
    after = bool(quote.missing) + len(quote.excluded) + 2 * (quote.deposit is not None)
    after += quote.valid_until is not None or quote.valid_days is not None
    return rows[: len(rows) - after]


def pump_house(facts: Facts, state: State) -> PumpHouse:
    """The figures of the pump house."""
    first, delivery = state.priming, facts.delivery
    draws = first is not None and bool(first.draws_air.all())
    return PumpHouse(
        draws_air=draws,
        flooded=bool((facts.holding.flooded == 1.0).all()),
        foot_valve=bool((facts.holding.at_inlet == 1.0).all()),
        fill=None if first is None else _known(first.fill),
        prime_time=_known(first.time) if first is not None and draws else None,
        cut_in=_known(delivery.cut_in),
        cut_out=_known(delivery.cut_out),
        precharge=_known(delivery.precharge),
        cut_off=_known(facts.protection.cut_off),
        relief=_known(delivery.relief),
        voltage=_known(facts.power.voltage),
        depth=_known(facts.stand.depth),
        low=_known(np.asarray(facts.days.level.min())),
        pump_height=_known(facts.pump.height),
        flow=_known(facts.need.flow),
    )


def _known(array: Any) -> float | None:
    """The largest of an array; None where it is not known, or no figure."""
    value = float(np.max(array))
    return value if math.isfinite(value) else None
