"""What to read, ask or look at next: what tells the two likeliest faults apart, for the least time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from lakewright.physics.types import Array
from lakewright.search.diagnose import Diagnosis, Suspect
from lakewright.search.evidence import TRUST
from lakewright.search.faults import ANSWERS, NONE, fault_table
from lakewright.state.meters import Meter, meters

ASKING = 1.0
"""ours: minutes that a question takes."""

TURN = 4.0
"""ours: minutes that anything costs besides, to be asked for, done and told: little that is quick is no use."""

FEW = 5
"""ours: the likeliest, that are told apart; as many as are printed."""

STEPS = 60
"""ours: readings on which two bells are compared, evenly over both."""

LEAST_BITS = 0.02
"""ours: what tells less than this is not worth a minute."""


@dataclass(frozen=True)
class NextTest:
    """Something to read, ask or look at; what it tells of which of the two it is, in bits, and its minutes."""

    kind: str  # "read", "ask" or "look"
    name: str  # of the reading, the question or the fault
    words: str
    bits: float
    minutes: float


def next_tests(found: Diagnosis) -> tuple[NextTest, ...]:
    """What tells the likeliest apart, best first: by what it tells for each minute."""
    if len(found.suspects) < 2:
        return ()
    pair = found.suspects[:FEW]
    odds = np.array([suspect.chance for suspect in pair])
    odds = odds / max(odds.sum(), 1e-300)
    tests = [*_readings(found, pair, odds), *_questions(found, pair, odds), *_looks(found, pair, odds)]
    return tuple(sorted((t for t in tests if t.bits >= LEAST_BITS), key=lambda t: -t.bits / (t.minutes + TURN)))


def told_apart(odds: Array, chances: Array) -> float:
    """What an answer tells of which it is [bits].

    Parameters
    ----------
    odds : chance of each of the two
    chances : of every answer, one row for each of the two

    >>> told_apart(np.array([0.5, 0.5]), np.array([[1.0, 0.0], [0.0, 1.0]]))
    1.0
    """
    joint = odds[:, None] * chances
    apart = joint.sum(axis=0) * odds[:, None]
    some = joint > 0.0
    return float(np.sum(joint[some] * np.log2(joint[some] / apart[some])))


def _readings(found: Diagnosis, pair: Sequence[Suspect], odds: Array) -> Iterator[NextTest]:
    case = found.case
    taken = {*case.seen, *found.unweighed, *(each.name for each in found.impossible)}
    for name, values in case.found.readings.items():
        if name in taken or not np.isfinite(values).all():
            continue
        given = np.broadcast_to(values, (*case.weight.shape, 1))[..., 0]
        bells = [_bell(given, meters()[name], case.rows(suspect.fault), case.weight) for suspect in pair]
        yield NextTest("read", name, meters()[name].words, told_apart(odds, _chances(bells)), meters()[name].minutes)


def _bell(given: Array, meter: Meter, rows: slice, weight: Array) -> tuple[float, float]:
    """Middle and deviation of what a fault would show on a gauge. Few samples count, too few for more than that."""
    share = np.exp(weight[rows] - weight[rows].max())
    share = share / share.sum()
    middle = float((share * given[rows]).sum())
    spread = float((share * (given[rows] - middle) ** 2).sum())
    err = float(np.hypot(meter.bias, meter.deviation(np.array([middle]))[0]))
    return middle, float(np.hypot(np.sqrt(spread), err))


def _chances(bells: Sequence[tuple[float, float]]) -> Array:
    """How likely each fault shows each of many readings."""
    low = min(middle - 4.0 * spread for middle, spread in bells)
    high = max(middle + 4.0 * spread for middle, spread in bells)
    at = np.linspace(low, high, STEPS)
    rows = np.stack([np.exp(-0.5 * ((at - middle) / spread) ** 2) for middle, spread in bells])
    return np.asarray(rows / rows.sum(axis=1, keepdims=True))


def _questions(found: Diagnosis, pair: Sequence[Suspect], odds: Array) -> Iterator[NextTest]:
    for channel in ("changed", "first_minute"):
        if channel in found.case.said.signs:
            continue
        bits = 0.0
        for sign, row in fault_table()["signs"][channel].items():
            said = np.array([float(np.mean(s.fault.chances(channel, sign, row["base"], 2))) for s in pair])
            bits += TRUST * told_apart(odds, np.stack([said, 1.0 - said], axis=1))
        # Signs overlap: together they tell no more than which of the two it is.
        whole = told_apart(odds, np.eye(len(pair)))
        yield NextTest("ask", channel, QUESTIONS[channel], min(bits, whole), ASKING)
    for question in ANSWERS:
        if question not in found.case.said.signs:
            row = fault_table()["answers"][question]
            answers = np.stack([s.fault.answers(question, 2).mean(axis=0) for s in pair])
            kind = "ask" if row["minutes"] <= ASKING else "try"
            yield NextTest(kind, question, row["words"], TRUST * told_apart(odds, answers), row["minutes"])


QUESTIONS = {"changed": "what changed lately", "first_minute": "what happens over the first minute after it starts"}


def _looks(found: Diagnosis, pair: Sequence[Suspect], odds: Array) -> Iterator[NextTest]:
    for number, suspect in enumerate(pair):
        if suspect.fault.name == NONE or suspect.fault.name in found.case.said.ruled_out:
            continue
        finds = np.array([suspect.fault.finds if n == number else 0.0 for n in range(len(pair))])
        bits = told_apart(odds, np.stack([finds, 1.0 - finds], axis=1))
        yield NextTest("look", suspect.fault.name, suspect.fault.look[0], bits, max(suspect.fault.minutes, 1.0))
