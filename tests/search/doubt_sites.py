"""Invented sites, what is said of them and what is true: whether the sureness we print is earned, and advice worth it.

Run as `python -m tests.search.doubt_sites`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np

from lakewright.api.read import read
from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS
from lakewright.physics.types import Array
from lakewright.search.doubt import worths
from lakewright.search.truths import offs, shares, statuses
from lakewright.state.assemble import Assembly
from lakewright.state.facts import Facts
from lakewright.state.unknowns import STANDINGS, Unknown, unknowns_of
from lakewright.state.walk import walk_flow

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
MUSTS = [n for n, check in enumerate(FLOW_CHECKS) if check.force == "must"]

VARIED = {
    "pump.height": (1.4, 4.0),
    "days.level": (0.0, 0.0),
    "stand.depth": (2.6, 8.0),
    "suction.bed_length": (15.0, 60.0),
    "delivery.length": (20.0, 80.0),
    "delivery.height": (3.5, 7.5),
    "need.flow": (4.2e-4, 5.3e-4),
}
"""Facts drawn anew for each site, between these: some sites are easy, most are near an edge, some hopeless."""

USUAL_ORDER = ("height of the pump", "water level", "depth at the stand", "length of the suction line")
"""What is measured first, as the ten questions go; the rest follow in the order of the table."""


@dataclass(frozen=True)
class Site:
    facts: Facts
    unknowns: tuple[Unknown, ...]
    truth: Array  # how far each unknown is off


@cache
def _assembly() -> Assembly:
    return read(EXAMPLE)[2]


def said_sites(count: int, seed: int) -> list[Site]:
    """Sites as they were told, on words of every standing, and the truth of each, drawn from what we think of them."""
    draw = np.random.default_rng(seed)
    sites = []
    for _ in range(count):
        assembly, facts = _assembly(), _assembly().facts
        values = {name: facts.value(name) * 0.0 + draw.uniform(*ends) for name, ends in VARIED.items()}
        # Every day alike, by so much.
        values["days.level"] = facts.days.level + draw.uniform(-0.6, 0.2)
        values["taps.height"] = values["delivery.height"] + 1.5
        standings = {name: str(draw.choice(STANDINGS)) for name in VARIED}
        told = replace(assembly, facts=facts.with_values(values), standings={**assembly.standings, **standings})
        unknowns = unknowns_of(told)
        sites.append(Site(told.facts, unknowns, offs(unknowns, draw.uniform(size=(1, len(unknowns))))[0]))
    return sites


def holds(facts: Facts, unknowns: Sequence[Unknown], off: Array) -> np.ndarray:  # type: ignore[type-arg]
    """Whether every must that rests on place and flow holds, truth by truth."""
    return (statuses(facts, unknowns, off, walk_flow, FLOW_CHECKS)[:, MUSTS] != FAILS).all(axis=1)


def calibration(sites: Sequence[Site], truths: int) -> list[tuple[float, bool]]:
    """The chance we give each site, and whether it held."""
    found = []
    for number, site in enumerate(sites):
        off = np.concatenate([site.truth[None], offs(site.unknowns, shares(truths, len(site.unknowns), number))])
        held = holds(site.facts, site.unknowns, off)
        found.append((float(np.mean(held[1:])), bool(held[0])))
    return found


def to_measure(unknowns: Sequence[Unknown]) -> list[int]:
    """What is worth measuring at all, in the usual order: nobody measures again what was measured as well before."""
    left = [n for n, each in enumerate(unknowns) if math.isfinite(each.accuracy) and each.accuracy < each.deviation()]
    usual = [n for name in USUAL_ORDER for n in left if unknowns[n].name == name]
    return usual + [n for n in left if n not in usual]


def decided_rightly(site: Site, advised: bool, truths: int, seed: int) -> list[bool]:
    """Whether one would decide rightly, before anything is measured and after each measurement.

    Measured is what is advised, anew after each reading, or what comes next in the usual order; the readings are the
    same in both. One builds where the job more likely holds than not.
    """
    noise = np.random.default_rng(seed).standard_normal(len(site.unknowns))
    truth = bool(holds(site.facts, site.unknowns, site.truth[None])[0])
    unknowns, left = list(site.unknowns), to_measure(site.unknowns)
    right: list[bool] = []
    for step in range(len(left) + 1):
        off = offs(unknowns, shares(truths, len(unknowns), seed + step))
        held = holds(site.facts, unknowns, off)
        right.append(bool((np.mean(held) > 0.5) == truth))
        if not left:
            break
        names = [worth.unknown.name for worth in worths(unknowns, off, held, seed)] if advised else []
        at = min(left, key=lambda n: names.index(unknowns[n].name) if unknowns[n].name in names else len(names))
        left.remove(at)
        unknowns[at] = after_reading(unknowns[at], site.truth[at] + unknowns[at].accuracy * noise[at])
    return right


def measurements_to_be_right(right: Sequence[bool]) -> int:
    """After how many measurements the decision is right and stays so."""
    wrong = [n for n, each in enumerate(right) if not each]
    return wrong[-1] + 1 if wrong else 0


def after_reading(unknown: Unknown, reading: float) -> Unknown:
    """What is known of it after a reading: two normals met, each by its own weight."""
    before, by = unknown.spread**-2, unknown.accuracy**-2
    mean = (unknown.bias * before + reading * by) / (before + by)
    return replace(unknown, bias=mean, spread=(before + by) ** -0.5, accuracy=unknown.accuracy)


def doubtful_sites(sites: Sequence[Site], found: Sequence[tuple[float, bool]], count: int) -> list[Site]:
    """The first so many sites that are neither sure nor lost."""
    return [site for site, (chance, _) in zip(sites, found, strict=True) if 0.05 < chance < 0.95][:count]


def calibration_lines(found: Sequence[tuple[float, bool]]) -> Iterator[str]:
    """Of sites said so sure, how many held."""
    yield "said, of 100      sites   held, of 100"
    for low in range(0, 100, 10):
        some = [held for chance, held in found if low <= 100.0 * chance < low + 10 or (low == 90 and chance == 1.0)]
        if some:
            yield f"{low:3} to {low + 10:3}        {len(some):5}   {100 * np.mean(some):6.1f}"


def advice_lines(advised: Sequence[Sequence[bool]], usual: Sequence[Sequence[bool]]) -> Iterator[str]:
    """Measuring as advised beside measuring in the usual order, on the same sites."""
    ways = {"as advised": advised, "usual order": usual}
    wrong = [n for n, right in enumerate(usual) if not right[0]]
    yield f"{len(usual)} doubtful sites; {len(wrong)} decided wrongly before anything is measured"
    yield f"{'until right, and staying so':34}{'mean of all':>13}{'of the wrong':>14}{'9 in 10 by':>12}{'most':>6}"
    for name, found in ways.items():
        counts = np.array([measurements_to_be_right(right) for right in found])
        mean, those = np.mean(counts), np.mean(counts[wrong])
        yield f"  {name:32}{mean:13.2f}{those:14.2f}{np.quantile(counts, 0.9):12.0f}{counts.max():6}"
    steps = (0, 1, 2, 3, 4, 6, 8, 12)
    yield f"{'decided rightly, of 100, after':34}" + "".join(f"{step:6}" for step in steps)
    for name, found in ways.items():
        shown = (100 * np.mean([right[min(step, len(right) - 1)] for right in found]) for step in steps)
        yield f"  {name:32}" + "".join(f"{each:6.1f}" for each in shown)


def main() -> None:
    sites = said_sites(1000, seed=1)
    found = calibration(sites, truths=1024)
    print("\n".join(calibration_lines(found)))
    some = doubtful_sites(sites, found, 300)
    ways = [[decided_rightly(site, advised, 1024, n) for n, site in enumerate(some)] for advised in (True, False)]
    print("\n".join(advice_lines(*ways)))


if __name__ == "__main__":
    main()
