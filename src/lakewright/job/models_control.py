"""What starts and stops the pump, where that is not a pressure switch, and the store it may fill."""

from __future__ import annotations

from typing import Annotated, Literal

from lakewright.job.models_curve import CurvePoint, curve_runs_on
from lakewright.job.quantity import (
    Flow,
    Gauge,
    Height,
    Hours,
    Minutes,
    PressureLoss,
    Share,
    Volume,
)
from lakewright.job.table import Rule, Table, Text, YesNoUnknown, field, rows, table

ControlName = Literal[
    "pressure switch", "pressure-flow controller", "variable-speed controller", "store and booster"
]  # fmt: skip


class Controller(Table):
    """A controller of pressure and flow, or of speed, in place of the pressure switch."""

    stock: Text | None = field("Its name in the stock.")
    start: Gauge | None = field("Pressure at which a pressure-flow controller starts the pump.")
    holds: Gauge | None = field("Pressure that a variable-speed controller holds.")
    band: PressureLoss | None = field("How far under that it falls before a variable-speed controller starts again.")
    least_flow: Flow | None = field("Flow under which it takes the taps to be shut.")
    delay: Minutes | None = field("How long it then lets the pump run on.")
    least_speed: Share | None = field("The least speed of the pump that it allows, as a share of its rated speed.")
    efficiency: Share | None = field("Share of the power it takes that reaches the motor.")
    trickle: Flow | None = field("What runs when nobody draws: a tap that drips, a cistern that weeps.")


class Booster(Table):
    """The pump that draws from the store."""

    stock: Text | None = field("Its name in the stock: one with a curve.")
    height: Height | None = field("Height of its suction port from the usual water level.")
    curve: Annotated[list[CurvePoint], Rule(curve_runs_on)] = rows("Its own head by flow, where not from the stock.")


class Store(Table):
    """An open store that the pump fills."""

    stock: Text | None = field("Its name in the stock.")
    volume: Volume | None = field("Water in it from its outlet to where the float stops the pump.")
    low: Height | None = field("Height of its outlet, the lowest water in it, from the usual water level.")
    fill_time: Hours | None = field("How long in a day the pump may take to fill what a day uses.")
    float: YesNoUnknown | None = field("Whether a float stops the pump when it is full.")
    overflow: YesNoUnknown | None = field("Whether an overflow leads away what runs over.")
    booster: Booster = table(Booster, "The pump that draws from it.")
