"""What a row of each table holds, in SI."""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping
from dataclasses import dataclass

from lakewright.stock.ports import Port
from lakewright.stock.table import Points

ATTITUDES = ("up", "side", "down")
"""How a foot valve may stand: on top of a riser, on its side, hanging."""


@dataclass(frozen=True, slots=True)
class Prices:
    """What a part costs over the counter, to the trade and on the web, and who has it.

    counter, trade, web [cents], for a piece, or for a `length` [m] of what is sold by length (0: a piece);
    priced: the day they were asked; lead_days: how long it takes to come; bin: where it lies in the shop.
    """

    counter: int
    trade: int
    web: int
    length: float
    priced: datetime.date
    supplier: str
    lead_days: int
    bin: str


class Priced:
    """What is sold at a price."""

    __slots__ = ()
    prices: Prices

    @property
    def price(self) -> int:
        """Price over the counter [cents], for a piece or for the length it is sold by."""
        return self.prices.counter


class TwoThreads:
    """What has an inlet and an outlet, both threaded inside."""

    __slots__ = ()
    inlet_size: str
    outlet_size: str

    @property
    def ports(self) -> tuple[Port, ...]:
        """Inlet and outlet."""
        return (Port(self.inlet_size, "NPT", "thread in"), Port(self.outlet_size, "NPT", "thread in"))


@dataclass(frozen=True, slots=True)
class Pipe:
    """One size of one series of pipe or hose.

    bore, outside, wall, roughness, roughness_fouled [m]; bore is the average, wall the least; rating [Pa]
    gauge at 73 F (hose 68 F), ends plain; vacuum_rating [Pa] below the air at 68 F, as printed on hose, nan
    where the wall decides; mass [kg/m]; coils [m]; ends: both alike. potable: listed for drinking water;
    sunlight: bears years of it bare; compound_class: under which its stiffness is tabled.
    """

    name: str
    family: str
    series: str
    size: str
    compound: str
    compound_class: str
    bore: float
    outside: float
    wall: float
    roughness: float
    roughness_fouled: float
    rating: float
    vacuum_rating: float
    potable: bool
    sunlight: bool
    mass: float
    coils: Points
    ports: tuple[Port, ...]
    prices: Prices
    origin: str

    @property
    def price_cents_per_m(self) -> float:
        """Price over the counter [cents/m]."""
        return self.prices.counter / self.prices.length


@dataclass(frozen=True, slots=True)
class FootValve(Priced):
    """A foot valve with its strainer.

    bore, strainer_opening [m]; strainer_area [m2] open; loss_coefficient [-] fully open, on the velocity in
    the bore; full_lift_factor [m/s (kg/m3)^1/2]; opening_pressure [Pa]; attitudes: how it may stand and still
    seat; mass [kg].
    """

    name: str
    size: str
    material: str
    bore: float
    spring: bool
    loss_coefficient: float
    full_lift_factor: float
    opening_pressure: float
    attitudes: tuple[str, ...]
    strainer_opening: float
    strainer_area: float
    mass: float
    prices: Prices

    @property
    def ports(self) -> tuple[Port, ...]:
        """Its one thread."""
        return (Port(self.size, "NPT", "thread in"),)


@dataclass(frozen=True, slots=True)
class Screen(Priced):
    """A cylinder screen with solid ends; it stands round the valve, held by the frame, and has no port.

    diameter, length, opening [m]; area [m2] gross, of the side; structure_fraction [share] of it not behind
    bars and rings; open_fraction [share] of the mesh; mass [kg].
    """

    name: str
    kind: str
    diameter: float
    length: float
    opening: float
    open_fraction: float
    structure_fraction: float
    mass: float
    prices: Prices

    @property
    def area(self) -> float:
        """Gross area of the side [m2]."""
        return math.pi * self.diameter * self.length


@dataclass(frozen=True, slots=True)
class Pump(Priced, TwoThreads):
    """A centrifugal pump: what it does at each flow of its curve.

    flow, npsh_flow [m3/s], from 0 to run-out; head, npsh [m]; brake_power [W] at `flow`; power [W] of the
    motor's rating; service_factor [-]; mass [kg].
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
    mass: float
    prices: Prices
    kind: str = "centrifugal"


@dataclass(frozen=True, slots=True)
class Jet(Priced, TwoThreads):
    """A jet pump: a table of flow by lift (rows) and outlet pressure (columns).

    lift [m]; pressure [Pa] gauge, the last is shut-off; flow [m3/s]; power [W] of the motor's rating;
    service_factor [-]; mass [kg].
    """

    name: str
    lift: Points
    pressure: Points
    flow: tuple[Points, ...]
    power: float
    service_factor: float
    inlet_size: str
    outlet_size: str
    mass: float
    prices: Prices
    kind: str = "jet"


@dataclass(frozen=True, slots=True)
class Tank(Priced):
    """A diaphragm tank.

    volume, acceptance (most water the diaphragm lets in) [m3]; max_pressure [Pa] gauge; mass [kg] empty.
    """

    name: str
    volume: float
    acceptance: float
    max_pressure: float
    connection: str
    mass: float
    prices: Prices

    @property
    def ports(self) -> tuple[Port, ...]:
        """Its one thread."""
        return (Port(self.connection, "NPT", "thread in"),)


@dataclass(frozen=True, slots=True)
class Part(Priced):
    """A small part: fitting, valve, gauge, or what is needed beside the pipe.

    ports: in the order water meets them, a branch last; length [m] from end to end, or from the middle to each
    mouth where the way turns or parts; make_up [m] of each port, how far what joins it goes in; bore [m] the
    narrowest; rating [Pa] gauge, nan where it holds no water; mass [kg], or [kg/m] of what is sold by length;
    figures: what else its kind is known by, in SI.
    The loss coefficient is fixed + times_ft f_T, on the velocity in pipe of the smallest port the water passes;
    branch_times_ft is the same multiple for the way into a branch, nan where there is none.
    """

    name: str
    kind: str
    series: str
    size: str
    material: str
    ports: tuple[Port, ...]
    bore: float
    times_ft: float
    branch_times_ft: float
    fixed: float
    length: float
    make_up: Points
    rating: float
    mass: float
    figures: Mapping[str, float]
    prices: Prices
    origin: str

    def loss_coefficient(self, turbulent_friction: float) -> float:
        """Loss coefficient straight through [-], given f_T of the smallest port passed."""
        return self.fixed + self.times_ft * turbulent_friction

    def branch_loss_coefficient(self, turbulent_friction: float) -> float:
        """Loss coefficient into the branch [-], given f_T of the smallest port passed; nan without a branch."""
        return self.fixed + self.branch_times_ft * turbulent_friction


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
