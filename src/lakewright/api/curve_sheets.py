"""What the charts of pump and grade line show of a job."""

from __future__ import annotations

import math

import numpy as np

from lakewright.documents.grade_chart import Along, grade_chart
from lakewright.documents.pump_chart import Running, pump_chart
from lakewright.documents.scene import Scene
from lakewright.errors import AskError
from lakewright.physics.types import GRAVITY
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.state.cases import FOULED, OPEN, case_names, cases_of
from lakewright.state.control_facts import ends_of
from lakewright.state.curves import curves_of
from lakewright.state.facts import Facts
from lakewright.state.grade_line import GradeLine, grade_line
from lakewright.state.lake import lake
from lakewright.state.walk import State, walk


def pump_scene(assembly: Assembly, report: Report) -> Scene:
    """The chart of pump and system.

    Raises
    ------
    AskError where no suction pump will do, there is none yet, or not enough is known for it to run
    """
    facts, state = assembly.facts, _runs(assembly, report)
    curves = curves_of(facts, state.flow.flow)
    return pump_chart(curves, running_of(facts, state), facts.pump_kind == "jet", report)


def grade_scene(assembly: Assembly, report: Report) -> Scene:
    """The chart of the hydraulic grade line.

    Raises
    ------
    AskError where no suction pump will do, there is none yet, or not enough is known for it to run
    """
    facts, state = assembly.facts, _runs(assembly, report)
    grade = grade_line(facts, state)
    return grade_chart(grade, path_of(facts, state, grade), report)


def _runs(assembly: Assembly, report: Report) -> State:
    """The walk of a job whose pump runs."""
    if report.ways_out:
        raise AskError("no curves: no suction pump will do here")
    state = walk(assembly.facts)
    if not np.isfinite(state.flow.flow).all():
        raise AskError("no curves: no pump is chosen yet, or its circuit is not known; check says what is missing")
    return state


def running_of(facts: Facts, state: State) -> Running:
    """Where pump and system meet."""
    cases = cases_of(len(facts.day_names))
    return Running(
        flow=state.flow.flow,
        asked=state.delivery.wanted,
        end=cases.running_end,
        fouled=(cases.running_line == FOULED).astype(np.intp),
        held=float(facts.delivery.flow_control[0]),
        names=tuple(case_names("running", facts.day_names, ends_of(facts.control_kind))),
    )


def path_of(facts: Facts, state: State, grade: GradeLine) -> Along:
    """What the chart of the grade line shows besides."""
    cases = cases_of(len(facts.day_names))
    at = grade.suction - 1
    room = grade.grade[:, at] - grade.boils[:, at]
    worst = int(np.nanargmin(room)) if np.isfinite(room).any() else 0
    names = case_names("running", facts.day_names, ends_of(facts.control_kind))
    levels = facts.days.level + facts.faults.level_offset
    tap, over, name = _tap(facts, state)
    return Along(
        worst=worst,
        worst_name=names[worst],
        room=float(room[worst]),
        pressed=cases.running_end != OPEN,
        tap=tap,
        tap_grade=tap + over,
        tap_name=name,
        levels=(float(levels.min()), float(levels.max())),
    )


def _tap(facts: Facts, state: State) -> tuple[float, float, str]:
    """The tap that lacks most on the worst day: its height, the head over it [m], and its name."""
    cases = cases_of(len(facts.day_names))
    spare = np.where(state.taps.at_cut_in, state.taps.pressure - state.taps.least, np.inf)
    if not np.isfinite(spare).any():
        return math.nan, math.nan, ""
    case = int(np.nanargmin(spare))
    which = int(np.ravel(state.taps.which)[case])
    density = float(lake(facts, cases.running_day, cases.running_line).density[case])
    return (
        float(facts.taps.height[which]),
        float(state.taps.pressure[case]) / (density * GRAVITY),
        facts.tap_names[which],
    )
