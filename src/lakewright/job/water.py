"""The record of a water, kept once and shared by jobs, and what one still lacks.

Each fact is written plainly, or as a table that says who said so and when:

    elevation = "1340 ft"
    low       = { value = "-2.5 ft", told = 2026-05-03, said_by = "the neighbour" }
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any

from lakewright.job.fact import Fact
from lakewright.job.fields import shapes
from lakewright.job.mistakes import place_of
from lakewright.job.models_site import BedKind, Drinking, ScreenRule, WaterKind
from lakewright.job.quantity import (
    DegreeDays,
    Depth,
    Elevation,
    Height,
    Length,
    Number,
    Part,
    Share,
    Speed,
    Temperature,
    Turbidity,
)
from lakewright.job.table import (
    HowMuch,
    Month,
    Rule,
    Table,
    Text,
    YesNoUnknown,
    field,
    is_said,
    names_differ,
    required,
    rows,
    table,
)

SEEN_ON_A_DAY = ("level", "water", "ice", "current")  # the rest of a day is chosen, and needs nobody's word


class Levels(Table):
    """Levels by season, as heights from the usual summer level, which is 0."""

    usual: Fact[Text] | None = field("What the usual summer level is read on: a gauge, a pin in the rock.")
    low: Fact[Height] | None = field("The lowest level of an ordinary year.")
    low_months: Fact[tuple[Month, ...]] | None = field("The months in which it is that low.")
    flood: Fact[Height] | None = field("The highest level of a flood.")
    flood_months: Fact[tuple[Month, ...]] | None = field("The months in which floods come.")
    lowest_seen: Fact[Height] | None = field("The lowest level anyone remembers.")
    drawdown: Fact[Length] | None = field("How far under the usual level the water is drawn down in winter.")
    drawdown_months: Fact[tuple[Month, ...]] | None = field("The months in which it is drawn down.")


class Ice(Table):
    """The winter."""

    thickness: Fact[Part] | None = field("Thickest ice seen.")
    freezing_index: Fact[DegreeDays] | None = field("Freezing degree-days of a cold winter.")


class Clarity(Table):
    """How clear the water is."""

    secchi: Fact[Depth] | None = field("Depth at which a white disk fades from sight.")
    turbidity: Fact[Turbidity] | None = field("Turbidity of a sample.")
    colour: Fact[Number] | None = field("Colour of a sample, in true colour units.")
    uv_transmittance: Fact[Share] | None = field("Light of 254 nm that passes 10 mm of the water, at its worst.")
    bloom: Fact[YesNoUnknown] | None = field("Whether algae ever bloom here.")
    bloom_months: Fact[tuple[Month, ...]] | None = field("The months in which they do.")


class Rules(Table):
    """What the authorities ask, and what they answered."""

    region: Fact[Text] | None = field("State, province or country.")
    screen: Fact[ScreenRule] | None = field("The rule a screen here is judged by.")
    permit: Fact[Text] | None = field("Permits needed, and from whom.")
    work_window: Fact[Text] | None = field("When work in the water is allowed.")
    call: Fact[Text] | None = field("Whom to call.")
    drinking: Fact[Drinking] | None = field(
        "Whether the authority was asked if this water may be drunk, and its answer."
    )
    answer: Fact[Text] | None = field("What it answered, in its own words.")


class WaterDay(Table):
    """A named condition in which everything belongs together, as `[[site.days]]` of a job."""

    name: Annotated[Text, Rule(is_said)] = required("What to call the day: July weekend, February under ice.")
    months: Fact[tuple[Month, ...]] | None = field("The months in which such days come.")
    level: Fact[Height] | None = field("Water level that day, from the usual level.")
    water: Fact[Temperature] | None = field("Temperature of the water.")
    ice: Fact[Part] | None = field("Thickness of the ice.")
    dirt: Fact[Share] | None = field("How much of a screen is blocked, and how far filters are used up.")
    demand: Fact[Share] | None = field("Flow wanted that day as a share of the need.")
    current: Fact[Speed] | None = field("Speed of the stream.")


class Water(Table):
    """One's own record of a lake, stream or reservoir."""

    name: Annotated[Text, Rule(is_said)] = required("What the water is called; jobs refer to it by this.")
    kind: Fact[WaterKind] | None = field("What kind of water it is.")
    position: Fact[Text] | None = field("Where it is, as one would tell a stranger.")
    elevation: Fact[Elevation] | None = field("Height of the water above the sea.")
    dam: Fact[YesNoUnknown] | None = field("Whether a dam sets the level.")
    controlled_by: Fact[Text] | None = field("Who controls the level.")
    reach: Fact[Text] | None = field("How to reach them.")
    bed: Fact[BedKind] | None = field("What the bottom mostly is.")
    weed: Fact[HowMuch] | None = field("Weed in this water.")
    mussels: Fact[HowMuch] | None = field("Mussels in this water.")
    note: Fact[Text] | None = field("Anything else worth keeping.")
    levels: Levels = table(Levels, "Levels by season.")
    ice: Ice = table(Ice, "The winter.")
    clarity: Clarity = table(Clarity, "How clear the water is.")
    rules: Rules = table(Rules, "Rules and permits.")
    days: Annotated[list[WaterDay], Rule(names_differ)] = rows("Named days; a job that has none takes these.")


# What is still to be asked.


def facts_in(water: Water) -> Iterator[tuple[str, Fact[Any]]]:
    """Every fact the record has, with its place as messages name it."""
    for name in shapes(Water):
        held = getattr(water, name)
        rows_of = [((name, n), row) for n, row in enumerate(held)] if isinstance(held, list) else [((name,), held)]
        for path, row in rows_of:
            inner = {(*path, key): getattr(row, key) for key in shapes(type(row))} if isinstance(row, Table) else {}
            for place, fact in (inner or {path: row}).items():
                if isinstance(fact, Fact):
                    yield place_of(place, Water), fact


def known(fact: Fact[Any] | None) -> bool:
    """Whether a fact is there and says something."""
    return fact is not None and fact.value not in ("unknown", "not asked", ())


def lacks(water: Water) -> tuple[str, ...]:
    """What one's record of a water should have and has not, in words, in the order of asking."""
    levels, clarity, rules = water.levels, water.clarity, water.rules
    dammed = water.dam is not None and water.dam.value == "yes"
    blooms = clarity.bloom is None or clarity.bloom.value != "no"
    asked: list[tuple[str, bool]] = [
        ("what kind of water it is", known(water.kind)),
        ("where it is", known(water.position)),
        ("how high it lies above the sea", known(water.elevation)),
        ("whether a dam sets its level", known(water.dam)),
        ("who controls its level", not dammed or known(water.controlled_by)),
        ("how to reach whoever controls it", not dammed or known(water.reach)),
        ("what its usual level is read on", known(levels.usual)),
        ("how low it falls in an ordinary year", known(levels.low)),
        ("in which months it is low", known(levels.low_months)),
        ("how high it floods", known(levels.flood)),
        ("in which months it floods", known(levels.flood_months)),
        ("the lowest it was ever seen", known(levels.lowest_seen)),
        ("how far it is drawn down in winter", not dammed or known(levels.drawdown)),
        ("in which months it is drawn down", not dammed or known(levels.drawdown_months)),
        ("how thick its ice grows", known(water.ice.thickness)),
        ("how clear it is", any(map(known, (clarity.secchi, clarity.turbidity, clarity.uv_transmittance)))),
        ("what its bed is", known(water.bed)),
        ("whether it has mussels", known(water.mussels)),
        ("how much weed it has", known(water.weed)),
        ("in which months algae bloom, if ever", not blooms or known(clarity.bloom_months)),
        ("which screen rule is in force", known(rules.screen)),
        ("which permit is needed", known(rules.permit)),
        ("when work in the water is allowed", known(rules.work_window)),
        ("whom to call", known(rules.call)),
        ("what the authority says about drinking it", known(rules.drinking)),
        ("its days", bool(water.days)),
    ]
    return tuple(words for words, there in asked if not there)


def unsigned(water: Water) -> tuple[str, ...]:
    """The facts that lack a date or a name behind them, and which of the two."""
    found = []
    for place, fact in facts_in(water):
        if place.startswith("[[days]]") and place.rpartition(" ")[2] not in SEEN_ON_A_DAY:
            continue
        missing = [word for word, there in (("who said so", fact.said_by), ("when", fact.since)) if not there]
        if missing:
            found.append(f"{place}: {' and '.join(missing)}")
    return tuple(found)
