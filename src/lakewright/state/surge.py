"""What stops when the pump stops: the blow in both lines, and whether the suction column parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.characteristics import stopped_line
from lakewright.physics.surge import column_stop_time
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import OPEN, cases_of
from lakewright.state.facts import Facts
from lakewright.state.lake import line_top

if TYPE_CHECKING:
    from lakewright.state.walk import State

STILL = 1e-6
"""ours: a column slower than this [m/s] has no friction worth a number."""


@dataclass(frozen=True, eq=False, repr=False)
class Surge:
    """The blow when the pump stops. Running cases."""

    length: Array  # m, of both lines
    climb: Array  # m, of the tank over the water
    under_pressure: NDArray[np.bool_]  # all but the open tank
    stop_time: Array  # s
    delivery_peak: Array  # Pa gauge, at the pump's end of the delivery line
    delivery_bears: Array  # Pa gauge, for a moment
    suction_peak: Array  # Pa gauge, at the stand
    suction_bears: Array  # Pa gauge, for a moment
    stands: NDArray[np.bool_]  # the air holds the suction column up at all
    column_left: Array  # m of head over boiling at the pump's inlet when the blow comes back


def surge(facts: Facts, passed: State, tank: Array) -> Surge:
    """The blow when the pump stops, with a check at it that shuts as the flow dies.

    A foot valve with a spring shuts in time as well, and leaves the push of the column in the line. Where there is no
    spring, or no valve, the column swings back and pulls at the pump.

    Parameters
    ----------
    passed : the blocks that the flow passes
    tank : [Pa gauge] in the running cases
    """
    cases, delivery, first, water = cases_of(len(facts.day_names)), facts.delivery, facts.surge, passed.lake
    speed, far_speed = passed.line.velocity, passed.delivery.velocity
    weight, along = water.density * GRAVITY, 1.0 + facts.suction.along
    length = (facts.suction.bed_length + facts.suction.bank_length) * along
    climb = delivery.height - water.level
    stop = column_stop_time(length * speed + delivery.length * far_speed, climb + tank / weight)
    # In the suction line water comes from the far end, and its blow is first a push, then a pull.
    lines = (
        (first.suction_speed, first.delivery_speed),
        (length, delivery.length),
        (-speed, far_speed),
        (_resistance(passed.line.suction_loss, speed), _resistance(passed.delivery.loss, far_speed)),
    )
    waves, lengths, speeds, resistances = (np.stack(np.broadcast_arrays(*pair, stop)[:2]) for pair in lines)
    high, low = stopped_line(waves, lengths, speeds, resistances, stop)
    sprung = (facts.holding.at_inlet == 1.0) & (facts.stand.opening_pressure > 0.0)
    pull = np.where(sprung, 0.0, 1.0) * low[0] + 0.0 * facts.holding.at_inlet
    reserve = water.atmosphere_head - water.vapour_head - (line_top(facts) - water.level)
    end = facts.stand.frame - facts.stand.sink - facts.stand.depth
    held = np.maximum(np.take(passed.standing.end_pressure, cases.running_day, axis=-1), weight * (water.level - end))
    return Surge(
        length=length + delivery.length,
        climb=climb,
        under_pressure=cases.running_end != OPEN,
        stop_time=stop,
        delivery_peak=tank + weight * (delivery.height - facts.pump.height + high[1]),
        delivery_bears=first.delivery_allowance * delivery.pipe_bears,
        suction_peak=held + weight * high[0],
        suction_bears=first.suction_allowance * facts.suction.allowed_pressure,
        stands=~(reserve <= 0.0),
        column_left=reserve + pull,
    )


def _resistance(loss: Array, speed: Array) -> Array:
    """Head lost for a velocity of 1 m/s [s2/m]; none where nothing moves."""
    moves = speed > STILL
    return np.where(moves, loss / np.where(moves, speed * speed, 1.0), 0.0 * loss)
