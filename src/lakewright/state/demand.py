"""What is asked of the supply, worked out from what the job says of it: use by use, branch by branch."""

from __future__ import annotations

import csv
import difflib
import json
import math
import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from typing import Literal, TypeVar

import numpy as np

from lakewright import units
from lakewright.errors import Mistake
from lakewright.job.models import Job
from lakewright.job.models_need import Branch, Need
from lakewright.job.quantity import Quantity
from lakewright.physics.curve import Curve, straight_lines
from lakewright.physics.demand import Allowances, Watering, peak_allowance, peak_flow
from lakewright.state.gather import defaults, one

Family = Literal["A", "B"]
Toilets = Literal["tank", "flush valve"]
FAMILIES: dict[Family, str] = {
    "A": "International Plumbing Code 2018, appendix E",
    "B": "National Standard Plumbing Code, appendix B",
}
"""The two families of fixture units. Units of one never meet the flows of the other."""

UNITS_SOURCE: dict[Family, str] = {"A": "ipc-2018-units", "B": "nspc-units"}
FLOWS_SOURCE: dict[Family, str] = {"A": "ipc-2018-flows", "B": "nspc-flows"}
GROUPS = ("house", "yard", "farm")
MOST_OFFERED = 3  # ours: more names than that are a list, and the message already has one


@dataclass(frozen=True, slots=True)
class Fixture:
    """One fixture: units by family (the first, each further), allowance, and what it draws while it runs."""

    name: str
    also: tuple[str, ...]
    units: Mapping[Family, tuple[float, float]]
    standing: Mapping[Family, str]
    group: str
    allowance: float
    outlet: float
    steady: float
    alone: bool
    flush_valve: bool

    def units_of(self, family: Family, count: int) -> float:
        """Fixture units of so many of these."""
        first, further = self.units[family]
        return first + (count - 1) * further if count else 0.0


@dataclass(frozen=True, slots=True)
class Animal:
    """One kind of stock, and what a head of it drinks on a hot day [m3]."""

    name: str
    also: tuple[str, ...]
    per_day: float
    source: str


@dataclass(frozen=True, slots=True)
class Figure:
    """One row of `figures.toml`."""

    value: float
    source: str
    why: str
    always: bool


Row = TypeVar("Row", bound=Fixture | Animal)


@cache
def fixtures() -> dict[str, Fixture]:
    """Every fixture by its name."""
    return {line["name"]: _fixture(line) for line in _lines("fixtures.csv")}


@cache
def animals() -> dict[str, Animal]:
    """Every animal by its name."""
    return {
        line["name"]: Animal(line["name"], _names(line["also"]), units.read(line["per_day"], "volume"), line["source"])
        for line in _lines("animals.csv")
    }


@cache
def chart_of(family: Family, toilets: Toilets) -> Curve:
    """Flow [m3/s] over fixture units, for one family and kind of toilet."""
    rows = [line for line in _lines("flows.csv") if (line["family"], line["toilets"]) == (family, toilets)]
    flows = [units.read(f"{line['gpm']} gpm", "flow") for line in rows]
    return straight_lines([float(line["units"]) for line in rows], flows)


@cache
def allowances() -> tuple[tuple[str, ...], Allowances]:
    """Names of the fixtures that have an allowance, and their allowances in that order."""
    rows = [row for row in fixtures().values() if row.group]
    return tuple(row.name for row in rows), Allowances(
        np.array([row.allowance for row in rows]),
        np.array([row.outlet for row in rows]),
        tuple(GROUPS.index(row.group) for row in rows),
    )


@cache
def figures() -> dict[str, Figure]:
    """The rows of `figures.toml`."""
    rows = tomllib.loads(_text("figures.toml"))
    return {
        name: Figure(units.read(row["value"], row["dimension"]), row["source"], row["why"], row["always"])
        for name, row in rows.items()
    }


def named(rows: Mapping[str, Row], name: str) -> Row | None:
    """The row of that name, whatever its capitals, hyphens and plural; None where there is none.

    >>> named(fixtures(), "Wash-basins").name
    'lavatory'
    """
    key = _plain(name)
    return next((row for row in rows.values() if key in map(_plain, (row.name, *row.also))), None)


def nearest(rows: Mapping[str, Row], name: str) -> list[str]:
    """Names like that one, the likest first.

    >>> nearest(fixtures(), "toylet")[0]
    'toilet'
    """
    known = {_plain(spelling): row.name for row in rows.values() for spelling in (row.name, *row.also)}
    close = difflib.get_close_matches(_plain(name)[:60], known, n=3 * MOST_OFFERED)
    return list(dict.fromkeys(known[spelling] for spelling in close))[:MOST_OFFERED]


# What is worked out.


@dataclass(frozen=True, slots=True)
class DemandLine:
    """One line of the working: what, how much, and where it comes from."""

    what: str
    value: float
    kind: str
    source: str  # a key of the bibliography; empty where the job says it
    why: str


@dataclass(frozen=True, slots=True)
class BranchDemand:
    """What one branch draws [m3/s]: `asked` without a flow control, `flow` with it."""

    name: str
    water: str
    flow: float
    asked: float
    together: bool
    uses: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Demand:
    """What the pump must bring, and how that was found."""

    flow: float  # [m3/s]: as given, else as worked; nan where something is missing
    worked: float  # [m3/s]: from the branches, whether or not the job gives a flow
    given: bool
    per_day: float  # [m3], nan where nobody has said how many people
    family: Family
    branches: tuple[BranchDemand, ...]  # those of the job in its order, then uses that no branch carries
    lines: tuple[DemandLine, ...]  # what `worked` rests on
    beside: tuple[DemandLine, ...]  # what other rules say
    missing: tuple[str, ...]
    mistakes: tuple[Mistake, ...]


@dataclass(frozen=True, slots=True)
class _Use:
    name: str
    flow: float
    together: bool
    water: str


@dataclass
class _Work:
    """Collects while a demand is worked out."""

    quote: bool
    family: Family
    lines: list[DemandLine] = field(default_factory=list)
    beside: list[DemandLine] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    mistakes: list[Mistake] = field(default_factory=list)

    def lack(self, why: str) -> float:
        """A number nobody has, and why."""
        self.missing.append(why)
        return math.nan

    def figure(self, name: str, given: Quantity | None, place: str, kind: str) -> float:
        """A number from the job, else from the figures if this grade takes it."""
        value = _value(given)
        if not math.isnan(value):
            return value
        row = figures()[name]
        if not (self.quote or row.always):
            return self.lack(f"{place} is not given")
        self.lines.append(DemandLine(name, row.value, kind, row.source, row.why))
        return row.value

    def practice(self, name: str, lines: list[DemandLine]) -> float:
        """A default flow, noted in `lines`."""
        row = defaults()[name]
        lines.append(DemandLine(name.removeprefix("need.flow, "), row.value, row.kind, row.source, row.why))
        return row.value


def demand_of(job: Job, family: Family = "A") -> Demand:
    """What a job asks of its pump.

    Parameters
    ----------
    job : as read
    family : of the fixture units; "A" asks the more of a house

    Returns
    -------
    Demand; what the job says nothing of is nan and named in `missing`, names nobody knows are in `mistakes`
    """
    need, work = job.need, _Work(job.job.grade == "quote", family)
    treated = bool(job.treatment.steps) or job.treatment.uv.stock is not None
    counts = _counted(fixtures(), need.fixtures, "fixtures", work)
    herd = _counted(animals(), need.stock, "stock", work)
    drunk = _drunk(herd, work)
    watering = _watering(need, work)
    uses = [*_steady(need, counts, work), *_stock(drunk, work), *_irrigation(watering, work), *_fire(need, work)]
    alone = not uses and not any(_is_given(branch.flow) for branch in need.branches)
    home = _home(job, counts, alone, work)
    if home is not None:
        uses.insert(0, _Use("home", home, True, "treated" if treated else "raw"))
    cap = _value(job.delivery.flow_control) if _is_given(job.delivery.flow_control) else math.inf
    branches = _branches(need, uses, cap, work)
    # A name nobody knows may stand for any flow.
    known = bool(branches) and not work.mistakes
    worked = _most_at_once(branches, cap) if known else math.nan
    if cap < math.inf and any(branch.water == "treated" for branch in branches):
        work.lines.append(DemandLine("flow control", cap, "flow", "", "caps the treated branches together"))
    return Demand(
        flow=_value(need.flow) if _is_given(need.flow) else worked,
        worked=worked,
        given=_is_given(need.flow),
        per_day=_per_day(job, drunk, watering, work),
        family=family,
        branches=branches,
        lines=tuple(work.lines),
        beside=tuple(work.beside),
        missing=tuple(dict.fromkeys(work.missing)),
        mistakes=tuple(work.mistakes),
    )


def _value(given: Quantity | None) -> float:
    return given.value if given is not None and not given.open else math.nan


def _is_given(given: Quantity | None) -> bool:
    return given is not None and not given.open


def _counted(rows: Mapping[str, Row], given: Mapping[str, int], table: str, work: _Work) -> dict[str, int]:
    """How many of each known thing; a name nobody knows is a mistake."""
    counts: dict[str, int] = {}
    for name, count in given.items():
        row = named(rows, name)
        if row is None:
            close, kind = nearest(rows, name), "a fixture" if table == "fixtures" else "an animal"
            remedy = f"did you mean {' or '.join(close)}?" if close else "write the one nearest in kind"
            _refuse(work, table, name, _quoted(name), f"{kind} that is known: {', '.join(rows)}", remedy)
        else:
            counts[row.name] = counts.get(row.name, 0) + count
    return counts


def _refuse(work: _Work, table: str, name: str, found: str, wanted: str, remedy: str) -> None:
    plain = re.fullmatch(r"[\w ,'-]{1,60}", name)
    key = f"[need.{table}] {name if plain else _quoted(name)}"
    work.mistakes.append(Mistake("", 0, key, found, wanted, remedy))


def _quoted(name: str) -> str:
    return json.dumps(name if len(name) <= 60 else name[:60] + "...")  # ours: as much as fits on a line


# The home: fixtures, bathrooms, people.


def _home(job: Job, counts: Mapping[str, int], alone: bool, work: _Work) -> float | None:
    """Flow the home draws, by the most that is known of it; None where the job speaks of other uses only.

    Fixtures by name go by the table, in a quote with practice's flow for the bathrooms as the least. Bathrooms alone
    go by practice in a quote, by the table in a build; people alone by the day's peak.
    """
    need = job.need
    asked = {name: count for name, count in counts.items() if fixtures()[name].units and name != HOSE and count}
    inside = _with_rooms(need, counts)
    rooms = bool(need.baths or need.kitchens)
    if asked or rooms:
        _show_others(inside, need.hose == "yes", work)
        if not work.quote or (asked and not rooms):
            return _by_table(inside, work.family, work.lines, work)
        if not asked:
            _show(inside, work.family, work)
            return work.practice(_practice(need), work.lines)
        by_table, said = _by_table(inside, work.family, work.lines, work), list[DemandLine]()
        practice = work.practice(_practice(need), said)
        (work.lines if practice > by_table else work.beside).extend(said)
        return float(np.maximum(by_table, practice))
    if need.people is not None:
        peak = _peak_of_people(job, work.lines)
        return max(peak, work.practice(_practice(need), work.lines)) if work.quote else peak
    if not alone:
        return None
    return work.practice(_practice(need), work.lines) if work.quote else work.lack("[need] flow is not given")


HOSE = "hose bib"
BATH, KITCHEN = "bathroom group", "kitchen sink"
BATH_HOLDS = ("lavatory", "toilet", "bathtub")


def _practice(need: Need) -> str:
    return "need.flow, two baths" if (need.baths or 0) > 1 else "need.flow, one bath"


def _with_rooms(need: Need, counts: Mapping[str, int]) -> dict[str, int]:
    """Fixtures by name, those of bathrooms and kitchens among them."""
    rooms = {BATH: need.baths or 0, KITCHEN: need.kitchens or 0}
    every = {name: counts.get(name, 0) + rooms.get(name, 0) for name in (*rooms, *counts)}
    if need.hose == "yes" and every.get(HOSE):
        every[HOSE] -= 1  # the one that runs on is added as it is
    return {name: count for name, count in every.items() if count}


def _by_table(inside: Mapping[str, int], family: Family, lines: list[DemandLine], work: _Work | None) -> float:
    """Flow by one family's units and flows. Without `work`, a fixture that is not in its list makes it nan."""
    total = 0.0
    for name, count in inside.items():
        row = fixtures()[name]
        if family in row.units:
            sum_of = row.units_of(family, count)
            why = "fixture units" + (", remembered" if row.standing[family] == "remembered" else "")
            lines.append(DemandLine(f"{name}, {count}", sum_of, "count", UNITS_SOURCE[family], why))
            total += sum_of
        elif row.units and not row.steady and work is None:
            return math.nan
        elif row.units and not row.steady and work is not None:
            listed = ", ".join(row.name for row in fixtures().values() if family in row.units)
            found = f"{_quoted(name)}, which the list of the {FAMILIES[family]}, does not have"
            remedy = "write the one nearest in kind"
            _refuse(work, "fixtures", name, found, f"a fixture of that list: {listed}", remedy)
    toilets: Toilets = "flush valve" if any(fixtures()[name].flush_valve for name in inside) else "tank"
    chart = chart_of(family, toilets)
    flow = float(peak_flow(one(total), chart)[0])
    if math.isnan(flow) and work is not None:
        work.lack(f"[need.fixtures] sum to {total:g} units, and the table ends at {chart.last[0]:g}: give [need] flow")
    why = f"{total:g} units, toilets with {'flush valves' if toilets == 'flush valve' else 'tanks'}"
    why += ", between remembered rows" if _rests_on_memory(family, toilets, total) else ""
    lines.append(DemandLine(f"fixtures at once, {FAMILIES[family]}", flow, "flow", FLOWS_SOURCE[family], why))
    return flow


def _rests_on_memory(family: Family, toilets: Toilets, total: float) -> bool:
    """Whether a row that the flow is drawn from was remembered, not read."""
    rows = [line for line in _lines("flows.csv") if (line["family"], line["toilets"]) == (family, toilets)]
    below = [line for line in rows if float(line["units"]) <= total][-1:]
    above = [line for line in rows if float(line["units"]) >= total][:1]
    return any(line["standing"] == "remembered" for line in (*below, *above))


def _show(inside: Mapping[str, int], family: Family, work: _Work) -> None:
    """What a family would say, beside what is taken."""
    lines: list[DemandLine] = []
    if not math.isnan(_by_table(inside, family, lines, None)):
        work.beside.append(lines[-1])


def _show_others(inside: Mapping[str, int], hose_runs: bool, work: _Work) -> None:
    """What the other family and the allowance would say."""
    _show(inside, "B" if work.family == "A" else "A", work)
    uses = {**inside, **({HOSE: inside.get(HOSE, 0) + 1} if hose_runs else {})}
    baths = uses.pop(BATH, 0)
    for name in BATH_HOLDS if baths else ():
        uses[name] = uses.get(name, 0) + baths
    names, table = allowances()
    if uses and set(uses) <= set(names):
        counts = np.array([[float(uses.get(name, 0)) for name in names]])
        flow, why = float(peak_allowance(counts, table)[0]), "allowances, the largest use of each group in full"
        work.beside.append(DemandLine("peak demand allowance", flow, "flow", "farm-home-pages", why))


def _per_person(job: Job) -> Figure:
    return figures()["person, in season" if job.need.season in ("hauled", "drained") else "person, all year"]


def _peak_of_people(job: Job, lines: list[DemandLine]) -> float:
    """Flow that brings the day's use of the people in the day's peak."""
    people, person, peak = _value(job.need.people), _per_person(job), figures()["peak of the day"]
    volume = people * person.value
    lines.append(DemandLine(f"{people:g} people, a day", volume, "volume", person.source, person.why))
    lines.append(DemandLine("people, at the peak", volume / peak.value, "flow", peak.source, peak.why))
    return volume / peak.value


def _per_day(job: Job, drunk: float, watering: Watering | None, work: _Work) -> float:
    """Water used in a day [m3]."""
    if _is_given(job.need.per_day):
        return _value(job.need.per_day)
    people = _value(job.need.people) * _per_person(job).value
    if job.need.people is not None and (job.need.baths or job.need.kitchens or job.need.fixtures):
        _peak_of_people(job, work.beside)
    if job.need.people is None and not (job.need.baths or job.need.kitchens or job.need.fixtures):
        people = 0.0 if drunk or watering else math.nan
    watered = float((watering.volume() / watering.period)[0]) * DAY if watering else 0.0
    return people + drunk + watered


# Whatever runs besides.

DAY = 86_400.0
WEEK = 7.0 * DAY


def _steady(need: Need, counts: Mapping[str, int], work: _Work) -> list[_Use]:
    """What runs on for long once it runs: a hose, washing of floors, filters and softeners."""
    uses = []
    for row in fixtures().values():
        count = counts.get(row.name, 0)
        if row.name == HOSE:
            # One hose runs at a time (ours). Where the code counts hose bibs in units, they are in the home's flow.
            together = need.hose != "no"
            count = 1 if need.hose == "yes" or (count and work.family not in row.units) else 0
        else:
            together = not row.alone
            count = min(count, 1) if row.alone else count
        if row.steady and count:
            why = "added to the fixtures" if together else "not while the others run"
            what = "a hose" if row.name == HOSE else row.name if count == 1 else f"{row.name}, {count}"
            work.lines.append(DemandLine(what, count * row.steady, "flow", "missouri-g1801", why))
            uses.append(_Use("hose" if row.name == HOSE else row.name, count * row.steady, together, "raw"))
    return uses


def _drunk(herd: Mapping[str, int], work: _Work) -> float:
    """Water the stock drinks in a day [m3]."""
    total = []
    for name, count in sorted(herd.items()):
        row = animals()[name]
        total.append(count * row.per_day)
        work.lines.append(DemandLine(f"{name}, {count}, a day", total[-1], "volume", row.source, "on a hot day"))
    return math.fsum(total)


def _stock(drunk: float, work: _Work) -> list[_Use]:
    if not drunk:
        return []
    row = figures()["drinking of stock"]
    work.lines.append(DemandLine("stock, while it drinks", drunk / row.value, "flow", row.source, row.why))
    return [_Use("stock", drunk / row.value, True, "raw")]


def _watering(need: Need, work: _Work) -> Watering | None:
    """The watering a job asks, None where it asks none."""
    given = need.irrigation
    if given.area is None:
        if given.depth_per_week is not None or given.hours is not None or given.method is not None:
            work.lack("[need.irrigation] area is not given")
            area = math.nan
        else:
            return None
    else:
        area = _value(given.area)
    hours = work.figure("hours a day", given.hours, "[need.irrigation] hours", "hours")
    return Watering(
        one(area),
        one(work.figure("depth a week", given.depth_per_week, "[need.irrigation] depth_per_week", "part")),
        one(WEEK),
        one(hours / DAY if hours else math.nan),
        one(work.figure(f"efficiency, {given.method or 'unknown'}", None, "[need.irrigation] method", "share")),
    )


def _irrigation(watering: Watering | None, work: _Work) -> list[_Use]:
    if watering is None:
        return []
    flow = float(watering.flow()[0])
    why = "area times depth, over the hours it runs and the share that is of use"
    work.lines.append(DemandLine("watering, while it runs", flow, "flow", "irrigation-pages", why))
    return [_Use("irrigation", flow, True, "raw")]


def _fire(need: Need, work: _Work) -> list[_Use]:
    if not _is_given(need.fire):
        return []
    flow = _value(need.fire)
    work.lines.append(DemandLine("fire", flow, "flow", "", "the job says so; not while the others run"))
    return [_Use("fire", flow, False, "raw")]


# Branches.

# ours: what people call a branch, and the use it then serves.
CALLED = {
    "home": "house home cabin cottage camp lodge bunkhouse kitchen dwelling apartment",
    "stock": "trough stock livestock barn cattle cow horse paddock corral pasture",
    "irrigation": "lawn garden field irrigation sprinkler orchard",
    "fire": "fire hydrant",
    "hose": "hose dock yard boathouse",
}


def _use_called(branch: Branch, only: bool) -> str:
    """The use a branch serves by its name, else by its water; empty where neither says."""
    words = set(_plain(branch.name).split())
    called = next((use for use, names in CALLED.items() if words & set(names.split())), "")
    return called or ("home" if branch.water == "treated" or (branch.water is None and only) else "")


def _branches(need: Need, uses: Sequence[_Use], cap: float, work: _Work) -> tuple[BranchDemand, ...]:
    """Every branch of the job with what it draws, then the uses that none of them carries."""
    left, found = {use.name: use for use in uses}, {}
    # By name, so that the order of the file makes no difference to who gets what.
    for branch in sorted(need.branches, key=lambda branch: branch.name.casefold()):
        called = _use_called(branch, len(need.branches) == 1)
        use = left.pop(called, None)
        if _is_given(branch.flow):
            asked = _value(branch.flow)
            work.lines.append(DemandLine(f"branch {branch.name}", asked, "flow", "", "the job says so"))
        else:
            asked = use.flow if use else _usual_branch(branch, called, work)
        together = branch.with_others if branch.with_others is not None else use.together if use else True
        water = branch.water or (use.water if use else "raw")
        served = (called,) if called else ()
        found[branch.name] = _capped(branch.name, water, asked, together, served, cap)
    own = [_capped(use.name, use.water, use.flow, use.together, (use.name,), cap) for use in left.values()]
    return (*(found[branch.name] for branch in need.branches), *own)


def _usual_branch(branch: Branch, called: str, work: _Work) -> float:
    """What a branch draws that says nothing and serves nothing else the job speaks of."""
    if work.quote and called == "home":
        return work.practice("need.flow, one bath", work.lines)
    if work.quote and (called == "hose" or (not called and branch.water == "raw")):
        return work.practice("need.flow, hose", work.lines)
    return work.lack(f"[[need.branches]] flow of {_quoted(branch.name)} is not given")


def _capped(name: str, water: str, asked: float, together: bool, uses: tuple[str, ...], cap: float) -> BranchDemand:
    # Not min: a flow nobody knows stays unknown.
    flow = float(np.minimum(asked, cap)) if water == "treated" else asked
    return BranchDemand(name, water, flow, asked, together, uses)


def _most_at_once(branches: Sequence[BranchDemand], cap: float) -> float:
    """The largest flow that is drawn at once: all that run together, or one that runs alone."""
    if any(math.isnan(branch.flow) for branch in branches):
        return math.nan
    raw = [branch.flow for branch in branches if branch.together and branch.water != "treated"]
    treated = [branch.flow for branch in branches if branch.together and branch.water == "treated"]
    together = math.fsum([*raw, min(math.fsum(treated), cap)])
    return max([together, *(branch.flow for branch in branches if not branch.together)])


# Reading the tables.


def _plain(name: str) -> str:
    """A name without capitals, hyphens and the plural of each word."""
    words = re.findall(r"[^\W_]+", name.casefold())
    return " ".join(_singular(word) for word in words)


def _singular(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and len(word) > 2 else word


def _fixture(line: Mapping[str, str]) -> Fixture:
    of: dict[Family, tuple[float, float]] = {}
    if line["a_units"]:
        of["A"] = float(line["a_units"]), float(line["a_units"])
    if line["b_units"]:
        of["B"] = float(line["b_units"]), float(line["b_more"] or line["b_units"])
    return Fixture(
        line["name"],
        _names(line["also"]),
        of,
        {"A": line["a_standing"], "B": line["b_standing"]},
        line["group"],
        _flow(line["allowance"]),
        _flow(line["outlet"]),
        _flow(line["steady"]),
        line["runs"] == "alone",
        line["flush_valve"] == "yes",
    )


def _flow(text: str) -> float:
    return units.read(text, "flow") if text else 0.0


def _names(cell: str) -> tuple[str, ...]:
    return tuple(filter(None, cell.split(";")))


@cache
def _lines(name: str) -> tuple[dict[str, str], ...]:
    lines = (line for line in _text(name).splitlines() if line and not line.startswith("#"))
    return tuple(csv.DictReader(lines))


def _text(name: str) -> str:
    return resources.files("lakewright.job").joinpath("demand_tables", name).read_text(encoding="utf-8")
