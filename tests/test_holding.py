"""What is proposed to keep a line in the waves does keep it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from lakewright.api.check import check
from lakewright.job.write import set_values
from lakewright.report import Finding

TOLD = """
[job]
grade = "quote"
units = "{units}"

[need]
baths = 2

[site]
kind = "lake"

[site.levels]
low = "-2 ft"

[[site.soundings]]
distance = "0 ft"
depth = "0 ft"

[[site.soundings]]
distance = "60 ft"
depth = "10 ft"

[[site.soundings]]
distance = "120 ft"
depth = "{deepest}"

[stand]
at = "120 ft"

[suction]
stock = "polyethylene, SIDR 9, 1-1/2 in"

[pump]
height = "6 ft"
distance = "30 ft"
stock = "centrifugal, two-stage, 1/2 hp"
"""


def line_in(text: str, folder: Path) -> Finding:
    """How the line in the waves stands."""
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return next(f for f in check(path).findings if f.name == "line_is_held_in_the_waves")


@pytest.mark.message
@pytest.mark.parametrize("units", ["US", "SI"])
def test_staked_out_as_far_as_proposed_it_is_held_and_hardly_less_far_it_is_not(units: str, tmp_path: Path) -> None:
    text = TOLD.format(units=units, deepest="25 ft")
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
    shallow = TOLD.format(units="US", deepest="6 ft").replace('depth = "10 ft"', 'depth = "4 ft"')
    assert "hold it all the way" in line_in(shallow, tmp_path).remedy
