"""The kinds of small part, and the figures each is known by beside its size and its loss."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

FIGURES: Mapping[str, str] = MappingProxyType(
    {
        "ampacity_60": "current",  # with insulation and terminals for 60, 75 and 90 C
        "ampacity_75": "current",
        "ampacity_90": "current",
        "area": "area",
        "breaking": "force",
        "buoyancy": "force",
        "capacity": "flow",  # at the set pressure and the rise its mark allows
        "counts": "share",  # of the filling time of a contact tank
        "current": "current",
        "cut_in": "pressure",
        "cut_out": "pressure",
        "dose": "dose",
        "flow": "flow",  # let through whatever the pressure
        "high_drop": "pressure_difference",  # at high_flow, clean
        "high_flow": "flow",
        "holds": "volume",  # of water
        "lamp_life": "time",
        "least_diameter": "length",
        "least_drop": "pressure_difference",  # to hold its flow
        "low_drop": "pressure_difference",  # at low_flow, clean
        "low_flow": "flow",
        "most_diameter": "length",
        "most_pressure": "pressure",
        "most_vacuum": "pressure_difference",  # below the air
        "open_area": "area",
        "opening": "length",
        "opening_pressure": "pressure_difference",
        "particle": "length",
        "power": "power",
        "rated_flow": "flow",
        "reactance": "resistance_per_length",
        "resistance": "resistance_per_length",
        "set_pressure": "pressure",
        "start_pressure": "pressure",
        "thickness": "length",
        "transmittance": "share",  # of ultraviolet, through 1 cm of water
        "trips_below": "pressure",
        "voltage": "voltage",
        "volume": "volume",  # of its material
        "width": "length",  # as it is seen from the side
    }
)
"""Every figure a part may carry, and its dimension."""

KINDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        # threaded, and the same shapes with other mouths
        "nipple": (),
        "blind nipple": (),
        "reducing nipple": (),
        "elbow": (),
        "elbow 45": (),
        "tee": (),
        "cross": (),
        "cap": (),
        "plug": (),
        "coupling": (),
        "reducing coupling": (),
        "bushing": (),
        "union": (),
        "priming tee": (),
        "priming plug": (),
        # from a family of pipe to a thread
        "male adapter": (),
        "female adapter": (),
        "stiffener": (),
        "clamp": ("least_diameter", "most_diameter"),
        "O-ring": (),
        # valves
        "ball valve": (),
        "gate valve": (),
        "spring check": ("opening_pressure",),
        "swing check": ("opening_pressure",),
        "relief valve": ("set_pressure", "capacity"),
        "flow control": ("flow", "least_drop"),
        "drain": (),
        "hose bib": (),
        "sample tap": (),
        "strainer": ("opening", "open_area"),
        # gauges and what turns the pump on and off
        "compound gauge": ("most_vacuum", "most_pressure"),
        "pressure gauge": ("most_pressure",),
        "pressure switch": ("cut_in", "cut_out", "power"),
        "low-pressure cut-off": ("cut_in", "cut_out", "trips_below", "power"),
        "pressure-flow controller": ("start_pressure", "power", "voltage"),
        "variable-speed controller": ("start_pressure", "power", "voltage"),
        "pump protector": ("power", "voltage"),
        "float switch": ("power", "voltage"),
        "cable": ("resistance", "reactance", "ampacity_60", "ampacity_75", "ampacity_90"),
        # treatment
        "sediment filter": ("particle", "low_flow", "low_drop", "high_flow", "high_drop"),
        "absolute filter": ("particle", "low_flow", "low_drop", "high_flow", "high_drop"),
        "filter cartridge": ("particle",),
        "chlorine feeder": ("rated_flow", "power"),
        "contact tank": ("holds", "counts"),
        "storage tank": ("holds",),
        "ultraviolet": ("rated_flow", "dose", "transmittance", "power", "lamp_life"),
        "ultraviolet lamp": ("lamp_life",),
        # on the bed and over it
        "mud pad": ("area", "thickness"),
        "ballast": ("volume", "width"),
        "strap": (),
        "stake": ("thickness",),
        "bracket": (),
        "stilling pipe": (),
        "haul rope": ("breaking", "thickness"),
        "float": ("buoyancy",),
        # what is used up
        "thread tape": (),
        "thread paste": (),
        "solvent cement": (),
    }
)
"""Each kind, and the figures it cannot do without."""
