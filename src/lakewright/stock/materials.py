"""What the materials of parts weigh."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

DENSITY: Mapping[str, float] = MappingProxyType(
    {
        "PVC": 1400.0,
        "HDPE": 955.0,  # read: handbook of polyethylene pipe, 59.6 lb/ft3
        "polyethylene": 955.0,
        "polypropylene": 905.0,
        "nylon": 1140.0,
        "rubber": 1200.0,
        "brass": 8500.0,
        "copper": 8940.0,
        "steel": 7850.0,
        "galvanized steel": 7850.0,
        "stainless steel": 7930.0,
        "cast iron": 7200.0,
    }
)
"""Density by material [kg/m3]. memory, all but one: handbook values, within a few in a hundred."""


def density_of(material: str) -> float:
    """Density of a material [kg/m3]; one that is not known is taken as PVC, which leaves little weight in water.

    >>> density_of("PVC")
    1400.0
    """
    return DENSITY.get(material, DENSITY["PVC"])
