"""Motor, cable and what feeds them. Guidance: a licensed electrician and the local code decide."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import FLOW
from lakewright.checks.verdict import (
    Check,
    Verdict,
    all_or_nothing,
    at_least,
    at_most,
    none_over,
    under_band,
    within_band,
    worse_of,
)
from lakewright.state.limits import Limits
from lakewright.state.power import Motor, Wiring


def motor_is_not_overloaded(motor: Motor, limits: Limits) -> Verdict:
    """At no flow of its own does the pump ask more of its motor than rating and service factor allow."""
    return at_most(motor.shaft, motor.bears, limits.motor_comfort * motor.bears, where=~motor.is_jet)


def voltage_suits_the_motor(wiring: Wiring, limits: Limits) -> Verdict:
    """Voltage at the panel is no more, and at the running motor no less, than its plate bears."""
    asked, comfort = wiring.said & wiring.has_rated, limits.voltage_comfort
    high = at_most(wiring.panel_share, limits.voltage_most, comfort)
    return worse_of(high, at_least(wiring.motor_share, limits.voltage_least, comfort), where=asked)


def cable_carries_the_current(wiring: Wiring, _limits: Limits) -> Verdict:
    """A quarter over full load is no more than the cable carries with terminals for 60 C, or at the least for 75 C."""
    return under_band(wiring.asked, wiring.ampacity_60, wiring.ampacity_75, where=wiring.cable)


def motor_runs_on_its_cable(wiring: Wiring, limits: Limits) -> Verdict:
    """Little of the voltage is lost on the way to the running motor."""
    return under_band(wiring.drop, np.array(limits.drop_easy), np.array(limits.drop_most), where=wiring.cable)


def motor_starts_on_its_cable(wiring: Wiring, limits: Limits) -> Verdict:
    """In the first moment of a start enough voltage is left at the motor to turn it.

    Asked on a generator, an inverter or long cable.
    """
    asked = wiring.cable & (wiring.has_source | ~(wiring.length < limits.long_cable))
    return under_band(wiring.dip, np.array(limits.dip_easy), np.array(limits.dip_most), where=asked)


def supply_starts_the_motor(wiring: Wiring, limits: Limits) -> Verdict:
    """Generator or inverter runs the motor and, by its surge or without it, starts it."""
    runs = wiring.running / limits.source_running
    with_surge, without = (np.maximum(runs, wiring.start / share) for share in (limits.source_surge, 1.0))
    return within_band(wiring.source, with_surge, without, limits.source_comfort, where=wiring.has_source)


def breaker_fits_the_motor(wiring: Wiring, _limits: Limits) -> Verdict:
    """The breaker is no larger than the rule's figure, or the next made size where that is none."""
    return none_over(wiring.breaker, wiring.largest_breaker, where=wiring.said & wiring.has_breaker)


def ground_faults_are_caught(wiring: Wiring, _limits: Limits) -> Verdict:
    """Ground-fault protection stands between the panel and whoever touches pump or water."""
    return all_or_nothing(wiring.protected, 1.0, where=wiring.said)


CURRENTS = ("power.voltage", "power.length", "power.resistance")

POWER = (
    Check(
        motor_is_not_overloaded,
        force="should",
        block="motor",
        cases="running",
        shows="power",
        at="pump",
        label="asked of the motor",
        limit_words="and it bears",
        unit="W",
        needs=(),
        other_needs={
            "centrifugal": (*FLOW, "pump.curve", "power.brake", "power.rating", "power.service_factor"),
        },
        source="nema-service-factors",
        remedy="a larger motor, or a flow control valve that keeps the pump from running out",
        figures=("motor_comfort",),
        reach="picked",
    ),
    Check(
        voltage_suits_the_motor,
        force="should",
        block="wiring",
        cases="all",
        shows="share",
        at="pump",
        label="of the motor's own voltage",
        limit_words="against",
        unit="",
        needs=("power.said", "power.rated_voltage", "power.running_current", *CURRENTS),
        source="nema-voltage",
        remedy="have the motor connected for the voltage that is there, or a thicker cable run",
        figures=("voltage_least", "voltage_most", "voltage_comfort"),
        reach="picked",
    ),
    Check(
        cable_carries_the_current,
        force="should",
        block="wiring",
        cases="all",
        shows="current",
        at="pump",
        label="a quarter over full load",
        limit_words="and the cable carries",
        unit="A",
        needs=("power.cable", "power.table_current", "power.ampacity_60", "power.ampacity_75"),
        source="nec-article-430",
        remedy="a thicker cable, by a licensed electrician",
        reach="picked",
    ),
    Check(
        motor_runs_on_its_cable,
        force="should",
        block="wiring",
        cases="all",
        shows="share",
        at="pump",
        label="of the voltage lost in the cable, running",
        limit_words="at most",
        unit="",
        needs=("power.cable", "power.running_current", *CURRENTS),
        source="nec-voltage-notes",
        remedy="a thicker cable, 230 V in place of 115, or the panel nearer",
        figures=("drop_easy", "drop_most"),
        reach="picked",
    ),
    Check(
        motor_starts_on_its_cable,
        force="note",
        block="wiring",
        cases="all",
        shows="share",
        at="pump",
        label="of the voltage lost in the cable, starting",
        limit_words="at most",
        unit="",
        needs=("power.cable", "power.start_current", *CURRENTS),
        source="start-dip",
        remedy="a thicker cable, or a controller that starts softly",
        figures=("dip_easy", "dip_most", "long_cable"),
        reach="picked",
    ),
    Check(
        supply_starts_the_motor,
        force="should",
        block="wiring",
        cases="all",
        shows="power",
        at="pump",
        label="of generator or inverter",
        limit_words="to start it without a surge",
        unit="W",
        needs=("power.source", "power.voltage", "power.running_current", "power.start_current"),
        source="generator-sizing",
        remedy="a larger generator or inverter, a smaller motor, or a controller that starts softly",
        figures=("source_running", "source_surge", "source_comfort"),
        reach="picked",
    ),
    Check(
        breaker_fits_the_motor,
        force="note",
        block="wiring",
        cases="all",
        shows="current",
        at="pump",
        label="of breaker",
        limit_words="at most",
        unit="A",
        needs=("power.said", "power.breaker", "power.table_current"),
        source="nec-article-430",
        remedy="ask the electrician: a smaller breaker, or overload protection at the motor",
        reach="picked",
    ),
    Check(
        ground_faults_are_caught,
        force="should",
        block="wiring",
        cases="all",
        shows="count",
        at="pump",
        label="interrupter that breaks the circuit at a ground fault",
        limit_words="",
        unit="",
        needs=("power.said", "power.protected"),
        source="nec-210-8",
        remedy="have a licensed electrician fit it: the national code of 2020 and 2023 asks it outdoors at dwellings,"
        " up to 150 V to ground and 50 A, that of 2026 to 60 A; ask which edition holds here",
        reach="picked",
    ),
)
