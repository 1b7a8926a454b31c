"""Diagnosis of systems it has not made: how often the fault comes first, or among the first two, and how sure it was.

To print its tables: python -m tests.search.diagnose_blind [many] [first] [steps]
where steps is how often a person does what was asked for first before the ranking called later is made
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

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

ALIKE = {fault.name: fault.alike for fault in every_fault()}


@dataclass(frozen=True)
class Outcome:
    """One system: what ailed it, what it cost, and the faults as they were ranked, with their chances."""

    fault: str
    severity: float
    lost: float
    ranked: tuple[tuple[str, float], ...]
    after: tuple[tuple[str, float], ...]  # once more, after the two things asked for first
    impossible: tuple[str, ...]
    kit: bool  # both gauges, the suction one standing too, and a bucket
    jet: bool

    @property
    def kind_place(self) -> int:
        """Place of the true kind of fault: what gauges can hardly tell apart is one kind, as likely as all of it."""
        chances: dict[str, float] = {}
        for name, chance in self.ranked:
            chances[ALIKE[name]] = chances.get(ALIKE[name], 0.0) + chance
        return 1 + sorted(chances, key=lambda kind: -chances[kind]).index(ALIKE[self.fault])

    @property
    def later_place(self) -> int:
        """The place after the two things asked for first."""
        return 1 + [name for name, _ in self.after].index(self.fault)

    @property
    def place(self) -> int:
        """Place of the true fault in the ranking, from 1."""
        return 1 + [name for name, _ in self.ranked].index(self.fault)


FINDS = 0.9
"""A look finds a fault that is there this much less often than the catalogue has it."""


def diagnosed(text: str) -> Diagnosis:
    """What is said of a job file."""
    job, _, assembly = assembled(text)
    return diagnose(job, assembly)


def told_also(found: Diagnosis, text: str) -> Diagnosis:
    """What is said of a job file that says more of the same readings."""
    job, _, assembly = assembled(text)
    visit = latest_visit(job)
    return found if visit is None else told_more(found, job, assembly, visit)


def ranking(found: Diagnosis) -> tuple[tuple[str, float], ...]:
    """Faults with their chances, the likeliest first."""
    return tuple((suspect.fault.name, suspect.chance) for suspect in found.suspects)


def advised(
    system: System, found: Diagnosis, steps: int, rng: random.Random
) -> Iterator[tuple[tuple[str, float], ...]]:
    """The ranking each time that a person has done what was asked for first, so many times."""
    text, ruled_out, seen_it = system.text, [], False
    for _ in range(steps):
        tests = [test for test in next_tests(found) if test.kind == "look" or test.name in system.answers]
        if seen_it or not tests:
            yield (
                *[(system.fault, 1.0)] * seen_it,
                *(each for each in ranking(found) if not seen_it or each[0] != system.fault),
            )
            continue
        if tests[0].kind == "look":
            finds = next(fault.finds for fault in every_fault() if fault.name == tests[0].name)
            if tests[0].name == system.fault and rng.random() < FINDS * finds:
                seen_it = True
            else:
                ruled_out.append(tests[0].name)
        else:
            text += system.answers[tests[0].name] + "\n"
        out = "ruled_out = [" + ", ".join(f'"{name}"' for name in ruled_out) + "]\n"
        found = told_also(found, text + out)
        yield (
            *[(system.fault, 1.0)] * seen_it,
            *(each for each in ranking(found) if not seen_it or each[0] != system.fault),
        )


def outcome(seed: int, steps: int = 2) -> Outcome:
    """Diagnose one system, and again after what it asked for."""
    system = sick_system(seed)
    found = diagnosed(system.text)
    return Outcome(
        system.fault,
        system.severity,
        system.lost,
        ranking(found),
        advised(system, found, steps, random.Random(f"looks {seed}")),
        tuple(each.name for each in found.impossible),
        {"suction_standing", "suction_running", "pressure_running", "flow"} <= set(found.case.seen),
        system.jet is not None,
    )


def shares(found: Sequence[Outcome]) -> str:
    """How many, and the shares in first place and among the first two."""
    if not found:
        return f"{0:5}" + 6 * "      -"
    first, two = (sum(o.place <= n for o in found) / len(found) for n in (1, 2))
    kind, kinds = (sum(o.kind_place <= n for o in found) / len(found) for n in (1, 2))
    later, laters = (sum(o.later_place <= n for o in found) / len(found) for n in (1, 2))
    return f"{len(found):5} {first:6.1%} {two:6.1%} {kind:6.1%} {kinds:6.1%} {later:6.1%} {laters:6.1%}"


def tables(found: Sequence[Outcome]) -> Iterator[str]:
    """What the run showed, line by line."""
    costly = [o for o in found if o.fault != "none" and o.lost >= COSTLY]
    groups: list[tuple[str, Iterable[Outcome]]] = [
        ("all", found),
        ("costs a tenth of the flow or more", costly),
        ("  both gauges and a bucket read", [o for o in costly if o.kit]),
        ("  less than those", [o for o in costly if not o.kit]),
        ("costs less, or shows elsewhere", [o for o in found if o.fault != "none" and o.lost < COSTLY]),
        ("a centrifugal that costs a tenth or more", [o for o in costly if not o.jet]),
        ("a jet that costs a tenth or more", [o for o in costly if o.jet]),
        ("nothing is wrong", [o for o in found if o.fault == "none"]),
        *(
            (
                f"severity {low / 4:.0%} to {(low + 1) / 4:.0%}",
                [o for o in found if o.fault != "none" and low <= 4 * o.severity < low + 1],
            )
            for low in range(4)
        ),
    ]
    yield f"{'':40} {'':5}  fault    two   kind    two  later    two"
    for name, some in groups:
        yield f"{name:40} {shares(list(some))}"
    yield ""
    for fault in sorted({o.fault for o in found}):
        mine = [o for o in found if o.fault == fault]
        mixed = Counter(o.ranked[0][0] for o in mine if o.place > 1)
        taken = ", ".join(f"{name} {count}" for name, count in mixed.most_common(4))
        yield f"{fault:22} {shares(mine)}   costly {shares([o for o in mine if o.lost >= COSTLY])}   taken for: {taken}"
    yield ""
    yield from calibration(found)
    wrong = [o for o in found if o.impossible]
    yield f"readings called impossible in {len(wrong)} of {len(found)} systems"


def calibration(found: Sequence[Outcome]) -> Iterator[str]:
    """Of all faults said so likely, how many were so."""
    said = [(chance, name == o.fault) for o in found for name, chance in o.ranked]
    for low, high in (
        (0.0, 0.05),
        (0.05, 0.2),
        (0.2, 0.4),
        (0.4, 0.6),
        (0.6, 0.75),
        (0.75, 0.85),
        (0.85, 0.95),
        (0.95, 1.01),
    ):
        inside = [(chance, true) for chance, true in said if low <= chance < high]
        if inside:
            mean, true = (sum(values) / len(inside) for values in zip(*inside, strict=True))
            band = f"said {low:4.0%} to {min(high, 1.0):4.0%}"
            yield f"{band}: {len(inside):6} times, {mean:5.1%} on the mean, {true:5.1%} were so"


if __name__ == "__main__":
    count, first, steps = (int(word) for word in (*sys.argv[1:], *(str(n) for n in (MANY, 0, 0)[len(sys.argv) - 1 :])))
    print("\n".join(tables([outcome(seed, steps) for seed in range(first, first + count)])))
