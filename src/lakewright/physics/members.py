"""All members of all stands in one long table: their weight, and what waves and current do to each stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from lakewright.physics.current import logarithmic_current
from lakewright.physics.force import (
    BED_LIFT,
    bed_coefficients,
    cycle_number,
    drag_force,
    free_drag_coefficient,
    inertia_force,
    mixed_coefficient,
)
from lakewright.physics.types import GRAVITY, Array, Index
from lakewright.physics.waves import orbital_velocity, wave_number

PHASES = 72
"""ours: every five degrees, and a parabola through the largest three: within 0.1 % of a peak, and hardly under it."""

_BLOCK = 1 << 16
"""ours: numbers in one array of phases, members and cases, few enough to stay in a processor's cache."""

# Source: Abramowitz and Stegun, table 25.4, three nodes. Over a member's length from 0 to 1.
_NODES = ((0.5 - 0.5 * 0.6**0.5, 5.0 / 18.0), (0.5, 8.0 / 18.0), (0.5 + 0.5 * 0.6**0.5, 5.0 / 18.0))


@dataclass(frozen=True)
class Members:
    """Straight members, one a row, those of one stand together and the stands in order.

    owner: number of the stand, from 0, none left out. start, end (member, 3) [m]: x, y, and height over the bed of the
    axis. width [m]: across the flow. section [m2]: outside. hollow [m2]: bore, 0 in solid ones. material_density
    [kg/m3]. drag [-]: coefficient in a steady flow. inertia [-]: across; axial_inertia [-]: along, for stubby heads.
    on_bed: whether it lies there. Strainer, debris and ballast are members like any other: debris has no section.
    """

    owner: Index
    start: Array
    end: Array
    width: Array
    section: Array
    hollow: Array
    material_density: Array
    drag: Array
    inertia: Array
    axial_inertia: Array
    on_bed: Array

    def length(self) -> Array:
        """Length of each [m]."""
        along = self.end - self.start
        return np.sqrt(along[:, 0] * along[:, 0] + along[:, 1] * along[:, 1] + along[:, 2] * along[:, 2])

    def mass(self) -> Array:
        """Mass of each, its hollow empty [kg]."""
        return self.length() * (self.section - self.hollow) * self.material_density

    def submerged_weight(self, fill_density: Array, density: Array) -> Array:
        """Weight of each under water [N], its hollow full of something as heavy as `fill_density` [kg/m3].

        Water for what floods, 0 for what can hold air; `density` [kg/m3] is that of the water. Source: Archimedes.
        """
        return submerged_weight(self.length(), self.section, self.hollow, self.material_density, fill_density, density)

    def of_stands(self, of_members: Array, axis: int = 0) -> Array:
        """Sums over the members of each stand, along one axis."""
        return np.add.reduceat(of_members, np.flatnonzero(np.diff(self.owner, prepend=-1)), axis=axis)


def submerged_weight(
    length: Array, section: Array, hollow: Array, material_density: Array, fill_density: Array, density: Array
) -> Array:
    """Weight of a pipe or bar under water.

    Parameters
    ----------
    length : [m]
    section : [m2] of the outside
    hollow : [m2] of the bore, 0 in a bar
    material_density : [kg/m3] of the wall
    fill_density : [kg/m3] of what is in the bore, 0 for air
    density : [kg/m3] of the water around

    Returns
    -------
    [N], broadcast shape; less than 0 for what floats

    Source: Archimedes.

    >>> pvc = [np.array([each]) for each in (1.0, 1.82920e-3, 1.14009e-3, 1400.0, 1000.0, 1000.0)]
    >>> round(float(submerged_weight(*pvc)[0]) / 9.80665, 3)
    0.276
    """
    return GRAVITY * length * (material_density * (section - hollow) + fill_density * hollow - density * section)


@dataclass(frozen=True)
class Sea:
    """Waves and current past the stands, arrays of shape (stand or 1, case or 1).

    wave_height [m], period [s] (0 and 0 for none), depth [m], mean_speed [m/s] of the current the way the waves go,
    roughness_length [m] of the bed, density [kg/m3], heading [rad] toward which both go, from the x axis.
    """

    wave_height: Array
    period: Array
    depth: Array
    mean_speed: Array
    roughness_length: Array
    density: Array
    heading: Array

    def at(self, owner: Index) -> Sea:
        """The sea of each member's stand, shape (member, case)."""
        fields = vars(self).values()
        _, cases = np.broadcast_shapes(*(each.shape for each in fields))
        return Sea(*(np.broadcast_to(each, (int(owner[-1]) + 1, cases))[owner] for each in fields))


@dataclass(frozen=True)
class Coefficients:
    """Of each member in each case [-], shape (member, case): drag and inertia across, lift."""

    drag: Array
    inertia: Array
    lift: Array


@dataclass(frozen=True)
class Loads:
    """Largest loads on each stand over a wave [N, N m, N], shape (stand, case), each at its own worst moment.

    force: level. moment: of the level forces about the bed. uplift: upward, never under 0.
    """

    force: Array
    moment: Array
    uplift: Array


@dataclass(frozen=True)
class _Node:
    """A third of each member: where it is, and how the water moves there."""

    height: Array
    length: Array
    current: Array
    level: Array
    upright: Array


def _nodes(members: Members, sea: Sea) -> Iterator[_Node]:
    """The water at three places along each member; `sea` as (member, case)."""
    number = wave_number(sea.period, sea.depth)
    bottom, top = members.start[:, 2, None], members.end[:, 2, None]
    for place, share in _NODES:
        z = bottom + place * (top - bottom)
        current = logarithmic_current(sea.mean_speed, z, sea.depth, sea.roughness_length)
        # What lies on the bed is moved as the bed is: its coefficients were measured so.
        reached = np.where(members.on_bed[:, None], 0.0, z)
        level, upright = orbital_velocity(sea.wave_height, sea.period, number, sea.depth, reached)
        yield _Node(z, share * members.length()[:, None], current, level, upright)


def coefficients_of(members: Members, sea: Sea) -> Coefficients:
    """The larger of published coefficients for each member in each case (dimensionless).

    Away from the bed the drag of waves and the inertia both count in full. On the bed the largest force of a wave is
    taken as drag, which leaves no inertia. Source: as `free_drag_coefficient`, `bed_coefficients`, `mixed_coefficient`.
    """
    there = sea.at(members.owner)
    _, middle, _ = _nodes(members, there)
    cycles = cycle_number(middle.level, there.period, members.width[:, None])
    steady, bed = members.drag[:, None], members.on_bed[:, None]
    in_waves, lift_in_waves = bed_coefficients(cycles)
    in_waves = np.maximum(np.where(bed, in_waves, free_drag_coefficient(cycles)), steady)
    speeds = middle.level, middle.current
    return Coefficients(
        drag=mixed_coefficient(in_waves, steady, *speeds),
        inertia=np.where(bed, 0.0, members.inertia[:, None]) + 0.0 * cycles,
        lift=np.where(bed, mixed_coefficient(lift_in_waves, np.full_like(steady, BED_LIFT), *speeds), 0.0),
    )


def peak_loads(members: Members, sea: Sea, coefficients: Coefficients) -> Loads:
    """Largest loads on each stand, over the phases of the wave.

    Morison's equation on the flow across each member (its velocity along the member does nothing), current and wave
    added before the square is taken. Members are far shorter than a wave, so all have one phase. Source: Morison and
    others (1950); the part across an inclined member after the Coastal Engineering Manual, part VI chapter 5 (memory).
    """
    there = sea.at(members.owner)
    blocks = [_block_loads(*each) for each in _blocks(members, there, coefficients)]
    return Loads(*(np.concatenate(each) for each in zip(*blocks, strict=True)))


def _blocks(members: Members, sea: Sea, by: Coefficients) -> Iterator[tuple[Members, Sea, Coefficients]]:
    """Whole stands, as many at a time as stay near the processor; `sea` as (member, case)."""
    begins = np.flatnonzero(np.diff(members.owner, prepend=-1))
    most = max(1, _BLOCK // (PHASES * sea.period.shape[1]))
    cuts = begins[np.flatnonzero(np.diff(begins // most, prepend=-1))]
    for begin, end in pairwise([*cuts.tolist(), members.owner.size]):
        rows = slice(begin, end)
        yield (
            Members(*(each[rows] for each in vars(members).values())),
            Sea(*(each[rows] for each in vars(sea).values())),
            Coefficients(*(each[rows] for each in vars(by).values())),
        )


def _block_loads(members: Members, sea: Sea, by: Coefficients) -> tuple[Array, Array, Array]:
    """Largest force, moment and uplift of each stand, (stand, case)."""
    phases: Array = np.linspace(0.0, 2.0 * np.pi, PHASES, endpoint=False)[:, None, None]
    dragged = turned = lifted = np.zeros((PHASES, *sea.period.shape))
    swings = np.zeros((3, 2, *sea.period.shape))
    for node in _nodes(members, sea):
        push = _Push.on(members, sea, by, node)
        level, upward = push.drag_at(phases)
        dragged, turned, lifted = dragged + level, turned + level * node.height, lifted + upward
        level, upward = push.inertia_swings()
        swings += np.stack([level, level * node.height, upward])
    # Inertia goes with the wave as it is, so its sum over the members is taken before the phases.
    cos, sin = np.cos(phases), np.sin(phases)
    force, moment, uplift = (
        members.of_stands(each, axis=1) + cos * members.of_stands(with_cos) + sin * members.of_stands(with_sin)
        for each, (with_cos, with_sin) in zip((dragged, turned, lifted), swings, strict=True)
    )
    return _peak(np.abs(force)), _peak(np.abs(moment)), np.maximum(_peak(uplift), 0.0)


def _peak(phases: Array) -> Array:
    """Largest over the first axis, which goes round: the top of the parabola through the largest and its neighbours."""
    at = np.expand_dims(np.argmax(phases, axis=0), 0)
    three: list[Array] = [np.take_along_axis(phases, (at + step) % PHASES, 0)[0] for step in (-1, 0, 1)]
    before, top, after = three
    bend, lean = 2.0 * top - before - after, 0.25 * (after - before)
    curved = bend > 0.0
    return top + np.where(curved, lean * lean / np.where(curved, 0.5 * bend, 1.0), 0.0)


@dataclass(frozen=True)
class _Push:
    """What pushes a third of each member, (member, case): speeds of the water, and factors of them in newtons."""

    current: Array
    level: Array
    upright: Array
    level_across: Array  # shares of a level and of an upward speed that are across the member, and what they share
    upright_across: Array
    shared: Array
    drag: Array
    lift: Array
    inertia: tuple[Array, Array, Array]  # level by level, upward by upward, and each by the other

    @classmethod
    def on(cls, members: Members, sea: Sea, by: Coefficients, node: _Node) -> _Push:
        along = (members.end - members.start) / members.length()[:, None]
        ahead = along[:, 0, None] * np.cos(sea.heading) + along[:, 1, None] * np.sin(sea.heading)
        up = along[:, 2, None]
        level_across, upright_across, shared = 1.0 - ahead * ahead, 1.0 - up * up, ahead * up
        outline, volume = members.width[:, None] * node.length, members.section[:, None] * node.length
        still = sea.period == 0.0
        omega = np.where(still, 0.0, 2.0 * np.pi / np.where(still, 1.0, sea.period))
        across = inertia_force(by.inertia, volume, omega, sea.density)
        end = inertia_force(members.axial_inertia[:, None], volume, omega, sea.density)
        return cls(
            node.current,
            node.level,
            node.upright,
            level_across,
            upright_across,
            shared,
            drag=drag_force(by.drag, outline, np.ones_like(sea.density), sea.density),
            lift=drag_force(by.lift, outline, np.ones_like(sea.density), sea.density),
            inertia=(
                across * level_across + end * ahead * ahead,
                across * upright_across + end * up * up,
                (end - across) * shared,
            ),
        )

    def drag_at(self, phases: Array) -> tuple[Array, Array]:
        """Level and upward force but for inertia [N] at phases of the wave, 0 under the crest, along a first axis."""
        # The largest arrays there are, so each is written over once it is done with.
        u, w = np.cos(phases) * self.level, np.sin(phases) * self.upright
        u += self.current
        ahead, upward, shared = self.level_across * u, self.upright_across * w, self.shared * w
        ahead -= shared
        upward -= np.multiply(self.shared, u, out=shared)
        squared = np.multiply(ahead, u, out=u)
        squared += np.multiply(upward, w, out=w)
        np.maximum(squared, 0.0, out=squared)
        by_speed = np.sqrt(squared, out=w)
        by_speed *= self.drag
        ahead *= by_speed
        upward *= by_speed
        squared *= self.lift
        upward += squared
        return ahead, upward

    def inertia_swings(self) -> tuple[Array, Array]:
        """Level and upward force of inertia, each the part that goes with the phase's cosine and with its sine [N]."""
        by_level, by_upright, by_other = self.inertia
        level = np.stack([-by_other * self.upright, by_level * self.level])
        return level, np.stack([-by_upright * self.upright, by_other * self.level])
