"""Cents out of shares, rates and factors."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright import units
from lakewright.state.money import asked, by_margin, by_markup, cents, exact

AMOUNT = st.integers(0, 5_000_000)


@pytest.mark.law
@given(share=st.fractions(0, Fraction(999, 1000)))
def test_markup_and_margin_are_each_others_inverse(share: Fraction) -> None:
    markup = share / (1 - share)
    assert by_markup(markup) == by_margin(share)
    price = by_margin(share)
    assert (price - 1) / price == share
    assert price - 1 == markup


@pytest.mark.law
@given(costs=st.lists(AMOUNT, max_size=12), factor=st.fractions(1, 100))
def test_lines_add_up_to_the_whole_rounded(costs: list[int], factor: Fraction) -> None:
    amounts = asked(costs, factor)
    assert sum(amounts) == cents(factor * sum(costs))
    assert all(abs(amount - factor * cost) <= 1 for cost, amount in zip(costs, amounts, strict=True))


@pytest.mark.law
@given(hundredths=st.integers(0, 50_000))
def test_a_share_is_read_to_the_last_digit_written(hundredths: int) -> None:
    text = f"{hundredths / 100:.2f} %"
    assert exact(units.read(text, "share")) == Fraction(hundredths, 10_000)


@pytest.mark.law
@given(rate=AMOUNT)
def test_a_rate_is_read_to_the_cent(rate: int) -> None:
    assert exact(units.read(f"${rate // 100}.{rate % 100:02d}/hour", "money_per_time") * 360_000.0) == rate


@pytest.mark.law
@given(amount=AMOUNT)
def test_a_half_cent_goes_up(amount: int) -> None:
    assert cents(Fraction(2 * amount + 1, 2)) == amount + 1
    assert cents(Fraction(200 * amount + 99, 200)) == amount
