"""The options a job leaves open. An option is the job with its choice written in: its facts are found as any job's."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields
from typing import Any

import numpy as np

from lakewright import units
from lakewright.checks.placing import stand_is_outside_breakers
from lakewright.checks.verdict import FAILS
from lakewright.errors import JobError, Mistake
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity, value_of
from lakewright.job.table import Table
from lakewright.physics.curve import Curve
from lakewright.physics.jet import JetTable
from lakewright.physics.types import Array
from lakewright.search.parts import Pair, Part, Problem, PumpOption
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.cases import cases_of
from lakewright.state.facts import Facts, every_fact
from lakewright.state.gather import OPEN, defaults
from lakewright.state.placing import placing
from lakewright.state.profile import bed_profile, ground_profile, height_along, path_length
from lakewright.state.weather import weather_of
from lakewright.stock.load import Stock
from lakewright.stock.rows import FootValve, Jet, Pipe, Pump, Screen, Tank
from lakewright.stock.rows import Part as SmallPart
from lakewright.stock.table import NOMINAL

SHARE_OF_PROFILE = 0.02
"""ours: a place is tried at every break of a profile and every fiftieth of its length."""

SHALLOWEST = 0.3
"""ours: no stand is tried in less water than this [m]; the shortest riser would stand out of it."""

RISERS = tuple(units.read(f"{inches} in", "length") for inches in (8, 10, 12, 18, 24, 30, 36))
"""common practice, no source: 12, 18 and 24 in. ours: the nipples next under them, and half a foot and a foot more."""

LEAST_RATING = units.read("159 psi", "pressure")
"""common practice, no source: pipe rated 160 psi or better; a pound less for the rounding of tables."""


@dataclass(frozen=True)
class Option:
    """One option of a part: what it is called, what it writes in the job, what it costs, its nominal size [in]."""

    label: str
    says: Mapping[str, Any] = field(default_factory=dict)
    price: float = 0.0
    per_length: float = 0.0
    size: float = math.nan


def problem_of(job: Job, stock: Stock, assembly: Assembly) -> Problem:
    """The parts of a job in the order water flows, with every option the stock and the site have for what is open.

    Raises
    ------
    JobError where nothing in stock will do for an open part
    """
    options = _options(job, stock, assembly)
    first = job
    for some in options.values():
        first = said(first, some[0].says)
    built = facts_of(first, stock)
    made = {name: _made(some, first, stock, built.facts) for name, some in options.items()}
    made["spot"] = _outside_the_breakers(made["spot"])
    parts = tuple(_part(name, some) for name, some in made.items())
    refuse_the_entangled(parts)
    call_back = job.price.call_back.value if job.price.call_back else defaults()["price.call_back"].value
    return Problem(
        facts=built.facts,
        missing={name: assembly.missing.get(name, why) for name, why in built.missing.items()},
        parts=parts,
        pumps=tuple(_pump_options([facts for _, facts in made["pump"]])),
        pairs=tuple(_pairs({name: [option for option, _ in some] for name, some in made.items()})),
        call_back=call_back,
    )


def closed(job: Job, stock: Stock, assembly: Assembly) -> Job:
    """The job with the first option of every part it leaves open: something to look at before anything is chosen.

    Raises
    ------
    JobError where nothing in stock will do for an open part
    """
    for some in _options(job, stock, assembly).values():
        job = said(job, some[0].says)
    return job


def _options(job: Job, stock: Stock, assembly: Assembly) -> dict[str, list[Option]]:
    """Every option for what a job leaves open, and the one for what it does not, in the order water flows."""
    named, facts = assembly.parts, assembly.facts
    options = {
        "spot": _spots(job),
        "riser": _risers(job),
        "foot valve": _foot_valves(job, stock, named.get("[stand.inlet] stock", "")),
        "screen": _screens(job, stock, named.get("[stand.inlet] screen", "")),
        "line": _pipes("suction", job, stock, named.get("[suction] stock", "")),
        "pump place": _places(job, facts),
        "pump": _pumps(job, stock),
        "flow control": _flow_controls(job, stock),
        "delivery": _pipes("delivery", job, stock, named.get("[delivery] stock", "")),
        "tank": _tanks(job, stock, named.get("[delivery] tank", "")),
    }
    _refuse_the_empty(options)
    return options


def said(job: Job, words: Mapping[str, Any]) -> Job:
    """The job with some fields written in, by dotted name."""
    for path, value in words.items():
        job = _written(job, path.split("."), value)
    return job


def _written(table: Any, path: Sequence[str], value: Any) -> Any:
    name, *rest = path
    inner: Table = getattr(table, name)
    return table.model_copy(update={name: _written(inner, rest, value) if rest else value})


def quantity(value: float) -> Quantity:
    """A number of our own choosing, as a field of a job."""
    return Quantity(value, value, value, 0.0, "", None, "", False, "")


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


def _made(options: Sequence[Option], job: Job, stock: Stock, facts: Facts) -> list[tuple[Option, Facts]]:
    """Each option with the facts of the job it is written in; what makes no sense in this job is no option."""
    made, refused = [], None
    for option in options:
        try:
            made.append((option, facts_of(said(job, option.says), stock).facts if len(options) > 1 else facts))
        except JobError as error:
            refused = error
    if refused is not None and not made:
        raise refused
    return made


def _changing(some: Sequence[Facts]) -> list[str]:
    """The names of the facts in which some differ; of a stand's members, which no check of all designs reads, none."""
    names = (name for name in every_fact() if not name.startswith("members."))
    return [name for name in names if any(not _same(one.value(name), some[0].value(name)) for one in some)]


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, Curve | JetTable):
        return all(_same(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    return bool(one.tobytes() == other.tobytes())


def _part(name: str, made: Sequence[tuple[Option, Facts]]) -> Part:
    changing = _changing([facts for _, facts in made]) if name != "pump" else []
    return Part(
        name=name,
        labels=tuple(option.label for option, _ in made),
        says=tuple(option.says for option, _ in made),
        columns={fact: np.stack([facts.value(fact) for _, facts in made]) for fact in changing},
        price=np.array([option.price for option, _ in made], dtype=float),
        price_per_length=np.array([option.per_length for option, _ in made], dtype=float),
        line={"line": "suction", "delivery": "delivery"}.get(name, ""),
    )


def _pump_options(some: Sequence[Facts]) -> Iterable[PumpOption]:
    """Pumps, each with every fact in which any two pumps differ, so that those of one kind make a batch."""
    changing = _changing(some)
    return (PumpOption(one.pump_kind, {name: one.value(name) for name in changing}) for one in some)


def _pairs(options: Mapping[str, Sequence[Option]]) -> Iterable[Pair]:
    """Pairs that do not join, where one of the two is ours to choose.

    common practice, no source: the suction line is never under the pump's port. ours: nor is a foot valve under the
    line where we choose it; one that the job names costs head, and that the flow feels.
    """
    size = {name: np.array([option.size for option in some]) for name, some in options.items()}
    if len(options["line"]) > 1 or len(options["pump"]) > 1:
        yield Pair("line", "pump", ~(size["line"][:, None] < size["pump"]))
    if len(options["foot valve"]) > 1:
        yield Pair("foot valve", "line", ~(size["foot valve"][:, None] < size["line"]))


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


def _outside_the_breakers(spots: list[tuple[Option, Facts]]) -> list[tuple[Option, Facts]]:
    """The spots outside the breakers, which no other part moves; all of them where none is."""
    if len(spots) == 1:
        return spots
    kept = []
    for option, facts in spots:
        cases = cases_of(len(facts.day_names))
        place = placing(facts, weather_of(facts, cases), cases)
        if int(stand_is_outside_breakers(place, facts.limits).status[()]) != FAILS:
            kept.append((option, facts))
    return kept or spots


def _spots(job: Job) -> list[Option]:
    if job.stand.at is None or not job.stand.at.open or not job.site.soundings:
        return [Option("as given")]
    return [Option(spot_name(job, x, depth), {"stand.at": quantity(x)}) for x, depth in stations(job)]


def spot_name(job: Job, at: float, depth: float) -> str:
    """A place in the water by its distance and depth."""
    return f"{_from_edge(job, at)} in {units.show(depth, 'depth', job.job.units)} of water"


def _risers(job: Job) -> list[Option]:
    if job.stand.riser is None or not job.stand.riser.open:
        return [Option("as given")]
    return [Option(units.show(x, "part", job.job.units), {"stand.riser": quantity(x)}) for x in RISERS]


def _foot_valves(job: Job, stock: Stock, name: str) -> list[Option]:
    """Foot valves that seat as they are to be mounted."""
    inlet = job.stand.inlet
    if inlet.stock != OPEN or inlet.kind == "screen":
        return [_named(name, stock.foot_valves)]
    mounted = inlet.attitude or ("down" if job.stand.form == "hung" else "up")
    return [
        _stocked(row, {"stand.inlet.stock": row.name}) for row in stock.foot_valves.values() if mounted in row.attitudes
    ]


def _screens(job: Job, stock: Stock, name: str) -> list[Option]:
    if job.stand.inlet.screen != OPEN:
        return [_named(name, stock.screens)]
    return [_stocked(row, {"stand.inlet.screen": row.name}) for row in stock.screens.values()]


def _pipes(table: str, job: Job, stock: Stock, name: str) -> list[Option]:
    """Pipes for the suction or the delivery line.

    A quote's usual suction pipe goes by its length: while stand or pump have no place, it is chosen with them.
    """
    line = getattr(job, table)
    follows = table == "suction" and line.stock is None and line.bore is None and job.job.grade == "quote"
    if line.stock != OPEN and not (follows and _is_length_open(job)):
        return [_named(name, stock.pipes)]
    hauled = table == "suction" and job.need.season == "hauled"
    return [_stocked(row, {f"{table}.stock": row.name}) for row in stock.pipes.values() if _is_laid(row, hauled)]


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
        height = np.array([p.height.value for p in pump.places])
        labels = [p.name for p in pump.places]
    else:
        at = _stations(ground[0])
        height = height_along(*ground, at)
        labels = [_from_edge(job, x) for x in at]
    rest = facts.delivery.length - (path_length(*ground, at) if ground[0] else at)
    return [
        Option(
            f"{label} at {units.show(y, 'height', job.job.units)}",
            {
                "pump.distance": quantity(float(x)),
                "pump.height": quantity(float(y)),
                "delivery.length": quantity(float(left)),
            },
        )
        for label, x, y, left in zip(labels, at, height, rest, strict=True)
        if left > 0.0
    ]


def _pumps(job: Job, stock: Stock) -> list[Option]:
    rows: dict[str, Pump | Jet] = {}
    if job.pump.stock != OPEN:
        return [_named(job.pump.stock or "", {**stock.pumps, **stock.jets})]
    if job.pump.kind != "jet":
        rows |= stock.pumps
    if job.pump.kind != "centrifugal":
        rows |= stock.jets
    return [_stocked(row, {"pump.stock": row.name}) for row in rows.values()]


def _flow_controls(job: Job, stock: Stock) -> list[Option]:
    """No flow control valve, or one of those in stock."""
    given = job.delivery.flow_control
    if given is None or not given.open:
        return [Option("none" if given is None else "as given")]
    return [
        Option("none", {"delivery.flow_control": None}),
        *(
            _stocked(part, {"delivery.flow_control": quantity(part.figures["flow"])})
            for part in stock.parts_of("flow control")
        ),
    ]


def _tanks(job: Job, stock: Stock, name: str) -> list[Option]:
    """Tanks that bear the cut-out pressure."""
    if job.delivery.tank != OPEN:
        return [_named(name, stock.tanks)]
    cut_out = value_of(job.delivery.cut_out)
    return [
        _stocked(row, {"delivery.tank": row.name}) for row in stock.tanks.values() if not row.max_pressure < cut_out
    ]


def _named(name: str, rows: Mapping[str, Any]) -> Option:
    """What the job names, or is said to have."""
    return _stocked(rows[name], {}) if name in rows else Option(name or "as given")


def _stocked(row: FootValve | Screen | Pipe | Pump | Jet | SmallPart | Tank, says: Mapping[str, Any]) -> Option:
    """A row of the stock as an option."""
    label = row.name.removeprefix("foot valve, ").removeprefix("flow control, ")
    if isinstance(row, Pipe):
        return Option(label, says, 0.0, row.price_cents_per_m, NOMINAL.get(row.size, math.nan))
    size = row.inlet_size if isinstance(row, Pump | Jet) else row.size if isinstance(row, FootValve) else ""
    return Option(label, says, row.price, 0.0, NOMINAL.get(size, math.nan))
