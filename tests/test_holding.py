"""What is proposed to keep a line in the waves does keep it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from lakewright.api.check import check
from lakewright.job.write import set_values
from lakewright.report import Finding
from tests.told import TOLD

FALLING = {
    "site.levels.low": "-2 ft",
    "stand.at": "120 ft",
    "suction.stock": "polyethylene, SIDR 9, 1-1/2 in",
    "pump.stock": "centrifugal, two-stage, 1/2 hp",
    "site.soundings.2.distance": "60 ft",
    "site.soundings.2.depth": "10 ft",
    "site.soundings.3.distance": "120 ft",
    "site.soundings.3.depth": "25 ft",
}
"""A line on a bed that falls away, in a lake that falls too."""


def line_in(text: str, folder: Path) -> Finding:
    """How the line in the waves stands."""
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return next(f for f in check(path).findings if f.name == "line_is_held_in_the_waves")


@pytest.mark.message
@pytest.mark.parametrize("units", ["US", "SI"])
def test_staked_out_as_far_as_proposed_it_is_held_and_hardly_less_far_it_is_not(units: str, tmp_path: Path) -> None:
    text = set_values(TOLD, {**FALLING, "job.units": units})
    loose = line_in(text, tmp_path)
    assert loose.status == "fails"
    proposed = re.search(r"out to ([0-9.]+) (ft|m) from the water's edge \(\[suction\] staked_to\)", loose.remedy)
    assert proposed, loose.remedy
    out, unit = float(proposed[1]), proposed[2]
    held = line_in(set_values(text, {"suction.staked_to": f"{out} {unit}"}), tmp_path)
    assert held.status in ("tight", "holds")
    nearer = line_in(set_values(text, {"suction.staked_to": f"{0.9 * out} {unit}"}), tmp_path)
    assert nearer.status == "fails"


@pytest.mark.message
def test_where_the_bed_is_nowhere_deep_enough_it_is_held_all_the_way(tmp_path: Path) -> None:
    shallow = set_values(TOLD, {**FALLING, "site.soundings.2.depth": "4 ft", "site.soundings.3.depth": "6 ft"})
    assert "hold it all the way" in line_in(shallow, tmp_path).remedy
