"""The facts that a flow rests on, for the checks that rest on one. A test blanks every fact and holds these to it."""

from __future__ import annotations

LEVEL = ("days.level", "faults.level_offset")

INLET_HEIGHT = ("stand.depth", "stand.frame", "stand.riser", "stand.inlet_rise", "stand.sink")

VALVE = (
    "days.temperature",
    "stand.valve_coefficient",
    "stand.valve_lift_factor",
    "stand.opening_pressure",
    "faults.valve_opening",
)

CLEAN_LINE = (
    *LEVEL,
    *VALVE,
    "stand.riser",
    "stand.riser_bore",
    "stand.screen_area",
    "stand.screen_structure",
    "stand.screen_open",
    "suction.bed_length",
    "suction.bank_length",
    "suction.along",
    "suction.bore",
    "suction.roughness",
    "suction.coefficient",
    "delivery.bore",
    "delivery.length",
    "delivery.roughness",
    "delivery.coefficient",
    "delivery.height",
    "delivery.cut_in",
    "delivery.flow_control",
    "faults.line_opening",
    "faults.delivery_opening",
    "faults.blocked",
    "faults.air",
    "faults.wear",
    "faults.speed",
)

FLOW_AT_CUT_IN = (*CLEAN_LINE, "days.dirt", "suction.roughness_fouled", "delivery.roughness_fouled")

FLOW = (*FLOW_AT_CUT_IN, "delivery.cut_out")

FILLING = (
    *CLEAN_LINE,
    "delivery.cut_out",
    "delivery.precharge",
    "delivery.tank_volume",
    "site.elevation",
    "pump.minimum_run",
)

AIR = ("site.elevation", "site.weather")

PUMPED_BY = {
    "centrifugal": ("pump.curve",),
    "jet": (*AIR, "pump.height", "pump.jet", "faults.nozzle"),
}
"""What the flow rests on besides, by kind of pump: a jet's table is read at its lift in thin air."""

LINE_TOP = {"jet": ("ejector.below",)}
"""What the height of the suction line's upper end rests on beside the pump's: a jet's ejector may hang below it."""

PUMPED_UP_BY = {kind: (*facts, *LINE_TOP.get(kind, ())) for kind, facts in PUMPED_BY.items()}
"""What a flow up to there rests on besides."""


SHAPE = tuple(
    f"members.{name}" for name in ("x0", "y0", "z0", "x1", "y1", "z1", "section", "hollow", "material_density")
)
"""What a stand weighs by."""

PUSHED = (*SHAPE, *(f"members.{name}" for name in ("width", "drag", "inertia", "axial_inertia", "on_bed")))
"""What water pushes a stand by."""

WAVES = (
    *LEVEL,
    "days.ice",
    "weather.wind",
    "weather.averaging",
    "weather.fetch",
    "weather.fetch_depth",
    "weather.wake",
)

LOADS = (
    *PUSHED,
    *WAVES,
    "days.temperature",
    "days.current",
    "weather.least_current",
    "stand.depth",
    "stand.on_legs",
    "site.bed_roughness",
)

AT_ITS_FEET = ("members.width", "members.on_bed", "site.grain")
"""What scour digs at."""

LINE_WEIGHT = (
    "days.temperature",
    *(f"suction.{name}" for name in ("outside", "bore", "material_density")),
    *(f"suction.weight_{name}" for name in ("mass", "density", "spacing")),
)


def unique(*needs: tuple[str, ...]) -> tuple[str, ...]:
    """All of them, each once.

    >>> unique(("a", "b"), ("b", "c"))
    ('a', 'b', 'c')
    """
    return tuple(dict.fromkeys(need for some in needs for need in some))
