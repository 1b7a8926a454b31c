"""What every table of a job file has in common."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler
from pydantic_core import core_schema

from lakewright.job.quantity import FieldProblem, Quantity, echo


class Table(BaseModel):
    """A table of the job file. Unknown keys are mistakes; a read table never changes."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, defer_build=True, protected_namespaces=())


@dataclass(frozen=True, slots=True)
class Rule:
    """What must hold between a field and what stands before it in its table.

    `holds` raises FieldProblem where it does not; it is given the value, and those before it that are sound.
    """

    holds: Callable[[Any, Mapping[str, Any]], None]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return self.after(handler(source))

    def after(self, schema: core_schema.CoreSchema) -> core_schema.CoreSchema:
        """The schema with this rule asked once a value has passed it."""
        return core_schema.with_info_after_validator_function(self._ask, schema)

    def _ask(self, value: Any, info: core_schema.ValidationInfo) -> Any:
        self.holds(value, info.data)
        return value


class Figure:
    """A figure of a limit: a number, true, false or text, as written."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return self.schema()

    def schema(self) -> core_schema.CoreSchema:
        """The schema of one figure."""
        return core_schema.no_info_plain_validator_function(self._plain)

    def _plain(self, value: object) -> object:
        number = isinstance(value, (int, float)) and abs(value) <= MOST_FIGURE
        if number or (isinstance(value, str) and len(value) <= LONGEST_TEXT):
            return value
        raise FieldProblem(echo(value), "a number, true, false, or a quantity in quotes", "write the figure alone")


FIGURE = Figure()


# The library reads the signature of every maker of defaults; those of list and dict cost it milliseconds.
def _no_rows() -> list[Any]:
    return []


def _no_names() -> dict[str, Any]:
    return {}


def field(description: str) -> Any:
    """A field that may be left out: None then."""
    return Field(default=None, description=description)


def required(description: str) -> Any:
    """A field without which its table means nothing."""
    return Field(description=description)


def otherwise(default: str, description: str) -> Any:
    """A field that means `default` when it is left out."""
    return Field(default=default, description=description)


def count_of(description: str) -> Any:
    """A number of things: none when it is left out."""
    return Field(default=0, description=description)


def tables(description: str) -> Any:
    """Tables under names of the user's own; none when left out."""
    return Field(default_factory=_no_names, description=description, max_length=MOST_ROWS)


def counts(description: str) -> Any:
    """Names of the user's own with a number each; empty when left out."""
    return Field(default_factory=_no_names, description=description, max_length=MOST_ROWS)


def rows(description: str) -> Any:
    """A list that may be left out: empty then."""
    return Field(default_factory=_no_rows, description=description, max_length=MOST_ROWS)


def table(kind: type[Table], description: str) -> Any:
    """A table that may be left out: every field of it is then at its default."""
    return Field(default_factory=lambda: kind.model_construct(), description=description)


MOST_ROWS = 20_000  # ours: a sounder's track of a whole bay; more is the wrong file
LONGEST_TEXT = 4_000  # ours: a page of words
MOST_FIGURE = 1.0e15  # ours: past this a number in a job file is a slip
MOST_COUNT = 100_000  # ours: no small supply has more of anything

Text = Annotated[str, Field(max_length=LONGEST_TEXT)]
Count = Annotated[int, Field(ge=0, le=MOST_COUNT)]
YesNoUnknown = Literal["yes", "no", "unknown"]
HowMuch = Literal["none", "some", "many", "unknown"]
Month = Literal[
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
]  # fmt: skip


def is_said(words: str, _: Mapping[str, Any]) -> None:
    """Words say something."""
    if not words.strip():
        raise FieldProblem(echo(words), "words in quotes", write='"..."')


def refuse_falling(items: Iterable[Any], key: str, what: str) -> None:
    """Each item's `key` lies beyond the one before, or a FieldProblem at the first that does not."""
    last: Quantity | None = None
    for index, item in enumerate(items):
        here: Quantity = getattr(item, key) if key else item
        if last is not None and not here.value > last.value:
            raise FieldProblem(
                echo(here.text),
                f"{what} beyond the one before, {echo(last.text)}",
                "put the rows in rising order, each once",
                at=(index, key) if key else (index,),
            )
        last = here


def some_of_it_is_open(blocked: Quantity, _: Mapping[str, Any]) -> None:
    """Through a screen that is blocked whole nothing comes, whatever the pump."""
    if blocked.high >= 1.0:
        raise FieldProblem(echo(blocked.text), "less than 100 %", "give what is blocked before it is cleaned")


def distances_rise(points: Iterable[Any], _: Mapping[str, Any]) -> None:
    """Points along a line come in order of distance."""
    refuse_falling(points, "distance", "a distance")


def values_rise(values: Iterable[Any], _: Mapping[str, Any]) -> None:
    """Values of a list rise."""
    refuse_falling(values, "", "a value")


def names_differ(items: Iterable[Any], _: Mapping[str, Any]) -> None:
    """No two rows have the same name."""
    seen: set[str] = set()
    for index, item in enumerate(items):
        name = item.name.casefold()
        if name in seen:
            raise FieldProblem(
                f"{echo(item.name)} a second time",
                "a name of its own",
                "give this one another name",
                at=(index, "name"),
            )
        seen.add(name)
