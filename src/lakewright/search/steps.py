"""What a little more money buys: two designs side by side, part by part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lakewright.search.choose import Chosen
from lakewright.search.offers import CLEARLY, Offer, judged, ranked
from lakewright.search.parts import Problem


@dataclass(frozen=True)
class Step:
    """From one design to a dearer one with more to spare.

    price [cents]: how much dearer; check: of which the first has the least, its margin there, and the worst margin of
    the second; changes: part, option of the first, option of the second.
    """

    price: int
    check: str
    margin: float
    better: float
    changes: tuple[tuple[str, str, str], ...]


def next_margin(problem: Problem, chosen: Chosen) -> Step | None:
    """The cheapest design that has clearly more to spare than the pick, where the pick has less than comfort."""
    pick = chosen.shortlist[0]
    if pick.margin >= 1.0:
        return None
    known = {offer.option: offer for offer in chosen.shortlist}
    for offer in sorted(chosen.offers, key=lambda one: (one.price, one.option)):
        if offer.useful >= pick.margin + CLEARLY:
            better = known.get(offer.option) or judged(offer, problem.call_back)
            if better.useful >= pick.margin + CLEARLY and len(better.against) <= len(pick.against):
                return _step(problem, pick, better)
    return None


def price_of_comfort(problem: Problem, chosen: Chosen) -> Step | None:
    """What the pick costs over the cheapest design of its shortlist that passes without comfort, and what that buys."""
    pick = chosen.shortlist[0]
    tight = [offer for offer in ranked(chosen.shortlist[1:]) if offer.price < pick.price and offer.margin < 1.0]
    cheapest = min(tight, key=lambda one: (one.price, one.option), default=None)
    return None if cheapest is None or pick.margin < 1.0 else _step(problem, cheapest, pick)


def _step(problem: Problem, one: Offer, other: Offer) -> Step:
    check, margin = one.governing
    return Step(other.price - one.price, check.name, margin, other.margin, changes(problem, one.option, other.option))


def changes(problem: Problem, one: Sequence[int], other: Sequence[int]) -> tuple[tuple[str, str, str], ...]:
    """What differs between two designs: part, option of the one, option of the other."""
    rows = zip(problem.parts, one, other, strict=True)
    return tuple((part.name, part.labels[a], part.labels[b]) for part, a, b in rows if a != b)
