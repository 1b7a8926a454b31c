"""The shore sheet: what the installer does at the water, in order, with what and under which cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lakewright.documents.flow import BOX, Flow, Said
from lakewright.documents.said import Sayer, Words, bold, filled, fixed, fixed_rows, soft


@dataclass(frozen=True)
class ShoreTask:
    """A task of the day: what, how long and by how many, in words, and what must be hired for it."""

    what: str
    hours: str
    people: str
    needs: str


@dataclass(frozen=True)
class Carried:
    """Something carried in one piece: what, and its weight empty and full of water [kg]."""

    what: str
    dry: float
    wet: float


def shore_sheet(say: Sayer) -> Flow:
    """The shore sheet of a job.

    Parameters
    ----------
    say : report, job and house; `tasks` and `bundles`, of this module's kinds; `haul`, what the line weighs, in words
    """
    flow = Flow(fixed("shore.name"))
    title = [fixed("shore.head")] + ([bold(say("report.title"))] if say.has("report.title") else [])
    flow.heading(title, fixed("shore.line"))
    flow.framed(say(f"report.cautions.{n}") for n in range(len(say.value("report.cautions"))))
    first = len(flow.rows)
    flow.part(fixed("shore.permits"))
    flow.steps(_permits(say), boxes=True)
    middle = len(flow.rows)
    flow.part(fixed("shore.tools"))
    flow.steps(_tools(say), boxes=True)
    flow.in_columns(first, [middle])
    flow.part(fixed("shore.steps"))
    flow.steps(_steps(say))
    _lifting(flow, say)
    _tasks(flow, say)
    last = len(flow.rows)
    flow.part(fixed("shore.found"))
    flow.quiet(fixed("shore.found_say"))
    flow.fields([tuple(fixed(f"shore.mark_{n}") for n in ("a", "b", "c")), tuple(fixed_rows("shore", "left_"))])
    flow.keep(last)
    return flow


def _permits(say: Sayer) -> Iterator[Said]:
    rules = "job.site.rules"
    for name in ("permit", "region", "call", "answer"):
        if say.has(f"{rules}.{name}"):
            yield filled(f"shore.said_{name}", bold(say(f"{rules}.{name}")))
    if say.has("job.access.window"):
        yield filled("shore.said_window", bold(say("job.access.window")))
    yield from fixed_rows("shore", "permit_")


def _tools(say: Sayer) -> Iterator[Said]:
    yield from fixed_rows("shore", "tool_")
    if say.value("job.site.kind") != "tank" and say.value("job.stand.form") not in ("hung", "box"):
        yield from fixed_rows("shore", "boat_")


def _steps(say: Sayer) -> Iterator[Said]:
    """What is done, with this site's figures where somebody has said them."""
    yield fixed("shore.step_weather")
    yield fixed("shore.step_level")
    if say.has("house.pump_height"):
        yield filled("shore.step_pump", say("house.pump_height", "height"))
    else:
        yield fixed("shore.step_pump_open")
    yield from _placing(say)
    yield fixed("shore.step_build")
    yield fixed("shore.step_valve")
    yield from _line(say)
    yield fixed("shore.step_lower")
    yield fixed("shore.step_rise")
    yield from _buried(say)
    yield fixed("shore.step_power")
    yield fixed("shore.step_prime")
    yield fixed("shore.step_read")


def _placing(say: Sayer) -> Iterator[Said]:
    if _known(say, "job.stand.at") and say.has("house.depth"):
        yield filled("shore.step_place", say("job.stand.at.value", "length"), say("house.depth", "depth"))
    else:
        yield fixed("shore.step_place_open")
    for name in ("coordinates", "note"):
        if say.has(f"job.site.position.{name}"):
            yield filled(f"shore.step_{name}", say(f"job.site.position.{name}"))


def _line(say: Sayer) -> Iterator[Said]:
    weights = "job.suction.weights"
    if _known(say, f"{weights}.mass") and _known(say, f"{weights}.spacing"):
        yield filled(
            "shore.step_weights", say(f"{weights}.mass.value", "mass"), say(f"{weights}.spacing.value", "length")
        )
    else:
        yield fixed("shore.step_line")


def _buried(say: Sayer) -> Iterator[Said]:
    for name in ("buried_from", "staked_to"):
        if _known(say, f"job.suction.{name}"):
            yield filled(f"shore.step_{name}", say(f"job.suction.{name}.value", "length"))


def _known(say: Sayer, path: str) -> bool:
    return say.has(path) and not say.value(path).open


def _lifting(flow: Flow, say: Sayer) -> None:
    flow.part(fixed("shore.lifting"))
    rows: list[Said] = [fixed("shore.lift_say")]
    lifted = "report.findings.stand_can_be_lifted"
    if say.value(f"{lifted}.value") is not None:
        rows.append(say(f"{lifted}.message", plus="."))
    if say.has("haul"):
        rows.append(say("haul", plus="."))
    flow.bullets(rows)
    if say.has("bundles"):
        heads = ((), fixed("shore.piece"), fixed("shore.dry"), fixed("shore.wet"))
        cells: list[Sequence[Said | str]] = [
            (BOX, say(f"bundles.{n}.what"), say(f"bundles.{n}.dry", "mass"), say(f"bundles.{n}.wet", "mass"))
            for n in range(len(say.value("bundles")))
        ]
        flow.table(("7mm", "1fr", "30mm", "30mm"), "llrr", heads, cells)


def _tasks(flow: Flow, say: Sayer) -> None:
    if not say.has("tasks"):
        return
    flow.part(fixed("shore.day"))
    flow.quiet(fixed("shore.day_say"))
    heads = ((), fixed("shore.task"), fixed("shore.time"), fixed("shore.people"), fixed("shore.hired"))
    rows: list[Sequence[Said | str]] = []
    for n in range(len(say.value("tasks"))):
        words: list[Words] = [say(f"tasks.{n}.{field}") for field in ("what", "hours", "people", "needs")]
        rows.append((BOX, words[0], words[1], words[2], soft(words[3])))
    flow.table(("7mm", "1fr", "24mm", "18mm", "26mm"), "llrrl", heads, rows, whole=True)
