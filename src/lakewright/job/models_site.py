"""The site: the water, its levels and days, the bed, the weather, the rules."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from lakewright.job.quantity import (
    Angle,
    Days,
    DegreeDays,
    Depth,
    Elevation,
    Height,
    Length,
    Minutes,
    Number,
    Part,
    Share,
    Speed,
    Temperature,
    Turbidity,
    WindSpeed,
)
from lakewright.job.table import (
    Count,
    HowMuch,
    Month,
    Rule,
    Table,
    Text,
    YesNoUnknown,
    distances_rise,
    field,
    names_differ,
    required,
    rows,
    some_of_it_is_open,
    table,
)

BedKind = Literal["rock", "boulders", "gravel", "sand", "silt", "mud", "clay", "weed", "concrete", "unknown"]
WaterKind = Literal["lake", "stream", "pond", "tank", "reservoir"]
ScreenRule = Literal[
    "federal passive", "federal active", "through-screen half foot", "canada trout", "canada eel",
    "alaska", "california", "none",
]  # fmt: skip
Drinking = Literal["not asked", "asked", "answered yes", "answered no"]


class Bearing(Table):
    """A line of sight from the stand to a mark on shore."""

    mark: Text = required("What is sighted: the corner of a boathouse, a chimney.")
    bearing: Angle = required("Compass bearing from the stand to the mark, clockwise from north.")


class Position(Table):
    """Where the stand is, so that it can be found again."""

    coordinates: Text | None = field("Latitude and longitude, or another grid, as one would read them out.")
    bearings: list[Bearing] = rows("Bearings from the stand to two or more marks on shore.")
    line_bearing: Angle | None = field("Compass bearing of the line of soundings, out from the shore.")
    note: Text | None = field("Lot lines, neighbours' lines, the septic field, a swimming area.")


class MonthLevel(Table):
    """The level that a dam holds in some months."""

    months: list[Month] = required("The months, by name.")
    level: Height = required("The lowest level held in them, from the usual level.")


class Levels(Table):
    """Water levels, as heights from the usual summer level, which is 0."""

    low: Height | None = field("The lowest water the supply must work at.")
    flood: Height | None = field("The highest water the pump must stay above.")
    waves: Length | None = field("How far waves run up the bank above still water.")
    today: Height | None = field("The level on the day of the visit.")
    ice_drop: Length | None = field("How far the water falls under its ice in a winter.")
    lowest_seen: Height | None = field("The lowest level anyone remembers.")
    record: Text | None = field("A file of dates and levels, beside the job file.")
    record_zero: Elevation | None = field("What that record reads at the usual summer level.")
    schedule: list[MonthLevel] = rows("Levels that a dam holds, by month.")
    who: Text | None = field("Who controls the level, and how to reach them.")


class Sounding(Table):
    """One depth along a line out from the water's edge."""

    distance: Length = required("How far out from the water's edge.")
    depth: Depth = required("Depth of water there, below the usual level.")
    bed: BedKind | None = field("What the bottom is there.")


class Ground(Table):
    """One height of the ground along a line up from the water's edge."""

    distance: Length = required("How far up from the water's edge, measured level.")
    height: Height = required("Height of the ground there above the usual water level.")


class Day(Table):
    """A named condition in which everything belongs together."""

    name: Text = required("What to call the day: July weekend, February under ice.")
    months: list[Month] = rows("The months in which such days come.")
    level: Height | None = field("Water level that day, from the usual level.")
    water: Temperature | None = field("Temperature of the water at the inlet.")
    ice: Part | None = field("Thickness of the ice.")
    dirt: Annotated[Share | None, Rule(some_of_it_is_open)] = field("How much of the screen is blocked.")
    demand: Share | None = field("Flow wanted that day as a share of the need.")
    current: Speed | None = field("Speed of the stream past the stand.")
    by: Text | None = field("Who says so.")


class Bed(Table):
    """The bottom where the stand goes."""

    kind: BedKind | None = field("What the bottom is.")
    soft: Part | None = field("How far an oar sinks when it is pushed in.")


class Wind(Table):
    """What raises waves at the site."""

    fetch: Length | None = field("Open water toward the wind.")
    from_bearing: Angle | None = field("Compass bearing the worst wind blows from.")
    speed: WindSpeed | None = field("Speed of the design wind.")
    averaging: Minutes | None = field("How long that speed was averaged over: 3 s for a gust, 1 hour for a mean.")
    depth: Depth | None = field("Mean depth along the fetch.")


class Ice(Table):
    """The winter."""

    thickness: Part | None = field("Thickest ice seen.")
    freezing_index: DegreeDays | None = field("Freezing degree-days of a cold winter.")
    shove: YesNoUnknown | None = field("Whether ice piles up on this shore.")


class Frost(Table):
    """Hard frosts, 28 F or -2 C, at the nearest weather station. Of each date the year does not count."""

    first: datetime.date | None = field("Mean date of the first hard frost of autumn.")
    last: datetime.date | None = field("Mean date of the last hard frost of spring.")
    spread: Days | None = field("Standard deviation of those dates from year to year; 0 for dates of one year in ten.")
    years: Count | None = field("Years in the station's record.")
    station: Text | None = field("The station, and how far from the site it is.")


class Clarity(Table):
    """How clear the water is."""

    secchi: Depth | None = field("Depth at which a white disk fades from sight.")
    turbidity: Turbidity | None = field("Turbidity of a sample.")
    colour: Number | None = field("Colour of a sample, in true colour units.")
    uv_transmittance: Share | None = field("Light of 254 nm that passes 10 mm of the water, at its worst.")
    bloom: YesNoUnknown | None = field("Whether algae ever bloom here.")
    bloom_months: list[Month] = rows("The months in which they do.")


class Rules(Table):
    """What the authorities ask, and what was asked of them."""

    region: Text | None = field("State, province or country.")
    screen: ScreenRule | None = field("The rule the screen is judged by.")
    drinking: Drinking | None = field("Whether the authority was asked if this water may be drunk, and its answer.")
    asked: datetime.date | None = field("When it was asked.")
    answer: Text | None = field("What it answered, in its own words.")
    permit: Text | None = field("Permits needed, asked for or held.")
    call: Text | None = field("Whom to call.")


class Site(Table):
    """The place, as it was found."""

    water: Text | None = field("Name of the water.")
    kind: WaterKind | None = field("What kind of water it is.")
    position: Position = table(Position, "Where the stand is.")
    elevation: Elevation | None = field("Height of the water above the sea.")
    dam: YesNoUnknown | None = field("Whether a dam sets the level.")
    dam_drawdown: Length | None = field("How far the dam draws the water down in winter.")
    boats: HowMuch | None = field("Boats passing over the intake.")
    weed: HowMuch | None = field("Weed at the intake.")
    mussels: HowMuch | None = field("Mussels in this water.")
    levels: Levels = table(Levels, "Water levels.")
    soundings: Annotated[list[Sounding], Rule(distances_rise)] = rows("Depths out from the water's edge.")
    soundings_file: Text | None = field("A file of distances and depths, or a boat's track, beside the job file.")
    ground: Annotated[list[Ground], Rule(distances_rise)] = rows("Heights of the ground up from the water's edge.")
    days: Annotated[list[Day], Rule(names_differ)] = rows("Named days; without any, the usual ones are taken.")
    bed: Bed = table(Bed, "The bottom.")
    wind: Wind = table(Wind, "Wind over the water.")
    ice: Ice = table(Ice, "Ice on the water.")
    frost: Frost = table(Frost, "Hard frosts.")
    clarity: Clarity = table(Clarity, "How clear the water is.")
    current: Speed | None = field("Speed of a stream at the stand.")
    frost_depth: Length | None = field("How deep the ground freezes.")
    rules: Rules = table(Rules, "Rules and permits.")
