"""Where waves roll the line, the remedy proposes stakes that hold it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from lakewright.api.look import changed, look
from lakewright.report import Finding

DAY = "2026-05-03"
CABIN = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"


def held(text: str) -> Finding:
    """What is said of the line in the waves."""
    found = look(text, CABIN, None).report.findings
    return next(each for each in found if each.name == "line_is_held_in_the_waves")


@pytest.mark.parametrize("system", ["US", "SI"])
def test_the_stakes_that_are_proposed_hold_and_five_feet_less_do_so_less_well(system: str) -> None:
    text = changed(CABIN.read_text(encoding="utf-8"), {"suction.staked_to": "37 ft", "job.units": system}, {}, DAY)
    before = held(text)
    assert before.status == "fails"
    said = re.search(r'staked_to = "([0-9.]+) (ft|m)"', before.remedy)
    assert said is not None, before.remedy
    number, unit = float(said[1]), said[2]
    after = held(changed(text, {"suction.staked_to": f"{number} {unit}"}, {}, DAY))
    assert after.status == "holds"
    assert "staked_to" not in after.remedy
    less = held(changed(text, {"suction.staked_to": f"{number - (5 if unit == 'ft' else 1)} {unit}"}, {}, DAY))
    assert less.status in ("tight", "fails")
