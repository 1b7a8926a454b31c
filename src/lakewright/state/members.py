"""Stands as one long table of cylinders, and what each stand weighs and displaces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.types import GRAVITY, Array, Index
from lakewright.state.placed import Placed, Stand


@dataclass(frozen=True, eq=False, repr=False)
class Members:
    """Cylinders of stands, a row each, sorted by stand; every array has one entry a row on its first axis.

    stand: which stand a row belongs to, from 0, each with a row at least; role: see placed.ROLES (what is sheltered
    weighs and is not washed); start, end (rows, 3) [m]: the axis; outside, bore [m]; solid [m3]: volume of its
    material, so that solid x density = mass; mass [kg] empty; density [kg/m3]; held [m3]: closed room inside, full of
    water in use and of air in an empty line, 0 where drilled or solid; wet: whether that water is in the suction path.
    A lump (valve, screen, ballast, pad) is a cylinder of its length and of the width the water sees.
    """

    stand: Index
    role: tuple[str, ...]
    start: Array
    end: Array
    outside: Array
    bore: Array
    solid: Array
    mass: Array
    density: Array
    held: Array
    wet: Array  # 1 or 0

    @property
    def length(self) -> Array:
        """Length of each row's axis [m]."""
        squared: Array = np.sum((self.end - self.start) ** 2, axis=1)
        return np.sqrt(squared)

    @property
    def middle(self) -> Array:
        """Middle of each row's axis (rows, 3) [m]."""
        return 0.5 * (self.start + self.end)

    def are(self, *roles: str) -> NDArray[np.bool_]:
        """Whether each row has one of some roles."""
        return np.array([role in roles for role in self.role], dtype=bool)


@dataclass(frozen=True, eq=False, repr=False)
class Totals:
    """What each stand comes to, one entry a stand.

    mass [kg] in air, empty; displaced [m3]: water displaced when flooded, that is all material; held [m3]: closed
    room, all of which air could fill; water_held [m3]: water in the suction path, for prime and shock; weight [N]: in
    water, everything full of water; weight_in_air [N]; weight_with_air [N]: in water with air in all that can hold it,
    negative where that floats.
    """

    mass: Array
    displaced: Array
    held: Array
    water_held: Array
    weight: Array
    weight_in_air: Array
    weight_with_air: Array


def members_of(stands: Sequence[Stand]) -> Members:
    """The cylinders of some stands, of each in the order of its parts."""
    rows = [(n, each, segment) for n, stand in enumerate(stands) for each in stand.placed for segment in each.segments]
    shares = np.array([_share(each, number) for stand in stands for each in stand.placed for number in _numbers(each)])

    def column(name: str) -> Array:
        return np.array([getattr(each, name) for _, each, _ in rows], dtype=float)

    solid, mass = column("solid") * shares, column("mass") * shares
    return Members(
        stand=np.array([n for n, _, _ in rows], dtype=np.intp),
        role=tuple(each.role for _, each, _ in rows),
        start=np.array([segment[0] for _, _, segment in rows], dtype=float).reshape(-1, 3),
        end=np.array([segment[1] for _, _, segment in rows], dtype=float).reshape(-1, 3),
        outside=column("outside"),
        bore=column("bore"),
        solid=solid,
        mass=mass,
        density=mass / solid,
        held=column("held") * shares,
        wet=column("wet"),
    )


def _numbers(placed: Placed) -> range:
    return range(len(placed.segments))


def _share(placed: Placed, number: int) -> float:
    """The share of a part's volume and mass in one of its cylinders: as their lengths."""
    lengths = [math.dist(start, end) for start, end in placed.segments]
    return lengths[number] / sum(lengths)


def totals_of(members: Members, water_density: float, gravity: float = GRAVITY) -> Totals:
    """What each stand weighs and displaces.

    Parameters
    ----------
    members : sorted by stand
    water_density : [kg/m3]
    gravity : [m/s2]

    Returns
    -------
    Totals, one entry a stand
    """
    first = np.flatnonzero(np.diff(members.stand, prepend=-1))

    def total(column: Array) -> Array:
        return np.add.reduceat(column, first)

    mass, displaced, held = total(members.mass), total(members.solid), total(members.held)
    weight = gravity * (mass - water_density * displaced)
    return Totals(
        mass=mass,
        displaced=displaced,
        held=held,
        water_held=total(members.held * members.wet),
        weight=weight,
        weight_in_air=gravity * mass,
        weight_with_air=weight - gravity * water_density * held,
    )
