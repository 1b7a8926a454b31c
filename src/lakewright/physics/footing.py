"""Whether a stand slides, tips, floats or sinks, and the ballast that keeps it."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array

# ours: smooth plastic and steel on a bed nobody prepared, under the printed values for concrete and clean steel
# (NAVFAC DM 7.02, 1986, table 1: steel on gravel 0.40, sand 0.30, silty sand 0.25, silt 0.20). Rock, boulders and
# concrete under water are taken as slimy; weed as mud under it. memory: 0.2 to 0.3 on rock with algae.
_FRICTION = {
    "gravel": 0.45,
    "sand": 0.35,
    "bare rock": 0.4,
    "rock": 0.2,
    "boulders": 0.2,
    "concrete": 0.2,
    "silt": 0.2,
    "mud": 0.2,
    "clay": 0.2,
    "weed": 0.2,
}

SLIDING_SAFETY, TIPPING_SAFETY, FLOTATION_SAFETY = 1.5, 1.5, 1.3
"""Factors on loads [-]. ours: a dry pump follows, and no injury. EM 1110-2-2502 has 1.5 for flood walls that slide, as
restated; 1.3 against floating and 1.5 against tipping are from memory."""

BEARING_SAFETY = 2.0
"""ours: strength of mud over what is asked of it [-]."""

SURFACE_BEARING = 6.2
"""Bearing factor of a small pad on mud [-]: 2 + pi of a long strip, 1.2 times that of a square (memory: Skempton)."""

STRIP_BEARING = 2.0 + np.pi
"""Bearing factor of a leg that lies on mud [-]. Source: a handbook of geotechnical tables, 5.14."""

SNAG_FORCE = 50.0
"""Pull of a fishing line or a small anchor on the line [N]. ours, 50 to 100: more is for a tether to hold."""


def friction_of(bed: str) -> float:
    """Friction of a stand or a line on a bed [-], without any hold of dug-in feet; nan for a bed nobody named.

    >>> friction_of("sand"), friction_of("unknown")
    (0.35, nan)
    """
    return _FRICTION.get(bed, np.nan)


def slope_friction(friction: Array, slope: Array) -> Array:
    """Friction left for a push down a sloping bed.

    Parameters
    ----------
    friction : [-] on a level bed
    slope : [rad] of the bed, 0 or more

    Returns
    -------
    [-], broadcast shape; 0 or less where it slides by itself

    Source: balance along the bed, mu cos - sin.

    >>> round(float(slope_friction(np.array([0.35]), np.array([0.1]))[0]), 3)
    0.248
    """
    return friction * np.cos(slope) - np.sin(slope)


def tipping_arm(reach: Array, legs: Array) -> Array:
    """Shortest distance from the middle of a stand to the line between two neighbouring leg tips.

    Parameters
    ----------
    reach : [m] from the middle to a leg's tip, level
    legs : [-] evenly spread, 3 or more

    Returns
    -------
    [m], broadcast shape

    Source: geometry of a regular polygon, R cos(pi / n).

    >>> [round(float(tipping_arm(np.array([1.0]), np.array([n]))[0]), 3) for n in (3.0, 4.0, 6.0)]
    [0.5, 0.707, 0.866]
    """
    return reach * np.cos(np.pi / legs)


def sliding_need(force: Array, uplift: Array, friction: Array) -> Array:
    """Submerged weight at which a stand just slides.

    Parameters
    ----------
    force : [N] level, largest
    uplift : [N] largest
    friction : [-]

    Returns
    -------
    [N], broadcast shape; infinite where nothing rubs

    Source: USACE EM 1110-2-2100 (2005), equation 3-1, without cohesion; lift counted as a load.

    >>> round(1.5 * float(sliding_need(np.array([9.839]), np.array([6.508]), np.array([0.35]))[0]), 1)
    51.9
    """
    rubs = friction > 0.0
    need = force / np.where(rubs, friction, 1.0) + uplift
    return np.where(rubs | np.isnan(friction), need + 0.0 * friction, np.inf)


def tipping_need(moment: Array, uplift: Array, arm: Array) -> Array:
    """Submerged weight at which a stand just tips.

    Parameters
    ----------
    moment : [N m] of the level forces about the bed, largest
    uplift : [N] largest
    arm : [m] as `tipping_arm`, above 0

    Returns
    -------
    [N], broadcast shape

    Source: balance about the line between two leg tips; lift counted as a load.

    >>> round(1.5 * float(tipping_need(np.array([2.755]), np.array([6.508]), np.array([0.28284]))[0]), 2)
    24.37
    """
    return moment / arm + uplift


def ballast_mass(need: Array, weight: Array, need_gain: Array, kept_share: Array) -> Array:
    """Mass of ballast, in air, that makes the weight equal the need, what waves do to the ballast counted.

    Parameters
    ----------
    need : [N] submerged weight asked without ballast, its factor of safety in it
    weight : [N] submerged weight there is without ballast, less than 0 for what floats
    need_gain : [N/kg] by which each mass of ballast raises the need, its factor of safety in it
    kept_share : [share] of its weight that ballast keeps under water

    Returns
    -------
    [kg], broadcast shape; 0 where none is wanted, infinite where ballast asks for more than it gives

    Source: ours: weight + g kept_share m = need + need_gain m, solved for m. All three needs are linear in the drag,
    moment and lift of the ballast, and these in its length.

    >>> one = np.ones(1)
    >>> round(float(ballast_mass(51.93 * one, 8.752 * one, 0.0 * one, (1 - 1000 / 7850) * one)[0]), 2)
    5.05
    """
    short = need - weight
    each = GRAVITY * kept_share - need_gain
    gives = each > 0.0
    mass = np.where(gives, short / np.where(gives, each, 1.0), np.inf)
    return np.where(np.isnan(short) | np.isnan(each), np.nan, np.where(short <= 0.0, 0.0, mass))


def flotation_ballast(dry_weight: Array, buoyancy: Array, flotation_safety: Array, kept_share: Array) -> Array:
    """Mass of ballast, in air, that keeps down what floats.

    Parameters
    ----------
    dry_weight : [N] in air, of all but the ballast and what floods
    buoyancy : [N] weight of the water that all but the ballast displaces, full of air where it can hold air
    flotation_safety : [ratio] weight in air over water displaced, the ballast in both
    kept_share : [share] of its weight that ballast keeps under water

    Returns
    -------
    [kg], broadcast shape; 0 where none is wanted, infinite where the ballast is too light for that factor

    Source: USACE EM 1110-2-2100 (2005), equation 3-2, solved for the ballast.

    >>> given = [np.array([each]) for each in (30.63, 46.49, 1.3, 1 - 1000 / 7850)]
    >>> round(float(flotation_ballast(*given)[0]), 2)
    3.64
    """
    need_gain = GRAVITY * flotation_safety * (1.0 - kept_share)
    return ballast_mass(flotation_safety * buoyancy, dry_weight, need_gain, np.ones_like(need_gain))


def kept_share(material_density: Array, density: Array) -> Array:
    """Share of its weight that a solid keeps under water.

    Parameters
    ----------
    material_density : [kg/m3]
    density : [kg/m3] of the water

    Returns
    -------
    [share], broadcast shape; less than 0 for what floats

    Source: Archimedes.

    >>> [round(float(kept_share(np.array([rho]), np.array([1000.0]))[0]), 3) for rho in (7850.0, 2300.0, 1400.0)]
    [0.873, 0.565, 0.286]
    """
    return 1.0 - density / material_density


def sinking_depth(
    load: Array, pad_area: Array, strength: Array, strength_gain: Array, mud_weight: Array, firm_depth: Array
) -> Array:
    """How far a pad sinks into mud, until the mud or the firm bed under it holds.

    Parameters
    ----------
    load : [N] on the pad, under water
    pad_area : [m2] above 0
    strength : [Pa] undrained, of the mud at its surface, 0 or more
    strength_gain : [Pa/m] by which it grows with depth, 0 or more
    mud_weight : [N/m3] of the mud under water
    firm_depth : [m] of mud over the firm bed, as far as an oar sinks

    Returns
    -------
    [m], broadcast shape; the whole depth of mud where nothing in it holds

    Source: bearing of a small pad, `SURFACE_BEARING` times the strength where it comes to rest, and the weight of the
    mud it displaces.

    >>> one = np.ones(1)
    >>> round(float(sinking_depth(15.0 * one, 0.01 * one, 200.0 * one, 500.0 * one, 3000.0 * one, 0.5 * one)[0]), 3)
    0.043
    """
    pressed = load / pad_area - SURFACE_BEARING * strength
    growth = SURFACE_BEARING * strength_gain + mud_weight
    deep = np.where(growth > 0.0, pressed / np.where(growth > 0.0, growth, 1.0), np.inf)
    sunk = np.minimum(np.where(pressed <= 0.0, 0.0, deep), firm_depth)
    return np.where(np.isnan(pressed + growth), np.nan, sunk)


def bearing_load(strength: Array, pad_area: Array, bearing_factor: Array) -> Array:
    """Load at which mud gives way under a pad or a leg on its surface.

    Parameters
    ----------
    strength : [Pa] undrained
    pad_area : [m2] that rests on it
    bearing_factor : [-] `SURFACE_BEARING` for pads, `STRIP_BEARING` for legs that lie

    Returns
    -------
    [N], broadcast shape

    Source: a handbook of geotechnical tables, q = Nc s_u.

    >>> round(float(bearing_load(np.array([500.0]), np.array([0.0772]), np.array([STRIP_BEARING]))[0]))
    198
    """
    return bearing_factor * strength * pad_area


def strength_by_rod(push: Array, disc: Array) -> Array:
    """Strength of mud from what it takes to push a disc on a rod into its surface.

    Parameters
    ----------
    push : [N]
    disc : [m] diameter, above 0

    Returns
    -------
    [Pa], broadcast shape

    Source: as `bearing_load`, with `SURFACE_BEARING`.

    >>> round(float(strength_by_rod(np.array([20.0]), np.array([0.05]))[0]))
    1643
    """
    return push / (SURFACE_BEARING * 0.25 * np.pi * disc * disc)


def breakout_force(weight: Array, pad_area: Array, side_area: Array, strength: Array) -> Array:
    """Pull at once that frees a foot held by mud, at most.

    Parameters
    ----------
    weight : [N] submerged
    pad_area : [m2] that rests in the mud
    side_area : [m2] of its sides in the mud
    strength : [Pa] undrained

    Returns
    -------
    [N], broadcast shape

    Source: bearing the other way round, with `SURFACE_BEARING`, and mud on the sides. memory: half the strength sticks.

    >>> round(float(breakout_force(np.zeros(1), np.array([0.0772]), np.zeros(1), np.array([500.0]))[0]))
    239
    """
    return weight + SURFACE_BEARING * strength * pad_area + 0.5 * strength * side_area


def breakout_ratio(pull_time: Array, rest_time: Array) -> Array:
    """Force that frees a foot in a time, over the force it needs with all the time in the world.

    Parameters
    ----------
    pull_time : [s] of pulling
    rest_time : [s] in place

    Returns
    -------
    [-], broadcast shape; nan outside 0.001 to 10 of pulling over resting

    Source: Naval Civil Engineering Laboratory, R-635 (1969), abstract: 1.5 (T/Tm)^-0.07.

    >>> [round(float(breakout_ratio(np.array([t]), np.array([1.0]))[0]), 2) for t in (0.001, 1.0)]
    [2.43, 1.5]
    """
    ratio = pull_time / rest_time
    inside = (ratio >= 1e-3) & (ratio <= 10.0)
    return np.where(inside, 1.5 * np.where(inside, ratio, 1.0) ** -0.07, np.nan)
