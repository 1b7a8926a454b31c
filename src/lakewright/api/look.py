"""Look at a draft: what `check` finds in a text that may never be saved, and the numbers a drawing of it needs."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from lakewright.api.read import assembled
from lakewright.api.report import report_on
from lakewright.api.site import site_of
from lakewright.documents.site import Site
from lakewright.job.fields import Shape, shape_at
from lakewright.job.read import read_text, toml_data
from lakewright.job.write import keys_of, set_values, value_at
from lakewright.report import Report
from lakewright.state.names import plain_name
from lakewright.stock.load import Stock, load_stock

STANDINGS = ("told", "measured", "looked_up", "assumed")


@dataclass(frozen=True)
class Look:
    """A draft, looked at.

    report : of the whole job; shown : of the day that is looked at, or the same
    site : for the drawing; days : their names; day : the one looked at, None for all of them
    """

    report: Report
    shown: Report
    site: Site
    days: tuple[str, ...]
    day: int | None


@dataclass(frozen=True)
class Field:
    """One field of a job file, as it stands in a draft.

    name : the trade's word for it; about : a sentence; form : as in the model of the job file
    value : as written, without its quotes; takes : an example
    standing : one of `STANDINGS`, or nothing; since : its date; note : what is noted beside the value
    takes_standing : whether one may say on whose word it is
    offers : what may be taken instead, under the words they have in common, if any
    may_be_open : whether `design` may choose it
    """

    key: str
    name: str
    about: str
    form: str
    value: str
    standing: str
    since: str
    note: str
    takes_standing: bool
    takes: str
    offers: Mapping[str, tuple[str, ...]]
    may_be_open: bool

    @property
    def is_open(self) -> bool:
        """Whether it is left to be chosen."""
        return self.value == "open"

    @property
    def ends(self) -> tuple[str, str] | None:
        """Between which two it lies, where it is said so."""
        low, dots, high = self.value.partition("..")
        return (low.strip(), high.strip()) if dots and self.takes_standing else None


def draft_of(file: Path) -> str:
    """The text of a job file, to draft on.

    Raises
    ------
    JobError where the file is not there or is no text
    """
    return read_text(file)


def look(text: str, file: Path, day: int | None = None) -> Look:
    """Look at a draft, on all its days or on one of them.

    Raises
    ------
    JobError where the draft cannot be used, with every mistake found in it
    """
    job, stock, assembly = assembled(text, file)
    report, site = report_on(job, assembly, stock=stock), site_of(job, assembly.facts)
    names = assembly.facts.day_names
    if day is None or not 0 <= day < len(names):
        return Look(report, report, site, names, None)
    that = replace(assembly, facts=assembly.facts.on_day(day))
    return Look(report, report_on(job, that), replace(site, surface=site.days[day].level), names, day)


def changed(text: str, changes: Mapping[str, str], standings: Mapping[str, str], date: str) -> str:
    """The draft with each value set by its dotted path, and every other byte as it was; an empty value takes it out.

    A value that is changed keeps neither its standing nor its note, which were the old one's. It has the standing given
    for its path, one of `STANDINGS` or nothing, on that date; where none is given and it had one, it is told.

    Raises
    ------
    AskError for a path or a value that cannot be written
    """
    for key, value in changes.items():
        path = keys_of(key)
        shape = shape_at(path)
        takes = shape is not None and shape.dimension is not None
        beside = _beside(value_at(data_of(text), path), value, standings.get(key), date) if takes else {}
        text = set_values(text, {key: value, **{f"{key}.{name}": said for name, said in beside.items()}})
    return text


def _beside(found: Any, value: str, standing: str | None, date: str) -> dict[str, str]:
    """What to change beside a value that is to be set in a place where `found` is."""
    before = found if isinstance(found, dict) and "value" in found else {}
    if not value.strip():
        return {}
    if standing is None:
        standing = "told" if any(name in before for name in STANDINGS) else ""
    wanted = {standing: date} if standing in STANDINGS and value.strip() != "open" else {}
    gone = {name: "" for name in (*STANDINGS, "note") if name in before and name not in wanted}
    return gone | {name: day for name, day in wanted.items() if str(before.get(name)) != day}


def fields(text: str, keys: Sequence[str]) -> tuple[Field, ...]:
    """The fields of a draft at these dotted paths."""
    data = data_of(text)
    stock = load_stock()
    return tuple(_field(data, key, stock) for key in keys)


def data_of(text: str) -> Any:
    """The draft as plain data; none of it where it is no TOML."""
    try:
        return toml_data(text)
    except ValueError:
        return {}


def _field(data: Any, key: str, stock: Stock) -> Field:
    path = keys_of(key)
    shape = shape_at(path)
    if shape is None:
        raise LookupError(f"{key} is no field of a job file")
    takes = _takes(shape, value_at(data, ("job", "units")) == "SI")
    found = value_at(data, path)
    beside = found if isinstance(found, dict) else {"value": found}
    standing = next((name for name in STANDINGS if beside.get(name)), "")
    since = beside.get(standing)
    return Field(
        key=key,
        name=plain_name(key),
        about=shape.description,
        form=shape.form,
        value=_plain(beside.get("value")),
        standing=standing,
        since=str(since) if isinstance(since, datetime.date) else "",
        note=str(beside.get("note", "")),
        takes_standing=shape.dimension is not None,
        takes=takes,
        offers=_offers(key, shape, stock),
        may_be_open=_opens(shape),
    )


def _plain(found: Any) -> str:
    if found is None:
        return ""
    return str(found).lower() if isinstance(found, bool) else str(found)


def _opens(shape: Shape) -> bool:
    """Whether a field may be left for the program to choose; of names in the stock, their description says so."""
    return bool(shape.dimension and shape.dimension.may_be_open) or '"open"' in shape.description


def _takes(shape: Shape, si: bool) -> str:
    """What one would write, by example."""
    if shape.dimension is None:
        return ""
    noun = shape.dimension.noun
    return f"such as {noun.si_example if si else noun.us_example}"


def _offers(key: str, shape: Shape, stock: Stock) -> dict[str, tuple[str, ...]]:
    """Words of a choice, or names in the stock; of many alike, what they have in common stands over their sizes."""
    if shape.choices:
        return {"": tuple(str(choice) for choice in shape.choices)}
    if shape.form == "truth":
        return {"": ("true", "false")}
    tables: Mapping[str, Sequence[str]] = {
        "suction.stock": tuple(stock.pipes),
        "delivery.stock": tuple(stock.pipes),
        "stand.inlet.stock": tuple(stock.foot_valves),
        "stand.inlet.screen": ("none", *stock.screens),
        "pump.stock": (*stock.pumps, *stock.jets),
        "delivery.tank": tuple(stock.tanks),
    }
    found: dict[str, tuple[str, ...]] = {}
    for name in tables.get(key, ()):
        alike = name.rpartition(", ")[0]
        found[alike] = (*found.get(alike, ()), name)
    return found
