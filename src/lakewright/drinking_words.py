"""What is said of drinking the water: the authority's answer, what each barrier counts for, and which taps are raw."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from lakewright import units
from lakewright.checks.drinking import DRINKING
from lakewright.job.models import Job
from lakewright.physics.types import Array
from lakewright.state.drinking import by_chlorine, by_filters, by_lamp, lamp_lacks
from lakewright.state.drinking_facts import ASK
from lakewright.state.facts import Facts
from lakewright.state.water_tables import giardia_cell

MUSTS = frozenset(check.name for check in DRINKING if check.force == "must")

UNTIL = "not for drinking until it has answered"

LACKS = {
    "dose": "its dose is too small",
    "flow": "more passes it than it is rated for",
    "light": "the water is darker than it is rated for",
    "filter": "no filter of 5 um or finer stands before it",
    "clear": "the water is too cloudy",
}
"""Why a lamp counts for nothing."""


def is_wanted(facts: Facts) -> bool:
    """Whether people are to drink it, as far as anybody has said."""
    return bool((facts.drinking.wanted == 1.0).any())


def in_the_first_line(facts: Facts, statuses: Mapping[str, str]) -> str:
    """How it stands with drinking, in a word or three; nothing where nobody is to drink it, or all holds.

    Parameters
    ----------
    statuses : of the findings, by name
    """
    if not is_wanted(facts):
        return ""
    answered = statuses.get("authority_lets_it_be_drunk") == "holds"
    open_ = any(statuses.get(name) in ("fails", "unknown") for name in MUSTS)
    return "" if answered and not open_ else "not for drinking yet"


def told_of_drinking(name: str, message: str, job: Job, facts: Facts) -> str:
    """The message of a finding that is known, with what only words can say."""
    if name == "authority_lets_it_be_drunk":
        return _answer_words(job)
    if name == "no_bloom_is_known_here":
        return _bloom_words(job, facts)
    if name == "supply_is_a_private_one" and job.need.public == "yes":
        return "renters, a camp or a second house use it: it may be a public supply"
    if name == "barriers_meet_their_targets":
        return f"{message}: {barrier_words(facts)}"
    if name == "lamp_stays_inside_its_rating" and bool((facts.drinking.held == 0.0).all()):
        return f"{message}, and no valve holds it there"
    if name == "chlorine_has_time_to_work":
        return message + _giardia_words(facts, job.job.units)
    return message


def _answer_words(job: Job) -> str:
    rules = job.site.rules
    said, on = rules.drinking, f" on {rules.asked.isoformat()}" if rules.asked else ""
    quoted = f": {rules.answer}" if rules.answer else ""
    if said == "answered yes":
        return f"the authority has answered yes{quoted}"
    if said == "answered no":
        return f"the authority has answered no{quoted}; not for drinking"
    if said == "asked":
        return f"the authority was asked{on}: {UNTIL}"
    return ASK


def _bloom_words(job: Job, facts: Facts) -> str:
    if bool((facts.drinking.bloom == 0.0).all()):
        return "none is known of"
    months = job.site.clarity.bloom_months
    return f"algae bloom here{' in ' + ', '.join(months) if months else ''}: then neither people nor animals drink it"


def barrier_words(facts: Facts) -> str:
    """The barriers in order, each with its log reductions of Giardia, Cryptosporidium and viruses on the worst day."""
    given = facts.drinking
    parts = [f"filters {_logs(by_filters(facts))}"]
    if bool((given.lamp == 1.0).all()):
        lacks = [LACKS[each] for each in lamp_lacks(facts)]
        parts.append(f"lamp {_logs(by_lamp(facts))}" + (f" ({'; '.join(lacks)})" if lacks else ""))
    if bool((given.chlorine == 1.0).all()):
        parts.append(f"chlorine {_logs(by_chlorine(facts))}")
    return f"{', '.join(parts)} (Giardia/Cryptosporidium/viruses)"


def _logs(logs: tuple[Array, Array, Array]) -> str:
    return "/".join(units.show(float(np.floor(10.0 * each.min()) / 10.0), "count", "SI") for each in logs)


def _giardia_words(facts: Facts, system: str) -> str:
    """What chlorine alone would need for Giardia by the federal table, and no fit."""
    given = facts.drinking
    coldest = float(np.minimum(facts.days.temperature, given.coldest).min())
    cell = giardia_cell(coldest, float(given.ph.max()), float(given.residual.max()))
    if not cell > 0.0:
        return ""
    asked = units.show(cell / float(given.residual.max()), "minutes", system)
    return f"; for 3 log of Giardia alone the federal table asks {asked}"


def raw_taps(facts: Facts) -> tuple[str, ...]:
    """Names of the taps that are not for drinking: those past no treatment, and all where nobody is to drink it."""
    wanted = is_wanted(facts)
    filtered = np.broadcast_to(facts.taps.filtered, facts.taps.height.shape)
    pairs = zip(facts.tap_names, filtered.reshape(-1), strict=True)
    return tuple(name for name, through in pairs if not (wanted and through > 0.0))


def tags(facts: Facts) -> tuple[str, ...]:
    """The caution that names the taps that are not for drinking, where there are any."""
    taps = raw_taps(facts)
    return (f"Not for drinking: {', '.join(taps)}. Mark each so where the water comes out.",) if taps else ()
