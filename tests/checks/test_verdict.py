"""The meaning of a status: at the edges, where a number is missing, where nobody asks, and over the cases."""

from __future__ import annotations

import math

import numpy as np
import pytest

from lakewright.checks.verdict import (
    FAILS,
    HOLDS,
    NOT_ASKED,
    STATUS_WORDS,
    TIGHT,
    UNKNOWN,
    Verdict,
    at_least,
    at_most,
    none_over,
    under_band,
    within_band,
    worse_of,
)
from lakewright.physics.types import Array

pytestmark = pytest.mark.law

JUST_UNDER = np.nextafter(1.0, 0.0)
INFINITE = math.inf


def cases(*values: float) -> Array:
    return np.array(values, dtype=float)


def status(verdict: Verdict) -> str:
    return STATUS_WORDS[int(verdict.status)]


# Margins as they come out with a comfort of one: the edges belong to the better side.
EDGES = [
    (-INFINITE, "fails"),
    (-1.0, "fails"),
    (-5e-324, "fails"),
    (-0.0, "tight"),
    (0.0, "tight"),
    (5e-324, "tight"),
    (0.5, "tight"),
    (JUST_UNDER, "tight"),
    (1.0, "holds"),
    (7.0, "holds"),
    (INFINITE, "holds"),
    (math.nan, "unknown"),
]


@pytest.mark.parametrize("margin, word", EDGES)
def test_at_least_by_margin(margin: float, word: str) -> None:
    verdict = at_least(cases(margin), 0.0, 1.0)
    assert status(verdict) == word
    assert np.array_equal(verdict.margin, margin, equal_nan=True)


@pytest.mark.parametrize("margin, word", EDGES)
def test_at_most_by_margin(margin: float, word: str) -> None:
    assert status(at_most(cases(-margin), 0.0, 1.0)) == word


def test_margin_is_surplus_over_comfort() -> None:
    assert at_least(cases(12.0), 10.0, 4.0).margin == 0.5
    assert at_most(cases(9.0), 10.0, 4.0).margin == 0.25
    assert at_least(cases(12.0), cases(14.0), cases(4.0)).margin == -0.5


@pytest.mark.parametrize("value, limit, comfort", [(math.nan, 0.0, 1.0), (1.0, math.nan, 1.0), (1.0, 0.0, math.nan)])
def test_any_missing_number_is_unknown(value: float, limit: float, comfort: float) -> None:
    for judged in (at_least, at_most):
        assert status(judged(cases(value), cases(limit), cases(comfort))) == "unknown"


@pytest.mark.parametrize(
    "value, word", [(14.9, "holds"), (15.0, "holds"), (15.1, "fails"), (-math.inf, "holds"), (math.nan, "unknown")]
)
def test_as_much_as_the_limit_is_not_over_it(value: float, word: str) -> None:
    assert status(none_over(cases(value), 15.0)) == word


def test_infinities_of_one_sign_are_unknown_not_held() -> None:
    with np.errstate(invalid="ignore"):
        assert status(at_least(cases(INFINITE), cases(INFINITE), 1.0)) == "unknown"


def test_a_limit_that_nothing_reaches_fails_and_one_that_all_pass_holds() -> None:
    assert status(at_least(cases(3.0), cases(INFINITE), 1.0)) == "fails"
    assert status(at_most(cases(3.0), cases(INFINITE), 1.0)) == "holds"


# Over the cases


def test_the_worst_case_speaks() -> None:
    verdict = at_least(cases(5.0, 1.2, 3.0), 1.0, 1.0)
    assert (status(verdict), verdict.case, verdict.value) == ("tight", 1, 1.2)
    assert verdict.margin == pytest.approx(0.2)


def test_the_limit_shown_is_that_of_the_case_that_speaks() -> None:
    verdict = at_least(cases(5.0, 5.0, 5.0), cases(1.0, 4.5, 2.0), 1.0)
    assert (verdict.case, verdict.value, verdict.limit) == (1, 5.0, 4.5)


def test_of_equal_cases_the_first_speaks() -> None:
    assert at_least(cases(2.0, 1.0, 1.0), 0.0, 1.0).case == 1


def test_an_unknown_case_speaks_before_a_failing_one() -> None:
    verdict = at_least(cases(-9.0, math.nan, 4.0), 0.0, 1.0)
    assert (status(verdict), verdict.case) == ("unknown", 1)
    assert math.isnan(verdict.margin)
    assert math.isnan(verdict.value)


def test_a_batch_is_judged_row_by_row() -> None:
    values = np.array([[2.0, 3.0], [0.5, 3.0], [-1.0, 3.0], [np.nan, 3.0]])
    verdict = at_least(values, 0.0, 1.0)
    assert verdict.status.tolist() == [HOLDS, TIGHT, FAILS, UNKNOWN]
    assert verdict.case.tolist() == [0, 0, 0, 0]
    assert verdict.status.dtype == np.int8
    assert np.array_equal(verdict.value, [2.0, 0.5, -1.0, np.nan], equal_nan=True)


# Masks


def test_a_case_nobody_asks_about_does_not_speak() -> None:
    verdict = at_least(cases(-5.0, 3.0), 0.0, 1.0, where=np.array([False, True]))
    assert (status(verdict), verdict.case, verdict.margin) == ("holds", 1, 3.0)
    assert verdict.by_case.tolist() == [INFINITE, 3.0]


def test_a_missing_number_nobody_asks_about_is_no_matter() -> None:
    assert status(at_least(cases(math.nan, 3.0), 0.0, 1.0, where=np.array([False, True]))) == "holds"


@pytest.mark.parametrize("value", [5.0, -5.0, math.nan])
def test_asked_in_no_case_is_not_asked(value: float) -> None:
    verdict = at_least(cases(value, value), 0.0, 1.0, where=np.array([False]))
    assert (status(verdict), verdict.margin) == ("not asked", INFINITE)


def test_a_mask_for_each_design() -> None:
    values = np.array([[-1.0, 2.0], [-1.0, 2.0], [-1.0, 2.0]])
    asked = np.array([[True, True], [False, True], [False, False]])
    assert at_least(values, 0.0, 1.0, where=asked).status.tolist() == [FAILS, HOLDS, NOT_ASKED]


# Bands of rules that disagree

BAND = [
    (1.9, "fails"),
    (2.0, "tight"),
    (3.0, "tight"),
    (3.999, "tight"),
    (4.0, "holds"),
    (9.0, "holds"),
    (math.nan, "unknown"),
]


@pytest.mark.parametrize("value, word", BAND)
def test_a_value_against_a_band(value: float, word: str) -> None:
    verdict = within_band(cases(value), cases(2.0), cases(4.0), 0.5)
    assert status(verdict) == word
    assert verdict.limit == 4.0


@pytest.mark.parametrize("value, word", [(6.0 - value, word) for value, word in BAND])
def test_a_value_under_a_band(value: float, word: str) -> None:
    verdict = under_band(cases(value), cases(2.0), cases(4.0))
    assert status(verdict) == word
    assert verdict.limit == 4.0


def test_a_band_without_width_has_its_own_yardstick() -> None:
    for value, margin in ((3.9, -0.2), (4.0, 0.0), (4.25, 0.5), (4.5, 1.0)):
        assert within_band(cases(value), cases(4.0), cases(4.0), 0.5).margin == pytest.approx(margin)


def test_a_band_that_is_unknown_at_either_end_is_unknown() -> None:
    assert status(within_band(cases(9.0), cases(math.nan), cases(4.0), 0.5)) == "unknown"
    assert status(within_band(cases(9.0), cases(2.0), cases(math.nan), 0.5)) == "unknown"


def test_a_band_without_end_is_tight_inside_and_fails_below() -> None:
    # Above 5 ft/s the tabulated cover is infinite: no depth meets that rule, and the other may be met or not.
    met = within_band(cases(3.0), cases(2.0), cases(INFINITE), 0.5)
    assert (status(met), met.margin) == ("tight", 0.0)
    assert status(within_band(cases(1.0), cases(2.0), cases(INFINITE), 0.5)) == "fails"
    assert status(within_band(cases(-3.0), cases(2.0), cases(INFINITE), 0.5)) == "fails"


# Two at once


def test_the_worse_of_two_speaks_in_each_case() -> None:
    one, other = at_least(cases(3.0, 0.5), 0.0, 1.0), at_least(cases(10.0, 40.0), cases(9.0, 30.0), 5.0)
    both = worse_of(one, other)
    assert both.by_case.tolist() == [pytest.approx(0.2), 0.5]
    assert (status(both), both.case, both.value, both.limit) == ("tight", 0, 10.0, 9.0)


def test_of_two_the_unknown_speaks() -> None:
    good, unknown = at_least(cases(3.0), 0.0, 1.0), at_least(cases(math.nan), 0.0, 1.0)
    bad = at_least(cases(-3.0), 0.0, 1.0)
    for pair in ((good, unknown), (unknown, good), (bad, unknown), (unknown, bad)):
        assert status(worse_of(*pair)) == "unknown"
