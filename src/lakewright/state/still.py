"""Whether the stand stays where it is: what pushes it, what holds it, and how it lies when nothing does."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import footing, scour
from lakewright.physics.force import cycle_number
from lakewright.physics.members import Coefficients, Members, Sea, coefficients_of, peak_loads
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.facts import Facts, MemberFacts
from lakewright.state.weather import Weather, bed_speed

Mask = NDArray[np.bool_]

TURNS = 12
"""ours: courses of the waves that are looked at, 15 degrees apart; the one that pushes the most counts."""

TIPS_THAT_BEAR = 0.5
"""ours: share of what rests on the bed that carries it all when a stand leans."""


@dataclass(frozen=True, eq=False, repr=False)
class Still:
    """What pushes the stand and how far that is from moving it. Weather cases."""

    on_legs: Mask
    force: Array  # N, largest level push
    moment: Array  # N m, largest about the bed
    uplift: Array  # N, largest
    weight: Array  # N, under water
    sliding: Array  # what holds it over what pushes it
    tipping: Array  # the same about the nearest edge
    on_grains: Mask  # not on a bed that does not move
    scour: Array  # m, of the hole that waves and current dig at its feet
    arm: Array  # m, from under the riser to the nearest edge


@dataclass(frozen=True, eq=False, repr=False)
class Rest:
    """The stand when nothing pushes it. Standing cases."""

    on_legs: Mask
    weight: Array  # N, under water
    floating: Array  # weight in air over that of the water displaced, all that can hold air full of it
    is_soft: Mask
    bearing: Array  # what the mud bears over the weight; infinite on a firm bed
    snag: Array  # N, pull on the line near the bed that moves it
    lifted: Array  # kg, out of the water, with the water it holds


@dataclass(frozen=True, eq=False, repr=False)
class Sums:
    """Sums over the members, (..., 1)."""

    mass: Array  # kg
    solid: Array  # m3, of material
    held: Array  # m3, that air may fill


def still(facts: Facts, weather: Weather) -> Still:
    """Loads of waves and current on the stand, and its factors against sliding and tipping."""
    force, moment, uplift = loads_on(facts, weather)
    sums, stand, friction = sums_of(facts), facts.stand, facts.site.bed_friction
    weight = submerged(sums, weather.density)
    arm = stand.arm
    return Still(
        on_legs=stand.on_legs != 0.0,
        force=force,
        moment=moment,
        uplift=uplift,
        weight=weight,
        # Lifted off its feet it rubs no more, and hangs on pins and tether alone: friction never pulls.
        sliding=np.maximum(_over(stand.held, force), _over(stand.held + friction * weight, force + friction * uplift)),
        tipping=_over((weight + stand.held_down) * arm, moment + uplift * arm),
        on_grains=~np.isinf(facts.site.grain),
        scour=_scour(facts, weather),
        arm=arm,
    )


def _scour(facts: Facts, weather: Weather) -> Array:
    """Depth of the hole at the thickest of what lies on the bed; none where waves and current leave the grains."""
    members, grain = facts.members, facts.site.grain
    width = np.max(members.width * members.on_bed, axis=-1, keepdims=True)
    moving = weather.wave_height != 0.0
    period = np.where(moving, weather.period, 1.0)
    along = bed_speed(weather.wave_height, period, weather.depth)
    cycles = cycle_number(along, period, np.where(width > 0.0, width, 1.0))
    in_waves = np.maximum(scour.scour_in_waves(width, cycles), scour.scour_under_pipe(width, cycles))
    by_waves = in_waves * scour.dug_share(along, scour.stirring_velocity(grain, period))
    swift = scour.dug_share(weather.running, scour.scouring_speed(grain, weather.depth))
    # Whether it stands on legs at all must be known.
    return np.maximum(by_waves, scour.scour_in_current(width) * swift) + 0.0 * facts.stand.on_legs


def rest(facts: Facts, density: Array) -> Rest:
    """The stand at rest, in water of a density [kg/m3] a day."""
    sums, stand, site = sums_of(facts), facts.stand, facts.site
    weight = submerged(sums, density)
    area, factor = TIPS_THAT_BEAR * stand.rest_area, np.array([footing.SURFACE_BEARING])
    return Rest(
        on_legs=stand.on_legs != 0.0,
        weight=weight,
        floating=sums.mass / (density * (sums.solid + sums.held)),
        is_soft=~np.isinf(site.mud_strength),
        bearing=_over(footing.bearing_load(site.mud_strength, area, factor), np.maximum(weight, 0.0)),
        snag=stand.held + site.bed_friction * np.maximum(weight, 0.0),
        lifted=sums.mass + density * sums.held,
    )


def _over(holds: Array, moves: Array) -> Array:
    """What holds over what moves: none where it floats, infinite where nothing moves."""
    moving = moves != 0.0
    ratio = np.maximum(holds, 0.0) / np.where(moving, moves, 1.0)
    return np.where(moving, ratio, np.where(np.isnan(holds), np.nan, np.inf))


def sums_of(facts: Facts) -> Sums:
    """Mass, material and closed room of a stand."""
    members, lead = facts.members, _lead(*vars(facts.members).values())
    table = members_of(members, lead)
    length = table.length()
    held = length * table.hollow * _flat(members.holds_air, lead)
    totals = (table.of_stands(each) for each in (table.mass(), length * (table.section - table.hollow), held))
    mass, solid, held = (each.reshape(*lead, 1) for each in totals)
    # Whether it stands on legs at all must be known.
    return Sums(mass + 0.0 * facts.stand.on_legs, solid, held)


def submerged(sums: Sums, density: Array) -> Array:
    """Weight under water [N], everything flooded. Source: Archimedes."""
    return GRAVITY * (sums.mass - density * sums.solid)


def loads_on(facts: Facts, weather: Weather) -> tuple[Array, Array, Array]:
    """Largest level force [N], moment about the bed [N m] and uplift [N], (..., case); none where nothing moves."""
    cases, roughness = weather.period.shape[-1], facts.site.bed_roughness
    whole = (weather.wave_height, weather.period, weather.depth, weather.current, roughness, weather.density)
    lead = _lead(*vars(facts.members).values(), *whole)
    moves = np.flatnonzero(~((weather.wave_height == 0.0) & (weather.current == 0.0)).reshape(-1, cases).all(axis=0))
    found = np.zeros((3, *lead, cases))
    if len(moves):
        height, period, depth, current, rough, density = (_rows(each, lead, cases)[:, moves] for each in whole)
        members = members_of(facts.members, lead)
        # The roughness of boulders may be more than a third of very little water.
        sea = Sea(height, period, depth, current, np.minimum(rough, 0.3 * depth), density, _worst_heading(members))
        by = coefficients_of(members, sea)
        missing = 0.0 * _flat(facts.members.on_bed, lead)[:, None]
        loads = peak_loads(members, sea, Coefficients(by.drag + missing, by.inertia, by.lift))
        for part, each in zip(found, (loads.force, loads.moment, loads.uplift), strict=True):
            part[..., moves] = each.reshape(*lead, len(moves))
    force, moment, uplift = found
    return force, moment, uplift


def members_of(facts: MemberFacts, lead: tuple[int, ...]) -> Members:
    """The long table of members, the stands of a batch of some shape one after the other."""
    flat = {name: _flat(value, lead) for name, value in vars(facts).items()}
    stands, each = int(np.prod(lead, dtype=int)), facts.width.shape[-1]
    return Members(
        owner=np.repeat(np.arange(stands), each),
        start=np.stack([flat["x0"], flat["y0"], flat["z0"]], axis=-1),
        end=np.stack([flat["x1"], flat["y1"], flat["z1"]], axis=-1),
        width=flat["width"],
        section=flat["section"],
        hollow=flat["hollow"],
        material_density=flat["material_density"],
        drag=flat["drag"],
        inertia=flat["inertia"],
        axial_inertia=flat["axial_inertia"],
        on_bed=flat["on_bed"] == 1.0,
    )


def _lead(*arrays: Array) -> tuple[int, ...]:
    """The shape of the batch, which all of some arrays have before their last axis."""
    return np.broadcast_shapes(*(each.shape[:-1] for each in arrays))


def _flat(of_members: Array, lead: tuple[int, ...]) -> Array:
    return np.broadcast_to(of_members, (*lead, of_members.shape[-1])).reshape(-1)


def _rows(of_cases: Array, lead: tuple[int, ...], cases: int) -> Array:
    return np.ascontiguousarray(np.broadcast_to(of_cases, (*lead, cases)).reshape(-1, cases))


def _worst_heading(members: Members) -> Array:
    """The course of waves and current that pushes each stand the most [rad], (stand, 1).

    ours: by outline alone, every member moved alike: across it the water has the sine of its speed, which counts
    squared, and of that push the sine again goes with the waves.
    """
    turns: Array = np.linspace(0.0, np.pi, TURNS, endpoint=False)
    along, length = members.end - members.start, members.length()[:, None]
    level = np.abs(along[:, 0, None] * np.sin(turns) - along[:, 1, None] * np.cos(turns)) / length
    upright = along[:, 2, None] / length
    across = np.sqrt(level * level + upright * upright)
    pushed = members.of_stands(members.width[:, None] * length * across * across * across)
    return np.ascontiguousarray(turns[np.argmax(pushed, axis=1)][:, None])
