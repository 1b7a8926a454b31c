"""The words of a report: findings, the first line, what was assumed. The same words on screen, page and paper."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from lakewright.api.check import check
from lakewright.checks.registry import CHECKS, judge
from lakewright.checks.verdict import FAILS, HOLDS, NOT_ASKED, TIGHT, UNKNOWN
from lakewright.report import Finding, Report, findings_of, passes
from lakewright.state.gather import defaults
from lakewright.state.limits import limit_rows
from lakewright.state.walk import walk
from lakewright.window import Window
from tests.checks.test_status_table import SOUND, changed
from tests.job.example import EXAMPLE, example_text
from tests.promises import NEVER_SAID

pytestmark = pytest.mark.message


ROOT = EXAMPLE.parents[1]


def finding(
    name: str,
    change: Mapping[str, Any],
    system: str = "US",
    missing: Mapping[str, str] | None = None,
    kind: str = "centrifugal",
) -> Finding:
    """One check's finding on the sound job with a change."""
    facts = changed(SOUND[kind](), change)
    found = findings_of(facts, judge(walk(facts), facts.limits), missing or {}, system)
    return next(each for each in found if each.name == name)


def report_of(tmp_path: Path, *edits: tuple[str, str], text: str = "") -> Report:
    """The report on the example, or on a text, with some of its words replaced."""
    whole = text or example_text()
    for old, new in edits:
        assert old in whole, f"the example no longer says {old!r}"
        whole = whole.replace(old, new)
    path = tmp_path / "job.toml"
    path.write_text(whole, encoding="utf-8")
    return check(path)


def of(report: Report, name: str) -> Finding:
    return next(each for each in report.findings if each.name == name)


# Findings

MESSAGES = [
    (
        "inlet_stands_clear_of_the_bed",
        {"stand.sink": 0.65},
        "fails",
        "0.8 ft from the bed to the inlet, at least 1.0 ft",
    ),
    (
        "inlet_stands_clear_of_the_bed",
        {"stand.sink": 0.601},
        "fails",
        "0.981 ft from the bed to the inlet, at least 0.984 ft",
    ),
    (
        "inlet_stands_clear_of_the_bed",
        {"stand.sink": 0.55},
        "tight",
        "1.1 ft from the bed to the inlet, at least 1.0 ft",
    ),
    ("inlet_stays_below_the_ice", {"days.ice": [0.0, 4.7]}, "tight", "0.8 ft between ice and inlet, at least 0.5 ft"),
    ("inlet_stays_below_the_ice", {"days.ice": [0.0, 0.0]}, "not asked", "not asked here"),
    ("pump_stands_in_its_window", {"pump.height": 1.2}, "fails", "0.3 ft outside the pump's window"),
    ("pump_stands_in_its_window", {"pump.height": 1.4}, "tight", "0.3 ft inside the pump's window"),
]


@pytest.mark.parametrize("name, change, status, message", MESSAGES)
def test_the_message_of_a_finding(name: str, change: dict[str, Any], status: str, message: str) -> None:
    found = finding(name, change)
    assert (found.status, found.message) == (status, message)


def test_a_finding_has_its_numbers_in_si_and_its_case() -> None:
    found = finding("inlet_stays_below_the_ice", {"days.ice": [0.0, 4.7]})
    assert found.value == pytest.approx(0.25)
    assert (found.limit, found.unit, found.case) == (0.15, "m", "day 1")
    assert found.margin == pytest.approx(0.1 / 0.1524)
    assert (found.station, found.force, found.source) == ("inlet", "must", "stormwater-ice")


@pytest.mark.parametrize("change", [{"site.flood": math.nan}, {"days.ice": [0.0, 0.0]}])
def test_what_is_unknown_or_not_asked_has_no_numbers(change: dict[str, Any]) -> None:
    for name in ("pump_stands_in_its_window", "inlet_stays_below_the_ice"):
        found = finding(name, change)
        if found.status in ("unknown", "not asked"):
            assert (found.value, found.limit, found.margin, found.case) == (None, None, None, None)


def test_an_unknown_names_what_is_missing_each_once() -> None:
    flood, waves = "[site.levels] flood is not given", "[site.levels] waves is not given"
    missing = {"site.flood": flood, "site.waves": waves, "need.flow": "[need] flow is not given"}
    change = {"site.flood": math.nan, "site.waves": math.nan}
    assert finding("pump_stands_in_its_window", change, missing=missing).message == f"{flood}; {waves}"
    twice = {"site.flood": flood, "site.waves": flood}
    assert finding("pump_stands_in_its_window", change, missing=twice).message == flood


def test_an_unknown_with_nothing_missing_says_so() -> None:
    words = "a number on the way to it is not known in some case"
    assert finding("pump_stands_in_its_window", {"site.flood": math.nan}).message == words


def test_what_only_a_suction_that_holds_would_bring_says_so() -> None:
    found = finding("delivers_the_need", {"suction.coefficient": 150.0})
    assert found.message.endswith(", if only the suction held")
    assert "if only" not in finding("delivers_the_need", {}).message


def test_findings_come_worst_first_then_by_force_then_as_water_flows() -> None:
    facts = changed(SOUND["centrifugal"](), {"pump.fall": -1.0, "site.flood": math.nan, "delivery.tank_volume": 0.2})
    found = findings_of(facts, judge(walk(facts), facts.limits), {}, "SI")
    notes = ["pump_curve_falls", "motor_starts_seldom_enough"]
    assert [f.name for f in found[:4]] == ["runs_long_enough", *notes, "pump_stands_in_its_window"]
    rest = [f.name for f in found[4:] if f.force == "must" and f.status != "not asked"]
    assert rest == [c.name for c in CHECKS if c.name in rest]


def test_passing_is_every_must_holding_tight_or_not_asked() -> None:
    must, should = CHECKS[0], next(check for check in CHECKS if check.force == "should")
    for status, passed in ((HOLDS, True), (TIGHT, True), (NOT_ASKED, True), (FAILS, False), (UNKNOWN, False)):
        assert passes([(must, status), (should, FAILS)]) is passed


# A job


def test_a_fail_in_a_job(tmp_path: Path) -> None:
    report = report_of(tmp_path, ('riser = "24 in"', 'riser = "10 in"'))
    found = of(report, "inlet_stands_clear_of_the_bed")
    # 2 in of frame and 10 in of riser, less 3 in of sinking.
    assert (found.status, found.message) == ("fails", "0.8 ft from the bed to the inlet, at least 1.0 ft")
    assert not report.passed
    assert report.first_line.endswith("not for drinking yet · 1 to put right, 2 tight")


def test_a_tight_in_a_job(tmp_path: Path) -> None:
    report = report_of(tmp_path, ('riser = "24 in"', 'riser = "14 in"'))
    found = of(report, "inlet_stands_clear_of_the_bed")
    assert (found.status, found.message) == ("tight", "1.1 ft from the bed to the inlet, at least 1.0 ft")
    assert report.passed


def without_flood(grade: str) -> tuple[tuple[str, str], ...]:
    flood = next(line for line in example_text().splitlines() if line.startswith("flood = "))
    return (flood, ""), ('grade = "build"', f'grade = "{grade}"')


def test_an_unknown_in_a_build_names_the_key_and_stops_it(tmp_path: Path) -> None:
    report = report_of(tmp_path, *without_flood("build"))
    found = of(report, "pump_stands_in_its_window")
    assert (found.status, found.message) == ("unknown", "[site.levels] flood is not given")
    assert not report.passed
    assert report.window == ""


def test_the_same_in_a_quote_is_assumed_and_said(tmp_path: Path) -> None:
    report = report_of(tmp_path, *without_flood("quote"))
    assert of(report, "pump_stands_in_its_window").status == "holds"
    row = next(assumed for assumed in report.assumed if assumed.key == "site.flood")
    assert (row.standing, row.why) == ("assumed", "a natural lake swings 3 ft until looked up (trade-practice)")
    assert row.value == pytest.approx(0.9144)


def test_what_is_open_is_unknown_and_says_who_chooses(tmp_path: Path) -> None:
    report = report_of(tmp_path, ('tank     = "diaphragm tank, 62 gal"', 'tank     = "open"'))
    assert of(report, "runs_long_enough").message == "[delivery] tank is open: design chooses it"


# The first line


def test_the_first_line_of_a_job_that_holds(tmp_path: Path) -> None:
    report = report_of(tmp_path)
    assert re.fullmatch(
        r"\d+\.\d gpm at 30 psi on the worst day · lift with losses \d+\.\d ft · (at least )?\$\d+,\d{3}"
        r" · not for drinking yet · 2 tight",
        report.first_line,
    )
    assert report.ways_out == ()
    assert report.window.startswith("pump window +3.0 ft to +20.1 ft from the usual water level; the pump stands at")


WAYS_OUT = (
    "set a pump near the water and push up to the house",
    "use a jet with two pipes, its ejector down at the water",
    "put the pump in the water",
    "float the pump on the water, where there is no ice",
    "lift slowly to a storage tank part of the way and boost from there",
)

# 26 ft of flood and 1 ft of waves: no place is above both and low enough. Or the lake falls 28 ft, as behind a dam.
HOPELESS = [
    (('flood = { value = "2 ft"', 'flood = { value = "26 ft"'), r"\+27\.0 ft", r"\+2\d\.\d ft"),
    (('level  = "-2.5 ft"', 'level  = "-28 ft"'), r"\+3\.0 ft", r"-\d\.\d ft"),
]


@pytest.mark.parametrize("edit, bottom, top", HOPELESS)
def test_no_suction_pump_will_do(tmp_path: Path, edit: tuple[str, str], bottom: str, top: str) -> None:
    report = report_of(tmp_path, edit)
    wanted = (
        rf"No suction pump will do this: it would have to stand above {bottom} to stay clear of the highest water"
        rf" and below {top} to lift from the lowest\."
    )
    assert re.fullmatch(wanted, report.first_line)
    assert report.ways_out == WAYS_OUT
    assert report.window == ""
    assert not report.passed
    assert of(report, "pump_stands_in_its_window").status == "fails"


def test_a_pump_too_high_up_the_bank_is_told_how_far_down(tmp_path: Path) -> None:
    report = report_of(tmp_path, ('height   = { value = "7.7 ft"', 'height   = { value = "28 ft"'))
    line = r"No suction pump will do this from \+28\.0 ft: from above \+2\d\.\d ft none lifts the lowest water here\."
    assert re.fullmatch(line, report.first_line)
    assert re.fullmatch(r"move the pump down the bank, to \+1\d\.\d ft or lower", report.ways_out[0])
    assert report.ways_out[1:] == WAYS_OUT


def test_a_suction_side_that_fails_promises_no_flow(tmp_path: Path) -> None:
    report = report_of(tmp_path, ("fittings = { elbows = 2, inserts = 2, tees = 1 }", "loss_coefficient = 400"))
    assert report.first_line.startswith("The suction side fails before any flow can be promised · lift ")
    assert "gpm" not in report.first_line


def test_a_window_is_open_while_its_top_is_not_under_its_bottom() -> None:
    assert Window(1.0, 1.0).is_open
    assert not Window(1.0, 0.999).is_open
    assert not Window(math.nan, 3.0).is_open


# What was assumed

TEN_ANSWERS = """
[job]
title = "Ten answers"
units = "US"

[site]
water = "Long Arm Lake"
kind  = "lake"
dam   = "no"
boats = "some"

[site.levels]
low = "-3 ft"

[site.bed]
kind = "gravel"

[need]
baths    = 1
drinking = "no"
season   = "year-round"

[stand]
at = "120 ft"

[pump]
stock    = "centrifugal, two-stage, 1/2 hp"
distance = "30 ft"
height   = "8 ft"

[delivery]
length = "100 ft"
height = "18 ft"
"""


def test_a_quote_from_the_ten_answers_assumes_the_rest_and_decides(tmp_path: Path) -> None:
    report = report_of(tmp_path, text=TEN_ANSWERS)
    assert report.grade == "quote"
    assert [f.name for f in report.findings if f.status == "unknown"] == []
    keys = [assumed.key for assumed in report.assumed]
    told = {"pump.height", "pump.stock", "delivery.length", "delivery.height", "suction.bed_length"}
    assert not told & set(keys)
    assert {
        "need.flow",
        "site.elevation",
        "site.flood",
        "site.waves",
        "site.weather",
        "days.temperature",
        "days.ice",
        "days.dirt",
        "stand.depth",
        "stand.riser",
        "stand.sink",
        "delivery.cut_in",
        "delivery.cut_out",
        "delivery.precharge",
    } <= set(keys)


def test_every_assumption_says_why(tmp_path: Path) -> None:
    for text in (TEN_ANSWERS, example_text()):
        for assumed in report_of(tmp_path, text=text).assumed:
            assert assumed.why.strip(), assumed.key
            assert assumed.standing in ("assumed", "override"), assumed.key


def test_a_build_assumes_only_what_no_visit_would_measure(tmp_path: Path) -> None:
    report = report_of(tmp_path)
    said = re.compile(r'= \{ value = "[^"]+", assumed')
    in_file = 1
    assert len(said.findall(example_text())) == in_file
    always = {name for name, row in defaults().items() if row.always} | {"suction.along", "delivery.precharge"}
    assert {assumed.key for assumed in report.assumed} <= always


def test_a_limit_of_ones_own_is_said_with_its_reason(tmp_path: Path) -> None:
    own = '\n[limits.bed_comfort]\nvalue = "3 in"\nreason = "a rock shelf, no silt"\n'
    report = report_of(tmp_path, text=example_text() + own)
    row = next(assumed for assumed in report.assumed if assumed.key == "limits.bed_comfort")
    assert (row.standing, row.why) == ("override", "a rock shelf, no silt")


# JSON


def plain_values(value: Any) -> bool:
    """Whether a value is made of what JSON knows, without nan or infinity."""
    if isinstance(value, dict):
        return all(isinstance(key, str) and plain_values(inner) for key, inner in value.items())
    if isinstance(value, list | tuple):
        return all(plain_values(inner) for inner in value)
    return value is None or isinstance(value, str | bool | int) or (type(value) is float and math.isfinite(value))


@pytest.mark.parametrize("text", ["[job]\n", TEN_ANSWERS, ""], ids=["nothing", "ten answers", "example"])
def test_the_object_has_no_nan(tmp_path: Path, text: str) -> None:
    found = report_of(tmp_path, text=text).as_json()
    assert list(found) == [
        "job",
        "version",
        "grade",
        "units",
        "date",
        "first_line",
        "window",
        "ways_out",
        "answers",
        "cases",
        "findings",
        "gauges",
        "haul",
        "energy",
        "assumed",
        "told",
        "unjudged",
        "cautions",
        "tests",
        "passed",
        "season",
        "price",
    ]
    assert plain_values(found)
    assert [f["name"] for f in found["findings"]] != []


# Words never printed


def every_word() -> list[tuple[str, str]]:
    """Everything fixed that a person may read: (where, words)."""
    found = []
    for each in CHECKS:
        words = (each.name, each.question, each.remedy, each.label, each.limit_words, each.at, each.force)
        found += [(f"check {each.name}", word) for word in words]
    found += [(f"limit {name}", row.why) for name, row in limit_rows().items()]
    found += [(f"default {name}", row.why) for name, row in defaults().items()]
    folder = ROOT / "src" / "lakewright" / "job"
    for table in sorted(folder.glob("*.toml")):
        found += [(table.name, str(value)) for value in leaves(tomllib.loads(table.read_text(encoding="utf-8")))]
    for example in sorted((ROOT / "examples").glob("*.toml")):
        found.append((example.name, example.read_text(encoding="utf-8")))
    return found


def leaves(value: Any) -> list[Any]:
    if isinstance(value, dict):
        return [*value, *(leaf for inner in value.values() for leaf in leaves(inner))]
    if isinstance(value, list):
        return [leaf for inner in value for leaf in leaves(inner)]
    return [value]


def test_no_fixed_word_promises() -> None:
    words = every_word()
    assert len(words) > 300
    assert [(where, word) for where, word in words if NEVER_SAID.search(word)] == []


def test_no_report_promises(tmp_path: Path) -> None:
    edits: list[tuple[tuple[str, str], ...]] = [
        (),
        without_flood("build"),
        (HOPELESS[0][0],),
        (('riser = "24 in"', 'riser = "10 in"'),),
    ]
    for edit in edits:
        report = report_of(tmp_path, *edit)
        for word in leaves(report.as_json()):
            assert not NEVER_SAID.search(str(word)), word


def test_the_search_for_promises_notices() -> None:
    assert NEVER_SAID.search("This intake is Safe.")
    assert not NEVER_SAID.search("a safeguard")


# The cautions


def test_ice_and_a_pump_that_runs_out_call_up_their_cautions(tmp_path: Path) -> None:
    ice = "Never trust ice over an intake or a current: it is thinner there."
    open_end = "Throttle the discharge until the tank has pressure: wide open this pump runs past its published curve."
    whole = report_of(tmp_path)
    assert {ice, open_end} <= set(whole.cautions)
    thawed = report_of(tmp_path, ('ice    = { value = "28 in", told = 2026-05-03 }', ""))
    assert ice not in thawed.cautions
    assert open_end in thawed.cautions
