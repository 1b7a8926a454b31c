"""Jets by their sizes in a job: the table made of them, what is asked besides, a site where a jet beats all else."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.design import Choice, designed
from lakewright.checks.registry import CHECKS, judge
from lakewright.checks.verdict import STATUS_WORDS
from lakewright.errors import JobError
from lakewright.gauges import prime_words
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.facts import Facts
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
TEXT = EXAMPLE.read_text(encoding="utf-8")
GPM, PSI, FOOT = 6.30902e-5, 6894.757, 0.3048

# An invented pump, 150 - 0.20 q^2 ft over gpm, asking 6 ft of net suction head.
CURVE = "\n".join(
    f'[[pump.curve]]\nflow = "{q} gpm"\nhead = "{150.0 - 0.20 * q * q} ft"' for q in (0, 4, 8, 12, 16, 20, 24, 27)
)
NPSH = '[[pump.npsh]]\nflow = "0 gpm"\nhead = "6 ft"\n[[pump.npsh]]\nflow = "27 gpm"\nhead = "6 ft"\n'
AT_THE_PUMP = {"pump.ejector.nozzle": "4.5 mm", "pump.ejector.throat": "9.6 mm"}
DOWN_BELOW = {
    **AT_THE_PUMP,
    "pump.ejector.below": "30 ft",
    "pump.ejector.drive_bore": "1.05 in",
    "pump.ejector.back_bore": "1.38 in",
}


def with_own_pump(changes: dict[str, str | None], npsh: str = NPSH) -> str:
    """The example with a jet of its own sizes."""
    text = TEXT.replace('stock    = "centrifugal, two-stage, 1/2 hp"\n', "")
    assert text != TEXT
    return set_values(f"{text}\n{CURVE}\n{npsh}", {"pump.power": "0.75 hp", **changes})


def assembled(changes: dict[str, str | None], npsh: str = NPSH) -> Assembly:
    return facts_of(read_job_text(with_own_pump(changes, npsh)), load_stock())


def statuses(facts: Facts) -> dict[str, str]:
    pairs = zip(CHECKS, judge(walk(facts), facts.limits), strict=True)
    return {check.name: STATUS_WORDS[int(verdict.status)] for check, verdict in pairs}


@pytest.mark.law
def test_a_pump_with_an_ejector_of_known_sizes_is_a_jet() -> None:
    facts = assembled(AT_THE_PUMP).facts
    assert facts.pump_kind == "jet"
    state = walk(facts)
    # The ejector is at its limit at the pressures of a house, and says so; over two pipes it would be asked more.
    assert 6.0 < state.flow.flow.max() / GPM < 10.0
    found = statuses(facts)
    assert found["ejector_does_not_boil"] == "fails"
    assert found["two_pipes_keep_their_prime"] == "not asked"
    assert np.abs(state.ejector.drawn_share[..., 0] - 1.0).max() < 0.05  # type: ignore[union-attr]


@pytest.mark.law
def test_a_narrower_nozzle_draws_less_and_is_clear_of_boiling() -> None:
    narrow = assembled({**AT_THE_PUMP, "pump.ejector.nozzle": "3.2 mm", "delivery.flow_control": "4 gpm"}).facts
    assert statuses(narrow)["ejector_does_not_boil"] == "holds"


@pytest.mark.law
def test_two_pipes_lift_where_no_pump_at_the_top_would() -> None:
    """Pump 30 ft over the water: a suction pump never lifts it, the ejector hung down to the water does."""
    up = {
        "pump.height": "30 ft",
        "delivery.height": "32 ft",
        "delivery.cut_in": "20 psi",
        "delivery.cut_out": "40 psi",
        "protection.cut_off": "10 psi",
    }
    low = assembled({**DOWN_BELOW, **up, "pump.ejector.back_pressure": "30 psi"}).facts
    state = walk(low)
    assert (state.flow.flow[..., 0::3] > 2.0 * GPM).all()
    assert float(state.place.lift.max()) == pytest.approx(2.5 * FOOT)
    assert statuses(low)["pump_stands_in_its_window"] == "holds"
    top = statuses(assembled({**AT_THE_PUMP, **up}).facts)
    assert top["pump_stands_in_its_window"] == top["lift_is_within_practice"] == "fails"


@pytest.mark.law
def test_two_pipes_lose_their_prime_without_a_control_valve() -> None:
    low = {"delivery.cut_in": "12 psi", "delivery.cut_out": "30 psi", "protection.cut_off": "4 psi"}
    bare = assembled({**DOWN_BELOW, **low, "delivery.height": "9 ft"}).facts
    assert statuses(bare)["two_pipes_keep_their_prime"] == "fails"
    held = assembled({**DOWN_BELOW, **low, "delivery.height": "9 ft", "pump.ejector.back_pressure": "45 psi"}).facts
    assert statuses(held)["two_pipes_keep_their_prime"] == "holds"


@pytest.mark.message
def test_two_pipes_ask_what_their_pump_needs_at_its_inlet() -> None:
    found = assembled(DOWN_BELOW, npsh="")
    assert found.missing["ejector.least_outlet"] == (
        "[[pump.npsh]] is not given: by it a pump over two pipes keeps its prime"
    )
    assert statuses(found.facts)["two_pipes_keep_their_prime"] == "unknown"


@pytest.mark.message
def test_a_jet_of_the_stock_takes_no_ejector_of_its_own() -> None:
    text = set_values(TEXT, {"pump.stock": "jet, shallow, 3/4 hp", **AT_THE_PUMP})
    with pytest.raises(JobError, match=r"an ejector by its sizes beside a jet that has a table"):
        facts_of(read_job_text(text), load_stock())


@pytest.mark.message
def test_a_throat_narrower_than_the_nozzle_is_refused() -> None:
    with pytest.raises(JobError, match=r'a throat wider than the nozzle, "4\.5 mm"'):
        assembled({**AT_THE_PUMP, "pump.ejector.throat": "4 mm"})


@pytest.mark.law
def test_a_centrifugal_of_the_stock_may_drive_an_ejector() -> None:
    """The same pump plain and with an ejector on one site: less water, and no net suction head asked."""
    plain = facts_of(read_job_text(TEXT), load_stock()).facts
    jet = facts_of(read_job_text(set_values(TEXT, AT_THE_PUMP)), load_stock()).facts
    assert (plain.pump_kind, jet.pump_kind) == ("centrifugal", "jet")
    assert walk(jet).flow.flow.max() < walk(plain).flow.flow.max()
    assert statuses(jet)["suction_stays_liquid"] == "not asked"


# Of the cabin's site, its pump 16 ft over the usual water, and a need of 4 gpm.
HIGH_BANK = {
    "pump.stock": "open",
    "pump.distance": "150 ft",
    "pump.height": "16 ft",
    "need.flow": "4 gpm",
    "delivery.length": "60 ft",
}


@pytest.fixture(scope="module")
def high_bank() -> Choice:
    return designed(set_values(TEXT, HIGH_BANK), EXAMPLE)


@pytest.mark.law
def test_a_jet_beats_every_centrifugal_on_a_high_bank(high_bank: Choice) -> None:
    assert high_bank.pick is not None
    assert high_bank.pick.passed
    assert high_bank.passing > 0
    assert {dict(row.parts)["pump"].partition(",")[0] for row in high_bank.shortlist} == {"jet"}


@pytest.mark.message
def test_design_says_why_it_is_a_jet(high_bank: Choice) -> None:
    assert high_bank.why == (
        "none holds with comfort; this is the cheapest of those that have about the most to spare; "
        'a jet: of 20 centrifugal pumps in its place none will do, all by "lift is within practice"'
    )


@pytest.mark.message
def test_nothing_is_said_of_the_other_kind_where_it_would_do() -> None:
    low = designed(set_values(TEXT, {"pump.stock": "open"}), EXAMPLE)
    assert low.why == "none holds with comfort; this is the cheapest of those that have about the most to spare"


# What holds the water, and what is said of the prime.


@pytest.mark.message
@pytest.mark.parametrize(
    "changes, words",
    [
        ({"holding.arrangement": "foot valve only"}, "; 23.7 gal poured in, held by the foot valve alone"),
        (
            {"pump.self_priming": "true", "pump.air_rate": "1 cfm"},
            "; the pump draws the air out, held by foot valve and check",
        ),
    ],
)
def test_what_is_said_of_the_prime(changes: dict[str, object], words: str) -> None:
    facts = facts_of(read_job_text(set_values(TEXT, changes)), load_stock()).facts
    assert prime_words(facts, walk(facts), "US") == words


@pytest.mark.message
def test_what_can_never_be_primed_says_so() -> None:
    facts = facts_of(read_job_text(TEXT), load_stock()).facts
    bare = facts.with_values({"holding.at_inlet": np.zeros(1)})
    assert prime_words(bare, walk(bare), "US") == (
        "; it never will: nothing draws the air out, and no valve holds what is poured in"
    )
    assert prime_words(bare, replace(walk(bare), priming=None), "US") == ""


@pytest.mark.law
def test_water_to_prime_is_what_line_stand_and_casing_hold() -> None:
    """By hand: 170 ft of bed with its slope, 31.3 ft of bank, 5 % more, in a bore of 1.610 in; the riser; a gallon."""
    facts = facts_of(read_job_text(TEXT), load_stock()).facts
    bed = sum(np.hypot(b[0] - a[0], b[1] - a[1]) for a, b in ((POINTS[n], POINTS[n + 1]) for n in range(5)))
    bank = np.hypot(25.0, 7.0) + np.hypot(5.0, 0.7)
    line = 0.25 * np.pi * (1.610 / 12.0) ** 2 * (bed + bank) * 1.05
    riser = 0.25 * np.pi * (1.50 / 12.0) ** 2 * 2.0
    gallons = (line + riser) * 1728.0 / 231.0 + 1.0
    # Tolerance 0.15 gal: the riser's fittings are not counted here.
    assert walk(facts).priming.fill.max() / 3.785411784e-3 == pytest.approx(gallons, abs=0.15)  # type: ignore[union-attr]


POINTS = [(0.0, 0.0), (40.0, 6.0), (80.0, 11.0), (120.0, 17.0), (170.0, 24.0), (170.0, 24.0)]


@pytest.mark.law
def test_a_self_primer_takes_what_boyle_asks() -> None:
    """By hand: air over the water in the line's 31 ft of bank and the bed laid bare, drawn through 10.2 ft of rise."""
    changes: dict[str, object] = {"pump.self_priming": "true", "pump.air_rate": "0.5 cfm", "pump.prime_lift": "25 ft"}
    facts = facts_of(read_job_text(set_values(TEXT, changes)), load_stock()).facts
    time = walk(facts).priming.time  # type: ignore[union-attr]
    area, rate = 0.25 * np.pi * (1.610 / 12.0) ** 2, 0.5 / 60.0
    bank = 1.05 * (np.hypot(25.0, 7.0) + np.hypot(5.0, 0.7))
    # At the usual level, 7.7 ft to the pump: between all the air at no vacuum and all of it at the deepest.
    least, most = area * bank / rate, area * bank / rate / (1.0 - 7.7 / 25.0) * (1.0 + 7.7 / (31.0 - 7.7))
    assert least < time[0] < most
    # 2.5 ft lower there is more air, and it is drawn deeper.
    assert time[1] > time[0]


@pytest.mark.law
def test_a_line_that_rises_evenly_is_primed_as_the_closed_form_has_it() -> None:
    """By hand, for a pump of steady rate S: (2 A H + (V - A b) ln(b / (b - H))) / S, all V within the rise H."""
    changes: dict[str, object] = {"pump.self_priming": "true", "pump.air_rate": "0.5 cfm"}
    facts = facts_of(read_job_text(set_values(TEXT, changes)), load_stock()).facts
    rise, suction = 3.0, facts.suction
    route = facts.days.level[0] + np.linspace(0.0, rise, facts.priming.route_height.shape[-1])
    even = {"priming.route_height": route, "suction.pocket_length": np.zeros(1), "priming.dead_head": np.full(1, 1e9)}
    state = walk(facts.with_values(even))
    length = (suction.bed_length + suction.bank_length) * (1.0 + suction.along)
    volume, rate = 0.25 * np.pi * suction.bore**2 * length, 0.5 * FOOT**3 / 60.0
    air = float(np.ravel(state.lake.atmosphere_head)[0])
    exact = volume * (2.0 + (1.0 - air / rise) * np.log(air / (air - rise))) / rate
    assert state.priming is not None
    assert state.priming.time[0] == pytest.approx(float(exact[0]), rel=1e-6)


@pytest.mark.law
def test_a_pump_that_runs_shut_is_hot_when_a_gallon_and_half_a_horsepower_say() -> None:
    """By hand: half a horsepower warms a gallon of water by 2.54 F a minute, from 68 F to 140 F in 28.4 minutes."""
    facts = facts_of(read_job_text(TEXT), load_stock()).facts
    july = walk(facts).heat.time[0]  # type: ignore[union-attr]
    assert july / 60.0 == pytest.approx((140.0 - 68.0) / 2.54, abs=0.15)
