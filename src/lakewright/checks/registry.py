"""Every check, in the order water flows, and the loop that asks them all."""

from __future__ import annotations

from lakewright.checks.control import CONTROL
from lakewright.checks.delivery import DELIVERY
from lakewright.checks.drinking import DRINKING
from lakewright.checks.ejector import EJECTOR
from lakewright.checks.heat import HEAT
from lakewright.checks.holding import HOLDING
from lakewright.checks.placement import PLACEMENT
from lakewright.checks.placing import PLACING
from lakewright.checks.power import POWER
from lakewright.checks.priming import PRIMING
from lakewright.checks.protection import PROTECTION
from lakewright.checks.pump import PUMP
from lakewright.checks.route import ROUTE
from lakewright.checks.season import SEASON
from lakewright.checks.stand import STAND
from lakewright.checks.suction import SUCTION
from lakewright.checks.surge import SURGE
from lakewright.checks.taps import TAPS
from lakewright.checks.verdict import Check, Verdict
from lakewright.state.limits import Limits
from lakewright.state.walk import State

CHECKS: tuple[Check, ...] = (
    PLACEMENT
    + PLACING
    + STAND
    + SUCTION
    + ROUTE
    + HOLDING
    + PRIMING
    + PUMP
    + DELIVERY
    + CONTROL
    + SURGE
    + TAPS
    + PROTECTION
    + DRINKING
    + POWER
    + SEASON
    + EJECTOR
    + HEAT
)

FLOW_CHECKS = tuple(check for check in CHECKS if check.reach == "all")
"""Checks that a search asks of every design; the others are asked of what it picks."""


def judge(state: State, limits: Limits, checks: tuple[Check, ...] = CHECKS) -> tuple[Verdict, ...]:
    """Every check's verdict, in the order of `CHECKS`, or those of some of them."""
    return tuple(check.function(getattr(state, check.block), limits) for check in checks)
