"""Two hundred small searches against brute force: every candidate judged alone, by the ordinary path, in loops."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

import numpy as np
import pytest

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS, UNKNOWN
from lakewright.job.models import Job
from lakewright.search.circuits import circuits_of, solve
from lakewright.search.option import said
from lakewright.search.parts import Problem
from lakewright.search.spread import FEW, spread
from lakewright.state.assemble import facts_of
from lakewright.state.facts import Facts
from lakewright.state.walk import walk_flow
from lakewright.stock.load import Stock
from tests.search.random_searches import ENDS, drawn
from tests.search.test_search import spread_out

pytestmark = pytest.mark.law

SEARCHES, TOGETHER = 200, 20
MUSTS = {check.name for check in FLOW_CHECKS if check.force == "must"}


@dataclass(frozen=True)
class Candidate:
    """One design, judged alone."""

    option: tuple[int, ...]
    failed: frozenset[str]  # the checks that fail or are unknown
    unknown: frozenset[str]
    margin: float  # the worst of the musts; nan where one is unknown
    price: float
    cost: float

    @property
    def against(self) -> frozenset[str]:
        """The musts among them."""
        return self.failed & MUSTS


def candidates(job: Job, stock: Stock, problem: Problem) -> list[Candidate]:
    """Every design whose parts join, one after the other."""
    return [
        candidate(job, stock, problem, option)
        for option in product(*(range(size) for size in problem.sizes))
        if all(
            pair.joins[option[problem.position(pair.one)], option[problem.position(pair.other)]]
            for pair in problem.pairs
        )
    ]


def candidate(job: Job, stock: Stock, problem: Problem, option: tuple[int, ...]) -> Candidate:
    for part, n in zip(problem.parts, option, strict=True):
        job = said(job, part.says[n])
    facts = facts_of(job, stock, weighted=False).facts
    state, margin = walk_flow(facts), math.inf
    failed, unknown = set(), set()
    for check in FLOW_CHECKS:
        verdict = check.function(getattr(state, check.block), facts.limits)
        if int(verdict.status[()]) in (FAILS, UNKNOWN):
            failed.add(check.name)
        if int(verdict.status[()]) == UNKNOWN:
            unknown.add(check.name)
        if check.force == "must":
            least = float(verdict.margin[()])
            margin = math.nan if math.isnan(margin) or math.isnan(least) else min(margin, least)
    price = price_of(problem, option, facts)
    spare = min(max(margin, 0.0), 1.0)
    cost = price + 0.5 * problem.call_back * (1.0 - spare)
    return Candidate(option, frozenset(failed), frozenset(unknown), margin, price, cost)


def price_of(problem: Problem, option: tuple[int, ...], facts: Facts) -> float:
    suction = float((facts.suction.bed_length[0] + facts.suction.bank_length[0]) * (1.0 + facts.suction.along[0]))
    metres = {"suction": suction, "delivery": float(facts.delivery.length[0]), "": 0.0}
    total = problem.price
    for part, n in zip(problem.parts, option, strict=True):
        total += float(part.price[n])
        if part.line:
            total += float(part.price_per_length[n]) * metres[part.line]
    return float(np.rint(total))


def one_search(seed: int) -> tuple[Problem, list[Candidate]]:
    """A search compared with brute force in all it says; a job in which one passes is cut down to that one."""
    job, stock, problem = drawn(seed)
    found = candidates(job, stock, problem)
    attempt = 0
    while ENDS[seed % 5] == "one passes" and len([c for c in found if not c.against]) != 1:
        passing = [c for c in found if not c.against]
        cut = cut_to_one(problem, found, passing)
        if cut is not None:
            problem = cut
            found = candidates(job, stock, problem)
            break
        attempt += 1
        job, stock, problem = drawn(seed, 1000 + attempt)
        found = candidates(job, stock, problem)
    compare(problem, found)
    return problem, found


def cut_to_one(problem: Problem, found: list[Candidate], passing: list[Candidate]) -> Problem | None:
    """The design that passes, and of one part also every option with which it would not."""
    for one in passing:
        for place, part in enumerate(problem.parts):
            others = [c.option[place] for c in found if c.against and _alike(c.option, one.option, place)]
            if others:
                which = {p.name: np.array([n]) for p, n in zip(problem.parts, one.option, strict=True)}
                which[part.name] = np.array(sorted([*others, one.option[place]]))
                return problem.take(**{name.replace(" ", "_"): kept for name, kept in which.items()})
    return None


def _alike(one: tuple[int, ...], other: tuple[int, ...], place: int) -> bool:
    return all(a == b for n, (a, b) in enumerate(zip(one, other, strict=True)) if n != place)


def compare(problem: Problem, found: list[Candidate]) -> None:
    solved = solve(problem, chunk=5)
    assert problem.choices == len(found)
    assert solved.circuits == circuits_of(problem) <= len(found)
    seen = spread_out(problem, solved)
    for each in found:
        word = int(seen.word[each.option])
        assert {check.name for n, check in enumerate(FLOW_CHECKS) if word >> n & 1} == each.failed
        assert np.array_equal(seen.margin[each.option], each.margin, equal_nan=True)
        assert seen.price[each.option] == each.price
    tally, kept, missed = spread(problem, solved)
    passing = [each for each in found if not each.against]
    for n, check in enumerate(FLOW_CHECKS):
        assert tally.failed[n] == sum(check.name in each.failed for each in found)
        assert tally.alone[n] == sum(each.against == {check.name} for each in found)
    assert tally.passing == len(passing)
    assert tally.holding == sum(each.margin >= 1.0 for each in passing)
    assert len(passing) <= FEW
    ordered = sorted(passing, key=lambda c: (c.cost, -min(c.margin, 1.0), c.option))
    assert [tuple(int(n) for n in row) for row in kept.options] == [each.option for each in ordered]
    assert kept.cost.tolist() == [each.cost for each in ordered]
    nearest = [each for each in found if len(each.against) == 1] if not passing else []
    nearest.sort(key=lambda c: (-c.margin if c.margin == c.margin else math.inf, c.price, c.option))
    assert [tuple(int(n) for n in row) for row in missed.options] == [each.option for each in nearest[:6]]


@pytest.mark.parametrize("first", range(0, SEARCHES, TOGETHER))
def test_small_searches_equal_brute_force(first: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lakewright.search.options.SHARE_OF_PROFILE", 0.5)
    monkeypatch.setattr("lakewright.search.stand_options.RISERS", (0.25, 0.5))
    kinds, forms, fewer = set(), set(), 0
    for seed in range(first, first + TOGETHER):
        problem, found = one_search(seed)
        end = ENDS[seed % 5]
        passing = [each for each in found if not each.against]
        kinds |= {option.kind for option in problem.pumps}
        forms |= {str(word) for part in problem.parts for says in part.says for word in says.values()}
        forms.add(drawn(seed)[0].stand.form or "")
        fewer += circuits_of(problem) < len(found)
        if end == "nothing passes":
            assert not passing
        if end == "one passes":
            assert len(passing) == 1
        if end == "unknown":
            assert all(each.unknown for each in found)
        if end == "ties":
            assert len({each.price for each in found}) < len(found)
    assert kinds == {"centrifugal", "jet"}
    assert {"upright", "side", "low"} <= forms
    assert fewer >= TOGETHER // 5  # circuits solved are fewer than candidates
