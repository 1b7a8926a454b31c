"""What a job is in winter, as numbers in SI."""

from __future__ import annotations

from dataclasses import dataclass

from lakewright.physics.types import Array


@dataclass(frozen=True, eq=False, repr=False)
class SeasonFacts:
    """Season of use. `winter.py` gathers it."""

    emptied: Array  # 1 where all that holds water is emptied before the frost, 0 where it stays full
    hauled: Array  # 1 where the suction line comes out of the water besides
    suction_left: Array  # m of suction line over the water that stay full when it is emptied
    delivery_left: Array  # m of delivery line that stay full then
    trench_depth: Array  # m of earth over the shallowest line; infinite where none stays full in the ground
    frost_depth: Array  # m that the ground freezes
    expansion: Array  # 1/K of the suction line's wall; 0 for what gives, and for what is not left in the water
    slack: Array  # share by which the line is longer than its way
    closes: Array  # s after the new year, when it is emptied; infinite where nobody has named a day
    first_frost: Array  # s, mean of the first hard frost of autumn
    opens: Array  # s, when it is started; infinite where nobody has named a day
    last_frost: Array  # s, mean of the last hard frost of spring
    frost_spread: Array  # s, standard deviation of both
