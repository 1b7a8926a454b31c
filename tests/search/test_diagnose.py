"""Diagnosis: the catalogue is whole, the walk is the walk, each fault is found, and what cannot be is said to be so."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any, get_args

import numpy as np
import pytest

from lakewright.api.diagnose import advise
from lakewright.api.read import assembled
from lakewright.diagnosis_lines import NAMES, advice_lines
from lakewright.errors import AskError
from lakewright.job.models_shop import FaultName, Reading, Symptom
from lakewright.search.diagnose import Diagnosis, diagnose
from lakewright.search.faults import BESIDE_FACTS, CHANNELS, NONE, Fault, every_fault, every_spread, fault_table
from lakewright.search.next_test import TURN, _chances, next_tests
from lakewright.search.unknowns import Visits
from lakewright.search.visit import sight
from lakewright.state.facts import every_fact
from lakewright.state.lake import air_pressure
from lakewright.state.meters import meters
from lakewright.state.walk import walk
from lakewright.units.kinds import KINDS
from tests.made import sound, sound_jet

EXAMPLES = Path(__file__).parents[2] / "examples"
CABIN = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8")


def visit(*lines: str, day: str = "2026-08-14") -> str:
    return f"\n[[readings]]\ndate = {day}\n" + "\n".join(lines) + "\n"


def diagnosed(text: str, cabin: str = CABIN) -> Diagnosis:
    """The cabin with visits."""
    job, _, assembly = assembled(cabin + text, EXAMPLES / "cabin.toml")
    return diagnose(job, assembly)


def chance(found: Diagnosis, *names: str) -> float:
    return sum(suspect.chance for suspect in found.suspects if suspect.fault.name in names)


# The catalogue.


@pytest.mark.law
def test_two_faults_that_spread_alike_are_each_others_mirror() -> None:
    """Readings are looked at as far under the lower middle as over the higher."""
    lower, higher = _chances([(2.0, 1.5), (5.0, 1.5)])
    np.testing.assert_allclose(lower, higher[::-1], atol=1e-15)
    assert lower.sum() == pytest.approx(1.0)


@pytest.mark.law
def test_so_many_calls_as_the_table_says_are_for_nothing() -> None:
    every = every_fault()
    share = every[0].prior / sum(fault.prior for fault in every)
    assert every[0].name == NONE
    assert share == pytest.approx(fault_table()["none"]["prior"])


# ours: a tenth is within what anybody guesses.
@pytest.mark.law
@pytest.mark.parametrize("fault", every_fault(), ids=lambda fault: fault.name)
def test_a_sign_fades_as_a_fault_grows_only_where_another_takes_its_place(fault: Fault) -> None:
    for signs in fault.signs.values():
        gains = [last - first for first, last in signs.values()]
        assert min(gains, default=0.0) >= -max([0.1, *gains]), signs


@pytest.mark.law
@pytest.mark.parametrize("fault", every_fault(), ids=lambda fault: fault.name)
def test_a_fault_is_whole(fault: Fault) -> None:
    assert fault.look
    assert fault.kind in KINDS
    assert fault.prior > 0.0
    assert fault.name == NONE or fault.moves
    for move in fault.moves:
        assert move.fact in {*every_fact(), *BESIDE_FACTS}, move.fact
        assert len(move.at) == 6
    for channel in CHANNELS:
        known = fault_table()["signs"][channel]
        assert set(fault.signs[channel]) <= {*known, "weaker than it was"}
        assert all(0.0 < share < 1.0 for pair in fault.signs[channel].values() for share in pair)


@pytest.mark.law
def test_the_names_a_job_may_rule_out_are_those_of_the_catalogue() -> None:
    assert {fault.name for fault in every_fault()} == {NONE, *get_args(FaultName)}


@pytest.mark.law
def test_signs_and_readings_are_those_of_the_job_file() -> None:
    # The two that follow from the flow need no row.
    assert set(fault_table()["signs"]["does"]) | {"weaker than it was", "no water"} == set(get_args(Symptom))
    assert set(meters()) == set(NAMES) <= set(Reading.model_fields)
    assert {spread.fact for spread in every_spread()} <= set(every_fact())


# The same walk.


def plain_visits(share: float) -> Visits:
    one = np.ones(1)
    return Visits({}, share * one, share * one, 1e-4 * one, 0.0 * one)


@pytest.mark.law
@pytest.mark.parametrize("make", [sound, sound_jet], ids=["centrifugal", "jet"])
def test_a_visit_to_a_sound_system_reads_what_the_walk_finds(make: Any) -> None:
    facts = make().on_day(0)
    state, nothing = walk(facts), np.zeros(1)
    low, high = (sight(facts, plain_visits(share), {}, nothing, 1.0 + nothing) for share in (0.0, 1.0))
    # Running cases are, line clean: cut-in, cut-out, open.
    assert low.pumped.item() == state.delivery.flow[0]
    assert high.pumped.item() == state.delivery.flow[1]
    assert low.readings["suction_running"].item() == state.line.pressure[0]
    assert high.readings["suction_standing"].item() == state.standing.pressure[0]


@pytest.mark.law
def test_the_gauge_after_the_pump_tells_the_flow_that_the_tank_does() -> None:
    facts = sound().on_day(0)
    nothing = np.zeros(1)
    by_tank = sight(facts, plain_visits(0.3), {}, nothing, 1.0 + nothing)
    seen = {"pressure_running": by_tank.readings["pressure_running"]}
    by_gauge = sight(facts, plain_visits(0.9), seen, nothing, 1.0 + nothing)
    np.testing.assert_allclose(by_gauge.pumped, by_tank.pumped, rtol=1e-9)
    np.testing.assert_allclose(by_gauge.readings["suction_running"], by_tank.readings["suction_running"], rtol=1e-9)


@pytest.mark.law
def test_a_suction_side_that_gives_no_more_holds_the_flow_where_water_boils_at_the_pump() -> None:
    facts = sound().on_day(0).with_values({"faults.blocked": np.full(1, 0.9995)})
    nothing = np.zeros(1)
    found = sight(facts, plain_visits(0.0), {}, nothing, 1.0 + nothing)
    state = walk(facts)
    assert 0.0 < found.pumped.item() < state.delivery.flow.ravel()[0]
    available = -found.readings["suction_running"].item()
    # Vapour and what the pump requires are all that is left of the air's pressure: some 20 kPa at the most.
    assert 70e3 < available < 97e3


@pytest.mark.law
def test_a_jet_past_its_last_lift_brings_what_the_line_gives_there_under_a_deep_vacuum() -> None:
    facts = sound_jet().on_day(0)
    nothing = np.zeros(1)
    share = np.array([[0.99], [0.998], [0.9995]])[..., None]
    found = sight(facts.with_values({"faults.blocked": share}), plain_visits(0.0), {}, nothing, 1.0 + nothing)
    pumped, vacuum = found.pumped.ravel(), -found.readings["suction_running"].ravel()
    assert np.all(np.diff(pumped) < 0.0)
    assert pumped[-1] > 0.0
    # Where the screen holds it back the gauge stands at the table's last lift, less what the air there is thinner by.
    thin = 101325.0 - air_pressure(facts).item()
    assert vacuum[-1] == pytest.approx(facts.pump.jet.last_lift.item() * 9790.0 - thin, rel=0.01)
    assert vacuum[0] < vacuum[-1]


@pytest.mark.law
def test_the_same_readings_get_the_same_answer() -> None:
    text = visit('suction_running = "14 inHg vacuum"', 'pressure_running = "40 psi"', 'flow = "7 gpm"')
    one, other = diagnosed(text), diagnosed(text)
    assert [(s.fault.name, s.chance) for s in one.suspects] == [(s.fault.name, s.chance) for s in other.suspects]
    assert one.beside + sum(s.chance for s in one.suspects) == pytest.approx(1.0)


# What is found.

SOUND_VISIT = (
    'suction_standing = "7.5 inHg vacuum"',
    'suction_running = "9.5 inHg vacuum"',
    'pressure_running = "40 psi"',
    'flow = "8.6 gpm"',
)
FOOT_VALVE_ALONE = ("foot valve and check at pump", "foot valve only")


@pytest.mark.law
@pytest.mark.parametrize(
    "lines, names, least",
    [
        # The suction gauge rose, running and not standing.
        ((SOUND_VISIT[0], 'suction_running = "17 inHg vacuum"', SOUND_VISIT[2], 'flow = "6.8 gpm"'),
         ("screen dirty", "foot valve stuck", "line kinked", "stand dragged", "line frozen"), 0.9),
        # It rose standing as much as running.
        (('suction_standing = "10.5 inHg vacuum"', 'suction_running = "12.5 inHg vacuum"', *SOUND_VISIT[2:],
          'changed = "the lake is down"'), ("lake lower",), 0.8),
        # It let go, standing, and the pump brings less.
        (('suction_standing = "0 inHg vacuum"', 'suction_running = "8 inHg vacuum"', SOUND_VISIT[2], 'flow = "6 gpm"',
          'does = ["spits air"]', 'changed = "opened the cabin"'), ("plug out", "union ring", "clamp draws air"), 0.9),
        # Vacuum falls with the flow, standing as ever.
        ((SOUND_VISIT[0], 'suction_running = "8.5 inHg vacuum"', SOUND_VISIT[2], 'flow = "5.5 gpm"',
          'changed = "nothing"'), ("pump worn", "runs backward", "voltage low"), 0.6),
        # The bucket alone is short.
        ((*SOUND_VISIT[:3], 'flow = "3 gpm"', 'changed = "nothing"'), ("filter not changed", "house runs"), 0.75),
        # The tank gives little and the pump starts often.
        ((*SOUND_VISIT, 'drawdown = "6 gal"', 'does = ["starts and stops quickly"]'), ("tank short of air",), 0.9),
        # Nothing moves, and the line stays full.
        (('suction_standing = "7.5 inHg vacuum"', 'suction_running = "7.5 inHg vacuum"', 'pressure_running = "5 psi"',
          'flow = "0 gpm"', 'changed = "a new check valve"', 'first_minute = "it never catches"'),
         ("check backward",), 0.75),
        # Past its cut-out.
        (('pressure_standing = "62 psi"', *SOUND_VISIT[:2], 'changed = "nothing"', 'does = ["does not stop"]'),
         ("switch nipple silted",), 0.5),
        (SOUND_VISIT, (NONE,), 0.25),
    ],
)  # fmt: skip
def test_what_readings_say(lines: tuple[str, ...], names: tuple[str, ...], least: float) -> None:
    found = diagnosed(visit(*lines))
    assert chance(found, *names) > least, [(s.fault.name, round(s.chance, 3)) for s in found.suspects[:5]]
    assert found.suspects[0].fault.name in names
    assert not found.impossible
    assert found.fits


@pytest.mark.law
def test_a_foot_valve_alone_that_weeps_starts_the_pump_at_night() -> None:
    job, _, assembly = assembled(
        CABIN.replace(*FOOT_VALVE_ALONE) + visit('does = ["starts by itself"]', 'changed = "nothing"'),
        EXAMPLES / "cabin.toml",
    )
    found = diagnose(job, assembly)
    assert {s.fault.name for s in found.suspects[:2]} == {"foot valve weeps", "house runs"}
    assert "foot valve leaks" not in {s.fault.name for s in found.suspects}


@pytest.mark.law
def test_a_jet_may_have_a_plugged_nozzle_and_never_runs_backward() -> None:
    text = CABIN.replace("centrifugal, two-stage, 1/2 hp", "jet, shallow, 1 hp")
    lines = ('suction_standing = "7.5 inHg vacuum"', 'suction_running = "8.5 inHg vacuum"', 'flow = "6 gpm"')
    read = visit(*lines, 'pressure_running = "36 psi"', 'changed = "nothing"')
    job, _, assembly = assembled(text + read, EXAMPLES / "cabin.toml")
    found = diagnose(job, assembly)
    assert {s.fault.name for s in found.suspects[:2]} == {"nozzle plugged", "pump worn"}
    assert "runs backward" not in {s.fault.name for s in found.suspects}


@pytest.mark.law
def test_a_motor_that_draws_much_while_the_pump_makes_little_turns_too_slowly() -> None:
    cabin = CABIN.replace("[power]\n", '[power]\nmotor_current = "5 A"\n')
    lines = (SOUND_VISIT[0], 'suction_running = "8.8 inHg vacuum"', SOUND_VISIT[2], 'flow = "6 gpm"')
    less, much = (diagnosed(visit(*lines, f'motor_current = "{amps} A"'), cabin) for amps in (3.6, 5.0))
    assert chance(much, "voltage low") > 4.0 * chance(less, "voltage low")


@pytest.mark.law
def test_a_good_visit_before_makes_surer() -> None:
    sick = visit(SOUND_VISIT[0], 'suction_running = "12 inHg vacuum"', SOUND_VISIT[2], 'flow = "8.2 gpm"')
    alone, after = diagnosed(sick), diagnosed(visit(*SOUND_VISIT, day="2026-06-20") + sick)
    assert chance(after, NONE) < chance(alone, NONE)


@pytest.mark.law
def test_what_was_looked_for_in_vain_is_less_likely() -> None:
    sick = (SOUND_VISIT[0], 'suction_running = "17 inHg vacuum"', SOUND_VISIT[2], 'flow = "6.8 gpm"')
    before = diagnosed(visit(*sick))
    after = diagnosed(visit(*sick, 'ruled_out = ["line kinked"]'))
    assert chance(after, "line kinked") < 0.5 * chance(before, "line kinked")


# What cannot be.


@pytest.mark.law
def test_readings_that_no_one_fault_explains_together_are_said_so() -> None:
    # Short of air by the bucket, sound by the gauges of the pump, and drawn from far below the lake.
    assert not diagnosed(visit('suction_standing = "17 inHg vacuum"', 'suction_running = "8 inHg vacuum"')).fits
    assert diagnosed(visit(*SOUND_VISIT)).fits


@pytest.mark.law
def test_a_job_without_a_pump_weighs_words_alone_and_says_why() -> None:
    text = CABIN.replace('stock    = "centrifugal, two-stage, 1/2 hp"', "")
    job, _, assembly = assembled(text + visit('flow = "5 gpm"', 'changed = "a storm"'), EXAMPLES / "cabin.toml")
    found = diagnose(job, assembly)
    assert found.unweighed == ("flow",)
    assert found.beside + sum(s.chance for s in found.suspects) == pytest.approx(1.0)


# What next.


@pytest.mark.law
def test_the_next_test_is_none_that_was_done_and_tells_the_most_for_a_minute() -> None:
    found = diagnosed(visit(*SOUND_VISIT[1:], 'changed = "nothing"'))
    tests = next_tests(found)
    assert tests
    assert not {test.name for test in tests} & {*found.case.seen, "changed"}
    worth = [test.bits / (test.minutes + TURN) for test in tests]
    assert worth == sorted(worth, reverse=True)


@pytest.mark.law
def test_the_standing_gauge_tells_the_lake_from_the_screen() -> None:
    found = diagnosed(
        visit(
            'suction_running = "13.5 inHg vacuum"', *SOUND_VISIT[2:], 'changed = "nothing"', 'first_minute = "the same"'
        )
    )
    pair = {suspect.fault.name for suspect in found.suspects[:3]}
    assert {"lake lower", "screen dirty"} <= pair
    read = {test.name for test in next_tests(found) if test.kind == "read"}
    assert "suction_standing" in read


# Words.


def printed(text: str, tmp_path: Path, day: date | None = None) -> str:
    file = tmp_path / "cabin.toml"
    file.write_text(CABIN + text, encoding="utf-8")
    return "\n".join(advice_lines(advise(file, day)))


@pytest.mark.message
def test_what_is_printed(tmp_path: Path) -> None:
    said = printed(visit('suction_running = "17 inHg vacuum"', 'flow = "60 gpm"', 'changed = "a storm"'), tmp_path)
    assert said.startswith("Heron Point cabin   visit of 2026-08-14\n! flow by bucket 60.0 gpm is impossible:")
    assert "Read it once more; it is left out of what follows." in " ".join(said.split())
    assert "Gauges hardly tell" in said
    assert "Next, to tell these apart: " in said
    assert "  flow by bucket " in said
    assert "17.0 inHg of vacuum   <" in said
    assert not {"safe", "approved", "compliant", "guaranteed"} & set(said.lower().split())


@pytest.mark.message
def test_without_a_visit_it_says_what_to_ask_and_what_a_sound_system_reads(tmp_path: Path) -> None:
    said = printed("", tmp_path)
    assert said.startswith("Heron Point cabin   no visit in the file\nAsk what changed lately")
    assert "suction, running" in said


@pytest.mark.message
def test_a_day_without_a_visit_is_refused_with_the_days_that_have_one(tmp_path: Path) -> None:
    with pytest.raises(AskError, match=r"found no visit on 2026-01-01; wanted the date of one of .*: 2026-08-14"):
        printed(visit('changed = "a storm"'), tmp_path, date(2026, 1, 1))


@pytest.mark.message
@pytest.mark.parametrize(
    "words, channel, sign",
    [
        ("opened the cabin last week", "changed", "spring start"),
        ("the lake is way down", "changed", "low water"),
        ("an electrician was here", "changed", "electric work"),
        ("nothing", "changed", "nothing changed"),
        ("never cleaned", "changed", "long without care"),
        ("a cold night", "changed", "frost"),
        ("the needle swings", "first_minute", "the needle swings"),
        ("it never catches", "first_minute", "never catches"),
        ("comes up slowly", "first_minute", "climbs slowly"),
        ("it runs ten seconds, then dies", "first_minute", "lets go after it caught"),
    ],
)
def test_people_are_understood(words: str, channel: str, sign: str) -> None:
    signs: Mapping[str, frozenset[str]] = diagnosed(visit(f'{channel} = "{words}"')).case.said.signs
    assert sign in signs[channel]
