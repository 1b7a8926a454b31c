"""The few designs that may be offered: each written in the job and priced by its own bill."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from lakewright.checks.registry import CHECKS, judge
from lakewright.checks.verdict import HOLDS, NOT_ASKED, TIGHT, Check, Verdict
from lakewright.job.models import Job
from lakewright.search.option import said
from lakewright.search.parts import Problem
from lakewright.search.spread import FEW, Candidates, cost_of
from lakewright.state.assemble import facts_of
from lakewright.state.bother import bother_of
from lakewright.state.priced import priced
from lakewright.state.walk import walk
from lakewright.stock.load import Stock

MOST_PRICED = FEW
"""ours: designs priced by their bills, the cheapest by the search's estimate; half a second's work."""

CLEARLY = 0.25
"""ours: a margin better by a quarter of what a careful person wants is clearly better; less is noise."""


AS_THEY_ARE = frozenset({"site", "weather", "days", "drinking", "need", "faults"})
"""Tables of facts that no choice of a design changes: the site, who drinks, and what the authority says of it."""


def hangs_on_a_choice(check: Check) -> bool:
    """Whether one design may have more to spare in a check than another."""
    needs = (need for kind in ("centrifugal", "jet") for need in check.facts_needed(kind))
    return any(need.partition(".")[0] not in AS_THEY_ARE for need in needs)


@dataclass(frozen=True, eq=False)
class Offer:
    """One design, priced by its bill."""

    option: tuple[int, ...]  # of each part
    job: Job  # with its choices written in
    stock: Stock
    price: int  # cents, of all of it
    at_least: bool  # whether the price lacks something nobody has said
    gaps: tuple[str, ...]  # what of its parts does not join or cannot be had
    bother: float  # s of one person
    margin: float  # the worst of the musts asked so far
    call_back: float  # cents expected
    verdicts: tuple[Verdict, ...] = ()  # of every check, once all are asked

    @property
    def cost(self) -> float:
        """Price and expected call-back [cents]."""
        return self.price + self.call_back

    @property
    def useful(self) -> float:
        """The margin; what is past comfort buys nothing."""
        return min(self.margin, 1.0)

    @property
    def against(self) -> tuple[Check, ...]:
        """The musts that fail or are unknown."""
        pairs = zip(CHECKS, self.verdicts, strict=True)
        passed = (HOLDS, TIGHT, NOT_ASKED)
        return tuple(check for check, v in pairs if check.force == "must" and int(v.status[()]) not in passed)

    @property
    def governing(self) -> tuple[Check, float]:
        """Of the musts that are known and hang on a choice, the one that has the least to spare, and its margin."""
        musts = [
            (check, float(verdict.margin[()]))
            for check, verdict in zip(CHECKS, self.verdicts, strict=True)
            if check.force == "must" and hangs_on_a_choice(check)
        ]
        return min((one for one in musts if not math.isnan(one[1])), key=lambda one: one[1])


def offers_of(problem: Problem, job: Job, stock: Stock, some: Candidates) -> list[Offer]:
    """Designs as offers, in order of price and expected call-back; one with parts that do not join is none."""
    found = as_offers(problem, job, stock, some.take(np.arange(min(len(some), MOST_PRICED))))
    fewest = min((len(offer.gaps) for offer in found), default=0)
    return ranked(offer for offer in found if len(offer.gaps) == fewest)


def as_offers(problem: Problem, job: Job, stock: Stock, some: Candidates) -> list[Offer]:
    """Designs, each written in the job and priced by its bill."""
    return [_offer(problem, job, stock, some, n) for n in range(len(some))]


def said_by(problem: Problem, option: Sequence[int]) -> dict[str, Any]:
    """What a design writes in the job, by dotted name."""
    says: dict[str, Any] = {}
    for part, n in zip(problem.parts, option, strict=True):
        says |= part.says[n]
    return says


def _offer(problem: Problem, job: Job, stock: Stock, some: Candidates, n: int) -> Offer:
    option = tuple(int(each) for each in some.options[n])
    written, margin = said(job, said_by(problem, option)), float(some.margin[n])
    built = facts_of(written, stock, weighted=False)
    cost = priced(written, stock, built)
    return Offer(
        option=option,
        job=written,
        stock=stock,
        price=cost.quote.total,
        at_least=bool(cost.quote.missing or cost.bill.gaps),
        gaps=cost.bill.gaps,
        bother=bother_of(written, built, cost.bill),
        margin=margin,
        call_back=_call_back(margin, problem.call_back),
    )


def _call_back(margin: float, visit: float) -> float:
    return float(cost_of(np.zeros(1), np.array([margin]), visit)[0])


def judged(offer: Offer, visit: float) -> Offer:
    """The offer with every check asked of it, and what call-backs are then expected to cost; a visit is in cents."""
    facts = facts_of(offer.job, offer.stock).facts
    return with_verdicts_of(offer, replace(offer, verdicts=judge(walk(facts), facts.limits)), visit)


def with_verdicts_of(offer: Offer, asked: Offer, visit: float) -> Offer:
    """An offer with the verdicts on the same design."""
    margin = asked.governing[1]
    return replace(offer, verdicts=asked.verdicts, margin=margin, call_back=_call_back(margin, visit))


def margin_of(offer: Offer, check: Check) -> float:
    """The margin of one check, once all are asked; nan where it is unknown."""
    return float(offer.verdicts[CHECKS.index(check)].margin[()])


def ranked(offers: Iterable[Offer]) -> list[Offer]:
    """In order of price and expected call-back, then of margin and of bother; ties fall to the earlier options."""
    return sorted(offers, key=lambda offer: (offer.cost, -offer.useful, offer.bother, offer.option))


def front(offers: Sequence[Offer]) -> list[Offer]:
    """Those that no other beats: none is at most as dear, as tight and as much bother, and better in one of them."""
    return [one for one in offers if not any(_beats(other, one) for other in offers)]


def _beats(one: Offer, other: Offer) -> bool:
    mine, its = ((offer.cost, -offer.useful, offer.bother) for offer in (one, other))
    return mine != its and all(a <= b for a, b in zip(mine, its, strict=True))
