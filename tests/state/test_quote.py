"""From parts and works to a price: worked by hand, the laws money keeps, and what is said of what nobody knows."""

from __future__ import annotations

import datetime
import math
from dataclasses import replace
from typing import Any

import pytest

from lakewright import units
from lakewright.job.read import read_job_text
from lakewright.search.options import problem_of
from lakewright.state.assemble import facts_of
from lakewright.state.labour import stints_of
from lakewright.state.quote import Quote, quote_of, summary
from lakewright.stock.load import load_stock
from tests.job.example import example_text
from tests.state.quoted import PARTS, WORKS, job, quoted, silent


def by_kind(quote: Quote) -> dict[str, tuple[int, int]]:
    """Cost and amount of each kind of line."""
    kinds = dict.fromkeys(line.kind for line in quote.lines)
    return {
        kind: (sum(line.cost for line in quote.lines if line.kind == kind), quote.of(kind))
        for kind in kinds
    }  # fmt: skip


# Worked by hand. Hours, then people:
#   bench 2 + 4 legs x 1/4 = 3, one; travel 2, two; boat 2 + 50 m x 0.02 = 3, two;
#   bank 10 m x 0.02 = 0.2, counted 1/2, two; digger 1 + 25 m x 0.08 = 3, two; pump 2, one;
#   tank 2 + 2 branches x 1/2 = 3, one; joints 50 x 0.04 = 2, one; treatment 1/2 + 1 = 1-1/2, one; commission 2, two.
# Together 3 + 4 + 6 + 1 + 6 + 2 + 3 + 2 + 1.5 + 4 = 32.5 hours of one person, at $80 $2,600.
# Boat 3 h and digger 3 h: a half-day each, $150 and $250.
# In the water: parts $500, labour 6 x $80 = $480, boat $150: $1,130, a tenth of it $113.
# Cost that bears the markup: 2,000 + 2,600 + 150 + 250 + 113 = $5,113; with a quarter added $6,391.25.
# At cost: travel $60, permits $120. Price $6,571.25. Tax: 6 % of parts at 2,000 x 1.25 = $2,500, $150. Total $6,721.25.
# Deposit 40 %: $2,688.50; balance $4,032.75. Fourteen days from 9 May: 23 May.


def test_the_worked_example() -> None:
    quote = quoted()
    assert by_kind(quote) == {
        "parts": (200_000, 250_000),
        "labour": (260_000, 325_000),
        "boat": (15_000, 18_750),
        "digger": (25_000, 31_250),
        "contingency": (11_300, 14_125),
        "travel": (6_000, 6_000),
        "permits": (12_000, 12_000),
        "tax": (15_000, 15_000),
    }
    assert (quote.cost, quote.price, quote.tax, quote.total) == (529_300, 657_125, 15_000, 672_125)
    assert (quote.deposit, quote.balance) == (268_850, 403_275)
    assert quote.valid_until == datetime.date(2026, 5, 23)
    assert quote.missing == ()


# Margin 20 % of the price is what a markup of 25 % of the cost comes to: 5,113 / 0.8 = $6,391.25.
def test_the_worked_example_by_margin() -> None:
    assert quoted(markup=None, margin="20 %").lines == quoted().lines


# Everything taxed: 6 % of $6,571.25 is $394.275, a half cent up $394.28.
@pytest.mark.parametrize(
    "price, tax",
    [
        ({"tax_on": "everything"}, 39_428),
        ({"tax_on": "nothing"}, 0),
        ({"tax": "0 %"}, 0),
        ({"tax_on": "parts"}, 15_000),
    ],
)
def test_tax_is_on_what_the_rule_says(price: dict[str, Any], tax: int) -> None:
    quote = quoted(**price)
    assert (quote.tax, quote.taxed, quote.total) == (tax, True, 657_125 + tax)


# Told: 20 h, three people, $80: $4,800. With three on site the tasks come to 3 + 6 + 9 + 1.5 + 9 + 6 + 9 + 6 + 4.5 + 6,
# 60 hours of one person, of which 9 are in the water: $720. A tenth of 500 + 720 + 150 is $137.
def test_hours_told_take_the_place_of_the_tasks() -> None:
    quote = quoted(hours="20 h", crew=3)
    labour = [line for line in quote.lines if line.kind == "labour"]
    assert [(line.what, line.cost, line.why) for line in labour] == [("Labour", 480_000, "20.0 h, 3 people")]
    assert by_kind(quote)["contingency"][0] == 13_700


def test_a_crew_is_on_site_and_a_task_takes_no_fewer_than_it_needs() -> None:
    def people(crew: int | None) -> dict[str, int]:
        return {stint.task.name: stint.people for stint in stints_of(WORKS, crew)}

    assert people(3) == {**dict.fromkeys(people(None), 3), "bench": 1}
    assert people(1) == people(None)
    assert people(None)["set_from_boat"] == 2


# 4 h to the half-day: 190 m of line take 2 + 190 x 0.02 = 5.8 h, counted 6: two half-days.
@pytest.mark.parametrize("length, count", [(0.0, 1), (100.0, 1), (101.0, 2), (190.0, 2), (301.0, 3)])
def test_a_half_day_begun_is_paid_whole(length: float, count: int) -> None:
    (boat,) = (line for line in quoted(works=replace(WORKS, water_length=length)).lines if line.kind == "boat")
    assert boat.cost == count * 15_000
    assert boat.why == ("1 half-day" if count == 1 else f"{count} half-days")


def test_a_boat_for_the_whole_job_costs_what_it_costs() -> None:
    quote = quoted(boat_half_day=None, boat="$400", works=replace(WORKS, water_length=1000.0))
    assert [(line.cost, line.why) for line in quote.lines if line.kind == "boat"] == [(40_000, "for the whole job")]


def test_nothing_is_hired_for_work_that_is_not_there() -> None:
    quote = quoted(works=replace(WORKS, set_from_boat=0.0, set_from_shore=1.0, digger_length=0.0, hand_length=5.0))
    assert {"boat", "digger"} & set(by_kind(quote)) == set()
    assert quote.missing == ()


def test_others_may_do_the_work() -> None:
    quote = quoted(hours="0 h")
    assert set(by_kind(quote)) == {"parts", "contingency", "travel", "permits", "tax"}
    assert "Labour, by others" in quote.excluded


def test_an_owner_who_does_the_work_is_not_billed_for_it() -> None:
    said = job().model_copy(update={"access": job().access.model_copy(update={"work_by": "owner"})})
    quote = quote_of(said, PARTS, WORKS)
    assert "labour" not in by_kind(quote)
    assert "Labour, by the owner" in quote.excluded
    assert by_kind(quote)["contingency"] < by_kind(quoted())["contingency"]
    told = said.model_copy(update={"price": job(hours="10 h", crew=1).price})
    assert "labour" in by_kind(quote_of(told, PARTS, WORKS))


@pytest.mark.message
def test_what_an_owner_at_work_must_hire_is_said_and_what_he_has_is_not_billed() -> None:
    def with_access(**said: str) -> Quote:
        return quote_of(job().model_copy(update={"access": job().access.model_copy(update=said)}), PARTS, WORKS)

    hires = {line.kind: line.why for line in with_access(work_by="owner").lines}
    assert hires["boat"] == hires["digger"] == "1 half-day, hired unless the owner brings one"
    assert {line.kind: line.why for line in quoted().lines}["boat"] == "1 half-day"
    own = with_access(work_by="owner", own_boat="yes", own_digger="yes")
    assert {"boat", "digger"}.isdisjoint(by_kind(own))
    assert own.excluded[-3:] == ("Labour, by the owner", "Boat, the customer's own", "Digger, the customer's own")
    # By hand: of what goes in the water only the parts are bought, $500; a tenth is $50, with a quarter $62.50.
    assert by_kind(own)["contingency"] == (5_000, 6_250)
    assert "boat" in by_kind(with_access(work_by="owner", own_boat="unknown"))


# What nobody has said.


@pytest.mark.message
def test_a_quote_takes_the_shops_figures_and_says_so() -> None:
    quote = quote_of(silent(), PARTS, WORKS)
    assert quote.missing == ()
    taken = {each.key: units.show(each.value, each.kind, "US") for each in quote.assumed}
    assert taken == {
        "price.labour_rate": "$85.00/hour",
        "price.hours": "22.0 h",
        "price.half_day": "4.0 h",
        "price.boat_half_day": "$160.00",
        "price.digger_half_day": "$280.00",
        "price.contingency": "10 %",
        "price.markup": "0 %",
        "price.travel": "$75.00",
        "price.deposit": "50 %",
        "price.valid_days": "30",
        "price.call_back": "$350.00",
    }
    assert all(each.why for each in quote.assumed)
    assert quote.excluded[2:] == ("Permits and laboratory", "Tax")
    assert quote.valid_until == datetime.date(2026, 6, 8)


@pytest.mark.message
def test_a_build_takes_none_and_names_what_is_missing() -> None:
    quote = quote_of(silent("build"), PARTS, WORKS)
    assert quote.missing == (
        "labour: [price] labour_rate is not given",
        "boat: [price] boat_half_day is not given",
        "digger: [price] digger_half_day is not given",
        "contingency: [price] contingency is not given",
        "markup or margin: [price] markup is not given",
        "travel: [price] travel is not given",
        "Permits and laboratory: [price] permits is not given",
        "Tax: [price] tax is not given",
    )
    assert (quote.total, quote.deposit, quote.balance, quote.valid_until) == (PARTS.price, None, None, None)
    assert ("Parts only", "$2,000.00") in summary(quote)


NEEDED = (
    "labour_rate",
    "travel",
    "boat_half_day",
    "digger_half_day",
    "permits",
    "contingency",
    "markup",
    "tax",
    "tax_on",
)


@pytest.mark.parametrize("name", NEEDED)
def test_what_a_build_lacks_is_named_and_never_nothing(name: str) -> None:
    quote = quoted(**{name: None})
    assert any(f"[price] {name} is not given" in words for words in quote.missing)
    assert quote.deposit is None
    assert "At least" in dict(summary(quote))
    assert quote.total < quoted().total


@pytest.mark.parametrize(
    "quantity, task",
    [
        ("set_from_boat", "lay the line and set the stand from a boat"),
        ("water_length", "lay the line and set the stand from a boat"),
        ("digger_length", "trench, lay and fill with a digger"),
        ("bank_length", "lay pipe on the ground"),
    ],
)
def test_work_of_unknown_size_is_named(quantity: str, task: str) -> None:
    quote = quoted(works=replace(WORKS, **{quantity: math.nan}, missing=("the length is not given",)))
    assert f"hours to {task}: the length is not given" in quote.missing
    assert "At least" in dict(summary(quote))
    assert quote.total < quoted().total


def test_no_contingency_is_guessed_on_work_of_unknown_size() -> None:
    quote = quoted(works=replace(WORKS, set_from_boat=0.0, set_from_shore=1.0, water_length=math.nan))
    assert "contingency: what goes in the water is not all priced" in quote.missing
    assert "contingency" not in by_kind(quote)


def test_parts_without_a_price_are_named() -> None:
    quote = quoted(replace(PARTS, unpriced=("the hose and the tank do not join",)))
    assert quote.missing == ("parts: the hose and the tank do not join",)
    assert quote.deposit is None
    gaps = ("[pump] stock is open: design chooses it", "[delivery] tank is open: design chooses it")
    words = dict(summary(quoted(replace(PARTS, unpriced=gaps))))
    assert words["Not in it yet: parts ([pump] stock is open; [delivery] tank is open)"] == "unknown"


def test_a_tax_without_its_rule_is_on_everything_in_a_quote() -> None:
    quote = quoted(grade="quote", tax_on=None)
    assert quote.tax == quoted(tax_on="everything").tax
    assert [each.text for each in quote.assumed if each.key == "price.tax_on"] == ["everything"]


def test_a_figure_given_as_a_range_is_taken_at_its_middle_and_said() -> None:
    quote = quoted(permits="$100..$140")
    assert quote.of("permits") == 12_000
    (said,) = (each for each in quote.assumed if each.key == "price.permits")
    assert units.show(said.value, said.kind, "US") == "$120.00"


# On paper.


@pytest.mark.message
def test_the_price_in_words() -> None:
    assert summary(quoted(currency="CAD")) == (
        ("Parts", "$2,500.00"),
        ("Labour", "$3,250.00"),
        ("Boat, 1 half-day", "$187.50"),
        ("Digger, 1 half-day", "$312.50"),
        ("Contingency, 10 % of what goes in the water", "$141.25"),
        ("Travel, at cost", "$60.00"),
        ("Permits and laboratory, at cost", "$120.00"),
        ("Tax, 6 % of parts", "$150.00"),
        ("Total (CAD)", "$6,721.25"),
        ("Power to the pump, by a licensed electrician", "not in it"),
        ("A diver", "not in it"),
        ("Deposit at the order", "$2,688.50"),
        ("Balance", "$4,032.75"),
        ("Good until", "2026-05-23"),
    )


@pytest.mark.message
def test_a_total_never_passes_for_more_than_it_is() -> None:
    assert "Total" in dict(summary(quoted()))
    assert "Total before tax" in dict(summary(quoted(grade="quote", tax=None, tax_on=None)))
    assert dict(summary(quoted(travel=None)))["Not in it yet: travel"] == "unknown"


@pytest.mark.message
def test_without_a_date_the_days_are_said() -> None:
    undated = read_job_text("[job]\n")
    assert ("Good for", "30 days") in summary(quote_of(undated, PARTS, WORKS))


def test_a_date_beyond_the_calendar_is_its_last() -> None:
    late = read_job_text("[job]\ndate = 9999-12-01\n[price]\nvalid_days = 100\n")
    assert quote_of(late, PARTS, WORKS).valid_until == datetime.date.max


# What one visit costs is no part of the price.


def test_a_call_back_ranks_and_is_not_in_the_price() -> None:
    dear, cheap = quoted(call_back="$900"), quoted(call_back="$10")
    assert (dear.call_back, cheap.call_back) == (90_000, 1_000)
    assert dear.lines == cheap.lines


def test_search_takes_the_same_call_back() -> None:
    read, stock = read_job_text(example_text()), load_stock()
    assembly = facts_of(read, stock)
    assert problem_of(read, stock, assembly).call_back == quote_of(read, PARTS, WORKS).call_back == 45_000
