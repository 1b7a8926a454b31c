"""A job said otherwise that means the same: other units, another order, other names; and laws of an inlet."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lakewright.api.read import assembled
from lakewright.api.report import report_on
from lakewright.physics.inlet import approach_velocity
from lakewright.physics.pipe import pipe_loss
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock

pytestmark = pytest.mark.law

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = ("year_round_cabin", "stock_tank", "stream_irrigation")

IN_SI = {
    "ft": ("m", 0.3048, 0.0), "in": ("mm", 25.4, 0.0), "gpm": ("L/s", 0.0630901964, 0.0),
    "psi": ("kPa", 6.894757293168361, 0.0), "F": ("C", 5.0 / 9.0, -32.0), "lb": ("kg", 0.45359237, 0.0),
    "gal": ("L", 3.785411784, 0.0), "mi": ("km", 1.609344, 0.0), "mph": ("km/h", 1.609344, 0.0),
}  # fmt: skip
"""Exact by definition (the inch of 25.4 mm, the pound of 0.45359237 kg, the gallon of 231 cubic inches)."""


def in_other_units(text: str) -> str:
    """The text with every plain quantity of ours written in metres, litres and kilograms."""

    def other(found: re.Match[str]) -> str:
        unit, times, plus = IN_SI[found[2]]
        return f'"{(float(found[1]) + plus) * times!r} {unit}"'

    return re.sub(rf'"(-?[0-9.]+) ({"|".join(IN_SI)})"', other, text)


@cache
def text_of(name: str) -> str:
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def findings(text: str, name: str, stock: object = None) -> dict[str, tuple[str, float]]:
    """Status and margin of every check."""
    job, stocked, assembly = assembled(text, EXAMPLES / f"{name}.toml", stock)  # type: ignore[arg-type]
    return {
        each.name: (each.status, math.nan if each.margin is None else each.margin)
        for each in report_on(job, assembly, stock=stocked).findings
    }


def assert_same(found: dict[str, tuple[str, float]], wanted: dict[str, tuple[str, float]], within: float) -> None:
    assert {name: each[0] for name, each in found.items()} == {name: each[0] for name, each in wanted.items()}
    for name, (_, margin) in wanted.items():
        assert math.isclose(found[name][1], margin, rel_tol=within, abs_tol=within) or math.isnan(margin), name


@pytest.mark.parametrize("name", NAMES)
def test_a_job_in_other_units_is_the_same_job(name: str) -> None:
    other = in_other_units(text_of(name))
    if name == "year_round_cabin":
        assert other.count(' m"') > 20
    assert_same(findings(other, name), findings(text_of(name), name), 1e-6)


@given(st.sampled_from(NAMES), st.randoms(use_true_random=False))
@settings(max_examples=12)
def test_tables_in_another_order_are_the_same_job(name: str, dice: object) -> None:
    """Rows of a list keep their own order; all else may stand anywhere."""
    blocks = re.split(r"(?m)^(?=\[)", text_of(name))
    head, rest = blocks[0], blocks[1:]
    groups: dict[str, list[str]] = {}
    for block in rest:
        groups.setdefault(block.partition("]")[0], []).append(block.rstrip("\n") + "\n\n")
    order = list(groups.values())
    dice.shuffle(order)  # type: ignore[attr-defined]
    mixed = head.rstrip("\n") + "\n\n" + "".join(block for group in order for block in group)
    assert_same(findings(mixed, name), findings(text_of(name), name), 0.0)


def test_a_part_by_another_name_is_the_same_part() -> None:
    stock, name = load_stock(), "year_round_cabin"
    lines = stock.pumps.lines["centrifugal, two-stage, 1/2 hp"]
    again = type(lines)(lines.file, lines.place, {**lines.cells, "name": "the shop's own half horse"})
    more = replace(stock, pumps=stock.pumps.overlaid({"the shop's own half horse": again}))
    text = text_of(name).replace("centrifugal, two-stage, 1/2 hp", "the shop's own half horse")
    assert text != text_of(name)
    assert_same(findings(text, name, more), findings(text_of(name), name), 0.0)


positive = st.floats(1e-3, 1e3)


@given(positive, positive, positive)
def test_a_larger_screen_always_lowers_the_speed_at_its_face(flow: float, area: float, more: float) -> None:
    speed = approach_velocity(np.array([flow, flow]), np.array([area, area + more]))
    assert speed[1] < speed[0]


@given(st.floats(0.0, 1.0), st.floats(0.01, 0.2))
def test_a_pipe_of_no_length_loses_nothing(flow: float, bore: float) -> None:
    parts = (np.array([each]) for each in (flow, bore, 0.0, 1e-5, 1.2e-6))
    assert pipe_loss(*parts) == 0.0


@pytest.mark.parametrize("name", NAMES)
def test_every_height_moved_alike_moves_no_flow(name: str) -> None:
    """Lake, line, pump, tank and taps a metre higher: heads along the way are differences of heights."""
    facts = assembled(text_of(name), EXAMPLES / f"{name}.toml")[2].facts
    raised = {
        fact: value + 1.0
        for fact in ("days.level", "pump.height", "delivery.height", "taps.height", "site.flood")
        if (value := facts.value(fact)) is not None
    }
    assert {"days.level", "pump.height", "delivery.height"} <= set(raised)
    before, after = walk(facts), walk(facts.with_values(raised))
    assert np.allclose(before.flow.flow, after.flow.flow, rtol=1e-9, atol=0.0, equal_nan=True)
