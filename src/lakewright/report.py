"""Verdicts in words: findings, assumptions, the first line. The same sentence on screen, page and paper."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from functools import cache
from typing import Any

from lakewright import __version__, units
from lakewright.checks.control import OF_CONTROL
from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import FAILS, HOLDS, NOT_ASKED, STATUS_WORDS, TIGHT, UNKNOWN, Check, Verdict
from lakewright.drinking_words import in_the_first_line, tags, told_of_drinking
from lakewright.first_answer import Answer, first_answers
from lakewright.gauges import Reading, gas_words, prime_words, readings_of
from lakewright.haul import Haul, haul_of
from lakewright.holding import asks_how_to_hold, told_how_far_to_hold, told_how_to_hold
from lakewright.job.models import Job
from lakewright.running_cost import energy_words
from lakewright.season import SeasonPart, season_of
from lakewright.state.assemble import Assembly
from lakewright.state.cases import CUT_IN, OPEN, case_names, cases_of
from lakewright.state.control_facts import STORE, ends_of
from lakewright.state.facts import Facts, is_missing
from lakewright.state.gather import Assumed
from lakewright.state.priced import Priced
from lakewright.state.quote import in_a_line
from lakewright.state.samples import Sample, samples_of
from lakewright.state.walk import State
from lakewright.window import Window, no_suction_pump, window_of, window_words

AS_BUILT = {"pump": "the curve itself", "drinking": "any day"}
"""What a check is judged on that asks after no case."""

WORST_FIRST = {FAILS: 0, UNKNOWN: 1, TIGHT: 2, HOLDS: 3, NOT_ASKED: 4}


@dataclass(frozen=True)
class Finding:
    """One verdict at one design, in words. Numbers are SI; None where unknown or not asked."""

    name: str
    station: str
    status: str
    force: str
    value: float | None
    limit: float | None
    unit: str
    margin: float | None
    case: str | None
    source: str
    remedy: str
    message: str

    @property
    def goes_without_saying(self) -> bool:
        """Whether it is asked of another way to start and stop the pump than this job's, and so says nothing here."""
        return self.status == STATUS_WORDS[NOT_ASKED] and self.name in OF_CONTROL

    @property
    def waits_for_design(self) -> bool:
        """Whether nothing is missing but what the job leaves to `design`."""
        return self.status == "unknown" and all(
            why.endswith("is open: design chooses it") for why in self.message.split("; ")
        )


@dataclass(frozen=True)
class Report:
    """All of it for one job."""

    title: str
    units: str
    grade: str
    date: str
    version: str
    first_line: str
    window: str
    ways_out: tuple[str, ...]
    answers: tuple[Answer, ...]
    findings: tuple[Finding, ...]
    gauges: tuple[Reading, ...]
    haul: Haul | None
    energy: str
    assumed: tuple[Assumed, ...]
    told: int
    cases: Mapping[str, Sequence[str]]
    unjudged: tuple[str, ...]
    cautions: tuple[str, ...]
    samples: tuple[Sample, ...]
    passed: bool
    priced: Priced | None
    season: tuple[SeasonPart, ...] = ()
    paper: str = ""  # letter or a4, where it is not to be that of the units; nothing that is said hangs on it

    def as_json(self) -> dict[str, Any]:
        """The whole report as plain values, without a nan."""
        return {
            "job": self.title,
            "version": self.version,
            "grade": self.grade,
            "units": self.units,
            "date": self.date,
            "first_line": self.first_line,
            "window": self.window,
            "ways_out": list(self.ways_out),
            "answers": [asdict(answer) for answer in self.answers],
            "cases": {name: list(names) for name, names in self.cases.items()},
            "findings": [asdict(finding) for finding in self.findings],
            "gauges": [asdict(reading) for reading in self.gauges],
            "haul": None if self.haul is None else asdict(self.haul),
            "energy": self.energy,
            "assumed": [
                {
                    "key": a.key,
                    "name": a.name,
                    "value": a.text or _finite(a.value),
                    "standing": a.standing,
                    "why": a.why,
                    "from_record": a.from_record,
                }
                for a in self.assumed
            ],
            "told": self.told,
            "unjudged": list(self.unjudged),
            "cautions": list(self.cautions),
            "tests": [asdict(sample) for sample in self.samples],
            "passed": self.passed,
            "season": {part.title: list(part.rows) for part in self.season},
            "price": None if self.priced is None else _price_as_json(self.priced),
        }


def _price_as_json(priced: Priced) -> dict[str, Any]:
    """Bill and quote as plain values, in cents."""
    quote, bill = priced.quote, priced.bill
    return {
        "total": quote.total,
        "whole": not quote.missing,
        "lines": [
            {"what": line.what, "kind": line.kind, "amount": line.amount, "why": line.why} for line in quote.lines
        ],
        "missing": list(quote.missing),
        "excluded": list(quote.excluded),
        "deposit": quote.deposit,
        "valid_until": quote.valid_until.isoformat() if quote.valid_until else None,
        "parts": [asdict(line) for line in bill.lines],
        "gaps": list(bill.gaps),
        "notes": list(bill.notes),
    }


def _finite(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def passes(verdicts: Iterable[tuple[Check, int]]) -> bool:
    """Whether every must holds or is tight; one that is not asked does not count.

    >>> passes([(CHECKS[0], TIGHT), (CHECKS[1], NOT_ASKED)])
    True
    """
    return all(status in (HOLDS, TIGHT, NOT_ASKED) for check, status in verdicts if check.force == "must")


def findings_of(
    facts: Facts,
    verdicts: Sequence[Verdict],
    missing: Mapping[str, str],
    system: str,
    checks: tuple[Check, ...] = CHECKS,
) -> tuple[Finding, ...]:
    """The finding of every check, or of those that were judged, for one job, worst first and then by station."""
    found = [_finding(check, verdict, facts, missing, system) for check, verdict in zip(checks, verdicts, strict=True)]
    failed = {f.name for f in found if f.status == "fails"}
    if failed & set(SUCTION_FIRST):
        found = [_if_only(f) if f.name in RESTS_ON_SUCTION and f.value is not None else f for f in found]
    place = {check.name: number for number, check in enumerate(CHECKS)}
    order = {STATUS_WORDS[status]: rank for status, rank in WORST_FIRST.items()}
    force = {"must": 0, "should": 1, "note": 2}
    return tuple(sorted(found, key=lambda f: (order[f.status], force[f.force], place[f.name])))


def _if_only(finding: Finding) -> Finding:
    return replace(finding, message=f"{finding.message}, if only the suction held")


def _finding(check: Check, verdict: Verdict, facts: Facts, missing: Mapping[str, str], system: str) -> Finding:
    status = int(verdict.status[()])
    known = status in (FAILS, TIGHT, HOLDS)
    case = None
    if known:
        names = case_names(
            "standing" if check.cases == "filling" else check.cases, facts.day_names, ends_of(facts.control_kind)
        )
        case = AS_BUILT.get(check.block, "as built") if check.cases == "all" else names[int(verdict.case[()])]
    value, limit = float(verdict.value[()]), float(verdict.limit[()])
    if known and verdict.which is not None:
        check = replace(check, label=f"at {facts.tap_names[verdict.which]}")
    return Finding(
        name=check.name,
        station=check.at,
        status=STATUS_WORDS[status],
        force=check.force,
        value=_finite(value) if known else None,
        limit=_finite(limit) if known else None,
        unit=check.unit,
        margin=_finite(float(verdict.margin[()])) if known else None,
        case=case,
        source=check.source,
        remedy=check.remedy,
        message=_message(check, status, value, limit, facts, missing, system),
    )


def _message(
    check: Check,
    status: int,
    value: float,
    limit: float,
    facts: Facts,
    missing: Mapping[str, str],
    system: str,
) -> str:
    if status == NOT_ASKED:
        return "not asked here"
    if status == UNKNOWN:
        wanting = [why for fact in check.facts_needed(facts.pump_kind) if (why := missing.get(fact))]
        return "; ".join(dict.fromkeys(wanting)) or "a number on the way to it is not known in some case"
    if value < 0.0 and check.short_words:
        return f"{units.show(-value, check.shows, system)} {check.short_words}"
    shown = units.show(value, check.shows, system)
    if check.limit_words and math.isinf(limit):
        return f"{shown} {check.label}; a rule's table does not go so far"
    if check.limit_words:
        least = units.show(limit, check.shows, system)
        if status == FAILS:  # what falls short by a hair is not to read as if it did not
            shown, least = units.show_apart(value, limit, check.shows, system)
        return f"{shown} {check.label}, {check.limit_words} {least}"
    return f"{shown} {check.label}"


SUCTION_FIRST = ("lift_is_within_practice", "suction_stays_liquid")
"""Checks without which no flow is worth naming."""

RESTS_ON_SUCTION = (
    *("delivers_the_need", "reaches_cut_out", "runs_long_enough"),
    *("motor_starts_seldom_enough", "delivery_runs_gently", "controller_lets_the_pump_rest"),
    *("pressure_holds_at_the_need", "pump_fills_the_store", "store_lasts_through_the_peak"),
)


def first_line(
    facts: Facts, state: State, findings: Sequence[Finding], window: Window, system: str, price: str = ""
) -> tuple[str, tuple[str, ...]]:
    """The one line that says how it stands and what it costs, and the ways out where no suction pump will do."""
    no = no_suction_pump(facts, window, system)
    if no is not None:
        return no
    if is_missing(facts.pump.curve) and is_missing(facts.pump.jet):
        return _no_pump_yet(facts, state, system), ()
    lift = units.show(float(state.flow.suction_lift.max()), "lift", system)
    failed = {f.name for f in findings if f.status == "fails"}
    if failed & set(SUCTION_FIRST):
        line = f"The suction side fails before any flow can be promised · lift with losses {lift}"
        return f"{line} · {_left_to_do(findings)}", ()
    cases = cases_of(len(facts.day_names))
    flow = units.show(float(state.flow.flow[..., cases.running_end == CUT_IN].min()), "flow", system)
    cut_in = units.show(float(facts.delivery.cut_in[0]), "gauge", system)
    drunk = in_the_first_line(facts, {f.name: f.status for f in findings})
    at = "into the store" if facts.control_kind == STORE else f"at {cut_in}"
    parts = (f"{flow} {at} on the worst day", f"lift with losses {lift}", price, drunk, _left_to_do(findings))
    return " · ".join(part for part in parts if part and "unknown" not in part), ()


def _no_pump_yet(facts: Facts, state: State, system: str) -> str:
    """What is known before there is a pump: what it will be asked, and how far it will have to lift."""
    flow = units.show(float(facts.need.flow.max()), "flow", system)
    cut_in = units.show(float(facts.delivery.cut_in.max()), "gauge", system)
    lift = units.show(float(state.place.lift.max()), "lift", system)
    parts = ("No pump is chosen yet", f"asked of it {flow} at {cut_in}", f"lift from the lowest water {lift}")
    return " \u00b7 ".join(part for part in parts if "unknown" not in part)


def _left_to_do(findings: Sequence[Finding]) -> str:
    wrong = sum(f.status == "fails" and f.force != "note" for f in findings)
    unknown = sum(f.status == "unknown" and f.force != "note" for f in findings)
    tight = sum(f.status == "tight" and f.force != "note" for f in findings)
    words = [
        f"{wrong} to put right" if wrong else "",
        f"{unknown} not known" if unknown else "",
        f"{tight} tight" if tight else "",
    ]
    return ", ".join(word for word in words if word) or "all holds"


def cautions_of(job: Job, facts: Facts, state: State, findings: Sequence[Finding]) -> tuple[str, ...]:
    """The cautions this job calls up, in the order of `cautions.toml`."""
    called = {"always"} if job.site.kind == "tank" else {"always", "open water"}
    if bool((facts.days.ice > 0.0).any()):
        called.add("ice")
    end = cases_of(len(facts.day_names)).running_end
    called.add(facts.control_kind)
    if facts.control_kind != STORE and bool((state.pump.room[..., end == OPEN] < 0.0).any()):
        called.add("runs out when open")
    if job.stand.form in ("hung", "floating", "box"):
        called.add("hangs")
    if job.site.ice.shove == "yes":
        called.add("shove")
    called |= {f"{f.name} {f.status}" for f in findings}
    if bool(((facts.drinking.wanted == 1.0) | (facts.drinking.herd == 1.0)).any()):
        called.add("drunk")
    return (*(row["words"] for row in _cautions() if row["when"] in called), *tags(facts))


@cache
def _cautions() -> tuple[dict[str, str], ...]:
    """The rows of `cautions.toml`."""
    import tomllib
    from importlib import resources

    text = resources.files("lakewright.job").joinpath("cautions.toml").read_text(encoding="utf-8")
    return tuple(tomllib.loads(text)["caution"])


def report(
    job: Job,
    assembly: Assembly,
    facts: Facts,
    state: State,
    verdicts: Sequence[Verdict],
    priced: Priced | None = None,
) -> Report:
    """Everything about one job, in words.

    Parameters
    ----------
    job, assembly : as read, and what stands behind its facts
    facts, state, verdicts : of the design to report on; the job's own, or one that was chosen for it
    priced : its bill and quote, where they were asked for; what cannot work has no price
    """
    system = job.job.units
    missing = {name: why for name, why in assembly.missing.items() if is_missing(facts.value(name))}
    besides = {
        "lift_is_within_practice": gas_words(facts, state, system),
        "line_is_primed_in_time": prime_words(facts, state, system),
    }
    findings = tuple(
        replace(f, message=told_of_drinking(f.name, f.message + besides.get(f.name, ""), job, facts))
        if f.value is not None
        else f
        for f in findings_of(facts, verdicts, missing, system)
    )
    if any(asks_how_to_hold(f) for f in findings) and (ballast := assembly.ballast()) is not None:
        findings = told_how_to_hold(findings, ballast, facts, system)
    findings = tuple(told_how_far_to_hold(f, job, facts) for f in findings)
    window = window_of(facts)
    price = in_a_line(priced.quote) if priced is not None else ""
    line, ways = first_line(facts, state, findings, window, system, price)
    statuses = [(check, int(v.status[()])) for check, v in zip(CHECKS, verdicts, strict=True)]
    return Report(
        title=job.job.title or "",
        units=system,
        grade=job.job.grade,
        date=str(job.job.date or ""),
        version=__version__,
        first_line=line,
        window=window_words(window, float(facts.pump.height.max()), system),
        ways_out=ways,
        answers=first_answers(job, facts),
        findings=findings,
        gauges=readings_of(facts, state, job.power.motor_current is not None),
        haul=haul_of(facts, state),
        energy=energy_words(job, facts, state, assembly.per_day, system),
        assumed=assembly.assumed,
        told=sum(standing == "told" for standing in assembly.standings.values()),
        cases={
            name: case_names(name, facts.day_names, ends_of(facts.control_kind))
            for name in ("running", "standing", "weather", "filling")
        },
        unjudged=assembly.unjudged,
        cautions=cautions_of(job, facts, state, findings),
        samples=samples_of(job, facts),
        passed=passes(statuses),
        priced=None if ways else priced,
        season=() if ways else season_of(job, facts, state),
    )
