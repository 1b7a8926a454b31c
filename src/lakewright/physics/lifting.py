"""What a person may lift, on firm ground and standing: a boat, a slope or a wet deck asks for less."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

GOOD_GRIP, FAIR_GRIP, POOR_GRIP = 1.0, 0.95, 0.90
"""Multipliers for the grip [-]. memory: revised NIOSH lifting equation, table 7."""


def lifting_limit(hold_distance: Array, hold_height: Array, lift_distance: Array, twist: Array, grip: Array) -> Array:
    """Load that nearly everyone in good health may lift now and then.

    Parameters
    ----------
    hold_distance : [m] of the hands before the ankles; under 0.25 counts as 0.25
    hold_height : [m] of the hands over the ground at the start, 0 to 1.75
    lift_distance : [m] that the load goes up or down; under 0.25 counts as 0.25
    twist : [rad] of the body, 0 to 2.356
    grip : [-] `GOOD_GRIP`, `FAIR_GRIP` or `POOR_GRIP`

    Returns
    -------
    [kg], broadcast shape; 0 out of reach

    Source: revised NIOSH lifting equation, publication 94-110 (revised 2021), for a few lifts; the asymmetry
    multiplier as restated. It does not cover seated, kneeling, one-handed or unsteady lifting.

    >>> given = [np.array([each]) for each in (0.40, 0.30, 0.70, np.pi / 6.0, POOR_GRIP)]
    >>> round(float(lifting_limit(*given)[0]), 1)
    8.9
    """
    near = np.maximum(hold_distance, 0.25)
    far = np.maximum(lift_distance, 0.25)
    degrees = twist * (180.0 / np.pi)
    level = np.where(near <= 0.63, 0.25 / near, 0.0)
    upright = np.where(hold_height <= 1.75, 1.0 - 0.3 * np.abs(hold_height - 0.75), 0.0)
    travel = np.where(far <= 1.75, 0.82 + 0.045 / far, 0.0)
    turned = np.where(degrees <= 135.0, 1.0 - 0.0032 * degrees, 0.0)
    missing = 0.0 * (hold_distance + hold_height + lift_distance + twist)
    return 23.0 * level * upright * travel * turned * grip + missing


def team_lift(one_lift: Array, people: Array) -> Array:
    """Load that two or three people may lift together.

    Parameters
    ----------
    one_lift : [kg] that one of them may lift
    people : [-] one, two or three

    Returns
    -------
    [kg], broadcast shape; nan for more, who rarely lift as one

    Source: guidance to the UK Manual Handling Operations Regulations, as restated: two thirds of the sum for two, half
    of it for three.

    >>> round(float(team_lift(np.array([20.0]), np.array([2.0]))[0]), 1)
    26.7
    """
    share = np.where(people == 1.0, 1.0, np.where(people == 2.0, 2.0 / 3.0, np.where(people == 3.0, 0.5, np.nan)))
    return one_lift * people * share
