"""Where nothing passes: what the nearest miss lacks, and the cheapest change to what the job names that saves it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import Check
from lakewright.errors import JobError
from lakewright.search.circuits import solve
from lakewright.search.offers import Offer, offers_of
from lakewright.search.option import open_quantity, said
from lakewright.search.options import problem_of
from lakewright.search.parts import Problem
from lakewright.search.spread import spread
from lakewright.state.assemble import facts_of
from lakewright.state.gather import OPEN

FIELDS: Mapping[str, tuple[str, Any]] = {
    "spot": ("stand.at", open_quantity()),
    "riser": ("stand.riser", open_quantity()),
    "foot valve": ("stand.inlet.stock", OPEN),
    "screen": ("stand.inlet.screen", OPEN),
    "line": ("suction.stock", OPEN),
    "pump": ("pump.stock", OPEN),
    "flow control": ("delivery.flow_control", open_quantity()),
    "delivery": ("delivery.stock", OPEN),
    "tank": ("delivery.tank", OPEN),
}
"""The field of the job file that names each part, and how it is left open. Form and pump place are not among them: so
much hangs on them that they are no change to make for one check."""


@dataclass(frozen=True)
class Saving:
    """What saves a near miss.

    check: what stands against it; lacks: how far its value is from the limit, in the unit of the check, nan where it is
    unknown; changes: part, what it has, what would do, the part that is not left open first; price [cents]: how much
    dearer. No changes where no other option of one part saves it.
    """

    check: Check
    lacks: float
    changes: tuple[tuple[str, str, str], ...] = ()
    price: int = 0


def saving_of(problem: Problem, miss: Offer) -> Saving:
    """What a design lacks against which one must stands, and the cheapest other option of one part the job names.

    The tank, which no flow feels, is chosen anew with it where the job leaves it open.
    """
    check = miss.against[0]
    verdict = miss.verdicts[CHECKS.index(check)]
    lacks = abs(float(verdict.value[()]) - float(verdict.limit[()]))
    tried = {part.name for part in problem.open_parts}
    has = {part.name: part.labels[n] for part, n in zip(problem.parts, miss.option, strict=True)}
    ways = []
    for part in FIELDS:
        if part not in tried and has.get(part, "as given") != "none":
            for offer, opened in _saved(miss, part, again=("tank",) if "tank" in tried else ()):
                ways.append((offer.price, _changes(has, opened, offer.option, part)))
    if not ways:
        return Saving(check, lacks)
    price, changes = min(ways)
    return Saving(check, lacks, changes, price - miss.price)


def _saved(miss: Offer, part: str, again: Sequence[str]) -> list[tuple[Offer, Problem]]:
    """The cheapest design that passes with one part of a near miss, and those chosen again, open; none or one."""
    if part == "spot" and miss.job.suction.length is not None:
        return []  # the line given would not reach
    job = said(miss.job, {FIELDS[name][0]: FIELDS[name][1] for name in (part, *again)})
    try:
        problem = problem_of(job, miss.stock, facts_of(job, miss.stock, weighted=False))
    except JobError:
        return []
    _, kept, _ = spread(problem, solve(problem))
    offers = offers_of(problem, job, miss.stock, kept)
    return [(offer, problem) for offer in sorted(offers, key=lambda one: (one.price, one.option))[:1]]


def _changes(
    has: Mapping[str, str], problem: Problem, option: Sequence[int], first: str
) -> tuple[tuple[str, str, str], ...]:
    """What of a near miss is changed."""
    opened = {part.name: part.labels[n] for part, n in zip(problem.parts, option, strict=True) if part.size > 1}
    changed = [(name, has.get(name, "as given"), label) for name, label in opened.items() if label != has.get(name)]
    return tuple(sorted(changed, key=lambda change: change[0] != first))
