"""Where a supply's water is: how much each part of it holds, from the lake to the taps."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright.physics.atmosphere import atmospheric_pressure
from lakewright.physics.shock import pipe_volume
from lakewright.state.facts import Facts


@dataclass(frozen=True, slots=True)
class Volumes:
    """Water in each part of a supply that is full, its tank at cut-out [m3]; nan where nobody knows."""

    riser: float
    suction_bed: float  # of the line between stand and the water's edge; the whole line where only that is known
    suction_bank: float
    casing: float
    delivery: float
    tank: float
    branches: float
    heater: float

    @property
    def suction(self) -> float:
        """From the inlet to the pump."""
        return self.riser + self.suction_bed + self.suction_bank

    @property
    def after_pump(self) -> float:
        """From the pump to the taps, the house's own pipes apart."""
        return math.fsum((self.casing, self.delivery, self.tank, self.branches, self.heater))


def volumes_of(facts: Facts, casing: float = 0.0, heater: float = 0.0) -> Volumes:
    """The volumes of one job.

    Parameters
    ----------
    facts : of one job
    casing, heater : [m3] in the pump and in the heater, where the job says so
    """
    stand, line, delivery, taps = facts.stand, facts.suction, facts.delivery, facts.taps
    longer = 1.0 + line.along
    air = atmospheric_pressure(facts.site.elevation)
    water = delivery.tank_volume * (1.0 - (delivery.precharge + air) / (delivery.cut_out + air))
    return Volumes(
        riser=float(pipe_volume(stand.riser_bore, stand.riser)[0]),
        suction_bed=float(pipe_volume(line.bore, line.bed_length * longer)[0]),
        suction_bank=float(pipe_volume(line.bore, line.bank_length * longer)[0]),
        casing=casing,
        delivery=float(pipe_volume(delivery.bore, delivery.length)[0]),
        tank=float(water[0]),
        branches=float(pipe_volume(taps.bore, taps.length).sum()),
        heater=heater,
    )
