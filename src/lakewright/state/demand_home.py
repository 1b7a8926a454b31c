"""What a home draws: fixtures by their units, bathrooms by practice, people by the day's peak."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from lakewright.job.models import Job
from lakewright.job.models_need import Need
from lakewright.job.quantity import value_of
from lakewright.physics.demand import peak_allowance, peak_flow
from lakewright.state.demand_tables import (
    FAMILIES,
    FLOWS_SOURCE,
    UNITS_SOURCE,
    Family,
    Figure,
    Toilets,
    allowances,
    chart_of,
    figures,
    fixtures,
    rests_on_memory,
)
from lakewright.state.demand_work import DemandLine, Work, quoted
from lakewright.state.gather import one

HOSE = "hose bib"
BATH, KITCHEN = "bathroom group", "kitchen sink"
BATH_HOLDS = ("lavatory", "toilet", "bathtub")


def home_flow(job: Job, counts: Mapping[str, int], alone: bool, work: Work) -> float | None:
    """Flow the home draws, by the most that is known of it; None where the job speaks of other uses only.

    Fixtures by name go by the table, in a quote with practice's flow for the bathrooms as the least. Bathrooms alone
    go by practice in a quote, by the table in a build; people alone by the day's peak.
    """
    need = job.need
    asked = {name: count for name, count in counts.items() if fixtures()[name].units and name != HOSE and count}
    inside = _with_rooms(need, counts)
    rooms = bool(need.baths or need.kitchens)
    if asked or rooms:
        _show_others(inside, need.hose == "yes", work)
        if not work.quote or (asked and not rooms):
            return _by_table(inside, work.family, work.lines, work)
        if not asked:
            _show(inside, work.family, work)
            return work.practice(_practice(need), work.lines)
        by_table, said = _by_table(inside, work.family, work.lines, work), list[DemandLine]()
        practice = work.practice(_practice(need), said)
        (work.lines if practice > by_table else work.beside).extend(said)
        return float(np.maximum(by_table, practice))
    if need.people is not None:
        peak = peak_of_people(job, work.lines)
        return max(peak, work.practice(_practice(need), work.lines)) if work.quote else peak
    if not alone:
        return None
    return work.practice(_practice(need), work.lines) if work.quote else work.lack("[need] flow is not given")


def _practice(need: Need) -> str:
    return "need.flow, two baths" if (need.baths or 0) > 1 else "need.flow, one bath"


def _with_rooms(need: Need, counts: Mapping[str, int]) -> dict[str, int]:
    """Fixtures by name, those of bathrooms and kitchens among them."""
    rooms = {BATH: need.baths or 0, KITCHEN: need.kitchens or 0}
    every = {name: counts.get(name, 0) + rooms.get(name, 0) for name in (*rooms, *counts)}
    if need.hose == "yes" and every.get(HOSE):
        every[HOSE] -= 1  # the one that runs on is added as it is
    return {name: count for name, count in every.items() if count}


def _by_table(inside: Mapping[str, int], family: Family, lines: list[DemandLine], work: Work | None) -> float:
    """Flow by one family's units and flows. Without `work`, a fixture that is not in its list makes it nan."""
    total = 0.0
    for name, count in inside.items():
        row = fixtures()[name]
        if family in row.units:
            sum_of = row.units_of(family, count)
            why = "fixture units" + (", remembered" if row.standing[family] == "remembered" else "")
            lines.append(DemandLine(f"{name}, {count}", sum_of, "count", UNITS_SOURCE[family], why))
            total += sum_of
        elif row.units and not row.steady and work is None:
            return math.nan
        elif row.units and not row.steady and work is not None:
            listed = ", ".join(row.name for row in fixtures().values() if family in row.units)
            found = f"{quoted(name)}, which the list of the {FAMILIES[family]}, does not have"
            remedy = "write the one nearest in kind"
            work.refuse("fixtures", name, found, f"a fixture of that list: {listed}", remedy)
    toilets: Toilets = "flush valve" if any(fixtures()[name].flush_valve for name in inside) else "tank"
    chart = chart_of(family, toilets)
    flow = float(peak_flow(one(total), chart)[0])
    if math.isnan(flow) and work is not None:
        work.lack(f"[need.fixtures] sum to {total:g} units, and the table ends at {chart.last[0]:g}: give [need] flow")
    why = f"{total:g} units, toilets with {'flush valves' if toilets == 'flush valve' else 'tanks'}"
    why += ", between remembered rows" if rests_on_memory(family, toilets, total) else ""
    lines.append(DemandLine(f"fixtures at once, {FAMILIES[family]}", flow, "flow", FLOWS_SOURCE[family], why))
    return flow


def _show(inside: Mapping[str, int], family: Family, work: Work) -> None:
    """What a family would say, beside what is taken."""
    lines: list[DemandLine] = []
    if not math.isnan(_by_table(inside, family, lines, None)):
        work.beside.append(lines[-1])


def _show_others(inside: Mapping[str, int], hose_runs: bool, work: Work) -> None:
    """What the other family and the allowance would say."""
    _show(inside, "B" if work.family == "A" else "A", work)
    uses = {**inside, **({HOSE: inside.get(HOSE, 0) + 1} if hose_runs else {})}
    baths = uses.pop(BATH, 0)
    for name in BATH_HOLDS if baths else ():
        uses[name] = uses.get(name, 0) + baths
    names, table = allowances()
    if uses and set(uses) <= set(names):
        counts = np.array([[float(uses.get(name, 0)) for name in names]])
        flow, why = float(peak_allowance(counts, table)[0]), "allowances, the largest use of each group in full"
        work.beside.append(DemandLine("peak demand allowance", flow, "flow", "farm-home-pages", why))


def per_person(job: Job) -> Figure:
    return figures()["person, in season" if job.need.season in ("hauled", "drained") else "person, all year"]


def peak_of_people(job: Job, lines: list[DemandLine]) -> float:
    """Flow that brings the day's use of the people in the day's peak."""
    people, person, peak = value_of(job.need.people), per_person(job), figures()["peak of the day"]
    volume = people * person.value
    lines.append(DemandLine(f"{people:g} people, a day", volume, "volume", person.source, person.why))
    lines.append(DemandLine("people, at the peak", volume / peak.value, "flow", peak.source, peak.why))
    return volume / peak.value
