"""What was said and what was found, over the years and all jobs: by how much it was off, and the defaults it tunes."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from lakewright.api.book import BookFile, Found
from lakewright.book.records import all_of
from lakewright.job.write import write_or_say
from lakewright.state.unknowns import SAID_OFTEN_ENOUGH, difference, dimension_of, tuned


@dataclass(frozen=True)
class Off:
    """A reading, and what was found less what was said: in SI, of what is scaled as a share."""

    reading: Found
    off: float
    dimension: str


@dataclass(frozen=True)
class Tuned:
    """What the record says of an unknown: how many pairs, and bias and spread, None where there are too few."""

    name: str
    pairs: int
    wanted: int
    bias: float | None
    spread: float | None
    dimension: str


def off_by(readings: tuple[Found, ...]) -> list[Off]:
    """Each reading with how far it was off.

    Raises
    ------
    AskError where one cannot be read
    """
    return [
        Off(each, difference(each.what, each.said, each.found, f"{each.job}, {each.day}"), dimension_of(each.what))
        for each in readings
    ]


def tuned_of(book: BookFile) -> list[Tuned]:
    """What the record of all jobs says of each unknown of which it has a pair.

    Raises
    ------
    AskError where a reading cannot be read
    """
    found = off_by(_readings(book))
    pairs = Counter(each.reading.what for each in found)
    known = tuned((each.reading.what, each.off) for each in found)
    rows = []
    for name, count in pairs.items():
        bias, spread = known.get(name, (None, None))
        rows.append(Tuned(name, count, SAID_OFTEN_ENOUGH, bias, spread, dimension_of(name)))
    return rows


def write_record(book: BookFile, to: Path) -> int:
    """Write the record as `doubt --record` takes it, in place of an older one. Returns how many readings.

    Raises
    ------
    AskError where a reading cannot be read, or the file cannot be written
    """
    # A figure that can be read begins no formula: it is a number with its unit.
    readings = [each.reading for each in off_by(_readings(book))]
    lines = [f"{each.what},{_cell(each.said)},{_cell(each.found)}\n" for each in readings]
    write_or_say(to, f"unknown,said,found\n{''.join(lines)}")
    return len(readings)


def _cell(text: str) -> str:
    return f'"{text.replace(chr(34), 2 * chr(34))}"'


def _readings(book: BookFile) -> tuple[Found, ...]:
    with book.reading() as rows:
        return tuple(all_of(rows, Found))
