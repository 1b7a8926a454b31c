"""Invented sites, what is said of them and what is true: whether the sureness we print is earned, and advice worth it.

Run as `python -m tests.search.doubt_sites`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np

from lakewright.api.read import read
from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS
from lakewright.physics.types import Array
from lakewright.search.doubt import offs, shares, statuses, worths
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


def measurements_to_be_right(site: Site, advised: bool, truths: int, seed: int) -> int:
    """How many measurements until the decision is right and stays so, as advised or in the usual order."""
    draw = np.random.default_rng(seed)
    truth = bool(holds(site.facts, site.unknowns, site.truth[None])[0])
    unknowns, left = list(site.unknowns), [n for n, each in enumerate(site.unknowns) if math.isfinite(each.accuracy)]
    usual = [n for name in USUAL_ORDER for n in left if unknowns[n].name == name]
    usual += [n for n in left if n not in usual]
    right: list[bool] = []
    for step in range(len(left) + 1):
        off = offs(unknowns, shares(truths, len(unknowns), seed + step))
        held = holds(site.facts, unknowns, off)
        right.append((np.mean(held) > 0.5) == truth)
        if step == len(usual):
            break
        if advised:
            order = worths(unknowns, off, held, seed)
            names = [worth.unknown.name for worth in order]
            ranked = sorted(left, key=lambda n: names.index(unknowns[n].name) if unknowns[n].name in names else 99)
        else:
            ranked = [n for n in usual if n in left]
        at = ranked[0]
        left.remove(at)
        unknowns[at] = after_reading(unknowns[at], site.truth[at] + draw.normal(0.0, unknowns[at].accuracy))
    wrong = [n for n, each in enumerate(right) if not each]
    return wrong[-1] + 1 if wrong else 0


def after_reading(unknown: Unknown, reading: float) -> Unknown:
    """What is known of it after a reading: two normals met, each by its own weight."""
    before, by = unknown.spread**-2, unknown.accuracy**-2
    mean = (unknown.bias * before + reading * by) / (before + by)
    return replace(unknown, bias=mean, spread=(before + by) ** -0.5, accuracy=unknown.accuracy)


def main() -> None:
    sites = said_sites(1000, seed=1)
    found = calibration(sites, truths=1024)
    print("said, of 100      sites   held, of 100")
    for low in (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9):
        some = [held for chance, held in found if low <= chance < low + 0.1 or (low == 0.9 and chance == 1.0)]
        if some:
            print(f"{100 * low:3.0f} to {100 * low + 10:3.0f}        {len(some):5}   {100 * np.mean(some):6.1f}")
    doubtful = [site for site, (chance, _) in zip(sites, found, strict=True) if 0.05 < chance < 0.95][:300]
    for advised in (True, False):
        counts = [measurements_to_be_right(site, advised, 1024, n) for n, site in enumerate(doubtful)]
        wrong = [count for count in counts if count]
        print(
            f"{'as advised' if advised else 'usual order':12} {len(counts)} doubtful sites, {len(wrong)} wrong: "
            f"{np.mean(wrong):.2f} measurements until right, and staying so; of all, {np.mean(counts):.2f}, "
            f"nine in ten by {np.quantile(counts, 0.9):.0f}"
        )


if __name__ == "__main__":
    main()
