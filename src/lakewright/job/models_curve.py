"""Points of a pump's curve, as a job gives them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from lakewright.job.quantity import FieldProblem, Flow, Head, Power
from lakewright.job.table import Table, refuse_falling, required


class CurvePoint(Table):
    """A point of a pump's curve."""

    flow: Flow = required("Flow.")
    head: Head = required("Head at that flow.")


class PowerPoint(Table):
    """A point of the power that a pump asks of its motor."""

    flow: Flow = required("Flow.")
    power: Power = required("Power at the shaft at that flow.")


def curve_runs_on(curve: Sequence[CurvePoint | PowerPoint], _: Mapping[str, Any]) -> None:
    """A curve has two points or more, in order of flow."""
    if len(curve) == 1:
        raise FieldProblem("one point", "two points or more", "give the curve from no flow to the most")
    refuse_falling(curve, "flow", "a flow")
