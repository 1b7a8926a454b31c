"""Filters: what they lose clean, in cold water, and how long they last."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array


def filter_coefficients(low_flow: Array, low_loss: Array, high_flow: Array, high_loss: Array) -> tuple[Array, Array]:
    """The viscous and the turbulent coefficient of a clean filter from two points of its sheet.

    Parameters
    ----------
    low_flow, high_flow : [m3/s] the second above the first, above 0
    low_loss, high_loss : [Pa] lost at them

    Returns
    -------
    [Pa s/m3] and [Pa s2/m6], broadcast shape; nan where no such law passes through both points

    Source: Darcy and Forchheimer: the media lose in proportion to flow, ports and head with its square.

    >>> one = np.ones(1)
    >>> [float(each[0]) for each in filter_coefficients(4.0 * one, 1.0 * one, 8.0 * one, 3.0 * one)]
    [0.125, 0.03125]
    """
    low, high = low_loss / low_flow, high_loss / high_flow
    turbulent = (high - low) / (high_flow - low_flow)
    viscous = low - turbulent * low_flow
    lawful = (turbulent >= 0.0) & (viscous >= 0.0)
    return np.where(lawful, viscous, np.nan), np.where(lawful, turbulent, np.nan)


def clean_loss(flow: Array, viscous: Array, turbulent: Array, viscosity_ratio: Array) -> Array:
    """Pressure that a clean filter loses.

    Parameters
    ----------
    flow : [m3/s] through it
    viscous : [Pa s/m3] at the viscosity its sheet was made for
    turbulent : [Pa s2/m6]
    viscosity_ratio : [ratio] of the water's viscosity to that one

    Returns
    -------
    [Pa], broadcast shape; 0 for no flow

    Source: Darcy and Forchheimer; only the viscous part feels cold water.

    >>> one = np.ones(1)
    >>> round(float(clean_loss(6.0 * one, 0.125 * one, 0.03125 * one, 1.544 * one)[0]), 3)
    2.283
    """
    return viscous * viscosity_ratio * flow + turbulent * flow * flow


def run_volume(dirt: Array, turbidity: Array, solids: Array, caught: Array) -> Array:
    """Water that a filter passes until it holds all the dirt it can.

    Parameters
    ----------
    dirt : [kg] held when it is due for changing
    turbidity : [NTU] of the water that comes to it
    solids : [kg/m3] of solids for each NTU
    caught : [share] of them that stays in it, above 0

    Returns
    -------
    [m3], broadcast shape; infinite in perfectly clear water

    Source: the balance of what comes and what stays.

    >>> one = np.ones(1)
    >>> round(float(run_volume(0.05 * one, 2.0 * one, 1e-3 * one, 0.9 * one)[0]), 3)
    27.778
    """
    comes = turbidity * solids * caught
    return np.where(comes == 0.0, np.inf, dirt / np.where(comes == 0.0, 1.0, comes))
