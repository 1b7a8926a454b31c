"""A pump that runs on with every tap shut."""

from __future__ import annotations

from lakewright.checks.verdict import Check, Verdict, at_least
from lakewright.state.heat import Heat
from lakewright.state.limits import Limits


def shut_pump_heats_slowly(heat: Heat, limits: Limits) -> Verdict:
    """Should the switch not stop it, a pump that runs with every tap shut leaves time to be heard before it is hot."""
    return at_least(heat.time, limits.heating_least, limits.heating_comfort)


HEAT = (
    Check(
        shut_pump_heats_slowly,
        force="note",
        block="heat",
        cases="standing",
        shows="minutes",
        at="pump",
        label="until the casing is hot, run shut",
        limit_words="at least",
        unit="s",
        needs=("days.temperature", "heat.power", "priming.casing"),
        source="pump-temperature-pages",
        remedy="a thermostat on the casing",
        figures=("heating_least", "heating_comfort"),
        reach="picked",
    ),
)
