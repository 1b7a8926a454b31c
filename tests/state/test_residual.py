"""Every flow the walk returns is accounted for: it closes the head balance, or the pump rests, or its data end."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from lakewright.state.walk import walk
from tests.made import random_batch
from tests.state.residual import CHUNK, Balance, Residual, chunks, figures, residual_of

pytestmark = pytest.mark.law

KINDS = ("centrifugal", "jet")

MOST_LEFT = 1e-9
"""ours: head that a closed circuit may leave over [m]; a drop of water on a column of ten metres weighs more."""


@cache
def one_chunk(kind: str) -> Residual:
    return next(chunks(kind, CHUNK))


@pytest.mark.parametrize("kind", KINDS)
def test_every_flow_is_accounted_for(kind: str) -> None:
    found = one_chunk(kind)
    ways = [found.closed, found.at_rest, found.run_out, found.refused]
    assert (np.sum(ways, axis=0) == 1).all()


@pytest.mark.parametrize("kind", KINDS)
def test_a_closed_circuit_leaves_nothing_over(kind: str) -> None:
    found = one_chunk(kind)
    assert np.abs(found.head_left[found.closed]).max() <= MOST_LEFT


@pytest.mark.parametrize("kind", KINDS)
def test_the_flow_is_one_at_which_left_over_falls(kind: str) -> None:
    found = one_chunk(kind)
    assert found.falling[found.closed].all()


@pytest.mark.parametrize("kind", KINDS)
def test_what_the_walk_says_is_left_is_what_is_left(kind: str) -> None:
    facts = random_batch(7, 500, kind, 2)
    state, balance = walk(facts), Balance(facts)
    found = residual_of(facts, state)
    said, asked = state.flow.left_over, balance.left(state.flow.flow)
    # Heads of tens of metres are taken from each other: a few of their last bits. A jet's flows are that much smaller.
    rounding = 1e-12 if kind == "centrifugal" else 1e-17
    settled = ~found.refused
    assert np.abs(said - asked)[settled].max() <= rounding
    assert (said[found.refused] == 0.0).all()
    rest = balance.left(np.zeros_like(state.flow.flow))
    assert np.abs(state.flow.left_at_rest - rest).max() <= rounding


# Generated circuits that reach no corner prove nothing about it. ours: shares well under what the seeds give.
CORNERS = {
    "centrifugal": {
        "at_rest": 0.03,
        "run_out": 0.1,
        "transition": 0.05,
        "near_shut_off": 0.003,
        "near_run_out": 0.02,
        "bracketed": 0.001,
    },
    "jet": {
        "at_rest": 0.005,
        "refused": 0.03,
        "transition": 0.1,
        "near_shut_off": 0.01,
        "near_run_out": 0.01,
        "bracketed": 0.001,
    },
}


@pytest.mark.parametrize("kind, corner", [(kind, corner) for kind in KINDS for corner in CORNERS[kind]])
def test_generated_circuits_reach_every_corner(kind: str, corner: str) -> None:
    assert getattr(one_chunk(kind), corner).mean() > CORNERS[kind][corner]


def test_a_batch_has_every_valve_droops_and_faults() -> None:
    facts = random_batch(0, 2000, "centrifugal", 1)
    stand, faults = facts.stand, facts.faults
    valves = {(k > 0.0, n, p > 0.0) for k, n, p in zip(
        stand.valve_coefficient[:, 0].tolist(),
        stand.valve_lift_factor[:, 0].tolist(),
        stand.opening_pressure[:, 0].tolist(),
        strict=True,
    )}  # fmt: skip
    assert valves == {
        (False, 0.0, False),
        (True, 20.0, False),
        (True, 20.0, True),
        (True, 45.0, False),
        (True, 0.0, True),
    }
    assert 0.05 < (facts.pump.fall <= 0.0).mean() < 0.3
    for name, neutral in (("blocked", 0.0), ("valve_opening", 1.0), ("air", 0.0), ("wear", 0.0), ("speed", 1.0)):
        assert 0.1 < (getattr(faults, name) != neutral).mean() < 0.5, name


def test_the_test_notices_a_flow_a_little_off() -> None:
    facts = random_batch(3, 200, "centrifugal", 1)
    state = walk(facts)
    off = replace(state, flow=replace(state.flow, flow=state.flow.flow * (1.0 + 1e-7)))
    found = residual_of(facts, off)
    assert np.abs(found.head_left[found.closed]).max() > MOST_LEFT


def test_the_test_notices_a_pump_put_to_rest_for_nothing() -> None:
    facts = random_batch(3, 200, "jet", 1)
    state = walk(facts)
    stopped = replace(state, flow=replace(state.flow, flow=np.zeros_like(state.flow.flow)))
    found = residual_of(facts, stopped)
    assert not (found.at_rest | found.refused).all()


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_a_hundred_thousand_jobs_leave_nothing_over(kind: str) -> None:
    found = figures(kind, 100_000)
    assert found["circuits"] == 600_000
    assert found["closed"] + found["at_rest"] + found["run_out"] + found["refused"] == pytest.approx(1.0, abs=1e-12)
    assert found["left over, closed"] <= MOST_LEFT
