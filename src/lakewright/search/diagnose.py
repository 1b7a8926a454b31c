"""Which fault explains best what was read and said: the walk with fault slots moved, weighed by readings and words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from lakewright.first_answer import in_order, latest_visit
from lakewright.job.models import Job
from lakewright.job.models_shop import Reading
from lakewright.physics.types import Array
from lakewright.search.case import Case, between, case_of
from lakewright.search.evidence import Told, is_known, readings_seen, told
from lakewright.search.faults import NONE, Fault, every_fault, faults_of
from lakewright.search.unknowns import System, draws, likely_days, system_draws, visit_draws
from lakewright.state.assemble import Assembly
from lakewright.state.meters import meters

SAMPLES = 768
"""ours: systems drawn; twice as many move no chance by more than two in a hundred."""

POOL = 16384
"""ours: systems drawn where earlier visits choose among them."""

ENOUGH = 60.0
"""ours: systems that are to count after earlier visits have chosen; fewer would be too sure of themselves."""

BESIDE = 0.03
"""ours: the share of calls in which it is none of these faults, or two at once. Readings cannot speak of what has no
model, so it stays whatever they say: no fault is surer than the rest."""

EARLIER = 3
"""ours: good visits before, the last of them; each narrows the system, and soon none is left that fits all."""

MIDDLE = (0.05, 0.95)
"""ours: nine in ten of what is expected lies between."""


@dataclass(frozen=True)
class Expected:
    """What a reading should be when nothing is wrong, nine in ten between low and high, and what was read."""

    name: str
    low: float
    high: float
    read: float | None


@dataclass(frozen=True)
class Suspect:
    """A fault, how likely it is, and how large: the middle and nine in ten of its size, and of the flow it costs.

    Where the job says too little of its flow, what the fault costs is nan.
    """

    fault: Fault
    chance: float
    size: tuple[float, float, float]
    lost: tuple[float, float, float]


@dataclass(frozen=True)
class Impossible:
    """A reading that no state of this system gives, and the least and most that any gives."""

    name: str
    read: float
    low: float
    high: float


@dataclass(frozen=True)
class Diagnosis:
    """What is likely wrong, the likeliest first."""

    case: Case
    suspects: tuple[Suspect, ...]
    expected: tuple[Expected, ...]
    impossible: tuple[Impossible, ...]
    unweighed: tuple[str, ...]  # readings that this job says too little of
    fits: bool  # whether some state explains the readings together
    level: tuple[float, float]  # m, of the water, nine in ten between
    beside: float  # chance of what the catalogue lacks


def diagnose(job: Job, assembly: Assembly, visit: Reading | None = None) -> Diagnosis:
    """Weigh what may be wrong at a visit.

    Parameters
    ----------
    job, assembly : as read, and the facts of its design with what they rest on
    visit : one of the job's; the last where none is said, and where there is none what would be expected
    """
    visit, facts = visit or latest_visit(job) or Reading(), assembly.facts
    faults = faults_of(job, facts, likely_days(facts.day_names, visit.date).tolist())
    system = _system(assembly, job, visit)
    visits = visit_draws(assembly, SAMPLES, visit.date, 1)
    seen, said = readings_seen(visit), told(job, visit)
    case = case_of(facts, faults, system, visits, seen, said)
    return _judged(case, readings_seen(visit), lambda left: case_of(facts, faults, system, visits, left, said))


def _judged(case: Case, seen: dict[str, float], anew: Callable[[Mapping[str, float]], Case]) -> Diagnosis:
    """What a case says of readings, once what cannot be is left out of it.

    Parameters
    ----------
    anew : the case of other readings, where a pressure at which the pump was looked at is among them no more
    """
    read = seen
    unweighed = tuple(name for name in seen if not is_known(case.found, name))
    impossible: tuple[Impossible, ...] = ()
    while wrong := _impossible(case, {name: value for name, value in seen.items() if name not in unweighed}):
        # A flow is judged at the pressure that was read: where that cannot be, it goes first.
        pressures = tuple(each for each in wrong if each.name in case.found.bands)
        impossible += pressures or wrong
        names = {each.name for each in impossible}
        seen = {name: value for name, value in seen.items() if name not in names}
        case = anew(seen) if pressures else case.without(names)
    low, high = np.quantile(case.level, MIDDLE)
    return Diagnosis(
        case,
        _suspects(case),
        _expected(case, read),
        impossible,
        unweighed,
        _fits(case),
        (float(low), float(high)),
        BESIDE,
    )


def told_more(found: Diagnosis, job: Job, assembly: Assembly, visit: Reading) -> Diagnosis:
    """The same visit, with what else was read, said or looked for in vain.

    Every state has given all its readings already; only what says at which pressure the pump was looked at asks anew.
    """
    seen = readings_seen(visit)
    if found.impossible or any(seen.get(name) != found.case.seen.get(name) for name in found.case.found.bands):
        return diagnose(job, assembly, visit)
    case = found.case.told(told(job, visit)).also(seen)
    return _judged(case, seen, lambda _: diagnose(job, assembly, visit).case)


def _system(assembly: Assembly, job: Job, visit: Reading) -> System:
    """The system as it may be: any, or where there were good visits before, as those found it."""
    before = [r for r in in_order(job.readings) if r is not visit and _is_good(r) and _is_earlier(r, visit)][-EARLIER:]
    plate_is_read = job.power.motor_current is not None
    if not before:
        return system_draws(assembly, SAMPLES, plate_is_read)
    system = system_draws(assembly, POOL, plate_is_read)
    none = [fault for fault in every_fault() if fault.name == NONE]
    weight = np.zeros(POOL)
    for number, good in enumerate(before, start=2):
        visits = visit_draws(assembly, POOL, good.date, number)
        weight += case_of(assembly.facts, none, system, visits, readings_seen(good), Told({})).weight[0]
    share = _tempered(weight)
    # Every system is drawn as often as it is likely, by equal steps through the sum of all shares.
    steps = (np.arange(SAMPLES) + 0.5) / SAMPLES * share.sum()
    chosen = np.minimum(np.searchsorted(np.cumsum(share), steps), POOL - 1)
    return system.picked(draws(SAMPLES).random.permutation(chosen))


def _tempered(weight: Array) -> Array:
    """How likely each sample is, made milder until enough of them count."""
    for power in (1.0, 0.7, 0.5, 0.35, 0.25, 0.15):
        share = np.exp(power * (weight - weight.max()))
        if share.sum() ** 2 / (share * share).sum() >= ENOUGH:
            break
    return np.asarray(share)


def _is_good(visit: Reading) -> bool:
    return not (visit.does or visit.starves_after) and bool(readings_seen(visit))


def _is_earlier(one: Reading, visit: Reading) -> bool:
    return one.date is None or visit.date is None or one.date < visit.date


def _suspects(case: Case) -> tuple[Suspect, ...]:
    chances = case.chances().reshape(len(case.faults), case.sizes)
    order = np.argsort(-chances.sum(axis=1), kind="stable")
    return tuple(_suspect(case, int(n), chances[n]) for n in order)


def _suspect(case: Case, number: int, chances: Array) -> Suspect:
    fault = case.faults[number]
    rows = case.rows(fault)
    weight = np.exp(case.weight[rows] - case.weight[rows].max())
    lost = _shares(case.lost[rows].ravel(), weight.ravel())
    sizes = fault.moves[0].at if fault.moves else (0.0,) * (case.sizes + 1)
    size = _shares(between(sizes, case.inside[None, :]).ravel(), weight.ravel())
    return Suspect(fault, (1.0 - BESIDE) * float(chances.sum()), size, lost)


def _shares(values: Array, weight: Array) -> tuple[float, float, float]:
    """The value below which lie a twentieth, a half, and all but a twentieth of the weight."""
    order = np.argsort(values, kind="stable")
    below = np.cumsum(weight[order])
    low, half, high = (np.searchsorted(below, share * below[-1]) for share in (MIDDLE[0], 0.5, MIDDLE[1]))
    return float(values[order][low]), float(values[order][half]), float(values[order][high])


def _expected(case: Case, seen: Mapping[str, float]) -> tuple[Expected, ...]:
    """What each reading should be with nothing wrong, gauge and all, at the pressure that was read."""
    found = []
    for name, values in case.found.readings.items():
        if name in case.found.bands:
            least, most = case.found.bands[name]
            low, high = float(np.quantile(least[0], MIDDLE[0])), float(np.quantile(most[0], MIDDLE[1]))
        else:
            sound = np.broadcast_to(values, (len(case.weight), case.weight.shape[1], 1))[0, :, 0]
            within = float(np.mean(meters()[name].within(sound)))
            low, high = (float(np.quantile(sound, share)) for share in MIDDLE)
            low, high = low - within, high + within
        if np.isfinite(low) and np.isfinite(high):
            found.append(Expected(name, low, high, seen.get(name)))
    return tuple(found)


FAR = 4.0
"""ours: deviations past which no state of any kind gives a reading."""


def _impossible(case: Case, seen: Mapping[str, float]) -> tuple[Impossible, ...]:
    """Readings outside all that any fault of any size gives, however the pressures were read."""
    found = []
    for name, value in seen.items():
        given = case.found.bands[name] if name in case.found.bands else (case.found.readings[name],) * 2
        low, high = float(given[0].min()), float(given[1].max())
        meter = meters()[name]
        err = float(np.hypot(meter.bias, np.max(meter.deviation(np.array([value])))))
        if name in case.found.bands:
            low = min(low, 0.0)
        if not low - FAR * err <= value <= high + FAR * err:
            found.append(Impossible(name, value, low, high))
    return tuple(found)


STRANGE = 4.5
"""ours: deviations by which the state that explains the readings best may still be off one of them."""


def _fits(case: Case) -> bool:
    """Whether some state explains every reading that a gauge, a bucket or a watch gave."""
    row, sample = np.unravel_index(int(case.weight.argmax()), case.weight.shape)
    for name, value in case.true.items():
        if name not in case.found.bands and is_known(case.found, name):
            given = np.broadcast_to(case.found.readings[name], (*case.weight.shape, 1))[row, sample]
            read = np.broadcast_to(value, (*case.weight.shape, 1))[row, sample]
            if float(np.max(np.abs(read - given) / meters()[name].deviation(given))) > STRANGE:
                return False
    return True
