"""From a job to facts: what a careful reader would refuse, fill in, or say aloud."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from lakewright.api.check import check
from lakewright.api.design import design
from lakewright.errors import JobError
from lakewright.job.fields import shape_at
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.unjudged import JUDGED, unjudged
from lakewright.stock.load import load_stock

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"


def changed(changes: dict[str, str]) -> str:
    return set_values(EXAMPLE.read_text(encoding="utf-8"), changes)


def assembled(changes: dict[str, str]) -> Assembly:
    return facts_of(read_job_text(changed(changes)), load_stock(), "job.toml")


@pytest.mark.law
@pytest.mark.parametrize("field", ["low", "lowest_seen"])
def test_the_lowest_water_is_judged_though_no_day_goes_as_low(field: str) -> None:
    facts = assembled({f"site.levels.{field}": "-15 ft"}).facts
    assert facts.day_names[-1] == "lowest water, else as late September, lowest water"
    assert facts.days.level[-1] == pytest.approx(-15 * 0.3048)
    assert facts.days.temperature[-1] == facts.days.temperature[1]
    assert len(assembled({}).facts.day_names) == 5


@pytest.mark.law
def test_a_day_above_the_flood_drowns_the_pump(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(changed({"site.days.5.level": "9 ft"}), encoding="utf-8")
    report = check(file)
    window = next(f for f in report.findings if f.name == "pump_stands_in_its_window")
    assert window.status == "fails"
    assert window.case == "June, power back at night"


@pytest.mark.message
@pytest.mark.parametrize(
    "changes, words",
    [
        (
            {"site.levels.low": "2.5 ft"},
            'job.toml, [site.levels] low\n    found   "2.5 ft"\n    wanted  a height at or below the usual water level,'
            ' which is 0\n    do      write "-2.5 ft", or count all heights from another level',
        ),
        (
            {"site.levels.flood": "-5 ft"},
            'job.toml, [site.levels] flood\n    found   "-5 ft"\n    wanted  a height at or above the usual water'
            ' level, which is 0\n    do      write "5 ft", or count all heights from another level',
        ),
        (
            {"delivery.precharge": "45 psi"},
            'job.toml, [delivery] precharge\n    found   "45 psi"\n    wanted  no more than cut_in, 30 psi\n    do'
            "      2 psi under cut-in is usual: above it the taps go dry before the pump starts",
        ),
        (
            {"suction.length": "20 ft"},
            'job.toml, [suction] length\n    found   "20 ft", shorter than the way from the stand to the pump\n    '
            "wanted  the length of the line along bed and bank\n    do      measure it again",
        ),
        (
            {"limits.lift_ceiling.value": "40 ft", "limits.lift_ceiling.reason": "we are strong"},
            "job.toml, [limits.lift_ceiling] value\n    found   '40 ft'\n    wanted  less than 33.9 ft\n    do      "
            "no air pushes water higher than that, at the sea and cold",
        ),
    ],
)
def test_what_cannot_be_is_refused(changes: dict[str, str], words: str) -> None:
    with pytest.raises(JobError) as error:
        assembled(changes)
    assert [str(mistake) for mistake in error.value.mistakes] == [words]


@pytest.mark.message
def test_two_settings_of_a_switch_are_no_fraction() -> None:
    with pytest.raises(JobError) as error:
        read_job_text(changed({"delivery.cut_in": "30/50 psi"}))
    assert "which reads as a fraction" in str(error.value)
    assert "write the two settings of a switch as two values" in str(error.value)


@pytest.mark.law
def test_a_range_is_judged_at_its_middle_and_says_so() -> None:
    assembly = assembled({"pump.height": "6..8 ft"})
    assert assembly.facts.pump.height[0] == pytest.approx(7 * 0.3048)
    assert [a.why for a in assembly.assumed if a.key == "pump.height"] == [
        "the middle of 6..8 ft: its ends are not judged yet"
    ]


@pytest.mark.law
def test_a_line_given_by_its_bore_takes_fittings_of_the_nearest_size() -> None:
    changes = {"suction.stock": "", "suction.bore": "1.61 in", "suction.roughness": "0.0015 mm"}
    own = assembled({**changes, "suction.roughness_fouled": "0.05 mm"}).facts
    assert np.allclose(own.suction.coefficient, assembled({}).facts.suction.coefficient)
    assert not np.isnan(own.suction.roughness_fouled).any()


@pytest.mark.message
def test_fields_that_nothing_reads_are_named() -> None:
    job = read_job_text(changed({"holding.gauge": "compound", "site.mussels": "some"}))
    assert "[holding] gauge" in unjudged(job)
    assert "[site] mussels" in unjudged(job)


@pytest.mark.law
def test_every_field_called_judged_is_a_field_of_a_job() -> None:
    assert {path for path in JUDGED if shape_at(tuple(path.split("."))) is None} == set()


@pytest.mark.message
def test_design_says_what_it_does_not_choose(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(changed({"delivery.cut_in": "", "delivery.tank": "open"}), encoding="utf-8")
    with pytest.raises(JobError) as error:
        design(file)
    (mistake,) = error.value.mistakes
    assert mistake.found == "[delivery] cut_in is not given"
    parts = "spot, form, riser, foot valve, screen, line, pump place, pump, flow control, delivery, tank"
    assert mistake.remedy == f"give it; this version chooses {parts}, and nothing else"


# What their names say: of a weekend in July nothing but the usual; the others are named after what is other than usual.
USUAL = {"July weekend": 0.0, "late summer, lowest water": -3.0, "spring flood": 4.0, "February under ice": -3.0}


@pytest.mark.law
def test_the_usual_days_have_the_levels_that_their_names_say() -> None:
    site = '[site]\nkind = "lake"\n[site.levels]\nlow = "-3 ft"\nflood = "4 ft"\n'
    facts = facts_of(
        read_job_text('[job]\ngrade = "quote"\n[need]\nseason = "year-round"\n' + site), load_stock()
    ).facts
    assert facts.day_names == tuple(USUAL)
    assert facts.days.level / 0.3048 == pytest.approx(list(USUAL.values()))
