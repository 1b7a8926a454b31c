"""How each kind of number is shown."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Kind:
    """How a number is shown: unit and places in each system.

    `fraction` is the denominator of US fractions of a unit, 0 for decimals; `signed` puts a plus before what
    is above; `trimmed` drops noughts behind the point.
    """

    dimension: str
    us_unit: str
    us_places: int
    si_unit: str
    si_places: int
    fraction: int = 0
    signed: bool = False
    trimmed: bool = False


# Places are ours: what can be read off a tape, a gauge or a bill, and no finer.
KINDS: dict[str, Kind] = {
    "depth": Kind("length", "ft", 1, "m", 2),
    "part": Kind("length", "in", 0, "mm", 0, fraction=16),
    "length": Kind("length", "ft", 0, "m", 1),
    "height": Kind("length", "ft", 1, "m", 2, signed=True),
    "elevation": Kind("length", "ft", 0, "m", 0),
    "head": Kind("head", "ft", 1, "m", 2),
    "lift": Kind("length", "ft", 1, "m", 1),
    "bore": Kind("length", "in", 3, "mm", 1),
    "roughness": Kind("length", "in", 5, "mm", 4),
    "area": Kind("area", "ft2", 1, "m2", 2),
    "land": Kind("area", "ac", 1, "ha", 1),
    "screen_area": Kind("area", "in2", 0, "cm2", 0),
    "volume": Kind("volume", "gal", 1, "L", 0),
    "small_volume": Kind("volume", "fl oz", 0, "mL", 0),
    "mass": Kind("mass", "lb", 0, "kg", 1),
    "part_mass": Kind("mass", "lb", 2, "kg", 3),
    "mass_per_length": Kind("mass_per_length", "lb/ft", 2, "kg/m", 2),
    "time": Kind("time", "s", 0, "s", 0),
    "minutes": Kind("time", "min", 1, "min", 1),
    "hours": Kind("time", "h", 1, "h", 1),
    "days": Kind("time", "days", 0, "days", 0),
    "years": Kind("time", "years", 0, "years", 0),
    "speed": Kind("speed", "ft/s", 1, "m/s", 2),
    "face_speed": Kind("speed", "ft/s", 2, "m/s", 3),
    "wind": Kind("speed", "mph", 0, "km/h", 0),
    "flow": Kind("flow", "gpm", 1, "L/s", 2),
    "daily_flow": Kind("flow", "gal/day", 0, "L/day", 0),
    "gauge": Kind("pressure", "psi", 0, "kPa", 0),
    "suction_gauge": Kind("pressure", "psi", 0, "kPa", 0),
    "absolute": Kind("pressure_absolute", "psia", 1, "kPa abs", 1),
    "pressure_difference": Kind("pressure_difference", "psi", 1, "kPa", 1),
    "vacuum": Kind("pressure_difference", "inHg", 1, "kPa", 1),
    "temperature": Kind("temperature", "F", 0, "C", 1),
    "temperature_difference": Kind("temperature_difference", "F", 0, "C", 1),
    "power": Kind("power", "hp", 2, "W", 0),
    "energy": Kind("energy", "kWh", 1, "kWh", 1),
    "yearly_energy": Kind("energy", "kWh", 0, "kWh", 0),
    "degree_days": Kind("degree_days", "F days", 0, "C days", 0),
    "dose": Kind("dose", "mJ/cm2", 0, "mJ/cm2", 0),
    "angle": Kind("angle", "degrees", 0, "degrees", 0),
    "slope": Kind("slope", "in/ft", 2, "%", 1),
    "share": Kind("share", "%", 1, "%", 1, trimmed=True),
    "concentration": Kind("concentration", "mg/L", 2, "mg/L", 2),
    "dose_in_water": Kind("concentration", "mg/L", 0, "mg/L", 0),
    "per_volume": Kind("per_volume", "per 100 mL", 0, "per 100 mL", 0),
    "turbidity": Kind("turbidity", "NTU", 1, "NTU", 1),
    "density": Kind("density", "lb/ft3", 1, "kg/m3", 0),
    "voltage": Kind("voltage", "V", 0, "V", 0),
    "current": Kind("current", "A", 1, "A", 1),
    "resistance_per_length": Kind("resistance_per_length", "ohm/1000 ft", 3, "ohm/km", 3),
    "frequency": Kind("frequency", "Hz", 0, "Hz", 0),
    "starts": Kind("frequency", "per hour", 1, "per hour", 1),
    "rotation": Kind("speed_of_rotation", "rpm", 0, "rpm", 0),
    "strength": Kind("strength", "psi", 0, "kPa", 0),
    "modulus": Kind("strength", "psi", 0, "MPa", 0),
    "force": Kind("force", "lbf", 0, "N", 0),
    "application": Kind("volume_per_time_per_area", "in/day", 2, "mm/day", 1),
    "filter_rate": Kind("volume_per_time_per_area", "gpm/ft2", 1, "m/h", 1),
    "per_length": Kind("per_length", "per ft", 3, "per m", 3),
    "money": Kind("money", "$", 2, "$", 2),
    "money_per_length": Kind("money_per_length", "$/ft", 2, "$/m", 2),
    "money_per_time": Kind("money_per_time", "$/hour", 2, "$/hour", 2),
    "count": Kind("count", "", 2, "", 2, trimmed=True),
}
