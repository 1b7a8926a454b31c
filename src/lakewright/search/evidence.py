"""How well each state of a system explains what was read and said at a visit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from lakewright.first_answer import means
from lakewright.job.models import Job
from lakewright.job.models_shop import Reading
from lakewright.physics.types import Array
from lakewright.search.faults import ANSWERS, CHANNELS, Fault, fault_table
from lakewright.search.visit import Sight
from lakewright.state.meters import Meter, meters

TAIL = 6.0
"""ours: degrees of freedom of the bell by which readings err; a wrong reading does not drown the rest."""

OUT_OF_BAND = 0.03
"""ours: how often a pressure is read where the switch does not let the pump be looked at."""

BAND = 1e6
"""ours: the widest a pressure may then lie [Pa]."""

WEAK_BY = (0.05, 0.30)
"""ours: shares of the flow lost between which people begin to call it weak."""

SAYS_WEAK, SAYS_WEAK_OF_NOTHING, SAYS_NONE, SAYS_NONE_OF_SOME = 0.85, 0.15, 0.9, 0.02
"""ours: how often people say so, where it is so and where it is not."""

TRUST = 0.85
"""ours: how far words are taken at their worth; what people say hangs together, which a product of chances forgets."""

NO_WATER = 0.05
"""ours: share of the flow under which there is no water."""


def readings_seen(visit: Reading) -> dict[str, float]:
    """The readings of a visit, SI."""
    return {name: value.value for name in meters() if (value := getattr(visit, name)) is not None}


@dataclass(frozen=True)
class Told:
    """What was said at a visit: for each question that was answered, the signs in the answer; what was looked for."""

    signs: Mapping[str, frozenset[str]]
    ruled_out: frozenset[str] = frozenset()


def told(job: Job, visit: Reading) -> Told:
    """What is said of a visit: in its words, and in those of the parts that are there."""
    texts = [have.symptom for have in job.have.values() if have.symptom]
    does = {*visit.does, *_found(" ; ".join([*texts, visit.first_minute or "", visit.note or ""]), _words_of("does"))}
    if visit.starves_after is not None:
        does.add("runs, then starves")
    signs = {"does": frozenset(does)} if does or texts else {}
    for channel in ("first_minute", "changed"):
        text = getattr(visit, channel)
        if text:
            signs[channel] = frozenset(_found(text, _words_of(channel)))
    signs |= {name: frozenset({said}) for name in ANSWERS if (said := getattr(visit, name))}
    return Told(signs, frozenset(visit.ruled_out))


def _found(text: str, words: Mapping[str, Sequence[str]]) -> set[str]:
    return {sign for sign, patterns in words.items() if means(text, patterns)}


@cache
def _words_of(channel: str) -> Mapping[str, Sequence[str]]:
    from lakewright.first_answer import words_of_symptoms

    if channel == "does":
        return words_of_symptoms()
    return {sign: row["words"] for sign, row in fault_table()["signs"][channel].items()}


def words_weight(told: Told, faults: Sequence[Fault], sizes: int, lost: Array) -> Array:
    """Logarithm of how likely each state would have been told so, over (row, sample).

    Parameters
    ----------
    faults : one a `sizes` rows
    lost : share of the flow that each state costs, over (row, sample)
    """
    weight = np.zeros(lost.shape)
    missed = np.repeat([1.0 - f.finds if f.name in told.ruled_out else 1.0 for f in faults], sizes)
    weight += np.log(missed)[:, None]
    for question in ANSWERS:
        for answer in told.signs.get(question, ()):
            number = fault_table()["answers"][question]["are"].index(answer)
            chances = np.concatenate([fault.answers(question, sizes)[:, number] for fault in faults])
            weight += TRUST * np.log(chances)[:, None]
    for channel in CHANNELS:
        if channel not in told.signs:
            continue
        seen = told.signs[channel]
        for sign, row in fault_table()["signs"][channel].items():
            chances = np.concatenate([fault.chances(channel, sign, row["base"], sizes) for fault in faults])
            weight += TRUST * np.log(chances if sign in seen else 1.0 - chances)[:, None]
        # Where nobody knows the flow, nobody knows of what it would be weak.
        if channel == "does" and np.isfinite(lost).all():
            none = np.where(lost > 1.0 - NO_WATER, SAYS_NONE, SAYS_NONE_OF_SOME)
            share = np.clip((lost - WEAK_BY[0]) / (WEAK_BY[1] - WEAK_BY[0]), 0.0, 1.0)
            weak = SAYS_WEAK_OF_NOTHING + (SAYS_WEAK - SAYS_WEAK_OF_NOTHING) * share
            for sign, chance in (("no water", none), ("weaker than it was", weak)):
                weight += TRUST * np.log(chance if sign in seen else 1.0 - chance)
    return weight


def true_readings(seen: Mapping[str, float], biases: Mapping[str, Array]) -> dict[str, Array]:
    """What was read, less what its gauge is off by."""
    return {name: value - biases.get(meters()[name].gauge, np.zeros(1)) for name, value in seen.items()}


def is_known(found: Sight, name: str) -> bool:
    """Whether every state gives a reading, or the band it would lie in: a job may say too little for that."""
    given = found.bands.get(name, (found.readings[name],))
    return all(bool(np.isfinite(each).all()) for each in given)


def readings_weight(found: Sight, seen: Mapping[str, Array]) -> Array:
    """Logarithm of how likely each state would have been read so, over (row, sample, 1).

    Parameters
    ----------
    found : what each state would show
    seen : as `true_readings` gives them
    """
    weight = np.zeros((1, 1, 1))
    for name, value in seen.items():
        meter = meters()[name]
        if not is_known(found, name):
            continue
        if name in found.bands:
            weight = weight + _band_weight(value, *found.bands[name], meter)
        else:
            weight = weight + _bell_weight(value, found.readings[name], meter)
    return weight


def _band_weight(value: Array, low: Array, high: Array, meter: Meter) -> Array:
    """Anywhere in the band alike, its edges as sharp as the eye."""
    width = np.maximum(high - low, 2.0 * meter.noise)
    inside = _bell_below((value - low) / meter.noise) - _bell_below((value - high) / meter.noise)
    return np.log((1.0 - OUT_OF_BAND) * np.maximum(inside, 0.0) / width + OUT_OF_BAND / BAND)


def _bell_below(score: Array) -> Array:
    """Share of a bell below a score. ours: the logistic curve that lies within a hundredth of it."""
    return 1.0 / (1.0 + np.exp(-np.clip(1.702 * score, -60.0, 60.0)))


def _bell_weight(value: Array, given: Array, meter: Meter) -> Array:
    """A bell with heavy tails (Student's) about what a state gives."""
    spread = meter.deviation(given)
    score = (value - given) / spread
    return -np.log(spread) - 0.5 * (TAIL + 1.0) * np.log1p(score * score / TAIL)
