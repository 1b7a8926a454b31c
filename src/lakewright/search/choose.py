"""From what a search kept to the pick and its shortlist: priced by their bills, and asked every check there is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import Check
from lakewright.job.models import Job
from lakewright.search.circuits import Solved
from lakewright.search.offers import (
    CLEARLY,
    Offer,
    as_offers,
    front,
    hangs_on_a_choice,
    judged,
    margin_of,
    offers_of,
    ranked,
    said_by,
    with_verdicts_of,
)
from lakewright.search.option import said
from lakewright.search.parts import Problem
from lakewright.search.spread import SHORTLIST, Mask, Tally, spread
from lakewright.state.labour import HOUR
from lakewright.stock.load import Stock

ROUNDS, FOR_COMFORT = 6, 4
"""ours: how often what falls short is barred and the rest looked at again, and how often for what lacks comfort alone;
each bars a whole reach of spots."""

OF_THE_STAND = ("spot", "form", "riser", "foot valve", "screen", "stand")
"""Parts that a stand's members, weight and waves hang on."""

SET_APART = ("pump place", "pump")
"""ours: a shop likes a choice of these, not one stand moved by a foot or a pipe of another make."""

CLEAR_HOURS = 2.0
"""ours: work [h] of one person under which two designs are as much bother."""

CLEAR_DOLLARS = 25.0
"""ours: a difference in price, in whole money, over which nobody argues at the counter."""

DEAR = tuple(c for c in CHECKS if c.reach == "picked" and c.force == "must" and hangs_on_a_choice(c))
"""Musts that are asked of a few designs alone, and in which they differ."""


@dataclass(frozen=True)
class Chosen:
    """What a search comes to."""

    tally: Tally
    misses: tuple[Offer, ...]  # the nearest, the least wrong first, where nothing passes
    shortlist: tuple[Offer, ...]  # the pick first; every check was asked of each
    offers: tuple[Offer, ...]  # the pick's rivals of every price, of which not every check was asked
    why: str
    turned_down: tuple[str, ...]  # the musts asked of a few designs alone, for which cheaper ones were passed over


@dataclass
class _Search:
    """A search whose circuits are solved, while the pick is sought."""

    problem: Problem
    solved: Solved
    job: Job
    stock: Stock
    barred: dict[tuple[int, ...], Mask] = field(default_factory=dict)
    turned_down: dict[str, None] = field(default_factory=dict)
    asked: dict[tuple[int, ...], Offer] = field(default_factory=dict)  # every check was asked of these
    good: dict[tuple[int, ...], Offer] = field(default_factory=dict)  # of these no dear must is short

    def settle(self, least: float, rounds: int) -> tuple[list[Offer], bool]:
        """Look for designs all of whose dear musts have at least so much margin: every offer, and whether it was done.

        What falls short is barred with all that is like it, and the rest looked at again. What nobody knows of any of
        them is no reason to choose between them.
        """
        offers: list[Offer] = []
        for _ in range(rounds):
            _, kept, _ = spread(self.problem, self.solved, self.barred)
            offers = offers_of(self.problem, self.job, self.stock, kept)
            found = [self.judged(offer) for offer in _listed(self.problem, offers)]
            told = [check for check in DEAR if not all(math.isnan(margin_of(offer, check)) for offer in found)]
            short = [(o, next((c for c in told if not margin_of(o, c) >= least), None)) for o in found]
            self.good |= {offer.option: offer for offer, check in short if check is None}
            if all(check is None for _, check in short):
                return offers, True
            for offer, check in short:
                if check is not None:
                    self._bar(offer, check, least)
        return offers, False

    def _bar(self, offer: Offer, check: Check, least: float) -> None:
        """Bar what falls short in a check with all that is like it, as far out as it does so.

        ours: the farther out the calmer. Where that is not so a design may be passed over; none that is shown is taken
        on trust, for each is asked by itself.
        """
        places = self._hangs_on(check)
        self.turned_down[check.name] = None
        mask = self.barred.setdefault(places, np.zeros([self.problem.sizes[place] for place in places], dtype=bool))
        if mask[tuple(offer.option[place] for place in places)]:
            return  # one like it has barred it already
        spot, farthest = self.problem.position("spot"), self.problem.sizes[self.problem.position("spot")]
        short, stays = offer.option[spot], farthest
        if spot in places and short + 1 < farthest and not self._falls_short(offer, farthest - 1, check, least):
            stays = farthest - 1
            while stays - short > 1:
                middle = (short + stays) // 2
                if self._falls_short(offer, middle, check, least):
                    short = middle
                else:
                    stays = middle
        at: list[int | slice] = [offer.option[place] for place in places]
        if spot in places:
            at[places.index(spot)] = slice(offer.option[spot], stays)
        mask[tuple(at)] = True

    def _falls_short(self, offer: Offer, spot: int, check: Check, least: float) -> bool:
        """Whether the same design at another spot has less margin too."""
        place = self.problem.position("spot")
        option = (*offer.option[:place], spot, *offer.option[place + 1 :])
        written = said(self.job, said_by(self.problem, option))
        return not margin_of(self.judged(replace(offer, option=option, job=written)), check) >= least

    def judged(self, offer: Offer) -> Offer:
        if offer.option not in self.asked:
            self.asked[offer.option] = judged(offer, self.problem.call_back)
        return with_verdicts_of(offer, self.asked[offer.option], self.problem.call_back)

    def _hangs_on(self, check: Check) -> tuple[int, ...]:
        """The places of the parts on whose choice a check's verdict hangs.

        ours: whether a stand stays hangs on the stand and its spot; how little the line adds to it is left out.
        """
        needs = {need for kind in ("centrifugal", "jet") for need in check.facts_needed(kind)}
        stands = any(need.startswith("members.") for need in needs)
        found = [
            n
            for n, part in enumerate(self.problem.parts)
            if needs & set(part.columns)
            or (stands and part.name in OF_THE_STAND and part.size > 1)
            or (part.name == "pump" and any(needs & set(option.facts) for option in self.problem.pumps))
        ]
        of_the_stand = [n for n in found if self.problem.parts[n].name in OF_THE_STAND]
        return tuple(of_the_stand if stands and of_the_stand else found)


def choose(problem: Problem, solved: Solved, job: Job, stock: Stock) -> Chosen:
    """The pick and its shortlist.

    The pick is the cheapest, call-backs and all, whose every must holds with comfort, those among them that are asked
    of few designs; where there is none, what has the most to spare of all that passes.
    """
    tally, kept, missed = spread(problem, solved)
    if not len(kept):
        misses = tuple(judged(offer, problem.call_back) for offer in as_offers(problem, job, stock, missed))
        return Chosen(tally, misses, (), (), _why_nothing(misses), ())
    search = _Search(problem, solved, job, stock)
    offers, done = search.settle(0.0, ROUNDS)
    # What holds as far as all designs are asked may be tight in what only few are: then the rest is looked at for that.
    if not all(search.judged(offer).margin >= 1.0 for offer in _listed(problem, offers)[:1]):
        easy, done = search.settle(1.0, FOR_COMFORT)
        offers = easy or offers
    good = ranked(search.good.values())
    if not good:
        offers = offers_of(problem, job, stock, kept)
        good = [search.judged(offer) for offer in _listed(problem, offers)]
    pick, why = _pick(good, done)
    rest = [offer for offer in ranked(good) if offer is not pick and len(offer.against) <= len(pick.against)]
    return Chosen(tally, (), (pick, *rest)[:SHORTLIST], tuple(offers), why, tuple(search.turned_down))


def _why_nothing(misses: Sequence[Offer]) -> str:
    if misses:
        return "nothing passes; only one check stands against this one, and it is the least wrong"
    return "nothing passes, and no design has fewer than two checks against it"


def _pick(good: Sequence[Offer], done: bool) -> tuple[Offer, str]:
    """The pick and why: of those that the fewest checks stand against, which may be what nobody knows of any.

    Where the search for what holds in every check was not `done`, a cheaper one may have been passed over.
    """
    fewest = min(len(offer.against) for offer in good)
    best = [offer for offer in good if len(offer.against) == fewest]
    holds = [offer for offer in best if offer.margin >= 1.0]
    most = max(offer.useful for offer in best)
    pick = ranked(holds or [offer for offer in best if offer.useful > most - CLEARLY])[0]
    why = f"the cheapest {'' if done else 'found '}whose every must holds with comfort"
    if not holds:
        why = "none holds with comfort; this is the cheapest of those that have about the most to spare"
    against = ", ".join(check.name.replace("_", " ") for check in pick.against)
    return pick, f"{why}, but for: {against}" if against else why


def _listed(problem: Problem, offers: Sequence[Offer]) -> list[Offer]:
    """As many offers as fit a shortlist: the cheapest that holds, those that no other beats, other kinds."""
    kept = [offer for offer in offers if offer.margin >= 1.0][:1]
    for offer in front(offers):
        if not any(_is_near(offer, other) for other in kept):
            kept.append(offer)
    opened = [part.name for part in problem.open_parts]
    places = [problem.position(name) for name in opened if name in SET_APART or not set(SET_APART) & set(opened)]
    seen = {tuple(offer.option[n] for n in places) for offer in kept}
    for offer in offers:
        kind = tuple(offer.option[n] for n in places)
        if offer.margin >= 1.0 and kind not in seen:
            seen.add(kind)
            kept.append(offer)
    return kept[:SHORTLIST]


def _is_near(one: Offer, other: Offer) -> bool:
    """Whether nothing in price, margin or bother sets two offers clearly apart."""
    hours = abs(one.bother - other.bother) / HOUR
    dollars = abs(one.cost - other.cost) / 100.0
    return abs(one.useful - other.useful) < CLEARLY and hours < CLEAR_HOURS and dollars < CLEAR_DOLLARS
