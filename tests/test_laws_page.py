"""The laws as rows: what changes, where the law holds, what may not get worse, why, and which test asks.

To write the page anew: python -m tests.test_laws_page
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "docs" / "reference" / "laws.md"


@dataclass(frozen=True)
class Law:
    """A law, or with `holds` False what one would take for one, kept with its counter-example."""

    change: str
    domain: str
    then: str
    why: str
    test: str
    holds: bool = True


LINE, STAND, STILL = "physics/test_laws.py", "physics/test_laws_of_the_stand.py", "state/test_still_laws.py"
JOB, QUOTE, WINTER = "state/test_laws_of_a_job.py", "state/test_quote_laws.py", "physics/test_laws_of_winter.py"

LAWS = (
    Law("more flow", "every regime, laminar to rough", "no pipe loses less", "loss rises with velocity",
        f"{LINE}::test_more_flow_loses_more_in_every_regime"),
    Law("a wider line", "at equal flow, and with the same foot valve", "it loses no more head",
        "velocity falls with the square of the bore", f"{LINE}::test_wider_shorter_smoother_warmer_never_loses_more"),
    Law("a wider line", "with the larger foot valve that fits it", "it loses no more head",
        "false below full lift: the disc floats, and the valve loses what it does at full lift however little passes",
        f"{LINE}::test_valve_loss_is_held_below_full_lift_without_a_jump", holds=False),
    Law("warmer water", "out of the critical zone", "no pipe loses more", "viscosity falls",
        f"{LINE}::test_wider_shorter_smoother_warmer_never_loses_more"),
    Law("a pipe split in two", "anywhere", "both lose what it lost", "loss goes with length",
        f"{LINE}::test_two_pipes_in_a_row_are_one_pipe"),
    Law("a pipe of no length", "any flow, any bore", "nothing is lost in it", "loss goes with length",
        f"{JOB}::test_a_pipe_of_no_length_loses_nothing"),
    Law("no flow", "every part", "nothing is lost", "loss is of moving water",
        f"{LINE}::test_still_water_loses_nothing"),
    Law("a valve less open", "any flow", "it loses no less", "the same water through less",
        f"{LINE}::test_valve_loses_more_the_faster_and_the_less_open"),
    Law("more flow", "any inlet", "the inlet wants no less cover", "a vortex follows the velocity",
        f"{LINE}::test_faster_water_asks_more_cover"),
    Law("a wider inlet", "up to the bore at which the rule turns", "it wants no more cover",
        "false above that bore: cover grows with the bore itself",
        f"{LINE}::test_wider_inlet_asks_less_cover_only_up_to_a_size", holds=False),
    Law("a larger screen", "any flow", "water is slower at its face", "the same water through more",
        f"{JOB}::test_a_larger_screen_always_lowers_the_speed_at_its_face"),
    Law("more ballast", "where its grip outweighs its drag; still water, stakes, a tether", "it slides no sooner",
        "friction on the weight added exceeds the drag added",
        f"{STILL}::test_more_ballast_never_slides_sooner_where_its_grip_outweighs_its_drag"),
    Law("more ballast", "steel angle across a fast stream", "it slides no sooner",
        "false: the angle is pushed harder than its weight grips",
        f"{STILL}::test_counter_example_more_angle_slides_sooner_in_a_fast_stream", holds=False),
    Law("longer legs", "reaches of 0.3 to 0.6 m", "it tips no sooner, and always needs more against sliding",
        "the arm grows, and so does what the water pushes",
        f"{STILL}::test_longer_legs_help_tipping_and_always_raise_the_sliding_need"),
    Law("longer legs", "any reach", "it tips no sooner", "false: lift on the legs grows as their arm does",
        f"{STILL}::test_counter_example_beyond_some_reach_longer_legs_no_longer_help_tipping", holds=False),
    Law("deeper water", "the same sea", "it is felt no more", "waves die away downward",
        f"{STILL}::test_deeper_water_never_feels_the_same_sea_more"),
    Law("more wind, fetch or depth", "the growth laws' own range", "waves are no smaller", "more work is done on them",
        f"{STAND}::test_more_wind_fetch_or_depth_never_makes_smaller_waves"),
    Law("stand and sea turned together", "any angle", "nothing changes", "only the angle between them counts",
        f"{STAND}::test_turning_stand_and_sea_together_changes_nothing"),
    Law("a stand built in a mirror", "even legs", "it is the same stand", "no part has a hand",
        "state/test_stand.py::test_a_frame_of_even_legs_is_its_own_mirror_image"),
    Law("every height raised alike", "lake, pump, tank, taps", "no flow changes", "heads are differences",
        f"{JOB}::test_every_height_moved_alike_moves_no_flow"),
    Law("every height raised alike", "the stand's place", "no factor changes", "loads follow depths",
        f"{STILL}::test_shifting_every_height_changes_nothing"),
    Law("the job in other units", "every plain quantity", "no finding changes", "a quantity is one number in SI",
        f"{JOB}::test_a_job_in_other_units_is_the_same_job"),
    Law("tables in another order", "rows of a list keep theirs", "no finding changes", "a table is known by its name",
        f"{JOB}::test_tables_in_another_order_are_the_same_job"),
    Law("a part by another name", "a shop's own row like ours", "no finding changes", "a name decides nothing",
        f"{JOB}::test_a_part_by_another_name_is_the_same_part"),
    Law("one job among many", "any batch, chunk, order", "every bit is its own", "no row looks at another",
        "state/test_single_row.py::test_any_neighbours_give_the_same_bits"),
    Law("another day", "any", "no margin rises", "the worst case decides",
        "state/test_single_row.py::test_another_day_never_raises_a_margin"),
    Law("a generated circuit", "both kinds of pump, every fitting", "heads balance, or the pump cannot lift",
        "energy is kept", "state/test_residual.py::test_every_flow_is_accounted_for"),
    Law("a dearer figure", "any figure of the price", "the job is no cheaper", "prices are added",
        f"{QUOTE}::test_a_dearer_figure_makes_no_cheaper_job"),
    Law("a longer line", "any pipe", "it costs and weighs no less", "pipe is sold by length",
        "state/test_bill.py::test_a_longer_line_never_costs_or_weighs_less"),
    Law("a lower lake", "any scenario", "the inlet is covered no more", "cover is water above it",
        "api/test_sweep.py::test_a_lower_lake_never_covers_the_inlet_more"),
    Law("more cold", "any cover", "ice and frost are no thinner", "heat flows out faster",
        f"{WINTER}::test_ice_grows_with_cold_and_thick_ice_slower"),
)  # fmt: skip

NOT_ASKED = (
    "the margin over boiling under a wider line, where the pump's curve is less steep than its need for suction head: "
    "held in the benchmarks' rows, and is no law",
    "every price doubled: parts' prices are of the stock and not of the job; a dearer figure is asked instead",
    "the whole site mirrored: of the stand alone it is asked",
)


def page() -> str:
    """The page as it should be."""
    rows = ["| change | where | then | why | asked by |", "|---|---|---|---|---|"]
    for law in LAWS:
        then = law.then if law.holds else f"**false**: {law.then}"
        file, _, name = law.test.partition("::")
        rows.append(f"| {law.change} | {law.domain} | {then} | {law.why.removeprefix('false: ')} | `{file}` {name} |")
    left = "".join(f"- {each}\n" for each in NOT_ASKED)
    return (
        "# Laws\n\n"
        "What a change may not make worse, where that is so, and the test that asks it with made-up numbers. What one "
        "would take for a law and is none stands here too, with its counter-example as the test. Written by "
        "`python -m tests.test_laws_page`.\n\n" + "\n".join(rows) + "\n\n## Not asked as laws\n\n" + left
    )


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.test)
def test_a_law_has_its_test(law: Law) -> None:
    file, _, name = law.test.partition("::")
    text = (ROOT / "tests" / file).read_text(encoding="utf-8")
    before, found, _ = text.partition(f"def {name}(")
    assert found, f"no test is called {name} in {file}"
    above = before[before.rfind("\n\n\n") :]
    assert "mark.law" in above or re.search(r"(?m)^pytestmark = .*mark\.law", text), (
        f"{law.test} is not marked as a law"
    )


def test_the_page_of_laws_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run python -m tests.test_laws_page"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
