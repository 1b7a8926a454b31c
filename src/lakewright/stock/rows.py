"""What a row of each table holds, in SI."""

from __future__ import annotations

import math
from dataclasses import dataclass

ATTITUDES = ("up", "side", "down")
"""How a foot valve may stand: on top of a riser, on its side, hanging."""

Points = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Pipe:
    """One size of one series of pipe or hose.

    bore, outside, wall, roughness, roughness_fouled [m]; bore is the average, wall the least; rating [Pa]
    gauge at 73 F (hose 68 F), ends plain; mass [kg/m]; coils [m]; price_cents_per_m [cents/m].
    """

    name: str
    family: str
    series: str
    size: str
    compound: str
    bore: float
    outside: float
    wall: float
    roughness: float
    roughness_fouled: float
    rating: float
    mass: float
    coils: Points
    price_cents_per_m: float
    origin: str


@dataclass(frozen=True, slots=True)
class FootValve:
    """A foot valve with its strainer.

    bore [m]; loss_coefficient [-] fully open, on the velocity in the bore; full_lift_factor
    [m/s (kg/m3)^1/2]; opening_pressure [Pa]; attitudes: how it may stand and still seat; price [cents].
    """

    name: str
    size: str
    bore: float
    spring: bool
    loss_coefficient: float
    full_lift_factor: float
    opening_pressure: float
    attitudes: tuple[str, ...]
    price: int


@dataclass(frozen=True, slots=True)
class Screen:
    """A cylinder screen with solid ends.

    diameter, length, opening [m]; area [m2] gross, of the side; structure_fraction [share] of it not behind
    bars and rings; open_fraction [share] of the mesh; price [cents].
    """

    name: str
    kind: str
    diameter: float
    length: float
    opening: float
    open_fraction: float
    structure_fraction: float
    price: int

    @property
    def area(self) -> float:
        """Gross area of the side [m2]."""
        return math.pi * self.diameter * self.length


@dataclass(frozen=True, slots=True)
class Pump:
    """A centrifugal pump: what it does at each flow of its curve.

    flow, npsh_flow [m3/s], from 0 to run-out; head, npsh [m]; brake_power [W] at `flow`; power [W] of the
    motor's rating; service_factor [-]; price [cents].
    """

    name: str
    stages: int
    flow: Points
    head: Points
    brake_power: Points
    npsh_flow: Points
    npsh: Points
    power: float
    service_factor: float
    inlet_size: str
    outlet_size: str
    price: int
    kind: str = "centrifugal"


@dataclass(frozen=True, slots=True)
class Jet:
    """A jet pump: a table of flow by lift (rows) and outlet pressure (columns).

    lift [m]; pressure [Pa] gauge, the last is shut-off; flow [m3/s]; power [W] of the motor's rating;
    service_factor [-]; price [cents].
    """

    name: str
    lift: Points
    pressure: Points
    flow: tuple[Points, ...]
    power: float
    service_factor: float
    inlet_size: str
    outlet_size: str
    price: int
    kind: str = "jet"


@dataclass(frozen=True, slots=True)
class Tank:
    """A diaphragm tank.

    volume, acceptance (most water the diaphragm lets in) [m3]; max_pressure [Pa] gauge; price [cents].
    """

    name: str
    volume: float
    acceptance: float
    max_pressure: float
    price: int


@dataclass(frozen=True, slots=True)
class Fitting:
    """A fitting's loss, in one of three ways; the other two are nan.

    times_ft [-]: multiple of f_T of the size; fixed [-]: the loss coefficient; bore_ratio [-]: bore of an
    insert over bore of the pipe. counted_as: the word under which a job file counts it, or nothing.
    """

    kind: str
    counted_as: str
    times_ft: float
    fixed: float
    bore_ratio: float
    origin: str

    def loss_coefficient(self, turbulent_friction: float) -> float:
        """Loss coefficient on the velocity in the pipe [-], given f_T of the pipe's size.

        Source: TP-410: n f_T. A bore ratio b gives [0.5 (1 - b^2) + (1 - b^2)^2] / b^4, its sudden
        contraction and enlargement (restated), moved to the pipe's velocity.
        """
        if not math.isnan(self.fixed):
            return self.fixed
        if not math.isnan(self.times_ft):
            return self.times_ft * turbulent_friction
        squared = self.bore_ratio**2
        return (0.5 * (1.0 - squared) + (1.0 - squared) ** 2) / squared**2
