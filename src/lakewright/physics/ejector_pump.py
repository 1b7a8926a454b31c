"""A pump and its ejector as one unit: what they lift, worked out once into the table that a maker would print."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lakewright.physics import ejector, pipe
from lakewright.physics.atmosphere import SEA_LEVEL_PRESSURE
from lakewright.physics.curve import Curve, straight_lines
from lakewright.physics.jet import JetTable, jet_table
from lakewright.physics.types import GRAVITY, Array

HALVINGS = 48
"""ours: of the span in which a flow or a pressure lies; less is left than a double tells apart from the span."""

MOTIVE_PASSES = 8
"""ours: Newton's steps toward the flow that drives, from above, where its law bends upward: they close in five."""

LIFTS = 11
"""ours: lifts of the table, closer together near the greatest, where the flow drawn falls steeply."""

PRESSURES = 9
"""ours: even pressures of the table, besides those where its flow bends."""

SAME_DENSITY = np.ones(1)


@dataclass(frozen=True)
class Tube:
    """A pipe between a pump and an ejector hung below it. bore, length, roughness [m]; none where the length is 0."""

    bore: float
    length: float
    roughness: float

    def loss(self, flow: Array, viscosity: float) -> Array:
        """Head lost in it [m] at a flow [m3/s]."""
        return pipe.pipe_loss(flow, *(np.array([each]) for each in (self.bore, self.length, self.roughness, viscosity)))

    def steepness(self, flow: Array, viscosity: float) -> Array:
        """Flow times the change of that loss with flow [m]."""
        bore = np.array([self.bore])
        reynolds = pipe.velocity(flow, bore) * bore / viscosity
        power = pipe.friction_factor_with_power(reynolds, np.array([self.roughness]) / bore)[1]
        return self.loss(flow, viscosity) * (2.0 + power)


@dataclass(frozen=True)
class EjectorPump:
    """One pump with one ejector, at the pump or hung below it, in water as warm as it gets.

    curve: head [m] over all the flow through the pump; required: net suction head [m] it asks, over the same;
    nozzle, throat [m2]; nozzle_loss, entry_loss, mixing_loss, cavitation: as `physics.ejector` has them; below [m]: how
    far under the pump it hangs, 0 at the pump; drive, back: the pipes down to it and up again; least_outlet [Pa gauge]:
    pressure that a control valve at the pump's outlet keeps there, 0 without one; density [kg/m3], viscosity [m2/s],
    vapour_pressure [Pa]: of the water.
    """

    curve: Curve
    required: Curve
    nozzle: float
    throat: float
    nozzle_loss: float
    entry_loss: float
    mixing_loss: float
    cavitation: float
    below: float
    drive: Tube
    back: Tube
    least_outlet: float
    density: float
    viscosity: float
    vapour_pressure: float

    @property
    def weight(self) -> float:
        """Of water [N/m3]."""
        return self.density * GRAVITY

    @property
    def greatest_lift(self) -> float:
        """Lift [m] at the sea, from the water to the pump with all losses, at which water boils in the ejector."""
        return self.below + (SEA_LEVEL_PRESSURE - self.vapour_pressure) / self.weight

    def motive(self, drawn: Array, lift: Array, outlet: Array) -> Array:
        """Flow [m3/s] through the nozzle while some is drawn, at a lift [m] and an outlet pressure [Pa gauge]."""
        beside = drawn / (self.throat - self.nozzle)
        drives = outlet + self.weight * lift + 0.5 * self.density * (1.0 + self.entry_loss) * (beside * beside)
        drives = np.maximum(drives, 1.0)
        square = 0.5 * self.density * (1.0 + self.nozzle_loss) / (self.nozzle * self.nozzle)
        flow = np.sqrt(drives / square)
        if self.drive.length == 0.0:
            return flow
        for _ in range(MOTIVE_PASSES):
            left = square * flow * flow + self.weight * self.drive.loss(flow, self.viscosity) - drives
            slope = 2.0 * square * flow + self.weight * self.drive.steepness(flow, self.viscosity) / flow
            flow = np.maximum(flow - left / slope, 1e-9)
        return flow

    def surplus(self, drawn: Array, lift: Array, outlet: Array) -> Array:
        """Pressure [Pa] that the ejector makes over what the pump's inlet then asks; it falls as more is drawn.

        Past the last point of the pump's curve there is none.
        """
        motive = self.motive(drawn, lift, outlet)
        jet = ejector.jet_pressure(motive, np.array([self.nozzle]), np.array([self.density]))
        ratio, area = drawn / motive, np.array([self.nozzle / self.throat])
        rise = ejector.diffuser_rise(jet, ratio, area, np.array([self.mixing_loss]), SAME_DENSITY)
        rise = rise - ejector.entry_drop(jet, ratio, area, np.array([self.entry_loss]), SAME_DENSITY)
        inlet = self.inlet_pressure(motive + drawn, outlet)
        asked = inlet + self.weight * (lift + self.back.loss(motive + drawn, self.viscosity))
        return np.where(np.isnan(asked), -np.inf, rise - asked)

    def inlet_pressure(self, whole: Array, outlet: Array) -> Array:
        """Pressure [Pa gauge] at the pump's inlet with a flow [m3/s] through it; nan past the end of its curve."""
        return outlet - self.weight * self.curve.at(whole)

    def most_drawn(self, lift: Array) -> Array:
        """The most the ejector draws [m3/s] at a lift [m], whatever drives it."""
        suction = SEA_LEVEL_PRESSURE + self.weight * (self.below - lift)
        given = (self.throat - self.nozzle, self.vapour_pressure, self.density, self.cavitation)
        annulus, vapour, density, cavitation = (np.array([each]) for each in given)
        return ejector.most_drawn(annulus, suction, vapour, density, cavitation)

    def drawn(self, lift: Array, outlet: Array) -> Array:
        """Flow drawn [m3/s] at a lift [m] and an outlet pressure [Pa gauge]: what the taps get."""
        most = self.most_drawn(lift) + 0.0 * outlet
        low, high = np.zeros_like(most), most
        for _ in range(HALVINGS):
            middle = 0.5 * (low + high)
            more = self.surplus(middle, lift, outlet) > 0.0
            low, high = np.where(more, middle, low), np.where(more, high, middle)
        capped = self.surplus(most, lift, outlet) >= 0.0
        return np.where(capped, most, np.where(self.surplus(0.0 * most, lift, outlet) > 0.0, low, 0.0))

    def outlet_at(self, drawn: Array, lift: Array) -> Array:
        """Outlet pressure [Pa gauge] against which so much [m3/s] is still drawn, by lift [m]; 0 where it never is."""
        low, high = np.zeros_like(lift), np.full_like(lift, 10.0 * self.weight * float(self.curve.c0[0]))
        for _ in range(HALVINGS):
            middle = 0.5 * (low + high)
            more = self.surplus(drawn, lift, middle) > 0.0
            low, high = np.where(more, middle, low), np.where(more, high, middle)
        return low

    def shut_off(self, lift: Array) -> Array:
        """Outlet pressure [Pa gauge] at which nothing more is drawn, by lift [m]; 0 where nothing ever is."""
        return np.where(self.most_drawn(lift) > 0.0, self.outlet_at(np.zeros_like(lift), lift), 0.0)

    def lifts(self) -> Array:
        """The lifts of its table [m], rising from none to the greatest."""
        left = np.linspace(1.0, 0.0, LIFTS)
        return self.greatest_lift * (1.0 - left * left)

    def table(self) -> JetTable:
        """Its table of flow by lift and pressure, as a maker would print it, at the sea.

        Besides even pressures it has those at which each lift leaves its limit, and those at which each has its
        shut-off.
        """
        lifts = self.lifts()
        dead, bends = self.shut_off(lifts), self.outlet_at(self.most_drawn(lifts), lifts)
        even = np.linspace(0.0, dead.max(), PRESSURES)
        pressures = np.unique(np.concatenate([even, np.minimum(bends, dead), dead, [self.least_outlet]]))
        pressures = pressures[pressures <= dead.max()]
        flows = self.drawn(lifts[:, None], np.maximum(pressures, self.least_outlet)[None, :])
        flows = np.where(pressures[None, :] >= dead[:, None], 0.0, flows)
        return jet_table(lifts.tolist(), pressures.tolist(), flows.tolist())

    def least_outlets(self) -> Curve:
        """Outlet pressure [Pa gauge] under which the pump's own inlet asks more than is there, by lift [m].

        It is read between the rows of a grid as fine as the table, on the high side.
        """
        lifts = self.lifts()
        dead = np.maximum(self.shut_off(lifts), 1.0)
        shares = np.linspace(0.0, 1.0, 6 * PRESSURES)
        outlet = dead[:, None] * shares
        drawn = self.drawn(lifts[:, None], outlet)
        whole = self.motive(drawn, lifts[:, None], outlet) + drawn
        over = SEA_LEVEL_PRESSURE + self.inlet_pressure(whole, outlet) - self.vapour_pressure
        short = ~(over >= self.weight * self.required.at(np.minimum(whole, self.required.last)))
        # The first pressure above every one that falls short; where all do, the shut-off itself.
        first = np.minimum(shares.size - np.argmax(short[:, ::-1], axis=1), shares.size - 1)
        least = np.where(short.any(axis=1), dead * shares[first], 0.0)
        return straight_lines(lifts.tolist(), least.tolist())
