"""Whether the water is to be drunk, what it is like at its worst, and what is done to it, as facts."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lakewright.job.models import Job
from lakewright.job.models_shop import TreatmentStep
from lakewright.job.quantity import is_given
from lakewright.physics.disinfection import HAIR, MILLIGRAM, MOST_PH, MOST_RESIDUAL
from lakewright.physics.filter import filter_coefficients
from lakewright.physics.types import Array
from lakewright.state.demand import Demand
from lakewright.state.gather import Assumed, Gather, one
from lakewright.state.train import usual_train
from lakewright.state.treatment_parts import steps_of
from lakewright.state.water_tables import baffling, barriers
from lakewright.stock.load import Stock
from lakewright.stock.rows import Part


@dataclass(frozen=True, eq=False, repr=False)
class DrinkingFacts:
    """What stands between the lake and a glass. Neutral where nobody drinks it, or where a barrier is not there."""

    wanted: Array  # 1 where people are to drink it, else 0
    herd: Array  # 1 where animals drink it, else 0
    answer: Array  # of the authority: 2 yes, 1 asked, 0 not asked, -1 no
    public: Array  # 1 where renters, a camp or a second house use it, else 0
    people: Array  # whom it serves
    bloom: Array  # 1 where algae have bloomed here, else 0
    turbidity: Array  # NTU, of the raw water
    transmittance: Array  # share of 254 nm light through 10 mm, at its worst
    flow: Array  # m3/s, the most that passes the treatment
    held: Array  # 1 where a valve before the treatment holds that flow, 0 where it is what the taps are thought to ask
    filter_flow: Array  # m3/s, the least that a step beside the lamp is made for; infinite without one
    filter_giardia: Array  # log reduction by all filters
    filter_cryptosporidium: Array
    filter_virus: Array
    prefilter: Array  # m, size of particle that the finest filter before the lamp holds back; infinite without one
    lamp: Array  # 1 with a lamp, else 0
    lamp_dose: Array  # J/m2, validated
    lamp_flow: Array  # m3/s, up to which it gives that dose
    lamp_transmittance: Array  # share, down to which it gives that dose
    chlorine: Array  # 1 with chlorine, else 0
    residual: Array  # kg/m3 of free chlorine, at the first tap
    contact_volume: Array  # m3
    baffling: Array  # share of its filling time that counts
    ph: Array
    coldest: Array  # K, water in which chlorine works; infinite where that is the day's own
    viscous: Array  # Pa s/m3, of all filters clean, at 20 C
    turbulent: Array  # Pa s2/m6
    dirt: Array  # kg, that the filters together hold; infinite where nobody has told
    per_day: Array  # m3/s, water used


ANSWERS = {"answered yes": 2.0, "asked": 1.0, "not asked": 0.0, "answered no": -1.0}

ASK = "nobody has asked the authority whether this water may be drunk: not for drinking until it has answered"

MOST_BY_FILTERS = 2.5
"""Log reduction that filters in series count for together. Source: 40 CFR 141.719(a), cartridges."""

DAY = 86_400.0


@dataclass(frozen=True, slots=True)
class Stage:
    """One step of the treatment: what it is, what the job says of it, and its row in stock."""

    what: str
    told: TreatmentStep | None
    row: Part | None

    @property
    def finest(self) -> float:
        """Size of particle it holds back [m]; nan where nobody knows, infinite where it is no such filter."""
        if self.told is not None and self.told.rating is not None:
            return self.told.rating.value
        if self.row is not None and "particle" in self.row.figures:
            return self.row.figures["particle"]
        return math.nan if self.what in ("sediment filter", "absolute filter") else math.inf

    @property
    def most(self) -> float:
        """Flow it is made for [m3/s]; nan where nobody knows."""
        if self.told is not None and self.told.flow is not None:
            return self.told.flow.value
        figures = {} if self.row is None else self.row.figures
        return figures.get("rated_flow", figures.get("high_flow", math.nan if "holds" not in figures else math.inf))


def stages_of(job: Job, stock: Stock, flow: float) -> tuple[Stage, ...]:
    """The steps of the treatment in the order the water passes, a quote's usual rows among them."""
    told: list[TreatmentStep | None] = [*job.treatment.steps, None]
    return tuple(
        Stage(step.what, told[min(number, len(told) - 1)], stock.parts.get(step.stock or ""))
        for number, step in enumerate(steps_of(job, stock, flow))
    )


def drinking_facts(job: Job, stock: Stock, demand: Demand, filtered: float, gather: Gather) -> DrinkingFacts:
    """All of it.

    Parameters
    ----------
    demand : of the job
    filtered : [m3/s] the most that the taps are thought to draw through the treatment at once
    """
    wanted = _wanted(job, gather)
    herd = bool(job.need.stock) or any("stock" in branch.uses for branch in demand.branches)
    held = job.treatment.flow_control
    flow = filtered or (demand.flow if wanted else 0.0)
    if is_given(held):
        flow = gather.number("drinking.flow", held, "[treatment] flow_control", kind="flow")
    stages = stages_of(job, stock, demand.flow)
    asked = wanted != 0.0 and not math.isnan(wanted)
    values = {
        "wanted": wanted,
        "herd": float(herd),
        "flow": flow,
        "held": float(is_given(held)),
        **_drinkers(job, asked, asked or herd, gather),
        **_clearness(job, stages, asked, gather),
        **(_barriers(job, stock, stages, flow, gather) if asked else NO_BARRIER),
        **_losses(job, stages, demand.flow, gather),
        "per_day": demand.per_day / DAY,
    }
    if math.isnan(flow):
        gather.lack("drinking.flow", "[need] flow is not given")
    if math.isnan(demand.per_day):
        gather.lack("drinking.per_day", "[need] per_day is not given, nor people")
    return DrinkingFacts(**{name: one(value) for name, value in values.items()})


NO_BARRIER = {
    "filter_flow": math.inf,
    "filter_giardia": 0.0,
    "filter_cryptosporidium": 0.0,
    "filter_virus": 0.0,
    "prefilter": math.inf,
    "lamp": 0.0,
    "lamp_dose": 0.0,
    "lamp_flow": 0.0,
    "lamp_transmittance": 1.0,
    "chlorine": 0.0,
    "residual": 0.0,
    "contact_volume": 0.0,
    "baffling": 0.0,
    "ph": 7.0,
    "coldest": math.inf,
}
"""What is there where no barrier is."""


def _wanted(job: Job, gather: Gather) -> float:
    """Whether people are to drink it: where a home says nothing, a quote takes it that they are not."""
    said, need = job.need.drinking, job.need
    if said in ("yes", "no"):
        return float(said == "yes")
    if not (need.baths or need.kitchens or need.fixtures or need.people or job.treatment.steps):
        return 0.0
    place = "[need] drinking"
    if gather.grade != "quote":
        return gather.lack("drinking.wanted", f"{place} is not given")
    why = "not for drinking, until somebody says that it is to be drunk"
    gather.assumed["need.drinking"] = Assumed("need.drinking", math.nan, "", "assumed", why, "no", place)
    return 0.0


def _drinkers(job: Job, asked: bool, drunk: bool, gather: Gather) -> dict[str, float]:
    """Who drinks it and who says that they may; neutral where nobody does."""
    clarity, need = job.site.clarity, job.need
    found = {"answer": 2.0, "public": 0.0, "people": 0.0, "bloom": 0.0}
    if drunk:
        found["bloom"] = _yes(
            gather,
            "bloom",
            clarity.bloom,
            "[site.clarity] bloom",
            "none heard of; ask the neighbours and the authority",
        )
    if not asked:
        return found
    found["answer"] = _answer(job, gather)
    found["public"] = _yes(gather, "public", need.public, "[need] public", "one household uses it")
    found["people"] = gather.number("drinking.people", need.people, "[need] people")
    return found


def _has_chlorine(job: Job, stages: tuple[Stage, ...]) -> bool:
    given = job.treatment.chlorine
    return any(stage.what == "chlorine" for stage in stages) or bool(given.residual or given.volume)


def _clearness(job: Job, stages: tuple[Stage, ...], asked: bool, gather: Gather) -> dict[str, float]:
    """How clear the raw water is; neutral where no lamp, no chlorine and no filter's life depends on it."""
    clarity, found = job.site.clarity, {"turbidity": 0.0, "transmittance": 1.0}
    has_lamp = asked and any(stage.what == "UV" for stage in stages)
    told_dirt = any(step.dirt is not None for step in job.treatment.steps)
    if has_lamp or told_dirt or (asked and _has_chlorine(job, stages)):
        murky = " of a stream or pond" if job.site.kind in ("stream", "pond") else ""
        place, default = "[site.clarity] turbidity", f"drinking.turbidity{murky}"
        found["turbidity"] = gather.number("drinking.turbidity", clarity.turbidity, place, default)
    if has_lamp:
        place = "[site.clarity] uv_transmittance"
        found["transmittance"] = gather.number("drinking.transmittance", clarity.uv_transmittance, place)
    return found


def _yes(gather: Gather, fact: str, said: str | None, place: str, usual: str) -> float:
    """A yes or a no; in a quote no, where nobody says."""
    if said in ("yes", "no"):
        return float(said == "yes")
    if gather.grade != "quote":
        return gather.lack(f"drinking.{fact}", f"{place} is not given")
    key = place.replace("[", "").replace("] ", ".")
    gather.assumed[key] = Assumed(key, math.nan, "", "assumed", usual, "no", place)
    return 0.0


def _answer(job: Job, gather: Gather) -> float:
    """What the authority has said. In a build it must at least have been asked."""
    said = job.site.rules.drinking
    if said in (None, "not asked") and gather.grade != "quote":
        return gather.lack("drinking.answer", f"[site.rules] drinking: {ASK}")
    return ANSWERS[said or "not asked"]


def _barriers(job: Job, stock: Stock, stages: tuple[Stage, ...], flow: float, gather: Gather) -> dict[str, float]:
    """What each barrier that is there is made for."""
    found = dict(NO_BARRIER)
    if not stages:
        why = f"[[treatment.steps]] is not given: put in, in order, {usual_train(job, stock, flow)}"
        for fact in ("filter_giardia", "filter_cryptosporidium", "filter_virus"):
            found[fact] = gather.lack(f"drinking.{fact}", why)
        return found
    found |= _filters(stages, gather)
    if any(stage.what == "UV" for stage in stages):
        found |= _lamp(job, stages, gather)
    if _has_chlorine(job, stages):
        found |= _chlorine(job, stages, gather)
    return found


def _filters(stages: tuple[Stage, ...], gather: Gather) -> dict[str, float]:
    """Log reductions by all filters, and the least flow that one of them is made for."""
    found = dict.fromkeys(("filter_giardia", "filter_cryptosporidium", "filter_virus"), 0.0)
    least = math.inf
    for stage in stages:
        row = barriers().get(stage.what)
        if stage.what != "UV":
            least = min(least, _made_for(stage, gather))
        if row is None or (row.giardia, row.cryptosporidium, row.virus) == (0.0, 0.0, 0.0):
            continue
        counts = stage.finest <= row.finest * (1.0 + HAIR)
        for name in ("giardia", "cryptosporidium", "virus"):
            fact, log = f"filter_{name}", getattr(row, name)
            if math.isnan(stage.finest):
                found[fact] = gather.lack(
                    f"drinking.{fact}", f"[[treatment.steps]] rating of {stage.what} is not given"
                )
            elif counts:
                found[fact] += log
    return {"filter_flow": least, **{name: float(np.minimum(log, MOST_BY_FILTERS)) for name, log in found.items()}}


def _made_for(stage: Stage, gather: Gather) -> float:
    """Flow a step is made for [m3/s]: where a quote names no part, one that serves is bought."""
    if not math.isnan(stage.most) or gather.grade == "quote":
        return math.inf if math.isnan(stage.most) else stage.most
    if stage.what == "contact tank":
        return math.inf
    return gather.lack("drinking.filter_flow", f"[[treatment.steps]] flow of {stage.what} is not given")


def _lamp(job: Job, stages: tuple[Stage, ...], gather: Gather) -> dict[str, float]:
    """The lamp's own rating, and what stands before it."""
    at = next(number for number, stage in enumerate(stages) if stage.what == "UV")
    given, stage = job.treatment.uv, stages[at]
    figures = {} if stage.row is None else stage.row.figures
    found = {"lamp": 1.0, "prefilter": _prefilter(stages[:at], gather)}
    told = {"dose": given.dose, "flow": given.flow or (stage.told.flow if stage.told else None)}
    told["transmittance"] = given.transmittance
    for name, figure in (("dose", "dose"), ("flow", "rated_flow"), ("transmittance", "transmittance")):
        quantity, fact = told[name], f"lamp_{name}"
        if quantity is None and figure in figures:
            found[fact] = figures[figure]
        else:
            found[fact] = gather.number(f"drinking.{fact}", quantity, f"[treatment.uv] {name}")
    return found


def _prefilter(before: tuple[Stage, ...], gather: Gather) -> float:
    sizes = [stage.finest for stage in before]
    known = [size for size in sizes if math.isfinite(size)]
    if not known and any(math.isnan(size) for size in sizes):
        return gather.lack(
            "drinking.prefilter", "[[treatment.steps]] rating of the filter before the lamp is not given"
        )
    return min(known, default=math.inf)


def _chlorine(job: Job, stages: tuple[Stage, ...], gather: Gather) -> dict[str, float]:
    """Residual, room and time for chlorine. Its tables end at pH 9 and at 3 mg/L, and so does this."""
    given = job.treatment.chlorine
    tanks = [figures for stage in stages if stage.row is not None and "holds" in (figures := stage.row.figures)]
    holds = math.fsum(figures["holds"] for figures in tanks)
    place = "[treatment.chlorine]"
    if given.volume is None and tanks:
        volume, share = holds, math.fsum(figures["holds"] * figures["counts"] for figures in tanks) / holds
    else:
        volume = gather.number("drinking.contact_volume", given.volume, f"{place} volume", kind="volume")
        share = math.nan
    if given.baffling is not None:
        share = gather.number("drinking.baffling", given.baffling, f"{place} baffling")
    elif given.tank is not None:
        share = baffling()[given.tank]
    elif math.isnan(share):
        share = gather.default("drinking.baffling", f"{place} tank", "drinking.baffling")
    residual = gather.number("drinking.residual", given.residual, f"{place} residual")
    if residual > MOST_RESIDUAL * MILLIGRAM * (1.0 + HAIR):
        residual = gather.lack("drinking.residual", f"{place} residual: the table of contact times ends at 3 mg/L")
    ph = gather.number("drinking.ph", given.ph, f"{place} ph")
    if ph > MOST_PH * (1.0 + HAIR):
        ph = gather.lack("drinking.ph", f"{place} ph: the table of contact times ends at pH 9")
    return {
        "chlorine": 1.0,
        "residual": residual,
        "contact_volume": volume,
        "baffling": share,
        "ph": ph,
        "coldest": math.inf if given.temperature is None else given.temperature.value,
    }


def _losses(job: Job, stages: tuple[Stage, ...], need: float, gather: Gather) -> dict[str, float]:
    """What the clean filters lose, and the dirt they hold; a loss told at the need counts as viscous (ours)."""
    steps = job.treatment.steps
    told = [q.value for q in (job.delivery.filters_clean, *(step.loss_clean for step in steps)) if q is not None]
    rows = [stage.row.figures for stage in stages if stage.row is not None and "low_drop" in stage.row.figures]
    dirt = [step.dirt.value for step in steps if step.dirt is not None]
    # ours: filters of a train share the solids evenly, so the smallest is full first.
    found = {"viscous": 0.0, "turbulent": 0.0, "dirt": len(dirt) * min(dirt) if dirt else math.inf}
    if told:
        whole = job.delivery.filters_clean.value if is_given(job.delivery.filters_clean) else math.fsum(told)
        found["viscous"] = whole / need if need > 0.0 else math.nan
    else:
        for figures in rows:
            names = ("low_flow", "low_drop", "high_flow", "high_drop")
            viscous, turbulent = filter_coefficients(*(one(figures[name]) for name in names))
            found["viscous"] += float(viscous[0])
            found["turbulent"] += float(turbulent[0])
    if math.isnan(found["viscous"]):
        gather.lack("drinking.viscous", "[delivery] filters_clean is not given, or [need] flow")
    return found
