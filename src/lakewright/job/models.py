"""The whole job file as one model. The engine, the forms, the schema and the reference read it here.

Fields are named as in the file: `[site.levels] low` is `job.site.levels.low`. A table that is left out is
there with every field at its default, so that no reader has to ask first; a field left out is None.
"""

from __future__ import annotations

from lakewright.job.models_line import Delivery, Holding, Pump, Stand, Suction
from lakewright.job.models_need import About, Access, Have, Need
from lakewright.job.models_shop import Override, Price, Protection, Reading, Supply, Treatment
from lakewright.job.models_site import Site
from lakewright.job.table import Table, Text, rows, table, tables


class Job(Table):
    """One job: what is asked, and the site."""

    job: About = table(About, "Whose job this is, and how to write it.")
    site: Site = table(Site, "The place, as it was found.")
    have: dict[Text, Have] = tables("What is there already, each under a name of your own.")
    need: Need = table(Need, "What is asked of the supply.")
    stand: Stand = table(Stand, "What stands on the bed and holds the inlet up.")
    suction: Suction = table(Suction, "The line from the inlet to the pump.")
    pump: Pump = table(Pump, "The pump, and where it goes.")
    delivery: Delivery = table(Delivery, "From the pump to the tank and the taps.")
    holding: Holding = table(Holding, "What keeps the water from running back.")
    protection: Protection = table(Protection, "What keeps the pump from harm.")
    treatment: Treatment = table(Treatment, "What is done to the water.")
    power: Supply = table(Supply, "Where the power comes from.")
    access: Access = table(Access, "How people and parts get there.")
    readings: list[Reading] = rows("What was read at each visit.")
    price: Price = table(Price, "How the job is priced.")
    limits: dict[Text, Override] = tables("Limits of checks changed for this job, each by its name.")
