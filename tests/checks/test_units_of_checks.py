"""A check's value is in SI, whatever its kind is shown in."""

from __future__ import annotations

import pytest

from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import Check

# Source: BIPM, The International System of Units, 9th ed. 2019, tables 2 to 5. Turbidity has no unit there. What is
# counted in an hour stays so, as the published limit of starts does.
COHERENT = {
    "m": ("lift", "depth", "bore", "part", "head"),
    "m/s": ("speed", "face_speed"),
    "m/m": ("slope",),
    "m3": ("volume",),
    "m3/s": ("flow",),
    "s": ("time", "minutes", "days"),
    "kg": ("mass",),
    "N": ("force",),
    "Pa": ("gauge", "pressure_difference"),
    "W": ("power",),
    "A": ("current",),
    "1": ("share", "count"),
    "": ("share", "count"),
    "1/h": ("count",),
    "NTU": ("turbidity",),
}


@pytest.mark.law
@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_a_check_is_in_the_unit_of_its_kind(check: Check) -> None:
    assert check.shows in COHERENT[check.unit]
