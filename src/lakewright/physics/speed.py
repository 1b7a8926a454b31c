"""A centrifugal pump at another speed: the affinity laws, and the speed that a duty asks for."""

from __future__ import annotations

import numpy as np

from lakewright.physics.curve import Curve
from lakewright.physics.types import Array

HALVINGS = 60
"""ours: a speed between none and rated is found to the last bits of a double in fewer."""


def flow_at_speed(flow: Array, speed_ratio: Array) -> Array:
    """Flow of a point of a pump's curve when the pump turns at another speed.

    Parameters
    ----------
    flow : [m3/s] at the rated speed
    speed_ratio : [ratio] of the speed to the rated one, above 0

    Returns
    -------
    [m3/s], broadcast shape

    Source: affinity laws, flow with speed.

    >>> round(float(flow_at_speed(100.0, 1.1)), 6)
    110.0
    """
    return flow * speed_ratio


def head_at_speed(head: Array, speed_ratio: Array) -> Array:
    """Head of that point at another speed.

    Parameters
    ----------
    head : [m] at the rated speed
    speed_ratio : [ratio] as in `flow_at_speed`

    Returns
    -------
    [m], broadcast shape

    Source: affinity laws, head with the square of speed.

    >>> round(float(head_at_speed(100.0, 1.1)), 6)
    121.0
    """
    return head * (speed_ratio * speed_ratio)


def power_at_speed(power: Array, speed_ratio: Array) -> Array:
    """Power at the shaft at that point at another speed.

    Parameters
    ----------
    power : [W] at the rated speed, at the flow of the same point there
    speed_ratio : [ratio] as in `flow_at_speed`

    Returns
    -------
    [W], broadcast shape

    Source: affinity laws, power with the cube of speed. It holds from point to point: against a lift the point moves,
    and the saving is less than the cube.

    >>> round(float(power_at_speed(100.0, 1.1)), 6)
    133.1
    """
    return power * (speed_ratio * speed_ratio * speed_ratio)


def input_power(power: Array, motor_share: Array, drive_share: Array) -> Array:
    """Power that a drive takes to turn a pump.

    Parameters
    ----------
    power : [W] at the shaft
    motor_share : [share] of what the motor takes that reaches its shaft, above 0
    drive_share : [share] of what the drive takes that reaches the motor, above 0

    Returns
    -------
    [W], broadcast shape

    Source: shares of power multiply.

    >>> round(float(input_power(570.0, 0.6, 0.95)))
    1000
    """
    return power / (motor_share * drive_share)


def least_speed_ratio(head: Array, shut_off: Array) -> Array:
    """Speed at which a pump just holds a head while no water passes.

    Parameters
    ----------
    head : [m] asked
    shut_off : [m] the pump's head at no flow and the rated speed, above 0

    Returns
    -------
    [ratio] to the rated speed, broadcast shape; 0 where no head is asked, above 1 where the pump cannot hold it

    Source: affinity laws, solved for speed at no flow.

    >>> float(least_speed_ratio(np.array(30.0), np.array(120.0)))
    0.5
    """
    return np.sqrt(np.maximum(head, 0.0) / shut_off)


def speed_ratio_for(curve: Curve, flow: Array, head: Array) -> Array:
    """Speed at which a pump of a falling curve brings a flow at a head.

    Parameters
    ----------
    curve : [m] over [m3/s], at the rated speed
    flow : [m3/s], no less than 0
    head : [m], above 0

    Returns
    -------
    [ratio] to the rated speed, broadcast shape, up to 1; nan where the pump does not bring it at its rated speed

    Source: affinity laws with the shape-keeping curve: n such that n^2 C(flow / n) is the head, by halving.

    >>> from lakewright.physics.curve import straight_lines
    >>> line = straight_lines([0.0, 10.0], [100.0, 50.0])
    >>> round(float(speed_ratio_for(line, np.array([0.0]), np.array([25.0]))[0]), 9)
    0.5
    """
    shape = np.broadcast_shapes(flow.shape, head.shape, curve.last.shape)
    # Slower than this the flow lies past the end of the curve.
    low = np.broadcast_to(np.maximum(flow / curve.last, 1e-9), shape)
    high = np.ones(shape)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        enough = head_at_speed(curve.at(np.minimum(flow / middle, curve.last)), middle) >= head
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    able = (flow <= curve.last) & (curve.at(flow) >= head)
    return np.where(able, high, np.nan)
