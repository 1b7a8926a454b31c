"""The parts of the drawing one may take in hand, and the fields of the job file behind each."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Part:
    """A part of the drawing.

    name : the anchor it stands at; title : as the page heads it; why : what one changes it for
    places : the anchors of findings that belong to it; keys : its fields in the job file
    lists : its lists of tables in the job file, which are edited in a leaf of their own
    """

    name: str
    title: str
    why: str
    places: tuple[str, ...]
    keys: tuple[str, ...]
    lists: tuple[str, ...] = ()


PARTS: tuple[Part, ...] = (
    Part(
        "water",
        "The water",
        "its levels rule how far the pump must lift",
        ("water", "ice", "shore", "site"),
        ("site.kind", "site.dam", "site.levels.low", "site.levels.flood", "site.levels.waves", "site.elevation",
         "site.rules.screen"),
        ("site.days", "site.levels.schedule"),
    ),
    Part(
        "inlet",
        "The stand",
        "lifts the inlet off the bed, and keeps water over it",
        ("inlet", "screen", "riser", "stand", "bed"),
        ("stand.form", "stand.at", "stand.riser", "stand.legs", "stand.inlet.stock", "stand.inlet.attitude",
         "stand.inlet.screen", "site.bed.kind", "site.bed.soft"),
        ("site.soundings",),
    ),
    Part(
        "suction line",
        "The suction line",
        "the wider and the shorter, the less of the lift it takes",
        ("suction line", "line", "weights"),
        ("suction.stock", "suction.length", "suction.along", "suction.joints_above_water", "suction.buried_from"),
        ("suction.route",),
    ),
    Part(
        "pump",
        "The pump",
        "lower down the bank lifts less; above the flood stays dry",
        ("pump", "pump inlet", "window", "pump house"),
        ("pump.stock", "pump.distance", "pump.height", "holding.arrangement"),
        ("pump.places", "pump.curve"),
    ),
    Part(
        "delivery line",
        "The delivery line",
        "what it takes is lost to the taps",
        ("delivery line", "delivery", "flow control"),
        ("delivery.stock", "delivery.length", "delivery.height", "delivery.flow_control"),
        ("site.ground",),
    ),
    Part(
        "tank",
        "Tank and switch",
        "the larger the tank, the longer each run",
        ("tank", "switch", "gauge", "relief"),
        ("delivery.tank", "delivery.cut_in", "delivery.cut_out", "delivery.precharge", "delivery.relief",
         "delivery.control"),
    ),
    Part(
        "treatment",
        "The treatment",
        "what is done to the water before anybody drinks it",
        ("treatment", "filters"),
        ("treatment.flow_control", "treatment.uv.dose", "treatment.uv.flow", "treatment.uv.transmittance",
         "treatment.chlorine.residual", "treatment.chlorine.volume", "treatment.chlorine.tank", "treatment.chlorine.ph",
         "site.clarity.turbidity", "site.clarity.uv_transmittance"),
        ("treatment.steps",),
    ),
    Part(
        "tap",
        "What is asked",
        "who draws how much, and at what pressure",
        ("tap", "branch"),
        ("need.flow", "need.baths", "need.people", "need.drinking", "need.public", "site.rules.drinking",
         "need.season", "delivery.tap_height", "delivery.filters_clean", "delivery.filters_dirty"),
        ("need.branches",),
    ),
)  # fmt: skip


def part_named(name: str) -> Part:
    """The part of that name, or the one a finding's place belongs to; the stand for any other."""
    return next((part for part in PARTS if name == part.name or name in part.places), PARTS[1])
