"""The pump-house card: one page to hang by the pump, read with wet hands."""

from __future__ import annotations

from collections.abc import Sequence

from lakewright.documents.flow import ROOM, Flow, Said
from lakewright.documents.said import Sayer, Words, bold, filled, fixed, fixed_rows

EMPTYING = "Emptying it"
IF_EMPTIED = "If it must be emptied"
"""How the parts of the season that the card takes over begin."""


def pump_card(say: Sayer) -> Flow:
    """The card of a job: its gauges, and how to prime, shut and drain it.

    Parameters
    ----------
    say : report, job, and `house`, what is known of the pump and its tank
    """
    flow = Flow(fixed("card.name"))
    line = filled("card.line", say("report.title")) if say.has("report.title") else fixed("card.line_untitled")
    flow.heading(fixed("card.head"), line)
    _gauges(flow, say)
    top = len(flow.rows)
    breaks = []
    flow.part(fixed("card.prime"))
    flow.steps(_priming(say))
    breaks.append(len(flow.rows))
    flow.part(fixed("card.shut"))
    flow.steps(_shutting(say))
    breaks.append(len(flow.rows))
    _draining(flow, say)
    breaks.append(len(flow.rows))
    flow.part(fixed("card.before"))
    flow.bullets(fixed_rows("card", "before_"))
    breaks.append(len(flow.rows))
    flow.part(fixed("card.call"))
    flow.bullets(_calls(say))
    breaks.append(len(flow.rows))
    flow.part(fixed("common.cautions"))
    flow.bullets(say(f"report.cautions.{n}") for n in range(len(say.value("report.cautions"))))
    flow.in_columns(top, breaks)
    flow.fields([(fixed("card.call_blank"), fixed("card.call_blank"))])
    flow.fit_page()
    return flow


def _gauges(flow: Flow, say: Sayer) -> None:
    flow.part(fixed("card.gauges"))
    names = ("gauge", "standing", "running", "valve_shut", "found")
    heads: Sequence[Said] = [fixed(f"card.{name}") for name in names]
    rows: list[Sequence[Said | str]] = []
    for gauge in ("suction", "pressure"):
        cells: list[Said | str] = [bold(fixed(f"card.{gauge}"))]
        for when in ("standing", "running", "shut"):
            path = f"gauges.{gauge} {when}"
            cells.append(bold(say(path)) if say.has(path) else "")
        rows.append((*cells, ROOM))
    flow.table(("auto", "1fr", "1fr", "1fr", "0.9fr"), "lllll", heads, rows)
    flow.quiet(fixed("card.valve_say"))
    if not say.has("report.gauges"):
        flow.quiet(fixed("card.gauges_open"))
    if say.has("house.cut_in"):
        places = [f"house.{name}" for name in ("cut_in", "cut_out", "precharge")]
        figures = [say(place, "gauge") if say.has(place) else fixed("start.unknown") for place in places]
        flow.para(filled("card.switch", *figures))


def _priming(say: Sayer) -> list[Said]:
    rows: list[Said] = [fixed("card.prime_a"), fixed("card.prime_b")]
    if say.value("house.draws_air"):
        rows.append(fixed("card.prime_c_draws"))
    elif say.has("house.fill"):
        rows.append(filled("card.prime_c_fill", say("house.fill", "volume")))
    else:
        rows.append(fixed("card.prime_c_fill_open"))
    rows.append(fixed("card.prime_d"))
    rows.append(filled("card.prime_e", say("house.prime_time", "minutes")) if say.has("house.prime_time")
                else fixed("card.prime_e_open"))  # fmt: skip
    return [*rows, fixed("card.prime_f")]


def _shutting(say: Sayer) -> list[Words]:
    flooded = [fixed("card.shut_flooded")] if say.value("house.flooded") else []
    return [fixed("card.shut_a"), fixed("card.shut_b"), fixed("card.shut_c"), *flooded]


def _draining(flow: Flow, say: Sayer) -> None:
    titles = [part.title for part in say.value("report.season")]
    for title in titles:
        if title.startswith((EMPTYING, IF_EMPTIED)):
            flow.part(fixed("card.drain"))
            rows = range(len(say.value(f"report.season.{title}.rows")))
            flow.steps(say(f"report.season.{title}.rows.{n}") for n in rows)


def _calls(say: Sayer) -> list[Said]:
    names = ["call_vacuum", "call_prime", "call_itself", "call_short", "call_stop", "call_breaker"]
    if say.value("job.need.drinking") != "no":
        names.append("call_water")
    return [fixed(f"card.{name}") for name in names]
