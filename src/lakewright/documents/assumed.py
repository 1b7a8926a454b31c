"""What is assumed about a job: on the quote what its customer can confirm, on the working all of it."""

from __future__ import annotations

from lakewright.documents.said import Sayer, Words
from lakewright.state.gather import Assumed

CONFIRMED = frozenset((
    *("need.flow", "need.people", "need.public", "need.drinking", "drinking.people"),
    *("stand.at", "stand.depth", "suction.bed_length", "suction.bank_length", "delivery.length", "delivery.height"),
    *("pump.height", "the highest tap over the tank's tee", "site.low", "site.flood", "site.bed_friction"),
    *("site.clarity.bloom", "drinking.turbidity", "drinking.transmittance", "placing.disc_depth", "days.current"),
    *("days.ice", "season.frost_depth", "season.trench_depth", "weather.fetch", "site.screen_velocity"),
    *("delivery.cut_in", "delivery.cut_out", "control.start", "control.holds", "power.voltage", "power.length"),
    *("works.digger_length", "works.set_from_boat", "price.tax_on"),
))  # fmt: skip
"""ours: what a customer can look at, say or ask for, or what moves price or promise; the working has all."""

OF_THE_SHOP = ("price.markup",)
"""ours: what a shop adds to its costs stands on no paper that a customer may hold."""


def assumed_of(say: Sayer) -> dict[str, Assumed]:
    """All that is assumed of a job and of its price, each by its place."""
    sources = [source for source in ("report.assumed", "report.priced.quote.assumed") if say.has(source)]
    return {
        f"{source}.{n}": each
        for source in sources
        for n, each in enumerate(say.value(source))
        if each.key not in OF_THE_SHOP
    }


def is_confirmed(taken: Assumed) -> bool:
    """Whether a customer is asked to confirm what is assumed: his to say, and more than that nothing is there."""
    return taken.key in CONFIRMED and not taken.from_record and taken.value != 0.0


def assumed_figure(say: Sayer, place: str) -> Words:
    """How much is assumed at a place, or which."""
    taken: Assumed = say.value(place)
    return say(f"{place}.text") if taken.text else say(f"{place}.value", taken.kind)
