"""A table of [[readings]] to paste into a job file: the visit of a day, with what a sound system reads beside it."""

from __future__ import annotations

import datetime
import json
import textwrap
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from lakewright import units
from lakewright.diagnosis_lines import NAMES, reading_span
from lakewright.job.fields import Shape, example, shapes
from lakewright.job.models_shop import Reading
from lakewright.lines import WIDTH

if TYPE_CHECKING:
    from lakewright.search.diagnose import Expected


STUCK = "\u00a0"
"""A blank at which no line ends."""


def visit_block(expected: Sequence[Expected], system: str, today: datetime.date) -> Iterator[str]:
    """Lines of a job file: what may be said of a visit, under what each asks; a comment till its # is taken away.

    Parameters
    ----------
    expected : what a sound system reads
    system : US or SI, of the job
    today : the day of the visit
    """
    sound = {each.name: each for each in expected}
    rows = [(shape, _written(shape, sound.get(name), system, today)) for name, shape in shapes(Reading).items()]
    yield "[[readings]]"
    for shape, value in rows:
        if shape.form == "date":
            yield f"{shape.name} = {value}"
            continue
        yield from _said(shape, sound.get(shape.name), system)
        yield f"# {shape.name} = {value}"


def _said(shape: Shape, sound: Expected | None, system: str) -> Iterator[str]:
    """What a line is for: the question, what is read when sound, and the words one may choose of."""
    if sound is not None:
        name, kind = NAMES[shape.name]
        yield f"## {name}; sound: {reading_span(sound, kind, system)}"
        return
    words = shape.item.choices if shape.item is not None else shape.choices
    yield from _hung(f"{shape.description}{' Of: ' if words else ''}", [json.dumps(word) for word in words])


def _hung(head: str, words: Sequence[str]) -> Iterator[str]:
    # A phrase stays on one line, for whoever copies it.
    text = head + ", ".join(word.replace(" ", STUCK) for word in words)
    for line in textwrap.wrap(text, WIDTH, initial_indent="## ", subsequent_indent="## ", break_on_hyphens=False):
        yield line.replace(STUCK, " ")


def _written(shape: Shape, sound: Expected | None, system: str, today: datetime.date) -> str:
    """What stands on the right of the equals sign until somebody knows better."""
    if shape.form == "date":
        return today.isoformat()
    if sound is None:
        return "[]" if shape.form == "list" else example(shape, system)
    _, kind = NAMES[shape.name]
    middle = 0.5 * (sound.low + sound.high)
    if kind == "gauge" and middle < 0.0:
        return json.dumps(f"{units.show(-middle, 'vacuum', system)} vacuum", ensure_ascii=False)
    return json.dumps(units.show(middle, kind, system), ensure_ascii=False)
