"""Who asks, what is there already, what is needed, and how one gets there."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from lakewright.job.quantity import Flow, Gauge, Height, Hours, Land, Length, Number, Part, Volume, Years
from lakewright.job.table import (
    Count,
    Rule,
    Table,
    Text,
    YesNoUnknown,
    counts,
    field,
    names_differ,
    otherwise,
    required,
    rows,
    table,
)


class About(Table):
    """Whose job this is, and how to write it."""

    title: Text | None = field("What to call the job.")
    customer: Text | None = field("Whose job it is.")
    units: Literal["US", "SI"] = otherwise("US", "The units the papers are written in.")
    date: datetime.date | None = field("The date on the papers.")
    grade: Literal["quote", "build"] = otherwise("quote", "A quote fills gaps and says so; a build may have none.")
    wanted: Text | None = field("When the water is wanted.")
    note: Text | None = field("Anything worth keeping.")
    prepared_by: Text | None = field("Who made the job.")


class Have(Table):
    """Something that is there already."""

    what: Text | None = field("What it is, in words.")
    part: Text | None = field("The part of the system it belongs to: stand, line, pump, tank.")
    stock: Text | None = field("Its name in the stock, if it is there.")
    size: Text | None = field("Its size, as marked.")
    age: Years | None = field("How old it is.")
    condition: Literal["good", "worn", "unknown"] | None = field("How it looks.")
    keep: bool | None = field("Whether it stays.")
    seen: bool | None = field("Whether anyone has looked at it.")
    note: Text | None = field("What else is known of it.")
    symptom: Text | None = field("What it is doing, or not doing.")


class Irrigation(Table):
    """Watering of land."""

    area: Land | None = field("How much land is watered.")
    depth_per_week: Part | None = field("Depth of water given in a week.")
    hours: Hours | None = field("How long the pump may run in a day for it.")
    method: Literal["sprinkler", "drip", "flood", "hand", "unknown"] | None = field("How it is given.")


class Branch(Table):
    """One pipe that leaves the tank: raw before the treatment, treated after it."""

    name: Text = required("What to call the branch: house, lawn, dock, trough.")
    water: Literal["raw", "treated"] | None = field("Whether its water passes the treatment.")
    flow: Flow | None = field("Flow wanted at its end.")
    pressure: Gauge | None = field("Pressure wanted at its end.")
    height: Height | None = field("Height of its highest tap above the usual water level.")
    distance: Length | None = field("Length of its pipe.")
    pipe: Text | None = field("Name of its pipe in the stock.")
    with_others: bool | None = field("Whether it runs while the others do.")


class Need(Table):
    """What is asked of the supply."""

    people: Number | None = field("People when the house is full.")
    baths: Count | None = field("Bathrooms.")
    kitchens: Count | None = field("Kitchens.")
    fixtures: dict[Text, Count] = counts("Other fixtures by name, and how many of each.")
    flow: Flow | None = field("Flow wanted from the pump.")
    pressure: Gauge | None = field("Pressure wanted at the highest tap.")
    per_day: Volume | None = field("Water wanted in a day.")
    drinking: YesNoUnknown | None = field("Whether anyone will drink it.")
    public: YesNoUnknown | None = field("Whether renters, a camp or a second house use it.")
    season: Literal["year-round", "hauled", "drained"] | None = field("What becomes of the line in winter.")
    close_by: datetime.date | None = field("When the line is hauled or drained in autumn; the year does not count.")
    open_from: datetime.date | None = field("When it is started in spring; the year does not count.")
    winter_by: Text | None = field("Who hauls or drains the line in autumn and starts it in spring.")
    stock: dict[Text, Count] = counts("Animals by name, and how many of each.")
    irrigation: Irrigation = table(Irrigation, "Watering of land.")
    branches: Annotated[list[Branch], Rule(names_differ)] = rows("Pipes that leave the tank.")
    fire: Flow | None = field("Flow wanted to fight a fire.")
    hose: YesNoUnknown | None = field("Whether a hose runs while people wash.")


class Access(Table):
    """How people and parts get there."""

    by: Literal["road", "boat", "steps", "carry"] | None = field("The hardest way on the route.")
    carry: Length | None = field("How far parts are carried by hand.")
    steps: Count | None = field("Steps down to the water.")
    machine: YesNoUnknown | None = field("Whether a machine gets to the shore.")
    digger: YesNoUnknown | None = field("Whether a digger gets to the trench.")
    work_by: Literal["shop", "owner", "both", "unknown"] | None = field("Who does the work.")
    own_boat: YesNoUnknown | None = field("Whether the customer has a boat for the work, so that none is hired.")
    own_digger: YesNoUnknown | None = field("Whether the customer has a digger for the work, so that none is hired.")
    crew: Count | None = field("People there to do the work.")
    window: Text | None = field("When work in the water is allowed.")
