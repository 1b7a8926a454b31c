"""The options a job leaves open. An option is the job with its choice written in: its facts are found as any job's."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from lakewright import units
from lakewright.checks.placing import stand_is_outside_breakers
from lakewright.checks.verdict import FAILS
from lakewright.errors import JobError, Mistake
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity, value_of
from lakewright.physics.curve import Curve
from lakewright.physics.jet import JetTable
from lakewright.physics.types import Array
from lakewright.search.joining import delivery_joins_tank, line_joins_pump, pump_joins_delivery
from lakewright.search.option import Option, named_option, quantity, said, stocked_option
from lakewright.search.parts import Pair, Part, Problem, PumpOption
from lakewright.search.prices import LINES, Prices, prices_of
from lakewright.search.stand_options import stand_options
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.cases import cases_of
from lakewright.state.facts import PICKED_TABLES, Facts, every_fact
from lakewright.state.gather import OPEN, defaults
from lakewright.state.placing import placing
from lakewright.state.profile import bed_profile, ground_profile, height_along, path_length
from lakewright.state.weather import weather_of
from lakewright.stock.load import Stock
from lakewright.stock.rows import Jet, Pipe, Pump

SHARE_OF_PROFILE = 0.02
"""ours: a place is tried at every break of a profile and every fiftieth of its length."""

SHALLOWEST = 0.3
"""ours: no stand is tried in less water than this [m]; the shortest riser would stand out of it."""

LEAST_RATING = units.read("159 psi", "pressure")
"""common practice, no source: pipe rated 160 psi or better; a pound less for the rounding of tables."""


def problem_of(job: Job, stock: Stock, assembly: Assembly) -> Problem:
    """The parts of a job in the order water flows, with every option the stock and the site have for what is open.

    Raises
    ------
    JobError where nothing in stock will do for an open part
    """
    options = options_of(job, stock, assembly)
    first = job
    for some in options.values():
        first = said(first, some[0].says)
    built = facts_of(first, stock, weighted=False)
    made = {name: _made(some, first, stock, built) for name, some in options.items()}
    made["spot"] = _outside_the_breakers(made["spot"])
    prices = prices_of(first, stock, built, {line: made[line][0].option.per_length for line in LINES})
    parts = tuple(_part(name, some, prices) for name, some in made.items())
    refuse_the_entangled(parts)
    call_back = job.price.call_back.value if job.price.call_back else defaults()["price.call_back"].value
    return Problem(
        facts=built.facts,
        missing={name: assembly.missing.get(name, why) for name, why in built.missing.items()},
        parts=parts,
        pumps=tuple(_pump_options([each.assembly.facts for each in made["pump"]])),
        pairs=tuple(_pairs(stock, {name: [each.option for each in some] for name, some in made.items()})),
        price=prices.without_lines,
        call_back=call_back,
    )


def closed(job: Job, options: Mapping[str, Sequence[Option]]) -> Job:
    """The job with the first option of every part it leaves open: something to look at before anything is chosen."""
    for some in options.values():
        job = said(job, some[0].says)
    return job


def options_of(job: Job, stock: Stock, assembly: Assembly) -> dict[str, list[Option]]:
    """The options of every part, in the order water flows; one where the job leaves no choice.

    Raises
    ------
    JobError where nothing in stock will do for an open part
    """
    named, facts = assembly.parts, assembly.facts
    options = {
        "spot": _spots(job),
        **stand_options(job, stock, named.get("[stand.inlet] stock", ""), named.get("[stand.inlet] screen", "")),
        "line": _pipes("suction", job, stock, named.get("[suction] stock", "")),
        "pump place": _places(job, facts),
        "pump": _pumps(job, stock),
        "flow control": _flow_controls(job, stock),
        "delivery": _pipes("delivery", job, stock, named.get("[delivery] stock", "")),
        "tank": _tanks(job, stock, named.get("[delivery] tank", "")),
    }
    _refuse_the_empty(options)
    return options


def _refuse_the_empty(options: Mapping[str, Sequence[Option]]) -> None:
    wanted = "an option to choose from"
    remedy = "give it, or add to the stock or the site what could be chosen"
    empty = [Mistake("", 0, name, '"open"', wanted, remedy) for name, some in options.items() if not some]
    if empty:
        raise JobError(empty)


def refuse_the_entangled(parts: Sequence[Part]) -> None:
    """A design's facts are put together part by part: no fact may hang on two of them."""
    for number, part in enumerate(parts):
        for other in parts[:number]:
            for name in sorted(set(part.columns) & set(other.columns)):
                found = f"{other.name} and {part.name} open, and {name} follows from both"
                raise JobError([Mistake("", 0, part.name, found, "one of the two given", "give one of them")])


@dataclass(frozen=True)
class Made:
    """An option written in the job, and what the job then comes to."""

    option: Option
    assembly: Assembly
    job: Job


def _made(options: Sequence[Option], job: Job, stock: Stock, first: Assembly) -> list[Made]:
    """Each option in the job; what makes no sense there is no option."""
    made, refused = [], None
    for option in options:
        written = said(job, option.says)
        try:
            built = first if len(options) == 1 else facts_of(written, stock, weighted=False)
            made.append(Made(option, built, written))
        except JobError as error:
            refused = error
    if refused is not None and not made:
        raise refused
    return made


def _changing(some: Sequence[Facts]) -> list[str]:
    """The names of the facts in which some differ; of tables that no check of all designs reads, none."""
    names = (name for name in every_fact() if name.partition(".")[0] not in PICKED_TABLES)
    return [name for name in names if any(not _same(one.value(name), some[0].value(name)) for one in some)]


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, Curve | JetTable):
        return all(_same(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    return bool(one.tobytes() == other.tobytes())


def _part(name: str, made: Sequence[Made], prices: Prices) -> Part:
    some = [each.assembly.facts for each in made]
    changing = _changing(some) if name != "pump" else []
    return Part(
        name=name,
        labels=tuple(each.option.label for each in made),
        says=tuple(each.option.says for each in made),
        columns={fact: np.stack([facts.value(fact) for facts in some]) for fact in changing},
        price=np.array([_price(name, each, prices) if len(made) > 1 else 0.0 for each in made]),
        price_per_length=np.array([each.option.per_length for each in made], dtype=float),
        line=LINES.get(name, ""),
    )


def _price(name: str, made: Made, prices: Prices) -> float:
    return prices.change(name, made.option.per_length, made.job, made.assembly)


def _pump_options(some: Sequence[Facts]) -> Iterable[PumpOption]:
    """Pumps, each with every fact in which any two pumps differ, so that those of one kind make a batch."""
    changing = _changing(some)
    return (PumpOption(one.pump_kind, {name: one.value(name) for name in changing}) for one in some)


def _pairs(stock: Stock, options: Mapping[str, Sequence[Option]]) -> Iterable[Pair]:
    """Pairs that do not join, where one of the two is ours to choose.

    common practice, no source: the suction line is never under the pump's port. ours: nor is a foot valve under the
    line where we choose it; one that the job names costs head, and that the flow feels.
    """
    size = {name: np.array([option.size for option in some]) for name, some in options.items()}
    if len(options["line"]) > 1 or len(options["pump"]) > 1:
        wide = ~(size["line"][:, None] < size["pump"])
        yield Pair("line", "pump", wide & line_joins_pump(stock, options["line"], options["pump"]))
    for one, other, joining in (
        ("pump", "delivery", pump_joins_delivery),
        ("delivery", "tank", delivery_joins_tank),
    ):
        if len(options[one]) > 1 or len(options[other]) > 1:
            joins = joining(stock, options[one], options[other])
            if not joins.all():
                yield Pair(one, other, joins)
    holds = "foot valve" if "foot valve" in options else "stand"
    if len(options[holds]) > 1 and (holds == "foot valve" or len(np.unique(size[holds])) > 1):
        yield Pair(holds, "line", ~(size[holds][:, None] < size["line"]))


def _stations(distances: Sequence[float]) -> Array:
    """Distances to try along a profile: its breaks, and even steps between its ends."""
    steps = round(1.0 / SHARE_OF_PROFILE)
    even = np.linspace(distances[0], distances[-1], steps + 1)
    return np.unique(np.concatenate([np.round(even, 6), np.round(np.array(distances), 6)]))


def _from_edge(job: Job, at: float) -> str:
    return f"{units.show(at, 'length', job.job.units)} from the edge"


def stations(job: Job) -> list[tuple[float, float]]:
    """Distances out and depths [m] at which a stand may be tried: breaks of the bed and even steps, deep enough."""
    profile = bed_profile(job)
    if not profile[0]:
        return []
    at = _stations(profile[0])
    places = zip(at.tolist(), height_along(*profile, at).tolist(), strict=True)
    return [(x, depth) for x, depth in places if depth >= SHALLOWEST]


def _outside_the_breakers(spots: list[Made]) -> list[Made]:
    """The spots outside the breakers, which no other part moves; all of them where none is."""
    if len(spots) == 1:
        return spots
    kept = []
    for spot in spots:
        facts = spot.assembly.facts
        cases = cases_of(len(facts.day_names))
        place = placing(facts, weather_of(facts, cases), cases)
        if int(stand_is_outside_breakers(place, facts.limits).status[()]) != FAILS:
            kept.append(spot)
    return kept or spots


def _spots(job: Job) -> list[Option]:
    if job.stand.at is None or not job.stand.at.open or not job.site.soundings:
        return [Option("as given")]
    return [Option(spot_name(job, x, depth), {"stand.at": quantity(x)}) for x, depth in stations(job)]


def spot_name(job: Job, at: float, depth: float) -> str:
    """A place in the water by its distance and depth."""
    return f"{_from_edge(job, at)} in {units.show(depth, 'depth', job.job.units)} of water"


def _pipes(table: str, job: Job, stock: Stock, name: str) -> list[Option]:
    """Pipes for the suction or the delivery line.

    A quote's usual suction pipe goes by its length: while stand or pump have no place, it is chosen with them.
    """
    line = getattr(job, table)
    follows = table == "suction" and line.stock is None and line.bore is None and job.job.grade == "quote"
    if line.stock != OPEN and not (follows and _is_length_open(job)):
        return [named_option(name, stock.pipes)]
    hauled = table == "suction" and job.need.season == "hauled"
    return [stocked_option(row, {f"{table}.stock": row.name}) for row in stock.pipes.values() if _is_laid(row, hauled)]


def _is_length_open(job: Job) -> bool:
    return any(q is not None and q.open for q in (job.stand.at, job.pump.distance, job.pump.height))


def _is_laid(pipe: Pipe, hauled: bool) -> bool:
    """Whether a pipe is tried.

    common practice, no source: polyethylene where the line stays, reinforced hose where it is hauled out each year.
    """
    if hauled:
        return "hose" in pipe.family and pipe.vacuum_rating > 0.0
    return ("polyethylene" in pipe.family or pipe.family == "HDPE") and pipe.rating >= LEAST_RATING


def _places(job: Job, facts: Facts) -> list[Option]:
    """Where the pump may stand. While its place is open, [delivery] length is counted from the water's edge."""
    pump, ground = job.pump, ground_profile(job)
    is_open = any(q is not None and q.open for q in (pump.distance, pump.height))
    if not is_open or not (pump.places or ground[0]):
        return [Option("as given")]
    if pump.places:
        at = np.array([p.distance.value for p in pump.places])
        heights = [p.height for p in pump.places]
        labels = [p.name for p in pump.places]
    else:
        at = _stations(ground[0])
        heights = [_on_the_word_of(job.site.ground, "height", y) for y in height_along(*ground, at).tolist()]
        labels = [_from_edge(job, x) for x in at]
    rest = facts.delivery.length - (path_length(*ground, at) if ground[0] else at)
    return [
        Option(
            f"{label} at {units.show(height.value, 'height', job.job.units)}",
            {
                "pump.distance": quantity(float(x)),
                "pump.height": height,
                "delivery.length": _on_the_word_of([job.delivery], "length", float(left)),
            },
        )
        for label, x, height, left in zip(labels, at, heights, rest, strict=True)
        if left > 0.0
    ]


def _on_the_word_of(rows: Sequence[Any], name: str, value: float) -> Quantity:
    """A number that follows from what was said in some rows: on the word that all of them were said on."""
    given: list[Quantity | None] = [getattr(row, name) for row in rows]
    standings = {each.standing if each is not None else "" for each in given}
    return replace(quantity(value), standing=standings.pop() if len(standings) == 1 else "")


def _pumps(job: Job, stock: Stock) -> list[Option]:
    rows: dict[str, Pump | Jet] = {}
    if job.pump.stock != OPEN:
        return [named_option(job.pump.stock or "", {**stock.pumps, **stock.jets})]
    if job.pump.kind != "jet":
        rows |= stock.pumps
    if job.pump.kind != "centrifugal":
        rows |= stock.jets
    return [stocked_option(row, {"pump.stock": row.name}) for row in rows.values()]


def _flow_controls(job: Job, stock: Stock) -> list[Option]:
    """No flow control valve, or one of those in stock."""
    given = job.delivery.flow_control
    if given is None or not given.open:
        return [Option("none" if given is None else "as given")]
    return [
        Option("none", {"delivery.flow_control": None}),
        *(
            stocked_option(part, {"delivery.flow_control": quantity(part.figures["flow"])})
            for part in stock.parts_of("flow control")
        ),
    ]


def _tanks(job: Job, stock: Stock, name: str) -> list[Option]:
    """Tanks that bear the cut-out pressure."""
    if job.delivery.tank != OPEN:
        return [named_option(name, stock.tanks)]
    cut_out = value_of(job.delivery.cut_out)
    return [
        stocked_option(row, {"delivery.tank": row.name})
        for row in stock.tanks.values()
        if not row.max_pressure < cut_out
    ]
