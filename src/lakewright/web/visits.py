"""What is likely wrong with a system, from what was read and seen at a visit, as the page asks and shows it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args

from markupsafe import Markup

from lakewright.api.diagnose import Advice, advise
from lakewright.api.look import fields
from lakewright.api.read import read
from lakewright.diagnosis_lines import (
    CAUTION,
    LEAST_CHANCE,
    MOST_SUSPECTS,
    NAMES,
    chance_words,
    reading_span,
    reading_words,
    sound_words,
    span,
)
from lakewright.errors import JobError
from lakewright.job.models_shop import Symptom
from lakewright.search.diagnose import Suspect
from lakewright.web.jobs import JobAt
from lakewright.web.posts import today
from lakewright.web.view import render

WORDS = ("changed", "came", "first_minute", "wetted", "note")
GAUGES = (
    *("suction_standing", "suction_running", "pressure_standing", "pressure_running"),
    *("pressure_shut", "suction_shut", "pressure_stop", "tank_air", "lake_level"),
    *("flow", "flow_before_filter", "motor_current", "drawdown", "cycle_time", "starves_after"),
)

VACUUM = {"US": "8 inHg vacuum", "SI": "27 kPa vacuum"}
"""What is read on a suction gauge, by example."""


def visits(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """The last visit of a draft to fill in, and what is likely wrong by it, as a piece of HTML."""
    trouble, advice, count, seen = "", None, 0, []
    try:
        said = read(job.file, text)[0]
        count = len(said.readings)
        seen = list(said.readings[-1].does) if count else []
        advice = advise(job.file, text=text)
    except JobError as error:
        trouble = render("mistakes.html", mistakes=error.mistakes, head="Not while the draft cannot be judged.")
    at = max(count, 1)
    si = fields(text, ["job.units"])[0].value == "SI"
    every = fields(text, [f"readings.{at}.{name}" for name in ("date", *WORDS, *GAUGES)])
    return render(
        "leaf_visits.html",
        at=at,
        count=count,
        today=today(),
        named={each.key.rpartition(".")[2]: each for each in every},
        words=WORDS,
        gauges=GAUGES,
        called={name: called for name, (called, _) in NAMES.items()} | {"starves_after": "runs well for, then starves"},
        vacuum=f"such as {VACUUM['SI' if si else 'US']}",
        symptoms=get_args(Symptom),
        seen=seen,
        trouble=Markup(trouble),
        found=Markup("" if advice is None else _found(advice)),
    )


def _found(advice: Advice) -> str:
    found, system = advice.found, advice.units
    said = bool(found.case.seen or found.case.said.signs or found.case.said.ruled_out)
    shown = [each for each in found.suspects[:MOST_SUSPECTS] if each.chance >= LEAST_CHANCE]
    return render(
        "diagnosis.html",
        caution=CAUTION,
        said=said,
        impossible=[
            (NAMES[each.name][0], *(reading_words(each.name, one, system) for one in (each.read, each.low, each.high)))
            for each in found.impossible
        ],
        unweighed=[NAMES[name][0] for name in found.unweighed],
        missing=advice.missing,
        fits=found.fits,
        sound=sound_words(advice),
        suspects=[_suspect(each, system) for each in shown] if said else [],
        beside=chance_words(found.beside),
        tests=advice.next[:2] if said else (),
        expected=[
            {
                "name": NAMES[each.name][0],
                "sound": reading_span(each, NAMES[each.name][1], system),
                "read": "" if each.read is None else reading_words(each.name, each.read, system),
                "off": each.read is not None and not each.low <= each.read <= each.high,
            }
            for each in found.expected
        ],
        answers=[answer for answer in advice.answers if answer.do],
    )


def _suspect(suspect: Suspect, system: str) -> dict[str, Any]:
    fault, size = suspect.fault, ""
    if fault.size:
        low, high = sorted((suspect.size[0], suspect.size[2]), key=abs)
        cost = span(suspect.lost[0], suspect.lost[2], "share", system)
        size = f"{span(low, high, fault.kind, system)} {fault.size}; it costs {cost} of the flow"
    return {"chance": chance_words(suspect.chance), "words": fault.words, "size": size, "look": fault.look}
