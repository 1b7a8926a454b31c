"""What holds the water decides what the suction line stands under, what its gauges read, and whether it bears it."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.check import check
from lakewright.checks.registry import judge
from lakewright.checks.route import line_fills_without_pockets
from lakewright.checks.verdict import STATUS_WORDS
from lakewright.errors import JobError
from lakewright.gauges import gauge_words
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Report
from lakewright.report import report as report_of
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.route import least_slope, pocket_length
from lakewright.state.walk import State, walk
from lakewright.state.wall import WALL
from lakewright.stock.load import load_stock

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"

FOOT = 0.3048
PSI = 6894.757

# By hand, at 4 C, 1000 kg/m3: pump 7.7 ft and tee 20 ft over the usual water, level -2.5 ft in late September, the
# line's end 24 ft down, on a frame of 2 in that sinks 3 in; the tank stands at 50 psi just after the pump has stopped.
HEAD = 1000.0 * 9.80665 * FOOT
LIFT = 7.7 + 2.5
AT_THE_STAND = 24.0 + 1.0 / 12.0
TANK_AT_PUMP = 50.0 * PSI + (20.0 - 7.7) * HEAD
BY_HAND = {
    "foot valve only": (TANK_AT_PUMP, TANK_AT_PUMP + (7.7 + AT_THE_STAND) * HEAD),
    "foot valve and check at pump": (-LIFT * HEAD, (-LIFT + 7.7 + AT_THE_STAND) * HEAD),
    "check at pump only": (-LIFT * HEAD, (-LIFT + 7.7 + AT_THE_STAND) * HEAD),
}
LATE_SEPTEMBER = 1


def job_text(changes: dict[str, str]) -> str:
    return set_values(EXAMPLE.read_text(encoding="utf-8"), changes)


def assembled(changes: dict[str, str]) -> Assembly:
    return facts_of(read_job_text(job_text(changes)), load_stock(), "job.toml")


def walked(changes: dict[str, str]) -> State:
    return walk(assembled(changes).facts)


def reported(changes: dict[str, str]) -> Report:
    assembly = assembled(changes)
    state = walk(assembly.facts)
    job = read_job_text(job_text(changes))
    return report_of(job, assembly, assembly.facts, state, judge(state, assembly.facts.limits))


@pytest.mark.law
@pytest.mark.parametrize("arrangement", BY_HAND)
def test_the_line_stands_as_hydrostatics_by_hand_has_it(arrangement: str) -> None:
    standing = walked({"holding.arrangement": arrangement}).standing
    at_pump, at_stand = BY_HAND[arrangement]
    # 58 F is 0.9 per mille lighter than 1000 kg/m3.
    assert standing.pressure[LATE_SEPTEMBER] == pytest.approx(at_pump, rel=1e-3)
    assert standing.end_pressure[LATE_SEPTEMBER] == pytest.approx(at_stand, rel=1.5e-3)


@pytest.mark.golden
def test_gauges_and_rating_change_with_what_holds() -> None:
    both, alone = (
        reported({"holding.arrangement": words}) for words in ("foot valve and check at pump", "foot valve only")
    )
    assert (
        gauge_words(both.gauges, "US")[0]
        == "gauges standing: suction 5.0 to 9.0 inHg of vacuum \u00b1 0.7, pressure 35 to 55 psi \u00b1 3"
    )
    assert (
        gauge_words(alone.gauges, "US")[0] == "gauges standing: suction 55 psi \u00b1 2, pressure 35 to 55 psi \u00b1 3"
    )
    # What runs is the same.
    assert gauge_words(both.gauges, "US")[1] == gauge_words(alone.gauges, "US")[1]
    found = [{f.name: f for f in report.findings} for report in (both, alone)]
    assert [f["line_bears_its_pressure"].message for f in found] == [
        "11 psi in the line at the stand while the pump rests, at most 160 psi",
        "69 psi in the line at the stand while the pump rests, at most 160 psi",
    ]
    assert [f["valves_hold_the_water"].status for f in found] == ["holds", "tight"]
    assert [f["line_bears_its_vacuum"].status for f in found] == ["holds", "holds"]


@pytest.mark.law
def test_hose_that_bears_lift_does_not_bear_the_tank_in_the_sun() -> None:
    hose = {"suction.stock": "suction hose, 2 in"}
    both, alone = (
        {f.name: f.status for f in reported({**hose, "holding.arrangement": words}).findings}
        for words in ("foot valve and check at pump", "foot valve only")
    )
    # 70 psi at 68 F, and 0.62 of it at 100 F as PVC: 43 psi.
    assert both["line_bears_its_pressure"] == "holds"
    assert alone["line_bears_its_pressure"] == "fails"


@pytest.mark.law
def test_thin_pipe_under_lift_is_tight_or_folds() -> None:
    # By hand: PE4710 for 50 years at 100 F, 29 000 x 0.73 psi, 5 % oval: 0.6398 x 2 E / (1 - 0.45^2) (t / D_m)^3.
    facts = assembled({"suction.stock": "polyethylene, SIDR 15, 1-1/2 in"}).facts
    by_hand = 0.6398 * 2.0 * 29000.0 * 0.73 / (1.0 - 0.45**2) * (0.107 / (1.824 - 0.107)) ** 3 * PSI
    walled = facts.suction
    bears = 0.6398 * 2.0 * walled.long_modulus[0] / (1.0 - walled.poisson[0] ** 2)
    bears *= (walled.wall[0] / (walled.outside[0] - walled.wall[0])) ** 3
    assert bears == pytest.approx(by_hand, rel=1e-4)
    use = walk(facts).line.vacuum_use
    # What stands, 10.2 ft, uses this much at least.
    assert use.max() > LIFT * HEAD / by_hand * 0.99


@pytest.mark.law
def test_running_losses_are_taken_as_short_loads() -> None:
    facts = assembled({}).facts
    stiff = facts.with_values({"suction.short_modulus": np.array([np.inf])})
    whole, held = walk(facts), walk(stiff)
    day = np.repeat(np.arange(5), 6)
    used = -whole.standing.pressure[day] * held.line.vacuum_use.max() / -whole.standing.pressure.min()
    # With losses that cost nothing, only what stands is left, in step with the lift.
    assert held.line.vacuum_use == pytest.approx(used)
    assert (whole.line.vacuum_use > held.line.vacuum_use).all()


@pytest.mark.law
def test_a_build_asks_what_holds_and_a_quote_takes_what_is_usual() -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace('arrangement = "foot valve and check at pump"', "")
    stock = load_stock()
    build = facts_of(read_job_text(text), stock)
    assert np.isnan(build.facts.holding.at_inlet).all()
    assert build.missing["holding.at_inlet"].startswith("[holding] arrangement is not given")
    quote = facts_of(read_job_text(text.replace('grade = "build"', 'grade = "quote"')), stock)
    assert (quote.facts.holding.at_inlet[0], quote.facts.holding.at_pump[0]) == (1.0, 1.0)
    assert [a.text for a in quote.assumed if a.key == "holding.arrangement"] == ["foot valve and check at pump"]


@pytest.mark.message
def test_a_screen_alone_holds_nothing() -> None:
    with pytest.raises(JobError) as refused:
        assembled({"stand.inlet.kind": "screen", "holding.arrangement": "foot valve only"})
    assert str(refused.value) == (
        "1 mistake in the job file\njob.toml, [holding] arrangement\n"
        '    found   "foot valve only" with [stand.inlet] kind = "screen"\n'
        "    wanted  what holds beside a screen alone: check at pump only, or flooded\n"
        "    do      say which of the two is so"
    )


@pytest.mark.law
@pytest.mark.parametrize(
    "valve, attitude, status",
    [
        ("foot valve, spring, 1-1/2 in", "up", "holds"),
        ("foot valve, hinged, 1-1/2 in", "up", "fails"),
        ("foot valve, hinged, 1-1/2 in", "side", "fails"),
        ("foot valve, hinged, 1-1/2 in", "down", "not asked"),
    ],
)
def test_a_hinged_valve_must_hang(valve: str, attitude: str, status: str) -> None:
    report = reported({"stand.inlet.stock": valve, "stand.inlet.attitude": attitude})
    assert {f.name: f.status for f in report.findings}["foot_valve_seats_as_mounted"] == status


@pytest.mark.law
def test_the_route_says_how_the_line_rises_and_where_air_stays() -> None:
    route = [(0.0, -6.0), (10.0, -4.0), (20.0, -5.0), (40.0, -1.0), (50.0, 1.0), (60.0, 1.2)]
    assert least_slope(route, above=-0.8) == pytest.approx(0.02)
    # The hump at 10 is above -5 from 5 to 20.
    assert pocket_length(route) == pytest.approx(15.0)
    assert pocket_length([(0.0, -3.0), (5.0, -2.0), (9.0, 0.0)]) == 0.0
    # A level part holds no air that a part after it does not.
    assert pocket_length([(0.0, -2.0), (5.0, -2.0), (9.0, -3.0)]) == pytest.approx(9.0)


@pytest.mark.law
def test_the_trench_is_asked_for_only_where_a_line_stays_under_ice() -> None:
    def status(changes: dict[str, str]) -> str:
        return {f.name: f.status for f in reported(changes).findings}["frozen_band_is_buried"]

    assert status({}) == "holds"
    # By hand: -1.5 ft less 28 in of ice is -3.83 ft, where the bed lies 25.6 ft out.
    assert status({"suction.buried_from": "25 ft"}) == "fails"
    assert status({"suction.buried_from": "27 ft"}) == "tight"
    assert status({"suction.buried_from": "27 ft", "need.season": "hauled"}) == "not asked"


@pytest.mark.law
def test_gas_is_spoken_of_where_the_lift_is_long() -> None:
    def lift(changes: dict[str, str]) -> str:
        return {f.name: f.message for f in reported(changes).findings}["lift_is_within_practice"]

    assert "gas" not in lift({"pump.height": "3 ft"})
    assert "of gas may come out of the water" in lift({"pump.height": "14 ft"})


@pytest.mark.law
def test_a_flooded_line_has_no_foot_valve_and_is_asked_for_a_valve() -> None:
    flooded = {"stand.inlet.kind": "screen", "stand.inlet.stock": "", "holding.arrangement": "flooded"}

    def status(changes: dict[str, str]) -> dict[str, str]:
        return {f.name: f.status for f in reported({**flooded, **changes}).findings}

    assert status({})["flooded_suction_can_be_shut"] == "fails"
    assert status({"suction.fittings.valves": "1"})["flooded_suction_can_be_shut"] == "holds"
    assert status({"suction.fittings.valves": "1"})["valves_hold_the_water"] == "not asked"
    # With nobody's count of fittings the bill puts a valve in, and a quote takes it as there.
    assert status({"job.grade": "quote", "suction.fittings": ""})["flooded_suction_can_be_shut"] == "holds"
    assert assembled(flooded).facts.stand.foot_valve[0] == assembled(flooded).facts.stand.opening_pressure[0] == 0.0


@pytest.mark.law
def test_sun_takes_from_what_the_wall_bears() -> None:
    sun, shade, unsaid = (assembled({"suction.sunlit": words}).facts.suction for words in ("true", "false", ""))
    # By hand: 0.73 of the modulus and 0.8 of the rating at 100 F (tables of physics.collapse and physics.rating).
    assert sun.long_modulus[0] == pytest.approx(0.73 * shade.long_modulus[0])
    assert sun.allowed_pressure[0] == pytest.approx(0.8 * shade.allowed_pressure[0])
    assert unsaid.allowed_pressure[0] == sun.allowed_pressure[0]


# What a stand of each form is there for: only one that stands upright looks up, and what hangs from above looks down.
MOUNTED = {"upright": "up", "side": "side", "low": "side", "hung": "down", "floating": "down", "box": "down"}


@pytest.mark.law
@pytest.mark.parametrize("form, attitude", MOUNTED.items())
def test_a_valve_is_taken_to_be_mounted_as_its_stand_holds_it(form: str, attitude: str) -> None:
    found = assembled({"job.grade": "quote", "stand.form": form, "stand.inlet.attitude": ""})
    taken = next(each for each in found.assumed if each.key == "stand.inlet.attitude")
    assert taken.text == attitude
    assert found.facts.stand.hangs[0] == float(attitude == "down")


@pytest.mark.law
@pytest.mark.parametrize("pipe", sorted(load_stock().pipes))
def test_every_pipe_in_stock_says_what_it_bears(pipe: str) -> None:
    suction = assembled({"suction.stock": pipe}).facts.suction
    for name in WALL:
        assert not np.isnan(getattr(suction, name)).any(), name


@pytest.mark.law
def test_a_line_of_no_pipe_in_stock_bears_what_the_job_says() -> None:
    own = {
        "suction.stock": "",
        "suction.bore": "1.5 in",
        "suction.roughness": "0.01 mm",
        "suction.roughness_fouled": "0.05 mm",
    }
    without = {f.name: (f.status, f.message) for f in reported(own).findings}
    assert without["line_bears_its_vacuum"] == ("unknown", "[suction] vacuum_rating is not given, and no stock")
    assert without["line_bears_its_pressure"] == ("unknown", "[suction] pressure_rating is not given, and no stock")
    unchosen = {f.name: f.message for f in reported({**own, "suction.stock": "open"}).findings}
    assert unchosen["line_bears_its_vacuum"] == "[suction] stock is open: design chooses it"
    rated = {
        f.name: f
        for f in reported({**own, "suction.vacuum_rating": "25 inHg", "suction.pressure_rating": "60 psi"}).findings
    }
    # By hand: 10.2 ft of lift is 9.0 inHg, and running adds some, less than as much again.
    assert 25.0 / 18.0 < (rated["line_bears_its_vacuum"].value or 0.0) < 25.0 / 9.0
    assert rated["line_bears_its_pressure"].status == "holds"


def test_a_pump_below_a_tank_is_flooded_and_not_drowned(tmp_path: Path) -> None:
    text = EXAMPLE.with_name("stock_tank.toml").read_text(encoding="utf-8")
    lower = {"pump.height": "-2 m", "holding.arrangement": "flooded", "site.levels.flood": "0.2 m"}
    in_a_lake = {**lower, "site.kind": "lake"}
    found = {}
    for name, changes in (("tank", lower), ("lake", in_a_lake)):
        file = tmp_path / f"{name}.toml"
        file.write_text(set_values(text, changes), encoding="utf-8")
        found[name] = {f.name: f.status for f in check(file).findings}["pump_stands_in_its_window"]
    assert found == {"tank": "holds", "lake": "fails"}


@pytest.mark.law
def test_a_bed_that_nobody_has_sounded_has_no_known_pockets() -> None:
    whole = EXAMPLE.read_text(encoding="utf-8")
    bare = re.sub(r"\[\[site\.soundings\]\]\n(\w.*\n)+", "", whole)
    short = re.sub(r'\[\[site\.soundings\]\]\ndistance = "(170|240) ft"\n.*\n', "", whole)
    lacks = {"": bare, "[stand] at lies beyond the last of [[site.soundings]]": short}
    lacks["[stand] at is open: design chooses it"] = set_values(whole, {"stand.at": "open"})
    for why, text in lacks.items():
        unsounded = facts_of(read_job_text(text), load_stock())
        assert np.isnan(unsounded.facts.suction.pocket_length).all()
        assert unsounded.missing["suction.pocket_length"] == (why or "[[site.soundings]] is not given")
        verdict = line_fills_without_pockets(walk(unsounded.facts).route, unsounded.facts.limits)
        assert STATUS_WORDS[int(verdict.status[()])] == "unknown"
    quote = facts_of(read_job_text(bare.replace('grade = "build"', 'grade = "quote"')), load_stock())
    assert quote.facts.suction.pocket_length[0] == 0.0
    assert [a.key for a in quote.assumed if "pocket" in a.key] == ["suction.pocket_length"]
