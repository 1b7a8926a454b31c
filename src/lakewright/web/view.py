"""What the page shows of a draft, as pieces of HTML: each is made anew whenever the draft changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from lakewright.api.explain import explain
from lakewright.api.look import STANDINGS, fields, look
from lakewright.documents.ink import typeset
from lakewright.errors import JobError
from lakewright.report import Finding
from lakewright.state.names import plain_name
from lakewright.web.drawing import drawing
from lakewright.web.parts import PARTS, part_named

if TYPE_CHECKING:
    from jinja2 import Environment


NOTHING: Mapping[str, str] = MappingProxyType({})

LEAST_ROWS = 7
"""ours: of findings, so many are in sight; all of those that fail, are unknown or tight."""


@dataclass(frozen=True)
class Asked:
    """What the page asks to be shown.

    part : the one in hand; day : the one looked at, None for all; finding : whose working is shown, if any
    wide : of the window [pixels]; between : the field that is to be given as lying between two values
    rest : whether those that hold or are not asked are unfolded too
    """

    part: str = ""
    day: int | None = None
    finding: str = ""
    wide: float = 1200.0
    between: str = ""
    rest: bool = False


@cache
def _templates() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    found = Environment(
        loader=PackageLoader("lakewright.web", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters |= {"typeset": typeset, "plain_name": plain_name, "listed": _listed}
    return found


def _listed(each: Sequence[object]) -> str:
    """Numbers or words in a row, as one says them.

    >>> _listed([1, 4, 5]), _listed([4])
    ('1, 4 and 5', '4')
    """
    *most, last = map(str, each)
    return f"{', '.join(most)} and {last}" if most else last


def render(template: str, **values: Any) -> str:
    """A template with values in it, every one of them escaped."""
    return _templates().get_template(template).render(**values)


def pieces(
    text: str, asked: Asked, file: Path, trouble: str = "", typed: Mapping[str, str] = NOTHING
) -> dict[str, Any]:
    """A draft, and the pieces of the page that show it.

    Where the draft cannot be used, what is wrong with it; the pieces that need a sound one are left out.
    What was typed and could not be written stands in its fields all the same, with the trouble there was.
    """
    answer = {"text": text, "part": _hand(asked, text, typed)}
    if trouble:
        return {**answer, "trouble": render("trouble.html", words=trouble)}
    try:
        found = look(text, file, asked.day)
    except JobError as error:
        head = "This draft cannot be judged yet."
        return {**answer, "trouble": render("mistakes.html", mistakes=error.mistakes, head=head)}
    svg, unplaced = drawing(found, asked.wide, part_named(asked.part).name)
    waiting = [row for row in found.shown.findings if row.waits_for_design] if not found.report.ways_out else []
    rows = [row for row in found.shown.findings if row not in waiting]
    decide = sum(row.status in ("fails", "unknown", "tight") for row in rows)
    shown = next((finding for finding in found.shown.findings if finding.name == asked.finding), None)
    working = _working(shown) if shown else {}
    return {
        **answer,
        "trouble": "",
        "head": render("head.html", look=found),
        "drawing": svg,
        "decides": render(
            "decides.html",
            look=found,
            rows=rows,
            waiting=waiting,
            first=max(decide, LEAST_ROWS),
            unplaced=unplaced,
            shown=shown,
            rest=asked.rest,
            **working,
        ),
        "foot": render("foot.html", report=found.report),
    }


def _hand(asked: Asked, text: str, typed: Mapping[str, str]) -> str:
    """The part in hand with its fields; what was typed and not written stands in them all the same."""
    part = part_named(asked.part)
    found = fields(text, part.keys)
    shown = [replace(each, value=typed.get(each.key, each.value)) for each in found]
    return render("part.html", part=part, parts=PARTS, fields=shown, between=asked.between, standings=STANDINGS)


def _working(finding: Finding) -> dict[str, Any]:
    """How a finding came about: question, figures, what to do, sources."""
    told = explain(finding.name)
    return {"check": told.check, "figures": told.figures, "sources": told.sources}
