"""The laws money keeps, for any prices and any work."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright.state.money import by_margin, by_markup
from lakewright.state.quote import PartsCost
from lakewright.state.works import Works
from tests.state.quoted import WORKS, quoted

AMOUNT = st.integers(0, 5_000_000)
SHARE = st.integers(0, 9_900).map(lambda n: f"{n // 100}.{n % 100:02d} %")
HOURS = st.integers(0, 400).map(lambda n: f"{n / 4} h")


def dollars(amount: int) -> str:
    return f"${amount // 100}.{amount % 100:02d}"


MONEY = AMOUNT.map(dollars)
PRICES = st.fixed_dictionaries(
    {
        "labour_rate": st.integers(0, 50_000).map(lambda n: f"{dollars(n)}/hour"),
        "travel": MONEY,
        "boat_half_day": MONEY,
        "digger_half_day": MONEY,
        "permits": MONEY,
        "contingency": SHARE,
        "tax": SHARE,
        "tax_on": st.sampled_from(["parts", "everything", "nothing"]),
        "deposit": SHARE,
    }
)
ADDED = st.one_of(SHARE.map(lambda s: {"markup": s}), SHARE.map(lambda s: {"markup": None, "margin": s}))
LENGTH = st.floats(0.0, 500.0)
WORK = st.builds(
    lambda **quantities: replace(WORKS, **quantities),
    set_from_boat=st.sampled_from([0.0, 1.0]),
    water_length=LENGTH,
    bank_length=LENGTH,
    digger_length=LENGTH,
    hand_length=LENGTH,
    joints=st.integers(0, 99).map(float),
    steps=st.integers(0, 9).map(float),
)
GOODS = st.tuples(AMOUNT, AMOUNT).map(lambda pair: PartsCost(max(pair), min(pair)))


@pytest.mark.law
@given(parts=GOODS, works=WORK, prices=PRICES, added=ADDED)
def test_a_quote_adds_up(parts: PartsCost, works: Works, prices: dict[str, Any], added: dict[str, Any]) -> None:
    quote = quoted(parts, works, **{**prices, **added})
    assert quote.missing == ()
    assert quote.total == sum(line.amount for line in quote.lines) == quote.price + quote.tax
    assert quote.deposit is not None
    assert quote.deposit + (quote.balance or 0) == quote.total
    assert abs(quote.deposit - share(prices["deposit"]) * quote.total) <= Fraction(1, 2)
    assert all(type(line.amount) is int and type(line.cost) is int and line.amount >= 0 for line in quote.lines)


@pytest.mark.law
@given(parts=GOODS, works=WORK, prices=PRICES, added=ADDED)
def test_the_price_is_the_cost_with_its_markup_or_over_its_margin(
    parts: PartsCost, works: Works, prices: dict[str, Any], added: dict[str, Any]
) -> None:
    quote = quoted(parts, works, **{**prices, **added})
    own = quote.of("travel") + quote.of("permits")
    factor = by_margin(share(added["margin"])) if "margin" in added else by_markup(share(added["markup"]))
    assert abs(quote.price - own - factor * (quote.cost - own)) <= Fraction(1, 2)
    for line in quote.lines:
        if line.kind in ("travel", "permits", "tax"):
            assert line.amount == line.cost
        else:
            assert abs(line.amount - factor * line.cost) <= 1


@pytest.mark.law
@given(parts=GOODS, works=WORK, prices=PRICES, added=ADDED)
def test_tax_and_contingency_are_on_their_own_base(
    parts: PartsCost, works: Works, prices: dict[str, Any], added: dict[str, Any]
) -> None:
    quote = quoted(parts, works, **{**prices, **added})
    base = {"parts": quote.of("parts"), "everything": quote.price, "nothing": 0}[prices["tax_on"]]
    assert abs(quote.tax - share(prices["tax"]) * base) <= Fraction(1, 2)
    wet = parts.in_water + sum(
        line.cost for line in quote.lines if line.kind == "boat" or "set the stand" in line.what
    )  # fmt: skip
    found = sum(line.cost for line in quote.lines if line.kind == "contingency")
    assert abs(found - share(prices["contingency"]) * wet) <= Fraction(1, 2)


def share(text: str) -> Fraction:
    """A share in per cent, with no float in between."""
    return Fraction(text.removesuffix(" %")) / 100


RISING = ("labour_rate", "travel", "boat_half_day", "digger_half_day", "permits", "contingency", "tax")
LENGTHS = ("water_length", "bank_length", "digger_length", "hand_length", "joints", "steps")


@pytest.mark.law
@given(low=PRICES, high=PRICES, parts=GOODS, works=WORK, name=st.sampled_from(RISING))
def test_a_dearer_figure_makes_no_cheaper_job(
    low: dict[str, Any], high: dict[str, Any], parts: PartsCost, works: Works, name: str
) -> None:
    def size(text: str) -> float:
        return float(re.sub(r"[^0-9.]", "", text))

    less, more = sorted((low[name], high[name]), key=size)
    cheap, dear = (quoted(parts, works, **{**low, name: value}).total for value in (less, more))
    assert cheap <= dear


@pytest.mark.law
@given(prices=PRICES, parts=GOODS, works=WORK, more=WORK, name=st.sampled_from(LENGTHS))
def test_more_work_makes_no_cheaper_job(
    prices: dict[str, Any], parts: PartsCost, works: Works, more: Works, name: str
) -> None:
    less, greater = sorted((getattr(works, name), getattr(more, name)))
    small, large = (quoted(parts, replace(works, **{name: value}), **prices).total for value in (less, greater))
    assert small <= large


@pytest.mark.law
@given(prices=PRICES, works=WORK, one=SHARE, two=SHARE, way=st.sampled_from(["markup", "margin"]))
def test_more_markup_or_margin_makes_no_cheaper_job(
    prices: dict[str, Any], works: Works, one: str, two: str, way: str
) -> None:
    less, more = sorted((one, two), key=share)
    cheap, dear = (quoted(works=works, **{**prices, "markup": None, way: value}).total for value in (less, more))
    assert cheap <= dear


@pytest.mark.law
@given(prices=PRICES, works=WORK, hours=st.tuples(HOURS, HOURS), crews=st.tuples(st.integers(1, 9), st.integers(1, 9)))
def test_more_hours_or_people_make_no_cheaper_job(
    prices: dict[str, Any], works: Works, hours: tuple[str, str], crews: tuple[int, int]
) -> None:
    short, long = sorted(hours, key=lambda text: float(text.removesuffix(" h")))
    price = {**prices, "crew": min(crews)}
    assert quoted(works=works, **price, hours=short).total <= quoted(works=works, **price, hours=long).total
    assert quoted(works=works, **price).total <= quoted(works=works, **{**price, "crew": max(crews)}).total


@pytest.mark.law
def test_nothing_costs_nothing() -> None:
    nothing = Works(**{each.name: 0.0 for each in fields(Works) if each.name not in ("assumed", "missing")})
    quote = quoted(PartsCost(0, 0), nothing, travel="$0", permits="$0")
    assert (quote.total, quote.deposit, [line.kind for line in quote.lines]) == (0, 0, ["parts"])
