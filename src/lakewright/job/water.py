"""The record of a water, kept once and shared by jobs: its model, and the door that reads it.

Each fact is written plainly, or as a table that says who said so and when:

    elevation = "1340 ft"
    low       = { value = "-2.5 ft", told = 2026-05-03, said_by = "the neighbour" }

python -m lakewright.job.water docs/reference/water_file.md     writes the reference page
"""

from __future__ import annotations

import datetime
import difflib
import functools
import json
import re
import sys
import tomllib
import typing
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Generic, TypeVar

from pydantic import GetCoreSchemaHandler
from pydantic_core import ValidationError, core_schema

from lakewright.errors import JobError, Mistake, UnitError
from lakewright.job import quantity
from lakewright.job.fields import shapes
from lakewright.job.layout import Path as Keys
from lakewright.job.layout import lines_of
from lakewright.job.models_site import Bed, Site
from lakewright.job.models_site import Rules as SiteRules
from lakewright.job.quantity import STANDINGS, Dimension, FieldProblem, Quantity, echo, example_of, read_quantity
from lakewright.job.read import read_job_text, read_text
from lakewright.job.table import LONGEST_TEXT, MOST_ROWS, Month, Rule, Table, field, names_differ, required, rows, table

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

T = TypeVar("T")
SEEN_ON_A_DAY = ("level", "water", "ice", "current")  # the rest of a day is chosen, and needs nobody's word
BESIDE = ("value", "said_by", *STANDINGS, "note")


class WaterError(JobError):
    """A water's file that cannot be used. `mistakes` holds all of them, in file order."""

    def __init__(self, mistakes: Sequence[Mistake]) -> None:
        super().__init__(mistakes)
        many = len(self.mistakes)
        head = "1 mistake" if many == 1 else f"{many} mistakes"
        self.args = ("\n".join([f"{head} in a water's file", *map(str, self.mistakes)]),)


@dataclass(frozen=True, slots=True)
class Fact(Generic[T]):
    """One thing the record says, and on whose word. Whatever someone said without more is told."""

    value: T
    standing: str  # told, measured, looked up, assumed, or nothing
    since: datetime.date | None
    said_by: str
    note: str


@dataclass(frozen=True, slots=True)
class Takes:
    """What a field of a water's file takes: a quantity, one of some words, several of them, or words of one's own."""

    dimension: Dimension | None = None
    choices: tuple[str, ...] = ()
    many: bool = False
    alone: bool = False  # a plain value, with nobody's word beside it

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return core_schema.with_info_plain_validator_function(self._validate)

    def _validate(self, given: object, info: core_schema.ValidationInfo) -> Any:
        system = (info.context or {}).get("units", "US")
        return self.value(given, system) if self.alone else read_fact(given, self, system)

    def example(self, system: str = "US") -> str:
        """What one might write on the right of the equals sign."""
        if self.dimension is not None:
            return example_of(self.dimension, system)
        first = json.dumps(self.choices[0]) if self.choices else '"..."'
        return f"[{first}]" if self.many else first

    def value(self, given: object, system: str) -> Any:
        """A value alone, or UnitError or FieldProblem."""
        if self.dimension is not None and not isinstance(given, dict):
            return read_quantity(given, self.dimension, system)
        if self.dimension is not None:
            raise FieldProblem("a table in a table", "a value beside its standing", write=self.example(system))
        if not self.many:
            return self._word(given, ())
        if not isinstance(given, list) or len(given) > MOST_ROWS:
            raise FieldProblem(echo(given), "a list of months", write=self.example())
        return tuple(self._word(each, (index,)) for index, each in enumerate(given))

    def _word(self, given: object, at: tuple[int | str, ...]) -> str:
        if not self.choices:
            if isinstance(given, str) and len(given) > LONGEST_TEXT:
                raise FieldProblem(f"text of {len(given)} letters", f"at most {LONGEST_TEXT} letters", "say it shorter")
            if not isinstance(given, str) or not given.strip():
                raise FieldProblem(echo(given), "words in quotes", write='"..."')
            return given
        if isinstance(given, str) and given in self.choices:
            return given
        wanted = "one of " + ", ".join(json.dumps(word) for word in self.choices)
        typed = given[:40].casefold() if isinstance(given, str) else ""
        near = {word.casefold(): word for word in self.choices}
        close = difflib.get_close_matches(typed, near, n=1)
        if close:
            raise FieldProblem(echo(given), wanted, f'did you mean "{near[close[0]]}"?', at=at)
        raise FieldProblem(echo(given), wanted, write=json.dumps(self.choices[0]), at=at)


def read_fact(given: object, takes: Takes, system: str = "US") -> Fact[Any]:
    """What a value of a water's file says, and on whose word; or UnitError or FieldProblem."""
    if not isinstance(given, dict):
        value = takes.value(given, system)
        return Fact(value, "", None, "", "")
    unknown = [key for key in given if key not in BESIDE]
    if unknown or "value" not in given:
        raise FieldProblem(
            f"a table with the key {echo(unknown[0])}" if unknown else "a table without a value",
            "value, and beside it said_by, one of told, measured, looked_up, assumed, and a note",
            write=f'{{ value = {takes.example(system)}, told = 2026-05-03, said_by = "..." }}',
            at=(unknown[0],) if unknown else (),
        )
    said_by = given.get("said_by", "")
    if not isinstance(said_by, str) or len(said_by) > LONGEST_TEXT:
        raise FieldProblem(echo(said_by), "who said so, in words", "put the name in quotes", at=("said_by",))
    word = _word_beside(given)
    standing = word.standing or ("told" if said_by else "")
    value = takes.value(given["value"], system)
    if isinstance(value, Quantity):
        value = replace(value, standing=standing, since=word.since, note=word.note)
    return Fact(value, standing, word.since, said_by, word.note)


def _word_beside(given: dict[str, Any]) -> Quantity:
    """Standing, date and note, read as they are beside any quantity of a job."""
    beside = {key: given[key] for key in given if key not in ("value", "said_by")}
    return read_quantity({**beside, "value": 1}, Dimension("count", "count", 0.0, 1.0))


def _amount(alias: Any) -> Takes:
    return Takes(dimension=next(mark for mark in typing.get_args(alias) if isinstance(mark, Dimension)))


def _choice(site_table: type[Table], name: str) -> Takes:
    """The words that the job's field of this name takes."""
    return Takes(choices=shapes(site_table)[name].choices)


Words = Annotated[Fact[str], Takes()]
Name = Annotated[str, Takes(alone=True)]
Months = Annotated[Fact[tuple[str, ...]], Takes(choices=typing.get_args(Month), many=True)]
YesNo = Annotated[Fact[str], _choice(Site, "dam")]
HowMuch = Annotated[Fact[str], _choice(Site, "weed")]
Length = Annotated[Fact[Quantity], _amount(quantity.Length)]
Height = Annotated[Fact[Quantity], _amount(quantity.Height)]
Elevation = Annotated[Fact[Quantity], _amount(quantity.Elevation)]
Part = Annotated[Fact[Quantity], _amount(quantity.Part)]
Depth = Annotated[Fact[Quantity], _amount(quantity.Depth)]
Share = Annotated[Fact[Quantity], _amount(quantity.Share)]


class Levels(Table):
    """Levels by season, as heights from the usual summer level, which is 0."""

    usual: Words | None = field("What the usual summer level is read on: a gauge, a pin in the rock.")
    low: Height | None = field("The lowest level of an ordinary year.")
    low_months: Months | None = field("The months in which it is that low.")
    flood: Height | None = field("The highest level of a flood.")
    flood_months: Months | None = field("The months in which floods come.")
    lowest_seen: Height | None = field("The lowest level anyone remembers.")
    drawdown: Length | None = field("How far under the usual level the water is drawn down in winter.")
    drawdown_months: Months | None = field("The months in which it is drawn down.")


class Ice(Table):
    """The winter."""

    thickness: Part | None = field("Thickest ice seen.")
    freezing_index: Annotated[Fact[Quantity], _amount(quantity.DegreeDays)] | None = field(
        "Freezing degree-days of a cold winter."
    )


class Clarity(Table):
    """How clear the water is."""

    secchi: Depth | None = field("Depth at which a white disk fades from sight.")
    turbidity: Annotated[Fact[Quantity], _amount(quantity.Turbidity)] | None = field("Turbidity of a sample.")
    colour: Annotated[Fact[Quantity], _amount(quantity.Number)] | None = field(
        "Colour of a sample, in true colour units."
    )
    uv_transmittance: Share | None = field("Light of 254 nm that passes 10 mm of the water, at its worst.")
    bloom: YesNo | None = field("Whether algae ever bloom here.")
    bloom_months: Months | None = field("The months in which they do.")


class Rules(Table):
    """What the authorities ask, and what they answered."""

    region: Words | None = field("State, province or country.")
    screen: Annotated[Fact[str], _choice(SiteRules, "screen")] | None = field("The rule a screen here is judged by.")
    permit: Words | None = field("Permits needed, and from whom.")
    work_window: Words | None = field("When work in the water is allowed.")
    call: Words | None = field("Whom to call.")
    drinking: Annotated[Fact[str], _choice(SiteRules, "drinking")] | None = field(
        "Whether the authority was asked if this water may be drunk, and its answer."
    )
    answer: Words | None = field("What it answered, in its own words.")


class WaterDay(Table):
    """A named condition in which everything belongs together, as `[[site.days]]` of a job."""

    name: Name = required("What to call the day: July weekend, February under ice.")
    months: Months | None = field("The months in which such days come.")
    level: Height | None = field("Water level that day, from the usual level.")
    water: Annotated[Fact[Quantity], _amount(quantity.Temperature)] | None = field("Temperature of the water.")
    ice: Part | None = field("Thickness of the ice.")
    dirt: Share | None = field("How much of a screen is blocked, and how far filters are used up.")
    demand: Share | None = field("Flow wanted that day as a share of the need.")
    current: Annotated[Fact[Quantity], _amount(quantity.Speed)] | None = field("Speed of the stream.")


class Water(Table):
    """One's own record of a lake, stream or reservoir."""

    name: Name = required("What the water is called; jobs refer to it by this.")
    kind: Annotated[Fact[str], _choice(Site, "kind")] | None = field("What kind of water it is.")
    position: Words | None = field("Where it is, as one would tell a stranger.")
    elevation: Elevation | None = field("Height of the water above the sea.")
    dam: YesNo | None = field("Whether a dam sets the level.")
    controlled_by: Words | None = field("Who controls the level.")
    reach: Words | None = field("How to reach them.")
    bed: Annotated[Fact[str], _choice(Bed, "kind")] | None = field("What the bottom mostly is.")
    weed: HowMuch | None = field("Weed in this water.")
    mussels: HowMuch | None = field("Mussels in this water.")
    note: Words | None = field("Anything else worth keeping.")
    levels: Levels = table(Levels, "Levels by season.")
    ice: Ice = table(Ice, "The winter.")
    clarity: Clarity = table(Clarity, "How clear the water is.")
    rules: Rules = table(Rules, "Rules and permits.")
    days: Annotated[list[WaterDay], Rule(names_differ)] = rows("Named days; a job that has none takes these.")


# Reading.


def read_water(path: Path, system: str = "US") -> Water:
    """The water in a file, or WaterError with all its mistakes. `system` is for the examples in messages."""
    try:
        text = read_text(path)
    except JobError as error:
        raise WaterError([_of_a_water(mistake) for mistake in error.mistakes]) from None
    return read_water_text(text, str(path), system)


def read_water_text(text: str, file: str = "water.toml", system: str = "US") -> Water:
    """The water in a text, or WaterError with all its mistakes. `file` is the name that mistakes give."""
    try:
        data = tomllib.loads(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError):
        # The door of jobs says what is wrong with the TOML.
        try:
            read_job_text(text, file)
        except JobError as error:
            raise WaterError([_of_a_water(mistake) for mistake in error.mistakes]) from None
        raise
    try:
        return Water.model_validate(data, context={"units": system})
    except ValidationError as problem:
        lines = lines_of(text.removeprefix("\ufeff").replace("\r\n", "\n"))
        raise WaterError([_mistake(error, lines, file) for error in problem.errors(include_url=False)]) from None


def _of_a_water(mistake: Mistake) -> Mistake:
    return replace(mistake, wanted=mistake.wanted.replace("a job file", "a water's file"))


@dataclass(frozen=True, slots=True)
class Entry:
    """One field of a table of a water's file."""

    name: str
    description: str
    required: bool
    takes: Takes | None
    table: type[Table] | None
    many: bool


@functools.cache
def entries(table: type[Table]) -> dict[str, Entry]:
    """The fields of a table by name, in the order of the reference page."""
    found = {}
    for name, info in table.model_fields.items():
        parts = [*info.metadata, *_parts(info.annotation)]
        takes = next((part for part in parts if isinstance(part, Takes)), None)
        inner = next((part for part in parts if isinstance(part, type) and issubclass(part, Table)), None)
        found[name] = Entry(name, info.description or "", info.is_required(), takes, inner, list in parts)
    return found


def _parts(annotation: Any) -> Iterator[Any]:
    yield typing.get_origin(annotation) or annotation
    for part in typing.get_args(annotation):
        yield from _parts(part)


def _mistake(error: ErrorDetails, lines: dict[Keys, int], file: str) -> Mistake:
    path: Keys = tuple(error["loc"])
    kind, given = error["type"], error["input"]
    if kind == "value_error":
        found, wanted, remedy, path = _refused(error.get("ctx", {})["error"], path)
    elif kind == "extra_forbidden":
        found, wanted, remedy = _unknown_key(path)
    elif kind == "missing":
        words = entries(_table_at(path[:-1]))[str(path[-1])].description
        found, wanted, remedy = "nothing", words[:1].lower() + words[1:].rstrip("."), f'write {path[-1]} = "..."'
    elif kind == "too_long":
        found, wanted, remedy = echo(given), f"at most {MOST_ROWS} rows", "keep long records in a file of their own"
    elif kind == "list_type":
        found, wanted, remedy = echo(given), "a list of tables", f"write [[{path[0]}]] above the keys of each"
    else:
        head = f"[[{path[0]}]]" if len(path) > 1 else f"[{path[0]}]"
        found, wanted, remedy = echo(given), "a table", f"write {head} above its keys"
    line = next((lines[path[:end]] for end in range(len(path), 0, -1) if path[:end] in lines), 0)
    return Mistake(file, line, place_of(path), found, wanted, remedy)


def _refused(cause: Exception, path: Keys) -> tuple[str, str, str, Keys]:
    if isinstance(cause, FieldProblem):
        place = (*path, *cause.at)
        key = next(part for part in reversed(path) if isinstance(part, str))
        in_list = bool(cause.at) and isinstance(cause.at[-1], int)
        write = cause.write if in_list else f"{key} = {cause.write}"
        return cause.found, cause.wanted, f"write {write}" if cause.write else cause.remedy, place
    if isinstance(cause, UnitError):
        return cause.found[:LONGEST_FOUND], cause.wanted, cause.remedy, path
    return "a value that cannot be used", "another value", str(cause), path


LONGEST_FOUND = 250  # ours: a unit reader may echo a whole quantity, of which 200 letters are the most it reads


def _unknown_key(path: Keys) -> tuple[str, str, str]:
    key = str(path[-1])
    known = list(entries(_table_at(path[:-1])))
    found, wanted = f"the unknown key {echo(key)}", f"one of {', '.join(known)}"
    close = difflib.get_close_matches(key[:40], known, n=1)
    if close:
        return found, wanted, f"did you mean {close[0]}?"
    homes = [head or "the lines above the first [table]" for head, each in every_table() if key in entries(each)]
    if homes:
        return found, wanted, f"{key} belongs in {' or '.join(homes)}"
    return found, wanted, "take it out, or put what it says in a note"


def _table_at(path: Keys) -> type[Table]:
    here: type[Table] = Water
    for part in path:
        if isinstance(part, str):
            here = entries(here)[part].table or here
    return here


def every_table() -> Iterator[tuple[str, type[Table]]]:
    """Every table of a water's file with its header, the first without one."""
    yield "", Water
    for entry in entries(Water).values():
        if entry.table is not None:
            yield f"[[{entry.name}]]" if entry.many else f"[{entry.name}]", entry.table


def place_of(path: Keys) -> str:
    """A path as a message names it: name, [levels] low, or [[days]] 2, level."""
    head, rest = "", path
    if path and str(path[0]) in entries(Water) and (entry := entries(Water)[str(path[0])]).table is not None:
        head, rest = f"[{path[0]}]", path[1:]
        if entry.many and rest:
            head, rest = f"[[{path[0]}]] {int(rest[0]) + 1}", rest[1:]
    key = ""
    for part in rest:
        if isinstance(part, int):
            key += f", item {part + 1}"
        else:
            shown = part if re.fullmatch(r"[A-Za-z0-9_-]{1,60}", part) else echo(part)
            key += f".{shown}" if key else shown
    return f"{head}{', ' if head.endswith(tuple('0123456789')) and key else ' '}{key}".strip()


# Finding.


def water_files(folder: Path) -> list[Path]:
    """The waters' files that lie in a folder itself, by name. A link that leads out of it is not followed."""
    try:
        home = folder.resolve()
        files = sorted(folder.glob("*.toml"))
        return [file for file in files if file.is_file() and file.resolve().parent == home]
    except (OSError, ValueError, RuntimeError):
        return []


def find_water(name: str, folders: Sequence[Path], system: str = "US") -> Water | None:
    """The water of a name, or of a file's name, in the first folder that has it; None where none has.

    The name is only ever compared with what lies in the folders, so it never leads anywhere else.

    Raises
    ------
    WaterError where two waters of a folder answer to the name, or the file of the one cannot be used
    """
    wanted = folded(name)
    for folder in folders if wanted else ():
        near = [(file, said) for file in water_files(folder) if wanted in _answers_to(file, said := _name_in(file))]
        if len(near) > 1:
            raise WaterError(
                [_second(file, said, [other for other, _ in near if other != file]) for file, said in near]
            )
        if near:
            return read_water(near[0][0], system)
    return None


def namesakes(folder: Path) -> dict[Path, Mistake]:
    """The files of a folder that share their water's name with another, and what is wrong with each."""
    said = {file: _name_in(file) for file in water_files(folder)}
    answering: dict[str, list[Path]] = {}
    for file, name in said.items():
        for each in _answers_to(file, name):
            answering.setdefault(each, []).append(file)
    near = {file: answering.get(folded(name or file.stem), []) for file, name in said.items()}
    return {
        file: _second(file, said[file], [other for other in files if other != file])
        for file, files in near.items()
        if len(files) > 1
    }


def folded(name: str) -> str:
    """A name as names are compared: small letters, with one blank for any blanks, dashes and underscores.

    >>> folded("Long_Arm  lake")
    'long arm lake'
    """
    return " ".join(re.split(r"[\s_-]+", unicodedata.normalize("NFKC", name).casefold())).strip()


def _answers_to(file: Path, said: str) -> set[str]:
    return {folded(file.stem), folded(file.name), folded(said)} - {""}


def _name_in(file: Path) -> str:
    """The name a file gives its water; empty where that cannot be read, for then only its own name finds it."""
    try:
        name = tomllib.loads(read_text(file).removeprefix("\ufeff")).get("name")
    except (JobError, ValueError, RecursionError):
        return ""
    return name if isinstance(name, str) else ""


def _second(file: Path, said: str, others: Sequence[Path]) -> Mistake:
    also = " and ".join(other.name for other in others)
    line = lines_of(read_text(file).removeprefix("\ufeff").replace("\r\n", "\n")).get(("name",), 0) if said else 0
    found = f"the name {echo(said or file.stem)}, to which {also} answers too"
    return Mistake(str(file), line, "name", found, "one record of each water", "put them together, or rename one")


# What is still to be asked.


def facts_in(water: Water) -> Iterator[tuple[str, Fact[Any]]]:
    """Every fact the record has, with its place as messages name it."""
    for name in entries(Water):
        held = getattr(water, name)
        rows_of = [((name, n), row) for n, row in enumerate(held)] if isinstance(held, list) else [((name,), held)]
        for path, row in rows_of:
            inner = {(*path, key): getattr(row, key) for key in entries(type(row))} if isinstance(row, Table) else {}
            for place, fact in (inner or {path: row}).items():
                if isinstance(fact, Fact):
                    yield place_of(place), fact


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


# The reference page.

_HEAD = """# The file of a water

Written by `python -m lakewright.job.water`; change the model, not this page.

A shop works a dozen waters, and what is known of each is kept once, in a file of its own in the folder `waters`
beside the jobs. A job refers to one by its name or by the name of its file: `[site] water = "long arm lake"`.
What the job does not say is then taken from the record before any default; a build takes only what was measured
or looked up.

The file is TOML. Each fact is a plain value, or a table that says who said so and when:

```toml
elevation = "1340 ft"
low = { value = "-2.5 ft", told = 2026-05-03, said_by = "the neighbour" }  # or measured, looked_up, assumed; a note
low_months = { value = ["August", "September"], told = 2026-05-03, said_by = "the neighbour" }
```

Heights are from the usual summer level of the water, which is 0: plus is up, minus is down. Every field may be left
out, except those marked *needed*. Double brackets are written once for each row.
"""


def water_reference() -> str:
    """The reference page of a water's file, in Markdown."""
    parts = [_HEAD]
    for head, each in every_table():
        parts.append(f"\n## {f'`{head}`' if head else 'Above the first table'}\n\n{(each.__doc__ or '').strip()}\n")
        parts.append("\n| field | takes | is |\n|---|---|---|\n")
        parts += [
            f"| `{entry.name}` | {_in_words(entry.takes)}{'; *needed*' if entry.required else ''} "
            f"| {entry.description} |\n"
            for entry in entries(each).values()
            if entry.takes is not None
        ]
    return "".join(parts)


def _in_words(takes: Takes) -> str:
    if takes.dimension is not None:
        noun = takes.dimension.noun
        examples = dict.fromkeys([noun.us_example, noun.si_example])
        return f"{noun.name}, {' or '.join(f'`{each}`' for each in examples)}"
    if takes.many:
        return f"a list of months, `{takes.example()}`"
    return ", ".join(f"`{word}`" for word in takes.choices) or "words"


def main(arguments: list[str]) -> None:
    """Write the reference page."""
    for name in arguments:
        Path(name).write_text(water_reference(), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
