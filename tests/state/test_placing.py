"""The place in the water: what depth, a dam and silt do to the same house, and what no stream or tank is asked."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from lakewright.checks.placement import PLACEMENT
from lakewright.checks.placing import PLACING
from lakewright.checks.registry import CHECKS, judge
from lakewright.checks.verdict import NOT_ASKED
from lakewright.job.read import read_job_text
from lakewright.state.assemble import facts_of
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock
from tests.made import sound
from tests.state.placing_table import DEPTHS, cabin_at, dammed, natural, silty_pond

pytestmark = pytest.mark.law


def test_deeper_is_kinder_until_the_line_and_nothing_else_grows() -> None:
    seen = [cabin_at(depth) for depth in DEPTHS]
    fails = [{name for name, f in each.findings.items() if f.status == "fails"} for each in seen]
    assert fails[0] >= {"inlet_stays_below_the_ice", "stand_is_outside_breakers", "water_covers_the_inlet_in_a_trough"}
    # Each set holds the next.
    assert all(shallow >= deep for shallow, deep in itertools.pairwise(fails))
    assert not fails[-1] & {"inlet_stays_below_the_ice", "stand_does_not_slide", "waves_leave_silt_lying"}
    # Light and the warm layer are told at 5 ft as at 40, and hold alike.
    assert {
        each.findings[name].status for each in seen for name in ("light_at_the_inlet_is_told", "warm_layer_is_told")
    } == {"holds"}
    # One bed, one best place, whatever place is asked for.
    assert len({each.spots.pick.name for each in seen}) == 1
    assert [spot.line for spot in seen[0].spots.spots] == sorted(spot.line for spot in seen[0].spots.spots)


def test_a_drawdown_moves_the_worst_day_into_winter_and_the_place_outward() -> None:
    lake, dam = natural(), dammed()
    ice = "inlet_stays_below_the_ice"
    assert (lake.findings[ice].status, dam.findings[ice].status) == ("holds", "fails")
    assert dam.findings["pump_stands_in_its_window"].case == "February under ice"
    assert lake.findings["pump_stands_in_its_window"].case != "February under ice"
    assert dam.spots.pick.depth > lake.spots.pick.depth + 4.0 * 0.3048
    # Waves and boats come in summer, which the dam leaves as it was.
    for name in ("stand_is_outside_breakers", "boats_pass_over_the_inlet"):
        assert lake.findings[name].value == pytest.approx(dam.findings[name].value)


def test_a_shallow_silty_pond_is_stirred_by_its_boats() -> None:
    found = silty_pond().findings["waves_leave_silt_lying"]
    assert found.status == "fails"
    assert found.case is not None
    assert found.case.endswith("boat wake")
    assert silty_pond().spots.pick.at == max(spot.at for spot in silty_pond().spots.spots)


def test_more_wind_and_less_water_never_help() -> None:
    base = sound()
    for name, factor in (("weather.wind", 1.5), ("weather.fetch", 3.0), ("weather.wake", 2.0)):
        worse = walk(base.with_values({name: factor * base.value(name)})).placing
        plain = walk(base).placing
        assert worse is not None
        assert plain is not None
        assert np.all(worse.breaks_in >= plain.breaks_in)
        assert np.all(worse.trough_cover <= plain.trough_cover)
        assert np.all(worse.stirred >= plain.stirred - 1e-12)
    shallow = walk(base.with_values({"stand.depth": base.stand.depth - 2.0})).placing
    plain = walk(base).placing
    assert shallow is not None
    assert plain is not None
    assert np.all(shallow.stirred >= plain.stirred)


KINDS = ("lake", "stream", "tank")
OF_WAVES = {"stand_is_outside_breakers", "water_covers_the_inlet_in_a_trough", "waves_leave_silt_lying"}
OF_A_LAKE = OF_WAVES | {"light_at_the_inlet_is_told", "warm_layer_is_told", "boats_pass_over_the_inlet"}


COUNTS = {
    "year-round": {"lake": 0, "stream": 6, "tank": 6},
    "hauled": {"lake": 1, "stream": 7, "tank": 7},
}
"""How many questions of placing each kind of water is not asked: a new check says here of whom."""
PLACES = {check.name for check in (*PLACEMENT, *PLACING)}


def not_asked(kind: str, season: str) -> set[str]:
    """What a quote of a few words leaves unasked."""
    text = f'[job]\nunits = "US"\ngrade = "quote"\n[site]\nkind = "{kind}"\n[need]\nseason = "{season}"\n'
    text += '[pump]\nstock = "centrifugal, two-stage, 1/2 hp"\n'
    facts = facts_of(read_job_text(text), load_stock()).facts
    pairs = zip(CHECKS, judge(walk(facts), facts.limits), strict=True)
    return {check.name for check, verdict in pairs if int(verdict.status[()]) == NOT_ASKED}


@pytest.mark.parametrize("season", ["year-round", "hauled"])
def test_each_kind_of_water_gets_only_the_questions_that_make_sense_for_it(season: str) -> None:
    lake, stream, tank = (not_asked(kind, season) for kind in KINDS)
    assert not OF_A_LAKE & lake
    assert stream >= OF_A_LAKE
    assert tank >= OF_A_LAKE
    # Whatever a lake is not asked, neither of the others is.
    assert lake <= stream
    assert lake <= tank
    # A hauled line sees no ice.
    assert ("inlet_stays_below_the_ice" in lake) == (season == "hauled")
    counted = {kind: len(names & PLACES) for kind, names in zip(KINDS, (lake, stream, tank), strict=True)}
    assert counted == COUNTS[season]
