"""The lists of tables in a draft: steps, soundings, days, branches, visits, told row by row from the job's model."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from lakewright.api.look import Field, data_of, fields
from lakewright.job.fields import Shape, shape_at, shapes, walk
from lakewright.job.write import keys_of, value_at
from lakewright.state.names import plain_name
from lakewright.state.treatment_parts import KINDS
from lakewright.stock.load import Stock, load_stock

Offers = Mapping[str, Mapping[str, tuple[str, ...]]]
"""What may be taken of the stock, by a field's own name, under the kinds of it."""

IN_SIGHT = 3
"""ours: of a row's fields, so many are in sight besides those that must be given or are: the models name them first."""


@dataclass(frozen=True)
class ListOf:
    """A list of tables of the job's model.

    name : the trade's word for it; about : a sentence; count : its rows in the draft
    """

    key: str
    name: str
    about: str
    count: int


@dataclass(frozen=True)
class Ticks:
    """A field of which any of some words may be ticked."""

    key: str
    name: str
    about: str
    choices: tuple[str, ...]
    chosen: tuple[str, ...]


@dataclass(frozen=True)
class Row:
    """One row of a list.

    key : its dotted path; number : its place, from 1; title : what tells it from the next
    first : its fields that are in sight; rest : the others; ticks : those of many words
    is_blank : whether nothing of it is in the draft yet
    """

    key: str
    number: int
    title: str
    first: tuple[Field, ...]
    rest: tuple[Field, ...]
    ticks: tuple[Ticks, ...]
    is_blank: bool


def lists(text: str) -> tuple[ListOf, ...]:
    """Every list of tables that a job may have, in the order of its model."""
    data = data_of(text)
    found = []
    for path, _, form in walk():
        shape = shape_at(path)
        if form == "rows" and shape is not None:
            key = ".".join(path)
            found.append(ListOf(key, plain_name(key), shape.description, len(_rows_at(data, path))))
    return tuple(found)


def rows_of(text: str, key: str, with_blank: bool = False) -> tuple[Row, ...]:
    """The rows of one list of a draft; with a blank one after them where that is asked, or where there is none.

    Raises
    ------
    LookupError for a key that is no list of tables
    """
    path = keys_of(key)
    shape = shape_at(path)
    if shape is None or shape.form != "rows" or shape.table is None:
        raise LookupError(f"{key} is no list of tables")
    found = _rows_at(data_of(text), path)
    every, offers = shapes(shape.table), _offers(load_stock(), key)
    made = [_row(text, f"{key}.{n}", n, row, every, offers) for n, row in enumerate(found, start=1)]
    if with_blank or not made:
        made.append(_row(text, f"{key}.{len(made) + 1}", len(made) + 1, None, every, offers))
    return tuple(made)


def _row(text: str, key: str, number: int, said: Any, every: Mapping[str, Shape], offers: Offers) -> Row:
    said = said if isinstance(said, dict) else {}
    plain = [name for name, shape in every.items() if shape.form not in ("list", "rows", "table", "counts")]
    shown = {
        name: replace(field, name=name.replace("_", " "), offers=offers.get(name, field.offers))
        for name, field in zip(plain, fields(text, [f"{key}.{n}" for n in plain]), strict=True)
    }
    sight = [n for at, n in enumerate(plain) if at < IN_SIGHT or every[n].required or n in said]
    ticks = tuple(
        Ticks(
            f"{key}.{n}", n.replace("_", " "), shape.description, shape.item.choices, tuple(map(str, _words(said, n)))
        )
        for n, shape in every.items()
        if shape.form == "list" and shape.item is not None and shape.item.choices
    )
    return Row(
        key=key,
        number=number,
        title=_said_once([shown[n].value for n in plain[:2] if shown[n].value]),
        first=tuple(shown[n] for n in sight),
        rest=tuple(shown[n] for n in plain if n not in sight),
        ticks=ticks,
        is_blank=not said,
    )


def _offers(stock: Stock, key: str) -> Offers:
    """What the fields of a list's rows may take of the stock, under the kinds of it."""
    if key == "treatment.steps":
        kinds = {
            kind: tuple(part.name for part in stock.parts.values() if part.kind == kind) for kind in KINDS.values()
        }
        return {"stock": {kind: names for kind, names in kinds.items() if names}}
    return {"pipe": {"": tuple(stock.pipes)}} if key == "need.branches" else {}


def _words(said: Mapping[str, Any], name: str) -> list[Any]:
    found = said.get(name, [])
    return found if isinstance(found, list) else []


def _rows_at(data: Any, path: tuple[str | int, ...]) -> list[Any]:
    found = value_at(data, path)
    return found if isinstance(found, list) else []


def _said_once(words: list[str]) -> str:
    """Words one after the other, without the first where the second begins with it.

    >>> _said_once(["UV", "ultraviolet, 10 gpm"]), _said_once(["chlorine", "chlorine feeder, 10 gpm"])
    ('UV, ultraviolet, 10 gpm', 'chlorine feeder, 10 gpm')
    """
    return ", ".join(words[1:] if len(words) > 1 and words[1].startswith(words[0]) else words)
