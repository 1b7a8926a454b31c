"""Marks a test of printed digits with where they are printed, and counts what stands marked.

A printed number stays a string: then the tolerance is the print.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import pytest

from lakewright.sources import load_sources

MOST_A_PLACE = 5
"""ours: a long table proves one formula, so no place counts for more."""

LEAST_PLACES = 25
"""ours: fewer would leave functions of the walk resting on our word."""

FROM_MEMORY = "from memory"
"""A place that says so holds digits nobody had before them."""


def published(source: str, place: str) -> pytest.MarkDecorator:
    """The mark of a test whose digits are printed at `place` (table, equation, example) of `source`."""
    if source not in load_sources():
        raise LookupError(f"{source} is no entry of sources.toml")
    return pytest.mark.published(source=source, place=place)


def half_digit(printed: str) -> float:
    """Half a unit of the last digit printed.

    >>> [half_digit(text) for text in ("3536.58941", "23.2", "7.75e-4", "44")]
    [5e-06, 0.05, 5e-07, 0.5]
    """
    digits, _, power = printed.partition("e")
    return float(f"0.5e{int(power or 0) - len(digits.partition('.')[2])}")


def assert_printed(value: object, printed: str, tolerance: float | None = None) -> None:
    """`value` agrees with the print to half its last digit, or within a tolerance whose line says why."""
    within = half_digit(printed) if tolerance is None else tolerance
    number = float(value)  # type: ignore[arg-type]
    # A number on the edge between two prints may be printed either way.
    if not abs(number - float(printed)) <= within * (1.0 + 1e-9):
        raise AssertionError(f"computed {number!r}, printed {printed}, allowed apart {within:g}")


def places_table(values: Iterable[tuple[str, str]]) -> tuple[list[str], int]:
    """Lines that list source, place, values and what counts of them; and how many places count.

    A place in a source that is not in sources.toml is shown and does not count.
    """
    every = Counter(values)
    sources = load_sources()
    counts = Counter({key: many for key, many in every.items() if key[0] in sources})
    lines = [f"{'source':<28} {'standing':<12} {'values':>6} {'counted':>7}  place"]
    for (source, place), many in sorted(every.items()):
        standing = sources[source].standing if source in sources else "not listed"
        counted = min(counts[source, place], MOST_A_PLACE)
        lines.append(f"{source:<28} {standing:<12} {many:>6} {counted:>7}  {place}")
    remembered = sum(FROM_MEMORY in place for _, place in counts)
    counted = sum(min(many, MOST_A_PLACE) for many in counts.values())
    lines.append(
        f"{len(counts)} places ({remembered} of them from memory), {counts.total()} values, "
        f"{counted} counted at {MOST_A_PLACE} a place at most"
    )
    if unlisted := len(every) - len(counts):
        lines.append(f"{unlisted} more not counted: their source is not in sources.toml")
    return lines, len(counts)
