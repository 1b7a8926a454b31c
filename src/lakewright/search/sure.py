"""A design that is sure enough: what passes a search, in order of price, until one holds in so many possible truths."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import FAILS
from lakewright.job.models import Job
from lakewright.search.choose import OF_THE_STAND, Chosen
from lakewright.search.circuits import Solved
from lakewright.search.doubt import DEAR_CHECKS, Chance, Doubt, doubt
from lakewright.search.offers import Offer, as_offers, judged
from lakewright.search.parts import Problem
from lakewright.search.sieve import STAGES, Sieve, Sieved, most_failing
from lakewright.search.spread import Candidates, all_passing
from lakewright.search.truths import TRUTHS, offs, points_of, statuses
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.unknowns import Unknown
from lakewright.state.walk import walk
from lakewright.stock.load import Stock

MOST_WALKED = 1 << 15
"""ours: of designs that pass so many, the cheapest, are walked; that is a minute's work."""

AHEAD = 1 << 10
"""ours: designs sieved together."""

PRICED = 16
"""ours: so many that stay are priced by their bills together, as these differ from the estimate by some dollars."""

ASKED = 1 << 10
"""ours: truths in which a design that stays is asked every check; one that may be sure enough is asked in all."""

MOST_ASKED = 32
"""ours: designs that are priced and asked every check; past that the walk ends without one."""

GLANCE = 1 << 6
"""ours: truths in which the dear checks are asked first."""

NEXT_BEST = 4
"""ours: where none is sure enough, of those that were dropped so many that held most often are asked every check."""

UnknownsOf = Callable[[Assembly], tuple[Unknown, ...]]


@dataclass(frozen=True)
class Asked:
    """A design of which every check was asked in many truths."""

    offer: Offer
    doubt: Doubt

    @property
    def chance(self) -> float:
        """Share of the truths in which every must holds, those that nobody can judge left out."""
        return self.doubt.job.chance


@dataclass(frozen=True)
class Walked:
    """What a walk in order of price came to.

    sure : share of the truths that was wanted
    pick : what the search picks, asked too; found : the cheapest that is sure enough; none where no design is
    best : the surest of all that were asked every check; held_back : the musts that hold it back, the worst first, and
    whether anything that is open could change them
    over : cheaper ones that were asked every check and are not sure enough, cheapest first
    passing : designs that pass the search; looked : so many of them were looked at, the cheapest
    dropped : of those, as few truths showed that they cannot be sure enough, and the least and the largest share held
    turned_down : must checks of the stand for which designs were passed over after a glance
    """

    sure: float
    pick: Asked
    found: Asked | None
    best: Asked
    held_back: tuple[tuple[Chance, bool], ...]
    over: tuple[Asked, ...]
    passing: int
    looked: int
    dropped: int
    dropped_shares: tuple[float, float]
    turned_down: tuple[str, ...]


@dataclass
class _Walk:
    """A walk under way."""

    problem: Problem
    job: Job
    stock: Stock
    asked_job: Assembly
    unknowns_of: UnknownsOf
    sure: float
    seed: int
    usual_against: frozenset[str]  # musts that nobody can judge of the pick either
    done: dict[tuple[int, ...], Asked] = field(default_factory=dict)
    barred: set[tuple[int, ...]] = field(default_factory=set)  # stands that fall short, by the options of their parts
    turned_down: dict[str, None] = field(default_factory=dict)
    looked: int = 0
    dropped: list[tuple[Candidates, Sieved]] = field(default_factory=list)

    def survivors(self, passing: Candidates) -> Iterator[Candidates]:
        """Designs that few truths do not show to fall short, in order of price, some at a time."""
        unknowns = self.unknowns_of(self.asked_job)
        sieve = Sieve(self.problem, unknowns, offs(unknowns, points_of(unknowns, STAGES[-1], self.seed)), self.sure)
        for start in range(0, len(passing), AHEAD):
            some = passing.take(np.arange(start, min(start + AHEAD, len(passing))))
            found = sieve.sieved(some.options)
            self.looked += len(some)
            out = np.flatnonzero(~found.stays)
            self.dropped.append((some.take(out), found.take(out)))
            left = some.take(np.flatnonzero(found.stays))
            for first in range(0, len(left), PRICED):
                yield left.take(np.arange(first, min(first + PRICED, len(left))))

    def stand_of(self, option: Sequence[int]) -> tuple[int, ...]:
        return tuple(n for part, n in zip(self.problem.parts, option, strict=True) if part.name in OF_THE_STAND)

    def offers(self, some: Candidates) -> list[Offer]:
        kept = [n for n, option in enumerate(some.options.tolist()) if self.stand_of(option) not in self.barred]
        found = as_offers(self.problem, self.job, self.stock, some.take(np.array(kept, dtype=np.intp)))
        return sorted((offer for offer in found if not offer.gaps), key=lambda one: (one.price, one.option))

    def asked(self, offer: Offer, glance: bool = True) -> Asked | None:
        """Every check asked of a design; none where it does not pass, or a glance shows that it is not sure enough."""
        if offer.option in self.done:
            return self.done[offer.option]
        if self.stand_of(offer.option) in self.barred:
            return None
        offer = judged(offer, self.problem.call_back)
        if {check.name for check in offer.against} - self.usual_against:
            return None
        built = self.built(offer)
        unknowns = self.unknowns_of(built)
        if glance and not self._stands(offer, built, unknowns):
            return None
        found = Asked(offer, doubt(built.facts, unknowns, self.seed, ASKED))
        self.done[offer.option] = found
        return found

    def is_hopeless(self, pick: Asked) -> bool:
        """Whether some must that nothing that is open changes holds too seldom for any design."""
        return any(
            chance.chance + 3.0 * chance.error < self.sure and not hangs_on_an_open_part(self.problem, chance.check)
            for chance in held_back_by(pick.doubt)
        )

    def in_all(self, offer: Offer, truths: int) -> Asked:
        """A design asked in all truths; the pick and what is found are shown with that."""
        built = self.built(offer)
        self.done[offer.option] = Asked(offer, doubt(built.facts, self.unknowns_of(built), self.seed, truths))
        return self.done[offer.option]

    def ask_the_next_best(self) -> None:
        """Ask every check of those dropped that held most often: one of them may be the surest there is."""
        # ours: held so often, less what so few truths may have flattered it by.
        surely = [found.share - 1.0 / np.sqrt(found.truths) for _, found in self.dropped]
        best = np.argsort(-np.concatenate(surely or [np.empty(0)]), kind="stable")[:NEXT_BEST]
        start = 0
        for some, _ in self.dropped:
            mine = best[(best >= start) & (best < start + len(some))] - start
            start += len(some)
            for offer in self.offers(some.take(np.sort(mine))):
                self.asked(offer, glance=False)

    def built(self, offer: Offer) -> Assembly:
        built = facts_of(offer.job, offer.stock)
        return replace(built, assumed=(*self.asked_job.assumed, *built.assumed))

    def _stands(self, offer: Offer, built: Assembly, unknowns: Sequence[Unknown]) -> bool:
        """Whether a glance at the dear musts leaves hope; a stand that falls short bars all designs with it."""
        musts = [check for check in DEAR_CHECKS if check.force == "must"]
        off = offs(unknowns, points_of(unknowns, GLANCE, self.seed))
        fails = statuses(built.facts, unknowns, off, walk, musts) == FAILS
        if fails.any(axis=1).sum() <= most_failing(GLANCE, self.sure):
            return True
        still = [n for n, check in enumerate(musts) if check.block == "still"]
        if fails[:, still].any(axis=1).sum() > most_failing(GLANCE, self.sure):
            self.barred.add(self.stand_of(offer.option))
        self.turned_down |= {check.name: None for n, check in enumerate(musts) if fails[:, n].any()}
        return False


def held_back_by(found: Doubt) -> list[Chance]:
    """The musts that do not always hold, the worst first."""
    return sorted((one for one in found.checks if one.force == "must" and one.chance < 1.0), key=lambda one: one.chance)


def hangs_on_an_open_part(problem: Problem, name: str) -> bool:
    """Whether some part that is open changes a fact that a check rests on."""
    check = next(check for check in CHECKS if check.name == name)
    needs = {need for option in problem.pumps for need in check.facts_needed(option.kind)}
    moved = {fact for part in problem.open_parts for fact in part.columns}
    moved |= {fact for option in problem.pumps for fact in option.facts} if len(problem.pumps) > 1 else set()
    # What waves do to a stand hangs on its place, whatever it is built of.
    stands = any(part.name in OF_THE_STAND for part in problem.open_parts)
    return bool(needs & moved) or (stands and any(need.startswith("members.") for need in needs))


def walk_to_sure(
    problem: Problem,
    solved: Solved,
    chosen: Chosen,
    job: Job,
    stock: Stock,
    assembly: Assembly,
    unknowns_of: UnknownsOf,
    seed: int = 0,
    truths: int = TRUTHS,
) -> Walked:
    """Walk what passes a search in order of price until one design is sure enough, all in the same truths.

    Parameters
    ----------
    chosen : what the search came to, with a pick
    assembly : of the job as asked
    unknowns_of : what nobody knows of a design
    truths : in which the design that is found, and the pick, are asked every check; a power of two

    Returns
    -------
    Walked. Where a must that nothing open changes already holds too seldom there is no walk. Designs are dropped early
    where one that is sure enough would fail so often once in a thousand times at most; a stand that falls short at a
    glance is not looked at again.
    """
    pick = chosen.shortlist[0]
    usual = frozenset(check.name for check in pick.against)
    state = _Walk(problem, job, stock, assembly, unknowns_of, problem.facts.limits.sure_enough, seed, usual)
    state.asked_job = state.built(pick)
    first = state.asked(pick, glance=False)
    assert first is not None, "a pick that the search took as it is"
    first = state.in_all(first.offer, truths)
    passing = all_passing(problem, solved, MOST_WALKED)
    found = None
    if state.is_hopeless(first):
        # No choice helps: of what the search offers, the surest is named.
        passing = passing.take(np.arange(0))
        for offer in chosen.shortlist[1:]:
            state.asked(offer, glance=False)
    for some in state.survivors(passing):
        for offer in state.offers(some):
            each = state.asked(offer)
            if each is not None and each.chance + 2.0 * each.doubt.job.error >= state.sure:
                each = state.in_all(each.offer, truths)
                found = each if each.chance >= state.sure else None
            if found is not None:
                break
        if found is not None or len(state.done) >= MOST_ASKED:
            break
    if found is None:
        state.ask_the_next_best()
    shares = np.concatenate([dropped.share for _, dropped in state.dropped] or [np.empty(0)])
    over = sorted(state.done.values(), key=lambda one: (one.offer.price, one.offer.option))
    best = found or max(over, key=lambda one: (one.chance, -one.offer.price))
    if found is None and best.offer.option != first.offer.option:
        # What few truths flattered is asked in all before it is named.
        best = max(state.in_all(best.offer, truths), first, key=lambda one: one.chance)
    return Walked(
        sure=state.sure,
        pick=first,
        found=found,
        best=best,
        held_back=tuple((each, hangs_on_an_open_part(problem, each.check)) for each in held_back_by(best.doubt)),
        over=tuple(one for one in over if found is None or one.offer.price < found.offer.price),
        passing=chosen.tally.passing,
        looked=state.looked,
        dropped=len(shares),
        dropped_shares=(float(shares.min()), float(shares.max())) if len(shares) else (np.nan, np.nan),
        turned_down=tuple(state.turned_down),
    )
