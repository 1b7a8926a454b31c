"""Chlorine, light and filters against print, and their laws."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from lakewright.physics import disinfection, filter, ultraviolet
from lakewright.physics.disinfection import MILLIGRAM, MILLIGRAM_MINUTE
from lakewright.physics.types import Array
from lakewright.state.water_tables import PH, baffling, giardia_cell, giardia_table
from tests.physics.inch_pound import GALLON, GPM, celsius
from tests.published import assert_printed, published

CELLS = [
    (warmth, residual, ph, printed)
    for (warmth, residual), row in giardia_table().items()
    for ph, printed in zip(PH, row, strict=True)
]


RESIDUALS = tuple(sorted({cell[1] for cell in CELLS}))


def around(value: float, axis: tuple[float, ...]) -> set[float]:
    """The two entries of an axis that a value lies between, or its end."""
    return {
        max([x for x in axis if x <= value], default=axis[0]),
        min([x for x in axis if x >= value], default=axis[-1]),
    }


def one(value: float) -> Array:
    return np.array([value])


def fitted(warmth: float, residual: float, ph: float, log: float = 3.0) -> float:
    """Contact by the fit [mg min/L]."""
    needed = disinfection.giardia_contact(celsius(warmth), one(ph), one(residual * MILLIGRAM), one(log))
    return float(needed[0]) / MILLIGRAM_MINUTE


# Chlorine.


def test_the_federal_table_is_whole() -> None:
    assert len(CELLS) == 588
    assert len({cell[:3] for cell in CELLS}) == 588
    # ours: so much do the cells of each table add up to, as they were copied.
    sums = {
        warmth: sum(cell[3] for cell in CELLS if cell[0] == warmth) for warmth in (0.5, 5.0, 10.0, 15.0, 20.0, 25.0)
    }
    assert sums == {0.5: 28902.0, 5.0: 20380.0, 10.0: 15297.0, 15.0: 10213.0, 20.0: 7653.0, 25.0: 5107.0}


@published("cfr-141-74", "tables 1.1 to 1.6, all 588 cells: the fit no lower, and no more than 1.18 times")
@pytest.mark.parametrize("warmth, residual, ph, printed", CELLS)
def test_the_fit_is_never_under_the_federal_table(warmth: float, residual: float, ph: float, printed: float) -> None:
    assert 1.0 <= fitted(warmth, residual, ph) / printed <= 1.18


# The cells that a second reading of the rule found the same, as printed there.
@published("cfr-141-74", "tables 1.1 to 1.6, at 1.0 mg/L")
@pytest.mark.parametrize(
    "warmth, printed",
    [
        (0.5, ("210", "253", "304")),
        (5.0, ("149", "179", "216")),
        (10.0, ("112", "134", "162")),
        (15.0, ("75", "90", "108")),
        (20.0, ("56", "67", "81")),
        (25.0, ("37", "45", "54")),
    ],
)
def test_a_cell_of_the_federal_table(warmth: float, printed: tuple[str, str, str]) -> None:
    for ph, digits in zip((7.0, 7.5, 8.0), printed, strict=True):
        assert_printed(giardia_cell(warmth + 273.15, ph, MILLIGRAM) / MILLIGRAM_MINUTE, digits)


# Tolerance: each is a third or two thirds of the cell for 3 log, rounded to a whole number as that cell was.
@published("chlorine-page", "0.5 C, contact for 1, 2 and 3 log")
@pytest.mark.parametrize(
    "residual, ph, printed",
    [(0.4, 6.0, ("46", "91", "137")), (1.0, 6.0, ("49", "99", "148")), (0.4, 7.0, ("65", "130", "195"))],
)
def test_the_log_goes_in_proportion_to_the_contact(residual: float, ph: float, printed: tuple[str, ...]) -> None:
    for log, digits in enumerate(printed, start=1):
        assert_printed(log / 3.0 * giardia_cell(273.65, ph, residual * MILLIGRAM) / MILLIGRAM_MINUTE, digits, 0.7)


@published("washington-331-343", "contact of 6 mg min/L, viruses, 10 C")
def test_the_contact_for_viruses() -> None:
    assert_printed(disinfection.virus_contact(celsius(10.0), one(4.0))[0] / MILLIGRAM_MINUTE, "6")


@published("ct-guidance", "viruses, pH 6 to 9, from memory")
@pytest.mark.parametrize(
    "log, printed",
    [
        (2.0, ("6", "4", "3", "2", "1", "1")),
        (3.0, ("9", "6", "4", "3", "2", "1")),
        (4.0, ("12", "8", "6", "4", "3", "2")),
    ],
)
def test_the_table_for_viruses(log: float, printed: tuple[str, ...]) -> None:
    for warmth, digits in zip((0.5, 5.0, 10.0, 15.0, 20.0, 25.0), printed, strict=True):
        assert_printed(disinfection.virus_contact(celsius(warmth), one(log))[0] / MILLIGRAM_MINUTE, digits)


@published("cfr-141-74", "footnote 1: contact for 3 log of Giardia gives more than 4 log of viruses")
@pytest.mark.parametrize("warmth", [0.5, 5.0, 10.0, 15.0, 20.0, 25.0])
def test_a_contact_for_giardia_does_for_viruses(warmth: float) -> None:
    least = min(printed for at, _, _, printed in CELLS if at == warmth)
    assert disinfection.viruses_by_chlorine(one(least * MILLIGRAM_MINUTE), celsius(warmth))[0] == 4.0


@published("padep-contact", "table of factors")
@pytest.mark.parametrize(
    "tank, printed",
    [
        ("one port", "0.0"),
        ("unbaffled", "0.1"),
        ("diffuser", "0.2"),
        ("poor", "0.3"),
        ("average", "0.5"),
        ("superior", "0.7"),
        ("near plug flow", "0.9"),
        ("plug flow", "1.0"),
    ],
)
def test_the_share_of_a_tank_that_counts(tank: str, printed: str) -> None:
    assert_printed(baffling()[tank], printed)
    assert len(baffling()) == 8


# Worked here, for want of print: 10 gpm through a poorly baffled tank at 1 mg/L.
@pytest.mark.parametrize("gallons, minutes", [(200.0, 6.0), (120.0, 3.6)])
def test_contact_time_by_hand(gallons: float, minutes: float) -> None:
    time = disinfection.contact_time(one(gallons * GALLON), one(0.3), one(10.0 * GPM))
    assert time[0] / 60.0 == pytest.approx(minutes, rel=1e-12)


@pytest.mark.law
def test_between_cells_the_table_is_read_on_the_careful_side() -> None:
    random = np.random.default_rng(4)
    for _ in range(500):
        warmth, ph, residual = random.uniform(0.0, 28.0), random.uniform(5.5, 9.0), random.uniform(0.1, 3.0)
        found = giardia_cell(warmth + 273.15, ph, residual * MILLIGRAM) / MILLIGRAM_MINUTE
        sides = [
            around(value, axis)
            for value, axis in ((warmth, (0.5, 5.0, 10.0, 15.0, 20.0, 25.0)), (residual, RESIDUALS), (ph, PH))
        ]
        corners = [printed for *at, printed in CELLS if all(x in side for x, side in zip(at, sides, strict=True))]
        assert 1 <= len(corners) <= 8
        assert found == pytest.approx(max(corners), rel=1e-12)


@pytest.mark.law
def test_more_contact_is_asked_of_colder_water_of_more_ph_and_of_more_residual() -> None:
    warmths = np.arange(-1.0, 30.0, 0.1) + 273.15
    for falling in (
        disinfection.giardia_contact(warmths, one(7.5), one(1e-3), one(3.0)),
        disinfection.virus_contact(warmths, one(4.0)),
        -disinfection.giardia_contact(celsius(8.0), np.linspace(5.0, 9.0, 81), one(1e-3), one(3.0)),
        -disinfection.giardia_contact(celsius(8.0), one(7.5), np.linspace(1e-4, 3e-3, 59), one(3.0)),
        -disinfection.virus_contact(celsius(8.0), np.linspace(-1.0, 4.0, 101)),
    ):
        assert np.all(np.diff(falling) <= 0.0)


@pytest.mark.law
def test_past_the_ends_of_the_tables_nothing_is_said() -> None:
    for ph, residual in ((9.01, 1e-3), (7.0, 3.01e-3)):
        assert math.isnan(disinfection.giardia_contact(celsius(10.0), one(ph), one(residual), one(3.0))[0])
        assert math.isnan(giardia_cell(283.15, ph, residual))
    assert math.isnan(disinfection.virus_contact(celsius(10.0), one(4.5))[0])
    # An end that lost its last bit on the way still belongs.
    assert not math.isnan(disinfection.giardia_contact(celsius(10.0), one(9.0 + 1e-12), one(3e-3), one(3.0))[0])


@pytest.mark.law
def test_what_a_contact_brings_is_what_was_asked_of_it() -> None:
    warmths = np.linspace(0.0, 26.0, 60) + 273.15
    for log in (0.5, 1.0, 2.0, 3.0):
        asked = disinfection.giardia_contact(warmths, one(7.3), one(8e-4), one(log))
        assert disinfection.giardia_by_chlorine(asked, warmths, one(7.3), one(8e-4)) == pytest.approx(log, rel=1e-12)
    for log in (2.0, 3.0, 4.0):
        asked = disinfection.virus_contact(warmths, one(log))
        assert np.all(disinfection.viruses_by_chlorine(asked, warmths) >= log)
        assert np.all(disinfection.viruses_by_chlorine(0.99 * asked, warmths) <= log)
    assert disinfection.viruses_by_chlorine(one(0.0), celsius(5.0))[0] == 0.0
    assert math.isnan(disinfection.viruses_by_chlorine(one(math.nan), celsius(5.0))[0])


# Light.

PRINTED = {
    ultraviolet.cryptosporidium_by_light: ("1.6", "2.5", "3.9", "5.8", "8.5", "12", "15", "22"),
    ultraviolet.giardia_by_light: ("1.5", "2.1", "3.0", "5.2", "7.7", "11", "15", "22"),
    ultraviolet.viruses_by_light: ("39", "58", "79", "100", "121", "143", "163", "186"),
}


@published("cfr-141-720", "(d)(1), table of doses: each reaches its log, and a hair less does not")
@pytest.mark.parametrize("number", range(8))
@pytest.mark.parametrize("credit", PRINTED, ids=lambda credit: credit.__name__)
def test_the_table_of_doses(credit: object, number: int) -> None:
    assert callable(credit)
    dose, log = 10.0 * float(PRINTED[credit][number]), 0.5 * (number + 1)  # type: ignore[index]
    assert credit(one(dose))[0] == log
    assert credit(one(0.9999 * dose))[0] == log - 0.5


@pytest.mark.law
@pytest.mark.parametrize("credit", PRINTED, ids=lambda credit: credit.__name__)
def test_no_dose_counts_for_more_than_four_log_and_none_for_nothing(credit: object) -> None:
    assert callable(credit)
    found = credit(np.array([0.0, 1e5]))
    assert found.tolist() == [0.0, 4.0]
    assert math.isnan(credit(one(math.nan))[0])


# Filters.


@pytest.mark.law
def test_a_filter_loses_at_its_two_points_what_its_sheet_says() -> None:
    random = np.random.default_rng(9)
    low, high = random.uniform(1e-4, 3e-4, 200), random.uniform(4e-4, 9e-4, 200)
    drop = random.uniform(1e3, 9e3, 200)
    viscous, turbulent = filter.filter_coefficients(low, drop, high, drop * (high / low) ** random.uniform(1, 2, 200))
    assert not np.isnan(viscous).any()
    assert filter.clean_loss(low, viscous, turbulent, one(1.0)) == pytest.approx(drop)
    cold = filter.clean_loss(high, viscous, turbulent, one(1.5))
    warm = filter.clean_loss(high, viscous, turbulent, one(1.0))
    assert np.all((cold >= warm) & (cold <= 1.5 * warm * (1.0 + 1e-12)))
    assert filter.clean_loss(one(0.0), viscous[:1], turbulent[:1], one(1.5))[0] == 0.0


@pytest.mark.law
@pytest.mark.parametrize("high_loss", [1.9, 4.1])
def test_two_points_that_no_filter_has_give_no_law(high_loss: float) -> None:
    found = filter.filter_coefficients(one(1.0), one(1.0), one(2.0), one(high_loss))
    assert all(math.isnan(each[0]) for each in found)


@pytest.mark.law
def test_a_filter_lasts_the_longer_the_clearer_the_water() -> None:
    turbidity = np.array([0.0, 0.5, 1.0, 5.0, 50.0])
    passed = filter.run_volume(one(0.05), turbidity, one(1e-3), one(1.0))
    assert all(before > after for before, after in pairwise(passed))
    assert math.isinf(passed[0])
    # What stays in it over its life is what it holds.
    assert passed[1:] * turbidity[1:] * 1e-3 == pytest.approx(0.05)
