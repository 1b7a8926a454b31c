"""What a caller is told first: signs seen in a job, and the answers of `first_answers.toml` that they call up."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import timedelta
from functools import cache
from importlib import resources
from typing import Any, get_args

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.models_shop import Reading, Symptom
from lakewright.job.quantity import Quantity, is_given
from lakewright.physics.types import GRAVITY
from lakewright.physics.water import density
from lakewright.state.control_facts import SWITCH
from lakewright.state.facts import Facts
from lakewright.state.gather import defaults

SAID, TOLD, READ = 1, 2, 3
"""How much a sign weighs: found in a caller's own words, said by a field of the job, read on a gauge."""


@dataclass(frozen=True)
class Sign:
    """Something seen, and how."""

    seen: str
    weight: int
    figures: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Answer:
    """What a caller is told first, on what it rests, what to do, cheapest first, and what is still to be asked."""

    name: str
    line: str
    seen: tuple[str, ...]
    do: tuple[str, ...]
    ask: tuple[str, ...]
    source: str


@cache
def _rules() -> dict[str, Any]:
    return tomllib.loads(resources.files("lakewright.job").joinpath("first_answers.toml").read_text(encoding="utf-8"))


@cache
def _figure(name: str) -> float:
    row = _rules()["figures"][name]
    return units.read(row["value"], row["dimension"])


def first_answers(job: Job, facts: Facts) -> tuple[Answer, ...]:
    """The first answers to what a job says is wrong: those that rest on gauges before those that rest on words.

    Parameters
    ----------
    job : as read
    facts : of its design

    Returns
    -------
    Nothing where nobody complains and nothing is seen; where what is said names no cause, one answer that asks
    """
    signs = signs_of(job, facts)
    rows = [row for row in _rules()["answer"] if _is_called(row, signs)]
    ranked = sorted(rows, key=lambda row: -min(signs[sign].weight for sign in row["needs"]))
    answers = [_answer(row, signs) for row in ranked]
    if not _complains(job):
        return tuple(answers)
    wanting = _wanting(job)
    if not answers:
        asks = wanting or (_rules()["asks"]["gauges"],)
        line = f"What is said so far names no cause: ask {' and '.join(asks)}."
        return (Answer("nothing_named_yet", line, (), (), asks, "trade-practice"),)
    # The two questions go with the first answer: nobody wants to be asked them with each.
    first = answers[0]
    return (Answer(first.name, first.line, first.seen, first.do, (*wanting, *first.ask), first.source), *answers[1:])


def _is_called(row: Mapping[str, Any], signs: Mapping[str, Sign]) -> bool:
    return all(sign in signs for sign in row["needs"]) and not any(sign in signs for sign in row.get("unless", ()))


def _answer(row: Mapping[str, Any], signs: Mapping[str, Sign]) -> Answer:
    figures = {name: shown for sign in signs.values() for name, shown in sign.figures.items()}
    return Answer(
        name=row["name"],
        line=row["line"].format(**figures),
        seen=tuple(dict.fromkeys(signs[sign].seen for sign in row["needs"])),
        do=tuple(step.format(**figures) for step in row["do"]),
        ask=tuple(ask["words"] for ask in row.get("ask", ()) if not any(sign in signs for sign in ask["unless"])),
        source=row["source"],
    )


def _complains(job: Job) -> bool:
    latest = latest_visit(job)
    said = [have.symptom for have in job.have.values() if have.symptom and not _means(have.symptom, "nothing wrong")]
    return bool(said or (latest and (latest.does or latest.starves_after)))


def _wanting(job: Job) -> tuple[str, ...]:
    """Of the two things asked before any gauge, those that nobody has said."""
    latest = latest_visit(job)
    return tuple(
        _rules()["asks"][name]
        for name in ("changed", "first_minute")
        if not getattr(latest, name, None) and not (name == "first_minute" and latest and latest.starves_after)
    )


# What is seen.


def signs_of(job: Job, facts: Facts) -> dict[str, Sign]:
    """Every sign a job shows, each with how it was seen; what weighs more is kept."""
    found: dict[str, Sign] = {}
    for name, sign in (*_words(job), *_fields(job), *_gauges(job), *_statics(job, facts)):
        if name not in found or sign.weight > found[name].weight:
            found[name] = sign
    return found


def _words(job: Job) -> Iterator[tuple[str, Sign]]:
    """Signs found in a caller's own words."""
    latest = latest_visit(job)
    said = [have.symptom for have in job.have.values()]
    said += [latest.first_minute, latest.changed, latest.note] if latest else []
    for text in filter(None, said):
        for sign in _rules()["words"]:
            if _means(text, sign):
                yield sign, Sign(f'the words "{" ".join(text.split())}"', SAID)


NOT = re.compile(r"\b(not|never|no longer|without)\b|n't\b")
"""A word that denies what follows it."""


def words_of_symptoms() -> Mapping[str, Sequence[str]]:
    """How callers say what a reading may choose of, as patterns by symptom."""
    return {symptom: _rules()["words"][symptom] for symptom in get_args(Symptom)}


def _means(text: str, sign: str) -> bool:
    return means(text, _rules()["words"][sign])


def means(text: str, patterns: Sequence[str]) -> bool:
    """Whether words say what patterns look for and do not deny it.

    >>> means("It comes on at night.", ["comes on"]), means("It never comes on", ["comes on"])
    (True, False)
    """
    plain = " ".join(text.lower().replace("\u2019", "'").split())
    for clause in re.split(r"[;.!?](?:\s|$)", plain):
        for pattern in patterns:
            found = re.search(pattern, clause)
            if found is None:
                continue
            # ours: a denial reaches over three words.
            before = " ".join(clause[: found.start()].split()[-3:])
            if not NOT.search(before) and (NOT.search(pattern) or not NOT.search(found.group())):
                return True
    return False


def _fields(job: Job) -> Iterator[tuple[str, Sign]]:
    """Signs that fields of the job say."""
    latest = latest_visit(job)
    for word in latest.does if latest else ():
        yield word, Sign(f"[[readings]] does: {word}", TOLD)
    if latest and latest.starves_after and latest.starves_after.value <= _figure("first_minute"):
        yield "runs, then starves", Sign(f"it starves {latest.starves_after.text} after starting", TOLD)
    arrangement = job.holding.arrangement
    if arrangement is not None:
        sign = Sign(f"[holding] arrangement: {arrangement}", TOLD)
        yield ("check at the pump" if "check at pump" in arrangement else arrangement), sign
    # Rigid as its name in the stock says: nothing of it draws in.
    pipe = re.split(r"\W", job.suction.stock or "")[0].lower()
    if pipe in ("pvc", "copper", "galvanized", "steel"):
        yield "rigid line", Sign(f"[suction] stock: {job.suction.stock}", TOLD)


def _statics(job: Job, facts: Facts) -> Iterator[tuple[str, Sign]]:
    """A switch so far under the taps that what stands over it leaves them nothing."""
    tap, system = job.delivery.tap_height, job.job.units
    if not is_given(tap) or facts.control_kind != SWITCH:
        return
    rise = tap.value - float(facts.delivery.height.max())
    cut_in = float(facts.delivery.cut_in.max())
    static = rise * GRAVITY * float(density(facts.days.temperature).max())
    left = cut_in - static
    # A comparison with nan is false: where a fact is missing nothing is seen.
    if left < defaults()["taps.least"].value and rise > 0.0:
        over, at, rest = (units.show(pressure, "gauge", system) for pressure in (static, cut_in, max(left, 0.0)))
        up = units.show(rise, "length", system)
        seen = f"the highest tap {up} over the switch: {at} there leaves {rest} at the tap"
        yield "switch far below the taps", Sign(seen, TOLD, {"static": over, "rise": up})


def _gauges(job: Job) -> Iterator[tuple[str, Sign]]:
    """Signs read on gauges: the last visit by itself, and against the first good one of a year."""
    latest, system = latest_visit(job), job.job.units
    if latest is None:
        return
    standing = latest.suction_standing
    if standing is not None and standing.value >= _figure("line_under_pressure"):
        yield "line under pressure", Sign(f"the suction gauge reads {standing.text} standing", READ)
    first = _first_good(job.readings, latest)
    if first is None:
        return
    moves, between = _figure("vacuum_moves"), f"from {_when(first)} to {_when(latest)}"
    run, stand = (_rise(first, latest, name) for name in ("suction_running", "suction_standing"))
    if run is not None and not _draws_more(first, latest):
        if run >= moves:
            yield "vacuum up running", Sign(f"vacuum running up {_inches(run, system)} {between}", READ)
        if run <= -moves:
            yield "vacuum down running", Sign(f"vacuum running down {_inches(-run, system)} {between}", READ)
    if run is None or stand is None:
        return
    yield "standing vacuums read", Sign(f"vacuum standing, {between}", READ)
    if stand >= moves:
        seen = f"vacuum standing up {_inches(stand, system)} {between}"
        yield "vacuum up standing", Sign(seen, READ, {"more_lift": _head(stand, system)})
    if run - stand >= moves and not _draws_more(first, latest):
        seen = f"vacuum running up {_inches(run - stand, system)} more than standing, {between}"
        yield "losses up", Sign(seen, READ, {"more_loss": _head(run - stand, system)})


def latest_visit(job: Job) -> Reading | None:
    """The last visit."""
    return in_order(job.readings)[-1] if job.readings else None


def in_order(readings: Sequence[Reading]) -> list[Reading]:
    """Visits by date where all have one, else as the file has them."""
    dated = [(reading.date, n, reading) for n, reading in enumerate(readings) if reading.date is not None]
    return [reading for _, _, reading in sorted(dated)] if len(dated) == len(readings) else list(readings)


def _first_good(readings: Sequence[Reading], latest: Reading) -> Reading | None:
    """The first visit of the year before the last one at which the running gauge was read."""

    def is_near(reading: Reading) -> bool:
        return reading.date is None or latest.date is None or latest.date - reading.date <= timedelta(days=366)

    before = [r for r in in_order(readings) if r is not latest and r.suction_running is not None and is_near(r)]
    return before[0] if before else None


def _rise(first: Reading, latest: Reading, name: str) -> float | None:
    """How much deeper a vacuum is [Pa]; None where either reading is none."""
    old: Quantity | None = getattr(first, name)
    new: Quantity | None = getattr(latest, name)
    if old is None or new is None or old.value > 0.0 or new.value > 0.0:
        return None
    return old.value - new.value


def _draws_more(first: Reading, latest: Reading) -> bool:
    return (
        first.flow is not None
        and latest.flow is not None
        and latest.flow.value > _figure("draws_more") * first.flow.value
    )


def _when(reading: Reading) -> str:
    return reading.date.isoformat() if reading.date else "a visit without a date"


def _inches(pressure: float, system: str) -> str:
    return units.show(pressure, "vacuum", system)


def _head(pressure: float, system: str) -> str:
    """A vacuum as the column of cold water that it lifts."""
    # memory: fresh water weighs 1000 kg/m3 to a part in a thousand.
    return units.show(pressure / (1000.0 * GRAVITY), "lift", system)
