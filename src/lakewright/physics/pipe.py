"""Pipes: velocity, friction in all regimes, fittings."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array, Index

LAMINAR_END = 2000.0
"""Reynolds number at which flow leaves the laminar law. Source: TP-410, chapter 1, laminar below 2000 (restated)."""

TURBULENT_START = 4000.0
"""Reynolds number from which Colebrook holds. Source: TP-410, chapter 1, critical zone 2000 to 4000 (restated)."""

# Source: Clamond, Ind. Eng. Chem. Res. 48 (2009) 3665, constants of the appendix as printed.
CLAMOND_ROUGHNESS = 0.123968186335417556
CLAMOND_SMOOTH = 0.779397488455682028
CLAMOND_ROOT = 1.151292546497022842

LN_2 = 0.6931471805599453
"""Natural logarithm of 2, the width of the critical zone in ln Re."""

LEAST_REYNOLDS = 1e-9
"""ours: still water is given this Reynolds number, so that 64/Re times V2 is 0 and not 0/0."""


def velocity(flow: Array, bore: Array) -> Array:
    """Mean velocity in a full round pipe.

    Parameters
    ----------
    flow : [m3/s], 0 or more
    bore : [m], above 0

    Returns
    -------
    [m/s], broadcast shape

    Source: continuity.

    >>> round(float(velocity(6.30902e-4, 0.0350520)), 4)
    0.6538
    """
    return flow / (0.25 * np.pi * bore * bore)


def colebrook(reynolds: Array, relative_roughness: Array) -> Array:
    """Darcy friction factor of turbulent flow.

    Parameters
    ----------
    reynolds : [-], valid 4000 and more
    relative_roughness : [-] roughness over bore, valid 0 to 0.05

    Returns
    -------
    [-], broadcast shape

    Source: Colebrook, J. Inst. Civ. Eng. 11 (1939) 133, solved by the two passes of Clamond,
    Ind. Eng. Chem. Res. 48 (2009) 3665, algorithm in its appendix.

    >>> round(float(colebrook(1e5, 1e-4)), 6)
    0.018514
    """
    x1 = (relative_roughness * CLAMOND_ROUGHNESS) * reynolds
    root = CLAMOND_ROOT / _clamond(x1, np.log(reynolds) - CLAMOND_SMOOTH)
    return root * root


def _clamond(x1: Array, x2: Array) -> Array:
    """F of F + ln(F + X1) = X2, in Clamond's letters."""
    f = x2 - 0.2
    total = x1 + f
    e = (np.log(total) - 0.2) / (1.0 + total)
    f = f - _clamond_step(total, e)
    total = x1 + f
    e = (np.log(total) + f - x2) / (1.0 + total)
    return f - _clamond_step(total, e)


def _clamond_step(total: Array, e: Array) -> Array:
    more = 1.0 + total
    return (more + 0.5 * e) * e * total / (more + e * (1.0 + e * (1.0 / 3.0)))


def friction_factor(reynolds: Array, relative_roughness: Array) -> Array:
    """Darcy friction factor in laminar, critical and turbulent flow, without a jump.

    Parameters
    ----------
    reynolds : [-], 0 or more
    relative_roughness : [-] roughness over bore, 0 to 0.05

    Returns
    -------
    [-], broadcast shape

    Source: 64/Re of Hagen and Poiseuille below 2000, Colebrook above 4000.
    ours: a straight line in ln Re between them; no law is published there, and a jump would stall the solver.

    >>> [round(float(friction_factor(np.array([re]), 0.0)[0]), 4) for re in (1000.0, 2000.0, 4000.0)]
    [0.064, 0.032, 0.0399]
    """
    return friction_factor_with_power(reynolds, relative_roughness)[0]


def friction_factor_with_power(reynolds: Array, relative_roughness: Array) -> tuple[Array, Array]:
    """`friction_factor`, and the power of the Reynolds number with which it changes there.

    Parameters
    ----------
    reynolds : [-], 0 or more
    relative_roughness : [-] roughness over bore, 0 to 0.05

    Returns
    -------
    factor [-] and d ln f / d ln Re [-], broadcast shape

    Source: as `friction_factor`; by Colebrook the power is -2 / (1 + X1 + F) in Clamond's letters.

    >>> [round(float(n[0]), 3) for n in friction_factor_with_power(np.array([1e5]), 0.0)]
    [0.018, -0.209]
    """
    re = np.maximum(reynolds, LEAST_REYNOLDS)
    strong = np.maximum(re, TURBULENT_START)
    x1 = (relative_roughness * CLAMOND_ROUGHNESS) * strong
    f = _clamond(x1, np.log(strong) - CLAMOND_SMOOTH)
    root = CLAMOND_ROOT / f
    turbulent = np.asarray(root * root, order="C")
    power = np.asarray(-2.0 / (1.0 + x1 + f), order="C")
    weak = np.flatnonzero(np.broadcast_to(re < TURBULENT_START, turbulent.shape))
    if len(weak):
        _put_weak(turbulent, power, weak, np.broadcast_to(re, turbulent.shape).ravel()[weak])
    return turbulent, power


def _put_weak(factor: Array, power: Array, weak: Index, re: Array) -> None:
    """Put laminar and critical flow in place of what Colebrook says at its start, where Re is less than that."""
    start = factor.ravel()[weak]
    rise = np.maximum(np.log(re * (1.0 / LAMINAR_END)) * (1.0 / LN_2), 0.0)
    blended = 0.032 + rise * (start - 0.032)
    factor.reshape(-1)[weak] = blended * np.maximum(1.0, LAMINAR_END / re)
    power.reshape(-1)[weak] = np.where(rise > 0.0, (start - 0.032) * (1.0 / LN_2) / blended, -1.0)


def pipe_loss(flow: Array, bore: Array, length: Array, roughness: Array, viscosity: Array) -> Array:
    """Head lost to friction along a full round pipe.

    Parameters
    ----------
    flow : [m3/s], 0 or more
    bore : [m], above 0
    length : [m], 0 or more
    roughness : [m], 0 to 0.05 of the bore
    viscosity : [m2/s] kinematic

    Returns
    -------
    [m] of the water flowing, broadcast shape

    Source: Darcy and Weisbach, with `friction_factor`.

    >>> round(float(pipe_loss(0.00189271, 0.040894, 30.48, 4.572e-5, 1.1223e-6)) / 0.3048, 2)
    6.26
    """
    speed = velocity(flow, bore)
    factor = friction_factor(speed * bore / viscosity, roughness / bore)
    return factor * (length / bore) * (speed * speed * (0.5 / GRAVITY))


def fitting_loss(speed: Array, coefficient: Array) -> Array:
    """Head lost in fittings.

    Parameters
    ----------
    speed : [m/s], 0 or more
    coefficient : [-] sum of the loss coefficients on that speed

    Returns
    -------
    [m] of the water flowing, broadcast shape

    Source: TP-410, equation 2-2 (restated).

    >>> round(float(fitting_loss(3.0, 0.78)), 3)
    0.358
    """
    return coefficient * (speed * speed * (0.5 / GRAVITY))


# memory: Weisbach's shares of a sharp opening's area that its jet fills, as a cubic of how open it is.
_JET_OF_A_HOLE, _JET_BY_OPENING = 0.62, 0.38


def narrowing_coefficient(opening: Array) -> Array:
    """Loss coefficient of a short narrow place in a pipe, on the velocity in the pipe.

    Parameters
    ----------
    opening : [share] of the pipe's section left open there, above 0; 1 is no narrowing

    Returns
    -------
    [-], same shape; exactly 0 where the pipe is whole

    Source: Borda and Carnot's loss of a jet that fills the pipe again, (1 - b^2)^2 of the text on fittings, the jet
    narrower than the opening by Weisbach's share (`_JET_OF_A_HOLE`).

    >>> [round(float(narrowing_coefficient(np.array([o]))[0]), 2) for o in (1.0, 0.5, 0.1)]
    [0.0, 3.99, 228.59]
    """
    jet = opening * (_JET_OF_A_HOLE + _JET_BY_OPENING * (opening * opening * opening))
    wider = 1.0 / jet - 1.0
    return wider * wider
