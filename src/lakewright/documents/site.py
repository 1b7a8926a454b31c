"""What a drawing knows of a site: plain numbers in SI, nan where nobody knows."""

from __future__ import annotations

import math
from dataclasses import dataclass

Profile = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Day:
    """A named day: its level from the usual water, and its ice [m]."""

    name: str
    level: float
    ice: float = 0.0


@dataclass(frozen=True)
class Site:
    """A site from open water to tap. Heights are from the usual water level, distances from the water's edge [m].

    soundings : distance out and depth; ground : distance up and height; both rising
    at, depth : where the stand is, and the bed there
    frame, riser, inlet_rise, sink : heights over the bed: of the frame's pipe, of the riser over it, of valve and
    screen over the riser, and how far all of it settles
    window : bottom and top of the heights at which a suction pump may stand
    surface : where the water stands that is drawn
    fills : what the delivery line ends at: a tank, or an open store
    """

    title: str
    units: str
    kind: str = "lake"
    soundings: Profile = ()
    ground: Profile = ()
    at: float = math.nan
    depth: float = math.nan
    form: str = "upright"
    attitude: str = "up"
    legs: int = 4
    reach: float = math.nan
    frame: float = math.nan
    riser: float = math.nan
    inlet_rise: float = math.nan
    sink: float = math.nan
    bed_length: float = math.nan
    weights: float = math.nan
    pump_distance: float = math.nan
    pump_height: float = math.nan
    pump_kind: str = "centrifugal"
    window: tuple[float, float] = (math.nan, math.nan)
    delivery_length: float = math.nan
    tee_height: float = math.nan
    fills: str = "tank"
    tap_height: float = math.nan
    days: tuple[Day, ...] = ()
    low: float = math.nan
    flood: float = math.nan
    waves: float = 0.0
    surface: float = 0.0
