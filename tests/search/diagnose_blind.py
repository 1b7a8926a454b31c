"""Diagnosis of systems it has not made: how often the fault comes first, or among the first two, and how sure it was.

To print its tables: python -m tests.search.diagnose_blind [many] [first] [processes]
Every system is ranked as people call in; after two, four, six and eight of the things that are asked for first; and
after a full visit.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from itertools import pairwise

from lakewright.api.read import assembled
from lakewright.first_answer import latest_visit
from lakewright.search.diagnose import Diagnosis, diagnose, told_more
from lakewright.search.faults import every_fault
from lakewright.search.next_test import next_tests
from tests.search.blind_systems import System
from tests.search.blind_visits import sick_system

COSTLY = 0.1
"""The share of the flow from which a fault counts as one that costs."""

MANY = 500

STEPS = (2, 4, 6, 8)
"""After how many of the things that are asked for first it is ranked once more."""

FINDS = 0.9
"""A look finds a fault that is there this much less often than the catalogue has it."""

ALIKE = {fault.name: fault.alike for fault in every_fault()}

Ranking = tuple[tuple[str, float], ...]
"""Faults with their chances, the likeliest first."""


@dataclass(frozen=True)
class Outcome:
    """One system: what ailed it, what it cost, and how the faults were ranked."""

    fault: str
    severity: float
    lost: float
    ranked: Ranking  # as people call in
    after: tuple[Ranking, ...]  # one after each thing that was asked for first
    full: Ranking  # after a full visit; none where it was not asked for
    impossible: tuple[str, ...]
    kit: bool  # both gauges, the suction one standing too, and a bucket
    jet: bool
    known: bool  # by a good visit before

    def place(self, ranked: Ranking) -> int:
        """Place of the true fault in a ranking, from 1."""
        return 1 + [name for name, _ in ranked].index(self.fault)

    def kind_place(self, ranked: Ranking) -> int:
        """Place of the true kind of fault: what gauges can hardly tell apart is one kind, as likely as all of it."""
        chances: dict[str, float] = {}
        for name, chance in ranked:
            chances[ALIKE[name]] = chances.get(ALIKE[name], 0.0) + chance
        return 1 + sorted(chances, key=lambda kind: -chances[kind]).index(ALIKE[self.fault])

    @property
    def is_costly(self) -> bool:
        """Whether it costs a tenth of the flow."""
        return self.fault != "none" and self.lost >= COSTLY


def diagnosed(text: str) -> Diagnosis:
    """What is said of a job file."""
    job, _, assembly = assembled(text)
    return diagnose(job, assembly)


def told_also(found: Diagnosis, text: str) -> Diagnosis:
    """What is said of a job file that says more of the same visit."""
    job, _, assembly = assembled(text)
    visit = latest_visit(job)
    return found if visit is None else told_more(found, job, assembly, visit)


def ranking(found: Diagnosis) -> Ranking:
    """Faults with their chances, the likeliest first."""
    return tuple((suspect.fault.name, suspect.chance) for suspect in found.suspects)


def advised(system: System, found: Diagnosis, steps: int, rng: random.Random) -> Iterator[Ranking]:
    """The ranking each time that a person has done what was asked for first, so many times."""
    text, ruled_out = system.text, []
    for done in range(steps):
        tests = [test for test in next_tests(found) if test.kind == "look" or test.name in system.answers]
        if not tests:
            yield from [ranking(found)] * (steps - done)
            return
        if tests[0].kind == "look":
            finds = next(fault.finds for fault in every_fault() if fault.name == tests[0].name)
            if tests[0].name == system.fault and rng.random() < FINDS * finds:
                others = (pair for pair in ranking(found) if pair[0] != system.fault)
                yield from [((system.fault, 1.0), *others)] * (steps - done)
                return
            ruled_out.append(tests[0].name)
        else:
            text += system.answers[tests[0].name] + "\n"
        out = "ruled_out = [" + ", ".join(f'"{name}"' for name in ruled_out) + "]\n"
        found = told_also(found, text + out)
        yield ranking(found)


def outcome(seed: int, steps: int = STEPS[-1], full: bool = True) -> Outcome:
    """Diagnose one system, again after what it asked for, and after a full visit."""
    system = sick_system(seed)
    found = diagnosed(system.text)
    return Outcome(
        system.fault,
        system.severity,
        system.lost,
        ranking(found),
        tuple(advised(system, found, steps, random.Random(f"looks {seed}"))),
        ranking(told_also(found, system.full)) if full else (),
        tuple(each.name for each in found.impossible),
        {"suction_standing", "suction_running", "pressure_running", "flow"} <= set(found.case.seen),
        system.jet is not None,
        system.text.count("[[readings]]") > 1,
    )


HEAD = (
    f"{'':46} called in             2 asked       4 asked       6 asked       8 asked       full visit",
    f"{'':46} first    two   kind  first    two  first    two  first    two  first    two  first    two   kind",
)


def shares(found: Sequence[Outcome]) -> str:
    """How many, and the shares in first place, among the first two, and of the kind in first place."""
    if not found:
        return f"{0:5}" + 14 * "      -"

    def first_and_two(of: Callable[[Outcome], Ranking]) -> str:
        return "".join(f"{sum(o.place(of(o)) <= n for o in found) / len(found):7.1%}" for n in (1, 2))

    def kind(of: Callable[[Outcome], Ranking]) -> str:
        return f"{sum(o.kind_place(of(o)) == 1 for o in found) / len(found):7.1%}"

    asked = "".join(first_and_two(lambda o, n=n: o.after[n - 1]) for n in STEPS)
    called = first_and_two(lambda o: o.ranked) + kind(lambda o: o.ranked)
    return f"{len(found):5}{called}{asked}{first_and_two(lambda o: o.full)}{kind(lambda o: o.full)}"


def tables(found: Sequence[Outcome]) -> Iterator[str]:
    """What the run showed, line by line."""
    costly = [o for o in found if o.is_costly]
    sick = [o for o in found if o.fault != "none"]
    groups: list[tuple[str, Sequence[Outcome]]] = [
        ("all", found),
        ("costs a tenth of the flow or more", costly),
        ("  both gauges and a bucket read", [o for o in costly if o.kit]),
        ("  less than those", [o for o in costly if not o.kit]),
        ("  with a good visit before", [o for o in costly if o.known]),
        ("  without", [o for o in costly if not o.known]),
        ("  a centrifugal", [o for o in costly if not o.jet]),
        ("  a jet", [o for o in costly if o.jet]),
        ("costs less, or shows elsewhere", [o for o in sick if not o.is_costly]),
        ("nothing is wrong", [o for o in found if o.fault == "none"]),
        *(
            (f"severity {n / 4:.0%} to {(n + 1) / 4:.0%}", [o for o in sick if n <= 4 * o.severity < n + 1])
            for n in range(4)
        ),
        *((f"{name}, costly", [o for o in costly if o.fault == name]) for name in sorted({o.fault for o in costly})),
    ]
    yield from HEAD
    yield from (f"{name:40} {shares(some)}" for name, some in groups)
    yield ""
    yield from confusion(found)
    for head, of in (("called in", lambda o: o.ranked), ("full visit", lambda o: o.full)):
        yield ""
        yield from calibration([(o.fault, of(o)) for o in found], head)
    wrong = [o for o in found if o.impossible]
    yield f"readings called impossible in {len(wrong)} of {len(found)} systems"


def confusion(found: Sequence[Outcome]) -> Iterator[str]:
    """By fault: how many, first and among the first two, of all and of the costly; what the others were taken for."""
    for fault, _ in Counter(o.fault for o in found).most_common():
        mine = [o for o in found if o.fault == fault]
        cells: list[str] = [fault]
        for some in (mine, [o for o in mine if o.is_costly]):
            for of in (lambda o: o.ranked, lambda o: o.full):
                cells.append(
                    ", ".join(str(sum(o.place(of(o)) <= n for o in some)) for n in (1, 2)) + f" of {len(some)}"
                )
        taken = Counter(o.full[0][0] for o in mine if o.place(o.full) > 1)
        cells.append(", ".join(f"{name} {count}" for name, count in taken.most_common(6)) or "-")
        yield f"| {' | '.join(cells)} |"


BANDS = (0.0, 0.05, 0.2, 0.4, 0.6, 0.75, 0.85, 0.95, 1.01)


def calibration(said: Sequence[tuple[str, Ranking]], head: str) -> Iterator[str]:
    """Of all faults said so likely, how many were so."""
    every = [(chance, name == fault) for fault, ranked in said for name, chance in ranked]
    for low, high in pairwise(BANDS):
        inside = [(chance, true) for chance, true in every if low <= chance < high]
        if inside:
            mean, true = (sum(values) / len(inside) for values in zip(*inside, strict=True))
            band = f"{head}, said {low:4.0%} to {min(high, 1.0):4.0%}"
            yield f"{band}: {len(inside):6} times, {mean:5.1%} on the mean, {true:5.1%} were so"


if __name__ == "__main__":
    many, first, processes = (int(word) for word in (*sys.argv[1:], *map(str, (MANY, 0, 1)[len(sys.argv) - 1 :])))
    with ProcessPoolExecutor(processes) as pool:
        print("\n".join(tables(list(pool.map(outcome, range(first, first + many), chunksize=5)))))
