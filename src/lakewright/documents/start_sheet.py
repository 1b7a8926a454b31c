"""The start-up sheet: what was said, what was found, and how far off the one was, to be filled in on the day."""

from __future__ import annotations

from collections.abc import Iterator

from lakewright.documents.flow import SLOT, Flow, Said
from lakewright.documents.said import Sayer, Words, bold, filled, fixed, fixed_rows


def start_sheet(say: Sayer) -> Flow:
    """The start-up sheet of a job.

    Parameters
    ----------
    say : report, job, house and gauges
    """
    flow = Flow(fixed("start.name"))
    title = [fixed("start.head")] + ([bold(say("report.title"))] if say.has("report.title") else [])
    flow.heading(title, fixed("start.line"))
    flow.fields([tuple(fixed_rows("start", "who_"))])
    flow.part(fixed("start.site"))
    _table(flow, _site(say))
    flow.part(fixed("start.stopped"))
    _table(flow, _stopped(say))
    flow.part(fixed("start.running"))
    _table(flow, _running(say))
    look = len(flow.rows)
    flow.part(fixed("start.look"))
    first = len(flow.rows)
    flow.steps(fixed_rows("start", "look_"), boxes=True)
    flow.in_columns(first)
    flow.keep(look)
    flow.quiet(fixed("start.back"))
    flow.part(fixed("common.cautions"))
    first = len(flow.rows)
    flow.bullets(say(f"report.cautions.{n}") for n in range(len(say.value("report.cautions"))))
    flow.in_columns(first)
    flow.fit_page()
    return flow


Row = tuple[Said, Said]


def _table(flow: Flow, rows: Iterator[Row]) -> None:
    heads = ((), fixed("start.said"), fixed("start.found"), fixed("start.off"))
    body = [(name, bold(said) if isinstance(said, Words) else said, SLOT, SLOT) for name, said in rows]
    flow.table(("1fr", "44mm", "36mm", "30mm"), "llll", heads, body, whole=True)


def _site(say: Sayer) -> Iterator[Row]:
    pairs = (
        ("depth", "house.depth", "depth"),
        ("height", "house.pump_height", "height"),
        ("low", "house.low", "height"),
    )
    for name, path, kind in pairs:
        yield fixed(f"start.{name}"), _or_unknown(say, path, kind)
    yield fixed("start.today"), ()
    for n, each in enumerate(say.value("stated")):
        if each.standing == "told" and not each.key.startswith(("stand.depth", "pump.height", "site.levels.low")):
            yield filled("start.told", say(f"stated.{n}.name")), say(f"stated.{n}.text")


def _stopped(say: Sayer) -> Iterator[Row]:
    yield fixed("start.precharge"), _or_unknown(say, "house.precharge", "gauge")
    yield fixed("start.fill"), _or_unknown(say, "house.fill", "volume")
    yield fixed("start.prime_time"), _finding(say, "line_is_primed_in_time", "time")
    for gauge in ("suction", "pressure"):
        yield fixed(f"start.{gauge}_standing"), _reading(say, f"{gauge} standing")
    yield fixed("start.holds"), fixed("start.holds_said")


def _running(say: Sayer) -> Iterator[Row]:
    for gauge in ("suction", "pressure"):
        yield fixed(f"start.{gauge}_running"), _reading(say, f"{gauge} running")
    for gauge in ("suction", "pressure"):
        yield fixed(f"start.{gauge}_shut"), _reading(say, f"{gauge} shut")
    yield fixed("start.flow"), _finding(say, "delivers_the_need", "flow")
    yield fixed("start.cut_in"), _or_unknown(say, "house.cut_in", "gauge")
    yield fixed("start.cut_out"), _or_unknown(say, "house.cut_out", "gauge")
    yield fixed("start.run"), _finding(say, "runs_long_enough", "time")
    yield fixed("start.tap"), _finding(say, "taps_have_pressure", "gauge")
    yield fixed("start.cut_off"), _or_unknown(say, "house.cut_off", "gauge")
    yield fixed("start.relief"), _or_unknown(say, "house.relief", "gauge")
    yield fixed("start.voltage"), _or_unknown(say, "house.voltage", "voltage")


def _or_unknown(say: Sayer, path: str, kind: str) -> Words:
    return say(path, kind) if say.has(path) else fixed("start.unknown")


def _reading(say: Sayer, name: str) -> Words:
    return say(f"gauges.{name}") if say.has(f"gauges.{name}") else fixed("start.unknown")


def _finding(say: Sayer, name: str, kind: str) -> Words:
    path = f"report.findings.{name}.value"
    return say(path, kind) if say.value(path) is not None else fixed("start.unknown")
