"""The worked stand of the reference notes: a riser, a head and four legs, as members."""

from __future__ import annotations

import numpy as np

from lakewright.physics.members import Coefficients, Members, Sea
from lakewright.physics.types import Array

WATER = 1000.0
PVC = 1400.0
OUTSIDE, WALL = 0.04826, 0.00508
REACH = 0.40
BORE = OUTSIDE - 2.0 * WALL
HEAD_WIDTH, HEAD_HEIGHT, HEAD_MASS = 0.12, 0.18, 1.0
RISER, HEAD, LEGS = 0, 1, slice(2, 6)


def disc(diameter: float) -> float:
    return 0.25 * np.pi * diameter * diameter


def worked_stand(riser: float = 0.60, reach: float = REACH, leg_axis: float = 0.5 * OUTSIDE) -> Members:
    """Riser, head, and a plus of four legs whose axes lie so high over the bed."""
    tips = [(reach, 0.0), (-reach, 0.0), (0.0, reach), (0.0, -reach)]
    start = [(0.0, 0.0, 0.0), (0.0, 0.0, riser), *[(0.0, 0.0, leg_axis)] * 4]
    end = [(0.0, 0.0, riser), (0.0, 0.0, riser + HEAD_HEIGHT), *[(x, y, leg_axis) for x, y in tips]]
    pipe, head = disc(OUTSIDE), disc(HEAD_WIDTH)
    solid = HEAD_MASS / PVC / HEAD_HEIGHT  # the section its material would have; water stands in the rest
    return Members(
        owner=np.zeros(6, dtype=int),
        start=np.array(start),
        end=np.array(end),
        width=np.array([OUTSIDE, HEAD_WIDTH, *[OUTSIDE] * 4]),
        section=np.array([pipe, head, *[pipe] * 4]),
        hollow=np.array([disc(BORE), head - solid, *[disc(BORE)] * 4]),
        material_density=np.full(6, PVC),
        drag=np.full(6, 1.2),
        inertia=np.full(6, 2.0),
        axial_inertia=np.array([0.0, 1.5, *[0.0] * 4]),
        on_bed=np.array([False, False, True, True, True, True]),
    )


def together(*stands: Members) -> Members:
    """Stands in one table, numbered in the order given."""
    fields = {name: np.concatenate([vars(each)[name] for each in stands]) for name in vars(stands[0])}
    fields["owner"] = np.repeat(np.arange(len(stands)), [each.owner.size for each in stands])
    return Members(**fields)


def row(*values: float) -> Array:
    """One stand's value in each case."""
    return np.array([values])


def waves(wave_height: float, period: float, depth: float) -> Sea:
    """Waves toward x and no current."""
    return Sea(row(wave_height), row(period), row(depth), row(0.0), row(3e-4), row(WATER), row(0.0))


def plain(members: Members, sea: Sea) -> Coefficients:  # noqa: ARG001 asked as the real one is
    """The notes' set P: one drag everywhere, inertia of ideal flow on the bed, lift 1."""
    bed = members.on_bed[:, None]
    return Coefficients(
        drag=np.full((members.owner.size, 1), 1.2), inertia=np.where(bed, 3.29, 2.0), lift=np.where(bed, 1.0, 0.0)
    )
