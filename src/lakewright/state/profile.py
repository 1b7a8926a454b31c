"""The bed and the bank as they were measured; depth and length along the one, height and length up the other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from lakewright.job.models import Job
from lakewright.physics.types import Array


def bed_profile(job: Job) -> tuple[list[float], list[float]]:
    """Distances and depths of the soundings [m]."""
    return [s.distance.value for s in job.site.soundings], [s.depth.value for s in job.site.soundings]


def ground_profile(job: Job) -> tuple[list[float], list[float]]:
    """Distances and heights of the ground [m]."""
    return [g.distance.value for g in job.site.ground], [g.height.value for g in job.site.ground]


def height_along(distances: Sequence[float], heights: Sequence[float], at: Array) -> Array:
    """Height of the ground (or depth of the bed) at distances, straight between points.

    Parameters
    ----------
    distances, heights : [m], distances rising; at least one point
    at : [m]

    Returns
    -------
    [m], shape of `at`; nan beyond the points, where nobody has looked

    >>> height_along([0, 10], [0, 4], np.array([5.0, 11.0])).tolist()
    [2.0, nan]
    """
    height: Array = np.interp(at, np.array(distances), np.array(heights), left=np.nan, right=np.nan)
    return height


def first_as_deep(distances: Sequence[float], depths: Sequence[float], depth: float) -> float:
    """How far out the bed is as deep for the first time [m]; nan where it never is, as far as anybody has looked.

    Parameters
    ----------
    distances, depths : [m], distances rising; at least one point
    depth : [m]

    >>> first_as_deep([0, 10, 20], [0, 4, 2], 3.0), first_as_deep([0, 10], [0, 4], 5.0)
    (7.5, nan)
    """
    x, y = np.array(distances), np.array(depths)
    deep = int(np.argmax(y >= depth))
    if not y[deep] >= depth:
        return float("nan")
    return float(np.interp(depth, y[deep - 1 : deep + 1], x[deep - 1 : deep + 1])) if deep else float(x[0])


def path_length(distances: Sequence[float], heights: Sequence[float], at: Array) -> Array:
    """Length along the ground from the first point to distances.

    Parameters
    ----------
    distances, heights : [m], distances rising; at least one point
    at : [m]

    Returns
    -------
    [m], shape of `at`; nan beyond the points

    >>> path_length([0, 3, 6], [0, 4, 4], np.array([1.5, 6.0])).tolist()
    [2.5, 8.0]
    """
    x, y = np.array(distances), np.array(heights)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), np.diff(y)))])
    length: Array = np.interp(at, x, along, left=np.nan, right=np.nan)
    return length
