"""Drinking water in a job: the words, what is asked where, what to put in, and what to have tested."""

from __future__ import annotations

from pathlib import Path

import pytest

from lakewright.api.check import check
from lakewright.job.write import set_values
from lakewright.report import Finding, Report

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"

pytestmark = pytest.mark.message

DRINKING = (
    "authority_lets_it_be_drunk",
    "supply_is_a_private_one",
    "no_bloom_is_known_here",
    "water_is_clear_enough_to_disinfect",
    "treatment_passes_its_flow",
    "lamp_stays_inside_its_rating",
    "lamp_sees_through_the_water",
    "chlorine_has_time_to_work",
    "barriers_meet_their_targets",
)


def report_of(tmp_path: Path, changes: dict[str, str], name: str = "year_round_cabin") -> Report:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    path = tmp_path / "job.toml"
    path.write_text(set_values(text, changes), encoding="utf-8")
    return check(path)


def found(tmp_path: Path, name: str, changes: dict[str, str], job: str = "year_round_cabin") -> Finding:
    return next(f for f in report_of(tmp_path, changes, job).findings if f.name == name)


QUOTE = {"job.grade": "quote"}

MESSAGES: list[tuple[str, dict[str, str], str, str]] = [
    (
        "authority_lets_it_be_drunk",
        {},
        "tight",
        "the authority was asked on 2026-04-22: not for drinking until it has answered",
    ),
    (
        "authority_lets_it_be_drunk",
        {"site.rules.drinking": "answered yes", "site.rules.answer": "one household, with a lamp"},
        "holds",
        "the authority has answered yes: one household, with a lamp",
    ),
    (
        "authority_lets_it_be_drunk",
        {"site.rules.drinking": "answered no"},
        "fails",
        "the authority has answered no; not for drinking",
    ),
    (
        "authority_lets_it_be_drunk",
        {"site.rules.drinking": "not asked"},
        "unknown",
        "[site.rules] drinking: nobody has asked the authority whether this water may be drunk: not for drinking until "
        "it has answered",
    ),
    (
        "authority_lets_it_be_drunk",
        {**QUOTE, "site.rules.drinking": "not asked"},
        "tight",
        "nobody has asked the authority whether this water may be drunk: not for drinking until it has answered",
    ),
    ("supply_is_a_private_one", {"need.people": "30"}, "fails", "30 people, at most 24"),
    (
        "supply_is_a_private_one",
        {"need.public": "yes"},
        "fails",
        "renters, a camp or a second house use it: it may be a public supply",
    ),
    ("supply_is_a_private_one", {"need.public": ""}, "unknown", "[need] public is not given"),
    (
        "no_bloom_is_known_here",
        {"site.clarity.bloom": "yes"},
        "fails",
        "algae bloom here: then neither people nor animals drink it",
    ),
    (
        "water_is_clear_enough_to_disinfect",
        {"site.clarity.turbidity": "6 NTU"},
        "fails",
        "6.0 NTU in the raw water, at most 5.0 NTU",
    ),
    (
        "treatment_passes_its_flow",
        {"treatment.flow_control": "12 gpm"},
        "fails",
        "12.0 gpm through the treatment, made for 10.0 gpm",
    ),
    (
        "lamp_stays_inside_its_rating",
        {"treatment.flow_control": ""},
        "tight",
        "8.0 gpm through the lamp, rated for 10.0 gpm, and no valve holds it there",
    ),
    (
        "lamp_sees_through_the_water",
        {"site.clarity.uv_transmittance": "70 %"},
        "fails",
        "70 % of the light through 10 mm of the worst water, rated with 75 %",
    ),
    # Outside its rating the lamp counts for nothing: it is not scaled.
    (
        "barriers_meet_their_targets",
        {"treatment.flow_control": "12 gpm"},
        "fails",
        "3 log held back, at least 4: filters 2/2/0, lamp 0/0/0 (more passes it than it is rated for), "
        "chlorine 0.1/0/3 (Giardia/Cryptosporidium/viruses)",
    ),
    (
        "barriers_meet_their_targets",
        {"treatment.uv.dose": "16 mJ/cm2"},
        "fails",
        "2.17 log held back, at least 3: filters 2/2/0, lamp 0/0/0 (its dose is too small), chlorine 0.1/0/4 "
        "(Giardia/Cryptosporidium/viruses)",
    ),
    # Viruses pass filters, and a lamp of this dose.
    (
        "barriers_meet_their_targets",
        {
            "treatment.steps.5": "",
            "treatment.steps.4": "",
            "treatment.chlorine": "",
        },
        "fails",
        "0.5 log held back, at least 4: filters 2/2/0, lamp 3/3/0.5 (Giardia/Cryptosporidium/viruses)",
    ),
    # In a tank without baffles the same water is not held long enough.
    (
        "chlorine_has_time_to_work",
        {"treatment.chlorine.tank": "unbaffled"},
        "fails",
        "1.5 min of contact, needed 8.0 min; for 3 log of Giardia alone the federal table asks 219.3 min",
    ),
    (
        "chlorine_has_time_to_work",
        {"treatment.chlorine.ph": "9.5"},
        "unknown",
        "[treatment.chlorine] ph: the table of contact times ends at pH 9",
    ),
    (
        "chlorine_has_time_to_work",
        {"treatment.chlorine.residual": "3.5 mg/L"},
        "unknown",
        "[treatment.chlorine] residual: the table of contact times ends at 3 mg/L",
    ),
]


@pytest.mark.parametrize("name, changes, status, message", MESSAGES, ids=lambda each: str(each)[:48])
def test_the_words_of_a_finding(tmp_path: Path, name: str, changes: dict[str, str], status: str, message: str) -> None:
    each = found(tmp_path, name, changes)
    assert (each.status, each.message) == (status, message)


def test_the_months_of_bloom_are_named(tmp_path: Path) -> None:
    text = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8")
    path = tmp_path / "job.toml"
    months = 'bloom            = "yes"\nbloom_months     = ["July", "August"]'
    path.write_text(text.replace('bloom            = "no"', months), encoding="utf-8")
    report = check(path)
    each = next(f for f in report.findings if f.name == "no_bloom_is_known_here")
    assert each.message == "algae bloom here in July, August: then neither people nor animals drink it"
    assert "microcystins" in {sample.what for sample in report.samples}


def test_without_a_treatment_the_finding_says_what_to_put_in_in_order(tmp_path: Path) -> None:
    each = found(tmp_path, "barriers_meet_their_targets", {"treatment": ""})
    assert each.status == "unknown"
    assert each.message == (
        "[[treatment.steps]] is not given: put in, in order, a flow control valve of 8.0 gpm; sediment filter, "
        "2.5 x 10 in, 20 um; sediment filter, 4.5 x 20 in, 5 um; absolute filter, 4.5 x 20 in, 1 um; ultraviolet, "
        "10 gpm at 40 mJ/cm2; chlorine feeder, 10 gpm; 2 of contact tank, 120 gal, baffled"
    )


def test_what_it_says_to_put_in_does(tmp_path: Path) -> None:
    """The proposed train, written in, with the two tanks as one of their size, meets every target at 1 mg/L."""
    two = {"treatment.chlorine.volume": "240 gal", "treatment.chlorine.baffling": "70 %"}
    each = found(tmp_path, "chlorine_has_time_to_work", {**two, "treatment.chlorine.residual": "1 mg/L"})
    assert each.status == "holds"
    # With one tank it would not do.
    one = {"treatment.chlorine.residual": "1 mg/L"}
    assert found(tmp_path, "chlorine_has_time_to_work", one).status == "fails"


@pytest.mark.parametrize(
    "changes, ending",
    [
        ({}, "not for drinking yet · 2 tight"),
        ({"site.rules.drinking": "answered yes"}, "$13,409 · 1 tight"),
        ({"site.rules.drinking": "answered no"}, "not for drinking yet · 1 to put right, 1 tight"),
        ({"need.drinking": "no"}, "$13,409 · 1 tight"),
    ],
)
def test_the_first_line_says_that_it_is_not_for_drinking_yet(
    tmp_path: Path, changes: dict[str, str], ending: str
) -> None:
    assert report_of(tmp_path, changes).first_line.endswith(ending)


@pytest.mark.law
def test_nobody_who_does_not_drink_it_is_asked() -> None:
    for name, bloom in (("stream_irrigation", "not asked"), ("stock_tank", "holds")):
        statuses = {f.name: f.status for f in check(EXAMPLES / f"{name}.toml").findings}
        assert {statuses[each] for each in DRINKING if each != "no_bloom_is_known_here"} == {"not asked"}
        assert statuses["no_bloom_is_known_here"] == bloom


def test_raw_taps_are_to_be_marked(tmp_path: Path) -> None:
    def tagged(report: Report) -> list[str]:
        return [words for words in report.cautions if words.startswith("Not for drinking")]

    garden = check(EXAMPLES / "stream_irrigation.toml")
    assert tagged(garden) == ["Not for drinking: the tap of garden. Mark each so where the water comes out."]
    assert tagged(report_of(tmp_path, {})) == []
    text = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8")
    dock = '\n[[need.branches]]\nname = "dock"\nwater = "raw"\nflow = "5 gpm"\nheight = "3 ft"\ndistance = "90 ft"\n'
    path = tmp_path / "dock.toml"
    path.write_text(text + dock + 'pipe = "polyethylene, SIDR 9, 1 in"\n', encoding="utf-8")
    assert tagged(check(path)) == ["Not for drinking: the tap of dock. Mark each so where the water comes out."]
    nobody = tagged(report_of(tmp_path, {"need.drinking": "no"}))
    assert nobody == ["Not for drinking: the highest tap. Mark each so where the water comes out."]


def test_a_quote_that_says_nothing_of_drinking_takes_it_that_nobody_does(tmp_path: Path) -> None:
    report = report_of(tmp_path, {**QUOTE, "need.drinking": ""})
    row = next(each for each in report.assumed if each.key == "need.drinking")
    assert (row.text, row.why) == ("no", "not for drinking, until somebody says that it is to be drunk")
    build = found(tmp_path, "barriers_meet_their_targets", {"need.drinking": ""})
    assert (build.status, build.message) == ("unknown", "[need] drinking is not given")


def test_a_quote_assumes_no_better_than_usual_water_and_says_so(tmp_path: Path) -> None:
    report = report_of(tmp_path, {**QUOTE, "site.clarity": "", "site.water": "Nowhere Lake"})
    assumed = {each.key for each in report.assumed}
    assert {"drinking.turbidity", "drinking.transmittance"} <= assumed
    statuses = {f.name: f.status for f in report.findings}
    # A lamp rated with the water that is assumed has nothing in hand.
    assert statuses["lamp_sees_through_the_water"] == "tight"


@pytest.mark.parametrize(
    "name, called",
    [
        ("year_round_cabin", ["raw", "treated", "treated", "treated", "treated"]),
        ("stock_tank", ["raw"]),
        ("stream_irrigation", ["raw"]),
    ],
)
def test_what_is_to_be_tested(name: str, called: list[str]) -> None:
    report = check(EXAMPLES / f"{name}.toml")
    assert [sample.water for sample in report.samples] == called
    assert report.as_json()["tests"][0]["at"] == report.samples[0].at


def test_the_run_of_a_filter_is_told_where_its_dirt_is(tmp_path: Path) -> None:
    each = found(tmp_path, "filters_last", {"treatment.steps.1.dirt": "200 g"})
    # 200 g at 0.8 NTU of 2 mg/L each is 125 m3, which four people use at 100 gal a day each.
    assert each.status == "holds"
    assert each.value == pytest.approx(125.0 / (4 * 100 * 3.785411784e-3 / 86400.0))
    assert found(tmp_path, "filters_last", {}).status == "not asked"
    # Of a garden's filter too: what comes to it must be known, though nobody drinks it.
    garden = {"need.drinking": "no", "treatment.steps.1.dirt": "200 g", "site.clarity.turbidity": ""}
    assert found(tmp_path, "filters_last", garden).message == "[site.clarity] turbidity is not given"
