"""What else would hold: a search of the draft, as the page shows it."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import partial
from pathlib import Path
from time import perf_counter

from lakewright import units
from lakewright.api.design import Choice, Row, designed
from lakewright.api.look import Field, fields
from lakewright.choice_lines import lacks_in_words, more_or_less
from lakewright.errors import JobError, LakewrightError
from lakewright.web.parts import PARTS, Part
from lakewright.web.view import render

MOST_WAYS = 6
"""ours: of the checks that stood in the way, so many are named."""


def choices(text: str, file: Path, tell: Callable[[int, int], None]) -> str:
    """What a search of a draft found, as a piece of HTML; where nothing is open, what may be.

    `tell` is called with circuits done and circuits in all, from time to time.
    """
    offered = openings(text)
    if not any(field.is_open for _, some in offered for field in some):
        return render("openings.html", offered=offered)
    start = perf_counter()
    try:
        found = designed(text, file, tell)
    except JobError as error:
        return render("mistakes.html", mistakes=error.mistakes, head="Nothing can be chosen yet.")
    except LakewrightError as error:
        return render("trouble.html", words=str(error))
    return render("choices.html", **_words(found), seconds=f"{perf_counter() - start:.1f}")


def openings(text: str) -> list[tuple[Part, tuple[Field, ...]]]:
    """The fields of each part that may be left open."""
    found = [(part, fields(text, part.keys)) for part in PARTS]
    opened = [(part, tuple(field for field in some if field.may_be_open)) for part, some in found]
    return [(part, some) for part, some in opened if some]


def _words(found: Choice) -> dict[str, object]:
    designs = found.shortlist or found.near_misses
    # What all of them share is said once.
    shared = set.intersection(*(set(row.parts) for row in designs)) if len(designs) > 1 else set()
    return {
        "found": found,
        "rows": [_row(row, shared, found.units) for row in designs],
        "shared": [part for part in designs[0].parts if part in shared] if designs else [],
        "held": bool(found.shortlist),
        "ways": found.ways[:MOST_WAYS],
        "saving": found.saving,
        "lacks": "" if found.saving is None else lacks_in_words(found.saving, found.units),
        "more": partial(more_or_less, system=found.units),
    }


def _row(row: Row, shared: Collection[tuple[str, str]], system: str) -> dict[str, object]:
    price, call_back = (units.show(cents, "money", system) for cents in (row.price, row.call_back))
    return {
        "parts": [part for part in row.parts if part not in shared],
        "price": price,
        "call_back": call_back,
        "margin": row.margin,
        "against": row.stands_against,
        "writes": dict(row.writes),
        "name": f"{price}: {', '.join(label for name, label in row.parts if (name, label) not in shared)}",
    }
