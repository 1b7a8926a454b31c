"""A check names the list of cases that its block is judged in: else a report names the wrong day."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.checks.registry import CHECKS, judge
from lakewright.state.cases import case_names
from lakewright.state.facts import Facts
from lakewright.state.walk import walk
from tests.made import sound, sound_jet


@pytest.mark.law
@pytest.mark.parametrize("facts", [sound(), sound_jet()], ids=["centrifugal", "jet"])
def test_a_check_has_as_many_values_as_its_list_has_cases(facts: Facts) -> None:
    wrong = []
    for check, verdict in zip(CHECKS, judge(walk(facts), facts.limits), strict=True):
        found = np.shape(verdict.by_case)[-1]
        # A tank is filled once a day. What is as built is the same in every case.
        named = case_names("standing" if check.cases == "filling" else check.cases, facts.day_names)
        named = ["as built"] if check.cases == "all" else named
        if found != len(named):
            wrong.append(f"{check.name}: {found} values, {len(named)} cases of the list {check.cases}")
    assert wrong == []
