"""The working: every finding with its question, its formula, what it rests on, what came out, and who says so."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib import resources

from lakewright.documents.assumed import assumed_figure, assumed_of
from lakewright.documents.flow import Flow, Said
from lakewright.documents.said import Sayer, Words, bold, filled, fixed, named, soft, status


@cache
def formulas() -> Mapping[str, str]:
    """The formula of each check, as mathematics in typst."""
    text = resources.files("lakewright.documents").joinpath("formulas.toml").read_text(encoding="utf-8")
    return dict(tomllib.loads(text))


def working_sheet(say: Sayer) -> Flow:
    """The working of a job.

    Parameters
    ----------
    say : report, and `working`, what stands behind each finding
    """
    flow = Flow(fixed("working.name"))
    title = [fixed("working.head")] + ([bold(say("report.title"))] if say.has("report.title") else [])
    flow.heading(title, say("report.first_line"))
    flow.quiet(fixed("working.symbols"))
    flow.quiet(fixed("working.margins"))
    for finding in say.value("report.findings"):
        if finding.status != "not asked":
            _worked(flow, say, finding.name, finding.status)
    skipped = [finding.name for finding in say.value("report.findings") if finding.status == "not asked"]
    if skipped:
        flow.part(fixed("working.skipped"))
        flow.para(
            [Words(f"{named(name).text}{';' if name != skipped[-1] else ''}", f"check.{name}") for name in skipped]
        )
    _facts(flow, say)
    _assumed(flow, say)
    flow.part(fixed("common.cautions"))
    flow.bullets(say(f"report.cautions.{n}") for n in range(len(say.value("report.cautions"))))
    return flow


def _worked(flow: Flow, say: Sayer, name: str, word: str) -> None:
    """One finding, kept on one page."""
    first = len(flow.rows)
    finding, worked = f"report.findings.{name}", f"working.checks.{name}"
    flow.rule()
    flow.finding(word, [status(word), bold(named(name)), soft(_force(say, finding))])
    flow.quiet(say(f"{worked}.question"))
    flow.formula(formulas()[name])
    flow.para(say(f"{finding}.message"))
    flow.quiet([run for runs in _lines(say, finding, worked) for run in runs])
    if word == "fails":
        flow.para([bold(fixed("working.remedy")), say(f"{finding}.remedy")])
    flow.keep(first)


def _force(say: Sayer, finding: str) -> Words:
    return fixed(f"working.force_{say.value(f'{finding}.force')}")


def _lines(say: Sayer, finding: str, worked: str) -> Iterator[list[Words]]:
    """What came out against what, in which case, resting on what, by whose word."""
    result = [each for each in ("value", "limit", "margin") if say.has(f"{worked}.{each}")]
    for each in result:
        yield filled(f"working.{each}", say(f"{worked}.{each}"))
    if say.has(f"{finding}.case"):
        yield filled("working.case", say(f"{finding}.case"))
    if say.has(f"{worked}.inputs"):
        yield filled("working.inputs", say(f"{worked}.inputs"))
    weak: Sequence[int] = say.value(f"{worked}.weak")
    for n in weak:
        place = f"working.inputs.{n - 1}"
        yield filled("working.weak", say(f"{place}.name"), say(f"{place}.figure"), say(f"{place}.standing"))
    yield filled("working.printed_in", say(f"{worked}.source"))


def _facts(flow: Flow, say: Sayer) -> None:
    """Every fact the checks rest on, by its number."""
    flow.part(fixed("working.facts"))
    heads = (fixed("working.number"), fixed("working.fact"), fixed("working.figure"), fixed("working.standing"))
    rows: list[Sequence[Said]] = []
    for n in range(len(say.value("working.inputs"))):
        place = f"working.inputs.{n}"
        number, name, figure = say(f"{place}.number"), say(f"{place}.name"), bold(say(f"{place}.figure"))
        rows.append((number, name, figure, soft(say(f"{place}.standing"))))
    flow.table(("14mm", "1fr", "48mm", "58mm"), "rlll", heads, rows)


def _assumed(flow: Flow, say: Sayer) -> None:
    """All that is assumed of the job and of its price: what the quote asks to be confirmed, and the rest."""
    rows: list[Sequence[Said]] = []
    for place in assumed_of(say):
        why = [soft(say(f"{place}.why"))] + ([soft(say(f"{place}.place"))] if say.has(f"{place}.place") else [])
        rows.append((say(f"{place}.name"), bold(assumed_figure(say, place)), why))
    if rows:
        flow.part(fixed("working.assumed"))
        flow.table(
            ("56mm", "40mm", "1fr"), "lll", (fixed("working.fact"), fixed("working.figure"), fixed("working.why")), rows
        )
