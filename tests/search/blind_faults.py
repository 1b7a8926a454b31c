"""What ails the systems of the blind test, how often, and how people say so: written apart from the catalogue."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field

from tests.search.blind_systems import System

# What ails them. A severity of 0 is barely visible, 1 is total.


def between(low: float, high: float, severity: float) -> float:
    """From barely visible to total, by equal ratios."""
    return low * (high / low) ** severity


def kink_loss(opening: float) -> float:
    """Loss coefficient of a sharp narrow place, by another law than the model's. memory: a handbook of resistances."""
    closed = 1.0 - opening
    return (0.707 * closed**0.375 + closed) ** 2 / opening**2


Ail = Callable[[System, float, random.Random], None]


def _screen(system: System, severity: float, rng: random.Random) -> None:
    system.true["faults"]["blocked"] = 1.0 - between(0.18, 0.0018, severity)
    system.true["stand"]["screen_open"] *= rng.uniform(0.85, 1.15)


def _foot_valve_stuck(system: System, severity: float, _rng: random.Random) -> None:
    stand = system.true["stand"]
    # Stuck, and so no longer afloat.
    stand["valve_coefficient"] /= between(0.62, 0.04, severity) ** 2
    stand["valve_lift_factor"] = 0.0


def _foot_valve_leaks(system: System, severity: float, rng: random.Random) -> None:
    system.true["holding"]["at_inlet"] = 0.0
    if system.true["holding"]["at_pump"]:
        system.true["faults"]["airtight"] = rng.uniform(0.0, 0.9 - 0.7 * severity)
    else:
        system.true["holding"]["at_inlet"] = float(severity < 0.6)


def _stand_dragged(system: System, severity: float, rng: random.Random) -> None:
    system.true["faults"]["blocked"] = 1.0 - between(0.11, 0.0018, severity)
    system.true["faults"]["air"] = rng.uniform(0.0, 0.05) * severity


def _lake_lower(system: System, severity: float, _rng: random.Random) -> None:
    system.true["faults"]["level_offset"] = -between(0.35, 3.0, severity)


def _line_kinked(system: System, severity: float, _rng: random.Random) -> None:
    system.true["suction"]["coefficient"] += kink_loss(between(0.5, 0.06, severity))


def _air_pocket(system: System, severity: float, _rng: random.Random) -> None:
    system.true["suction"]["coefficient"] += kink_loss(between(0.6, 0.15, severity))
    system.true["faults"]["air"] = between(0.002, 0.03, severity)


def _line_frozen(system: System, severity: float, _rng: random.Random) -> None:
    system.true["suction"]["coefficient"] += kink_loss(between(0.4, 0.01, severity))


def _air_in(system: System, share: float, rng: random.Random) -> None:
    """Air that comes in above the water: it takes head as well as room, and lets go of the standing gauge."""
    faults = system.true["faults"]
    faults["air"] = min(share, 0.95)
    faults["wear"] = (
        1.0 if share > rng.uniform(0.08, 0.13) else min((share / 0.11) ** 1.2 * rng.uniform(0.35, 0.6), 0.9)
    )
    faults["airtight"] = max(0.0, rng.uniform(0.2, 0.8) - 12.0 * share)


def _plug(system: System, severity: float, rng: random.Random) -> None:
    _air_in(system, between(0.04, 0.9, severity), rng)
    system.true["faults"]["airtight"] = 0.0


def _union(system: System, severity: float, rng: random.Random) -> None:
    _air_in(system, between(0.008, 0.2, severity), rng)


def _worn(system: System, severity: float, _rng: random.Random) -> None:
    system.true["faults"]["wear"] = between(0.1, 0.6, severity)


def _no_head(system: System, _severity: float, _rng: random.Random) -> None:
    system.true["faults"]["wear"] = 1.0


def _backward(system: System, _severity: float, rng: random.Random) -> None:
    system.true["faults"]["wear"] = rng.uniform(0.35, 0.7)


def _voltage(system: System, severity: float, _rng: random.Random) -> None:
    system.true["faults"]["speed"] = 1.0 - between(0.03, 0.28, severity)
    system.beside["current"] = 1.0 + between(0.04, 0.4, severity)


def _nozzle(system: System, severity: float, _rng: random.Random) -> None:
    system.true["faults"]["nozzle"] = between(0.88, 0.08, severity)


def _half_shut(system: System, severity: float, _rng: random.Random) -> None:
    system.true["delivery"]["coefficient"] += kink_loss(between(0.3, 0.02, severity))


def _filter(system: System, severity: float, _rng: random.Random) -> None:
    system.true["delivery"]["filters"] = system.thought["filters"] * between(2.0, 50.0, severity)


def _house_runs(system: System, severity: float, _rng: random.Random) -> None:
    system.beside["drawn"] = between(0.03, 0.7, severity)


def _tank_air(system: System, severity: float, _rng: random.Random) -> None:
    delivery = system.true["delivery"]
    delivery["precharge"] = (delivery["precharge"] + 101325.0) * between(0.85, 0.06, severity) - 101325.0


def _switch(system: System, severity: float, rng: random.Random) -> None:
    delivery, late = system.true["delivery"], between(10e3, 130e3, severity)
    delivery["cut_out"] += late
    delivery["cut_in"] -= late * rng.uniform(0.5, 0.8)


def _nothing(system: System, _severity: float, _rng: random.Random) -> None:
    """All is well."""


# How often the maker lets each happen, and how it says so. Written apart from the catalogue.
Says = dict[str, tuple[float, float]]


@dataclass(frozen=True)
class Kind:
    """A fault of the maker's, how often it comes, and how likely people say each thing, barely and total."""

    ail: Ail
    often: float
    does: Says = field(default_factory=dict)
    minute: Says = field(default_factory=dict)
    changed: Says = field(default_factory=dict)
    needs: str = ""


NOTHING = Kind(_nothing, 1)
AIR_MINUTE: Says = {"swings": (0.35, 0.65), "never": (0.03, 0.5), "slow": (0.15, 0.25)}
KINDS: dict[str, Kind] = {
    "screen dirty": Kind(
        _screen, 9, {}, {"slow": (0.1, 0.25)}, {"storm": (0.3, 0.4), "years": (0.2, 0.25), "low": (0.1, 0.1)},
    ),
    "foot valve stuck": Kind(_foot_valve_stuck, 2.5, {}, {}, {"years": (0.4, 0.4), "spring": (0.15, 0.15)}),
    "foot valve leaks": Kind(
        _foot_valve_leaks, 4, {"again": (0.4, 0.7), "once": (0.15, 0.15)}, {"slow": (0.2, 0.3), "never": (0.05, 0.35)},
        {"years": (0.2, 0.2), "storm": (0.1, 0.1)}, "check",
    ),
    "foot valve weeps": Kind(
        _foot_valve_leaks, 5, {"itself": (0.65, 0.85), "again": (0.05, 0.4)}, {}, {"years": (0.25, 0.25)}, "no check",
    ),
    "stand dragged": Kind(
        _stand_dragged, 1.5, {"spits": (0.1, 0.45), "once": (0.1, 0.25)}, {"swings": (0.15, 0.45)},
        {"storm": (0.75, 0.8)},
    ),
    "lake lower": Kind(_lake_lower, 5, {}, {}, {"low": (0.65, 0.8)}),
    "line kinked": Kind(
        _line_kinked, 2.5, {"starves": (0.05, 0.2)}, {},
        {"line": (0.45, 0.5), "storm": (0.1, 0.1), "spring": (0.15, 0.15)},
    ),
    "hose lining": Kind(
        _line_kinked, 2, {"starves": (0.6, 0.9)}, {"lets go": (0.6, 0.85)}, {"years": (0.3, 0.3)}, "hose",
    ),
    "air pocket": Kind(
        _air_pocket, 1.5, {"spits": (0.4, 0.65), "once": (0.15, 0.35)}, {"slow": (0.4, 0.6), "swings": (0.3, 0.5)},
        {"line": (0.4, 0.4), "spring": (0.3, 0.3)},
    ),
    "line frozen": Kind(_line_frozen, 1.5, {}, {"never": (0.05, 0.45)}, {"frost": (0.85, 0.9)}, "ice"),
    "plug out": Kind(
        _plug, 2, {"once": (0.5, 0.6), "spits": (0.25, 0.2)}, {"never": (0.3, 0.9), "swings": (0.4, 0.1)},
        {"spring": (0.6, 0.6), "pump": (0.35, 0.35)},
    ),
    "union ring": Kind(
        _union, 3, {"again": (0.2, 0.5), "once": (0.3, 0.3), "spits": (0.4, 0.5)}, AIR_MINUTE,
        {"spring": (0.5, 0.5), "pump": (0.3, 0.3)},
    ),
    "clamp draws air": Kind(
        _union, 3, {"again": (0.3, 0.6), "once": (0.2, 0.2), "spits": (0.4, 0.5)}, AIR_MINUTE,
        {"frost": (0.15, 0.15), "line": (0.25, 0.25), "years": (0.2, 0.2)},
    ),
    "pump worn": Kind(_worn, 4, {}, {"slow": (0.15, 0.35)}, {"years": (0.5, 0.55)}),
    "impeller loose": Kind(_no_head, 0.7, {}, {"never": (0.8, 0.8)}, {"years": (0.2, 0.2), "pump": (0.2, 0.2)}),
    "runs backward": Kind(_backward, 0.7, {}, {"slow": (0.3, 0.3)}, {"electric": (0.85, 0.85)}, "no jet"),
    "voltage low": Kind(_voltage, 1, {}, {"hums": (0.3, 0.75), "slow": (0.1, 0.3)}, {"electric": (0.75, 0.75)}),
    "nozzle plugged": Kind(
        _nozzle, 5, {}, {"slow": (0.2, 0.35)},
        {"years": (0.3, 0.3), "spring": (0.15, 0.15), "storm": (0.1, 0.1)}, "jet",
    ),
    "check backward": Kind(_no_head, 0.5, {}, {"never": (0.85, 0.85)}, {"pump": (0.9, 0.9)}, "check"),
    "delivery half shut": Kind(
        _half_shut, 2, {}, {"chatters": (0.05, 0.25)}, {"filter": (0.45, 0.45), "frost": (0.1, 0.1)},
    ),
    "filter not changed": Kind(
        _filter, 5, {}, {}, {"years": (0.35, 0.4), "filter": (0.1, 0.1), "storm": (0.15, 0.15)}, "filters",
    ),
    "house runs": Kind(_house_runs, 3.5, {"itself": (0.65, 0.8), "no stop": (0.05, 0.65)}, {}, {}),
    "tank short of air": Kind(
        _tank_air, 4, {"quick": (0.25, 0.9)}, {"chatters": (0.05, 0.5)}, {"tank": (0.35, 0.35), "years": (0.2, 0.2)},
    ),
    "switch nipple silted": Kind(
        _switch, 2, {"no stop": (0.1, 0.45), "no start": (0.05, 0.35)}, {"chatters": (0.15, 0.1)},
        {"tank": (0.15, 0.15), "years": (0.25, 0.25)},
    ),
}  # fmt: skip

DOES = {
    "again": "loses prime again and again", "once": "lost prime once", "itself": "starts by itself",
    "starves": "runs, then starves", "spits": "spits air", "quick": "starts and stops quickly",
    "no stop": "does not stop", "no start": "does not start", "weak": "weaker than it was", "none": "no water",
}  # fmt: skip
MINUTE = {
    "slow": "pressure climbs slowly", "never": "it never catches", "swings": "the needle swings all the time",
    "lets go": "it runs ten seconds, then starves", "chatters": "the switch chatters", "hums": "the motor hums",
}  # fmt: skip
CHANGED = {
    "storm": "a storm last week", "years": "nobody has touched it in years", "low": "the lake is down",
    "spring": "opened the cabin", "pump": "had the pump apart", "line": "a new piece of pipe in the line",
    "electric": "an electrician was here", "frost": "a cold snap", "filter": "changed the filter",
    "tank": "pumped up the tank",
}  # fmt: skip
STRAY = {"does": 0.015, "minute": 0.03, "changed": 0.04}
"""ours: how often people say one thing or another that has nothing to do with it; one visit in two has some."""


def says(rng: random.Random, likely: Says, every: dict[str, str], severity: float, stray: float) -> list[str]:
    """Which things people say."""
    chances = dict.fromkeys(every, stray) | {k: a + (b - a) * severity for k, (a, b) in likely.items()}
    return [key for key in every if rng.random() < chances.get(key, 0.0)]
