"""Blind, small; the whole of it is `python -m tests.search.diagnose_blind`."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.search.faults import NONE
from tests.search.blind_visits import sick_system
from tests.search.diagnose_blind import COSTLY, diagnosed, outcome, ranking, told_also


@pytest.mark.law
def test_blind_on_systems_that_the_model_has_not_made() -> None:
    found = [outcome(seed, steps=0, full=False) for seed in range(5000, 5040)]
    costly = [o for o in found if o.fault != NONE and o.lost >= COSTLY]
    assert len(costly) >= 10
    # ours: forty are few; what is held here is that it grows no worse.
    assert np.mean([o.place(o.ranked) == 1 for o in found]) >= 0.45
    assert np.mean([o.kind_place(o.ranked) <= 2 for o in costly]) >= 0.8
    # Of what is said to be likely, the most is so.
    sure = [o.place(o.ranked) == 1 for o in found if o.ranked[0][1] >= 0.75]
    assert np.mean(sure) >= 0.7


@pytest.mark.law
def test_whoever_does_what_is_asked_for_finds_it() -> None:
    """Over 500 systems nine in ten after four things, where it costs a tenth of the flow; thirty are few."""
    found = [outcome(seed, steps=4, full=False) for seed in range(5000, 5030)]
    called, asked = ([o.place(of(o)) for o in found] for of in (lambda o: o.ranked, lambda o: o.after[3]))
    assert np.mean([place == 1 for place in asked]) >= 0.8
    assert np.mean([place <= 2 for place in asked]) >= 0.9
    assert np.mean([place == 1 for place in asked]) > np.mean([place == 1 for place in called]) + 0.1


@pytest.mark.law
def test_told_more_of_the_same_readings_it_says_what_it_would_have_said_at_once() -> None:
    text = sick_system(5003).text
    more = text + 'ruled_out = ["screen dirty"]\n'
    assert ranking(told_also(diagnosed(text), more)) == ranking(diagnosed(more))
