"""What a place in the water is judged by besides its depth, as facts."""

from __future__ import annotations

from dataclasses import dataclass

from lakewright.physics.types import Array


@dataclass(frozen=True, eq=False, repr=False)
class PlacingFacts:
    silt: Array  # 1 where the bed is one that waves stir up, 0 where it is not
    boats: Array  # 1 where boats pass over the inlet
    lies_still: (
        Array  # 1 for a lake, pond or reservoir, which has depths without light and layers; 0 for stream and tank
    )
    disc_depth: Array  # m, at which a white disk fades from sight
    lake_length: Array  # m, toward the wind
    warmest: Array  # K, its water on the warmest day
