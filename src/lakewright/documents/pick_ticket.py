"""The pick ticket: what the helper takes from the bins, cuts from coils, and buys on the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from lakewright.documents.flow import BOX, Flow, Said
from lakewright.documents.said import Sayer, Words, bold, filled, fixed, soft
from lakewright.state.bill import Bill, Line

BILL = "report.priced.bill"


@dataclass(frozen=True)
class Pick:
    """What is taken from one bin: how many, of what, and for which stations how many each."""

    bin: str
    count: float
    what: str
    uses: str


def picks_of(bill: Bill) -> tuple[Pick, ...]:
    """The pieces of a bill that lie in bins, one entry a part, by bin; those without a bin last."""
    lines = [line for line in bill.lines if _is_picked(line)]
    lines.sort(key=lambda line: (line.bin == "", line.bin, line.what))
    picks = []
    for (lies, what), group in groupby(lines, key=lambda line: (line.bin, line.what)):
        same = list(group)
        uses = [f"{_station(line)} {line.quantity:g}" if len(same) > 1 else _station(line) for line in same]
        picks.append(Pick(lies, sum(line.quantity for line in same), what, ", ".join(uses)))
    return tuple(picks)


def _station(line: Line) -> str:
    return line.note if line.station == "used up" else line.station


def pick_ticket(say: Sayer) -> Flow:
    """The pick ticket of a job's bill.

    `say` speaks of the report, and of `picks` as `picks_of` makes them.
    """
    flow = Flow(fixed("pick.name"))
    titled = say.has("report.title")
    line = filled("pick.line", say("report.title")) if titled else fixed("pick.line_untitled")
    flow.heading(fixed("pick.head"), line)
    flow.quiet(fixed("pick.ready"))
    _by_bin(flow, say)
    lines: Sequence[Line] = say.value(f"{BILL}.lines")
    _coils(flow, say, [n for n, each in enumerate(lines) if each.unit == "m" and not each.have])
    _locally(flow, say, [n for n, each in enumerate(lines) if each.local and not each.have])
    _there(flow, say, [n for n, each in enumerate(lines) if each.have])
    for name in ("gaps", "notes"):
        if say.has(f"{BILL}.{name}"):
            flow.part(fixed(f"pick.{name}"))
            flow.bullets(say(f"{BILL}.{name}.{n}") for n in range(len(say.value(f"{BILL}.{name}"))))
    first = len(flow.rows)
    flow.para(filled("pick.total", say(f"{BILL}.mass", "mass"), say(f"{BILL}.mass_in_water", "mass")))
    flow.fields([(fixed("pick.picked"), fixed("pick.checked"))])
    flow.keep(first)
    flow.part(fixed("common.cautions"))
    flow.bullets(say(f"report.cautions.{n}") for n in range(len(say.value("report.cautions"))))
    return flow


def _is_picked(line: Line) -> bool:
    return line.unit != "m" and not line.have and not line.local


def _by_bin(flow: Flow, say: Sayer) -> None:
    picks = say.value("picks")
    if not picks:
        return
    flow.part(fixed("pick.by_bin"))
    heads = ((), fixed("pick.bin"), fixed("pick.count"), fixed("pick.part"), fixed("pick.for_what"))
    rows: list[Sequence[Said | str]] = []
    for n in range(len(picks)):
        lies = say(f"picks.{n}.bin") if say.has(f"picks.{n}.bin") else fixed("pick.no_bin")
        count = bold(say(f"picks.{n}.count", "count"))
        rows.append((BOX, lies, count, say(f"picks.{n}.what"), soft(say(f"picks.{n}.uses"))))
    flow.table(("7mm", "16mm", "14mm", "1fr", "auto"), "llrll", heads, rows)


def _coils(flow: Flow, say: Sayer, coils: Sequence[int]) -> None:
    if not coils:
        return
    flow.part(fixed("pick.coils"))
    heads = ((), fixed("pick.bin"), fixed("pick.part"), fixed("pick.bought"), fixed("pick.left"))
    rows = [(BOX, _bin(say, n), bold(_of(say, n, "what")), _count(say, n), soft(_of(say, n, "note"))) for n in coils]
    flow.table(("7mm", "16mm", "1fr", "22mm", "58mm"), "lllrl", heads, rows, whole=True)


def _locally(flow: Flow, say: Sayer, local: Sequence[int]) -> None:
    if not local:
        return
    flow.part(fixed("pick.locally"))
    heads = ((), fixed("pick.count"), fixed("pick.part"), fixed("pick.for_what"), fixed("pick.weight"))
    rows: list[Sequence[Said | str]] = []
    for n in local:
        weight = say(f"{BILL}.lines.{n}.mass", "mass")
        rows.append((BOX, bold(_count(say, n)), _of(say, n, "what"), soft(_of(say, n, "station")), weight))
    flow.table(("7mm", "14mm", "1fr", "26mm", "20mm"), "lrllr", heads, rows, whole=True)


def _there(flow: Flow, say: Sayer, there: Sequence[int]) -> None:
    if not there:
        return
    flow.part(fixed("pick.there"))
    rows = [(BOX, _of(say, n, "what"), _count(say, n), soft(_of(say, n, "note"))) for n in there]
    flow.table(("7mm", "1fr", "18mm", "72mm"), "llrl", (), rows, whole=True)


def _of(say: Sayer, n: int, field: str) -> Words:
    """A field of a line of the bill."""
    return say(f"{BILL}.lines.{n}.{field}")


def _bin(say: Sayer, n: int) -> Words:
    path = f"{BILL}.lines.{n}.bin"
    return say(path) if say.has(path) else fixed("pick.no_bin")


def _count(say: Sayer, n: int) -> Words:
    """How many pieces, or how much of what is sold by length."""
    line: Line = say.value(f"{BILL}.lines.{n}")
    return say(f"{BILL}.lines.{n}.quantity", "length" if line.unit == "m" else "count")
