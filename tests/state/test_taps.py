"""From tank to tap: branches, filters, the switch, and what bears the pressure."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from lakewright.api.check import check
from lakewright.errors import JobError
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Finding
from lakewright.state.assemble import facts_of
from lakewright.state.facts import Facts
from lakewright.state.taps import filter_share
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock
from tests.made import random_batch, sound

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
PSI, FOOT = 6894.757, 0.3048

HOUSE_AND_DOCK = """
[[need.branches]]
name = "house"
water = "treated"
flow = "8 gpm"
height = "25 ft"
distance = "20 ft"
pipe = "polyethylene, SIDR 9, 1 in"
[[need.branches]]
name = "dock"
water = "raw"
flow = "5 gpm"
height = "3 ft"
distance = "150 ft"
pipe = "polyethylene, SIDR 9, 3/4 in"
"""


def text(changes: dict[str, str], more: str = "") -> str:
    return set_values(EXAMPLE.read_text(encoding="utf-8"), changes) + more


def found(tmp_path: Path, name: str, changes: dict[str, str], more: str = "") -> Finding:
    file = tmp_path / "job.toml"
    file.write_text(text(changes, more), encoding="utf-8")
    return next(f for f in check(file).findings if f.name == name)


def facts(changes: dict[str, str], more: str = "") -> Facts:
    return facts_of(read_job_text(text(changes, more)), load_stock()).facts


@pytest.mark.message
def test_a_switch_at_the_shore_under_a_house_60_ft_up(tmp_path: Path) -> None:
    shore = {
        "delivery.height": "8 ft",
        "delivery.tap_height": "68 ft",
        "delivery.cut_in": "20 psi",
        "protection.cut_off": "10 psi",
    }
    switch = found(tmp_path, "switch_can_start_the_pump", shore)
    assert switch.status == "fails"
    assert switch.message == "26 psi that never leave the switch, at most 20 psi"
    assert switch.remedy == "put switch and tank at the house"
    assert found(tmp_path, "taps_have_pressure", shore).message == "17 psi short of reaching the tap at all"
    # At 30 psi the pump starts, but a cut-off for low pressure never trips.
    assert found(tmp_path, "switch_can_start_the_pump", {**shore, "delivery.cut_in": "30 psi"}).status == "tight"
    assert found(tmp_path, "switch_can_start_the_pump", {**shore, "delivery.height": "60 ft"}).status == "holds"


@pytest.mark.message
def test_the_branch_that_lacks_most_is_named(tmp_path: Path) -> None:
    both = found(tmp_path, "taps_have_pressure", {}, HOUSE_AND_DOCK)
    assert both.message == "16 psi at the tap of house, at least 8 psi"
    hill = found(tmp_path, "taps_have_pressure", {}, HOUSE_AND_DOCK.replace('"3 ft"', '"70 ft"'))
    assert hill.status == "fails"
    assert "at the tap of dock" in hill.message


@pytest.mark.law
def test_only_treated_water_passes_the_filters() -> None:
    taps = facts({}, HOUSE_AND_DOCK).taps
    assert taps.filtered.tolist() == [taps.flow[0], 0.0]
    dirty, clogged = (
        walk(facts({"delivery.filters_dirty": loss}, HOUSE_AND_DOCK.replace('"25 ft"', '"-90 ft"')))
        for loss in ("10 psi", "15 psi")
    )
    # With the house far below, the dock governs, and no filter matters to it.
    assert (dirty.taps.which == 1).all()
    assert np.array_equal(dirty.taps.pressure, clogged.taps.pressure)


@pytest.mark.law
def test_branches_that_run_together_share_the_filters() -> None:
    more = HOUSE_AND_DOCK.replace('"raw"', '"treated"')
    taps = facts({}, more).taps
    assert np.allclose(taps.filtered, taps.flow.sum())
    alone = facts({}, more.replace('name = "dock"', 'name = "dock"\nwith_others = false')).taps
    assert np.allclose(alone.filtered, alone.flow)
    held = facts({"delivery.flow_control": "6 gpm"}, more).taps
    assert np.allclose(held.filtered, 6.0 * 6.30902e-5, rtol=1e-5)


@pytest.mark.law
def test_a_mix_of_the_two_laws_of_filters_loses_no_more() -> None:
    share, part = np.linspace(0.0, 3.0, 61), np.linspace(0.0, 1.0, 21)[:, None]
    assert (part * share + (1.0 - part) * share * share <= filter_share(share) * (1.0 + 1e-12)).all()


@pytest.mark.law
@pytest.mark.parametrize("name", ["taps.height", "taps.flow", "taps.length", "delivery.filters_dirty"])
def test_more_of_it_leaves_no_tap_more_pressure(name: str) -> None:
    batch = random_batch(5, 300, "centrifugal", 2)
    more = batch.with_values({name: batch.value(name) + 0.1 * np.abs(batch.value(name))})
    before, after = (walk(each).taps for each in (batch, more))
    margins = [(t.pressure - t.least) / (t.easy - t.least) for t in (before, after)]
    assert (margins[1] <= margins[0]).all()
    assert (margins[1] < margins[0]).any()


@pytest.mark.law
def test_still_water_in_one_pipe_stands_at_the_same_head_everywhere() -> None:
    still = walk(sound().with_values({"days.demand": np.zeros(2)})).taps
    rise = sound().taps.height[0] - sound().delivery.height[0]
    at_tee = sound().delivery.cut_in[0]
    weight = (at_tee - still.pressure) / rise
    assert (still.which == 0).all()
    # Water of these days weighs between these [N/m3]. Source: Tanaka and others (2001), 17 C and 1 C.
    assert ((weight > 9794.0) & (weight < 9806.7)).all()


@pytest.mark.message
def test_a_build_names_what_it_lacks(tmp_path: Path) -> None:
    lacking = {"delivery.tap_height": "", "delivery.filters_dirty": ""}
    finding = found(tmp_path, "taps_have_pressure", lacking)
    assert finding.status == "unknown"
    for words in ("[delivery] tap_height is not given", "[delivery] filters_dirty is not given"):
        assert words in finding.message
    quote = facts({**lacking, "job.grade": "quote"})
    assert quote.taps.height[0] == pytest.approx(24.0 * FOOT)
    assert quote.delivery.filters_dirty[0] == pytest.approx(13.0 * PSI)


@pytest.mark.message
def test_every_branch_that_lacks_something_is_named(tmp_path: Path) -> None:
    bare = "".join(
        f'\n[[need.branches]]\nname = "{name}"\nflow = "4 gpm"\nheight = "20 ft"' for name in ("north", "south")
    )
    message = found(tmp_path, "taps_have_pressure", {}, bare).message
    wanted = [
        f"[[need.branches]] {name}: {what} is not given" for what in ("distance", "pipe") for name in ("north", "south")
    ]
    assert message == "; ".join(wanted)
    told = facts_of(read_job_text(text({"job.grade": "quote"}, bare)), load_stock()).assumed
    assert {"pipe to north", "pipe to south"} <= {each.key for each in told}


@pytest.mark.law
def test_a_job_that_filters_nothing_loses_nothing_in_filters() -> None:
    raw = {"need.drinking": "no", "delivery.filters_clean": "", "delivery.filters_dirty": "", "treatment": ""}
    assert facts(raw).delivery.filters_dirty.tolist() == [0.0]
    assert facts(raw).taps.filtered.tolist() == [0.0]


@pytest.mark.message
def test_a_relief_valve_that_opens_under_cut_out_is_refused() -> None:
    with pytest.raises(JobError) as error:
        read_job_text(text({"delivery.relief": "45 psi"}))
    (mistake,) = error.value.mistakes
    assert mistake.key == "[delivery] relief"
    assert mistake.found == '"45 psi"'
    assert mistake.wanted == 'a pressure above cut_out, "50 psi"'
    assert mistake.remedy == "set it between cut-out and the tank's rating"


@pytest.mark.message
def test_a_tank_weaker_than_the_shut_off_wants_a_relief_valve(tmp_path: Path) -> None:
    weak = {"delivery.tank_pressure_rating": "55 psi"}
    bare = found(tmp_path, "tank_bears_the_shut_off", weak)
    assert bare.status == "fails"
    assert bare.message == "60 psi with every tap shut, at most 55 psi"
    assert "relief valve" in bare.remedy
    assert found(tmp_path, "tank_bears_the_shut_off", {**weak, "delivery.relief": "52 psi"}).status == "tight"


@pytest.mark.law
def test_a_pipe_in_the_sun_bears_less() -> None:
    shade, sun = (facts({"delivery.sunlit": lies}).delivery.pipe_bears[0] / PSI for lies in ("false", "true"))
    assert shade == pytest.approx(200.0)
    assert sun == pytest.approx(160.0)


@pytest.mark.message
def test_a_bare_strainer_is_no_fish_screen(tmp_path: Path) -> None:
    bare = {"stand.inlet.screen": "none"}
    finding = found(tmp_path, "a_screen_stands_where_a_rule_asks", bare)
    assert finding.status == "fails"
    assert finding.message == "1 bare strainer, no screen"
    assert "a bare foot-valve strainer is not a fish screen" in finding.remedy
    free = {**bare, "site.rules.screen": "none"}
    assert found(tmp_path, "a_screen_stands_where_a_rule_asks", free).status == "not asked"
    # In a build a rule nobody has named leaves it open.
    nameless = found(tmp_path, "a_screen_stands_where_a_rule_asks", {**bare, "site.rules.screen": ""})
    assert nameless.status == "unknown"
    assert "ask the authority" in nameless.message


@pytest.mark.law
def test_a_screen_of_ones_own_is_judged_by_the_narrower_width(tmp_path: Path) -> None:
    own = {
        "stand.inlet.screen": "",
        "stand.inlet.screen_area": "150 in2",
        "stand.inlet.screen_open_fraction": "40 %",
        "stand.inlet.screen_opening": "0.09375 in",
    }
    assert found(tmp_path, "screen_openings_are_fine_enough", own).status == "fails"
    fine = {**own, "stand.inlet.screen_opening": "1.75 mm"}
    assert found(tmp_path, "screen_openings_are_fine_enough", fine).status == "holds"
