"""An ejector of known sizes, at the pump or hung below it."""

from __future__ import annotations

from lakewright.checks.needs import FLOW, PUMPED_BY, unique
from lakewright.checks.verdict import Check, Verdict, at_least, at_most
from lakewright.state.ejector import Ejector
from lakewright.state.limits import Limits


def ejector_does_not_boil(ejector: Ejector, limits: Limits) -> Verdict:
    """With the tank under pressure, the ejector draws less than its throat passes before the water boils there."""
    asked = ejector.fitted & ejector.under_pressure
    return at_most(ejector.drawn_share, limits.ejector_share, limits.ejector_share_comfort, where=asked)


def two_pipes_keep_their_prime(ejector: Ejector, limits: Limits) -> Verdict:
    """Over two pipes, pressure at the pump's outlet stays high enough that the ejector keeps the pump's inlet fed."""
    asked = ejector.is_jet & (ejector.least_outlet != 0.0) & ejector.under_pressure
    return at_least(ejector.outlet, ejector.least_outlet, limits.prime_kept_comfort, where=asked)


AT_WORK = unique(FLOW, PUMPED_BY["jet"])
"""The flow of a jet."""

EJECTOR = (
    Check(
        ejector_does_not_boil,
        force="should",
        block="ejector",
        cases="running",
        shows="share",
        at="pump",
        label="of the flow at which water boils in the ejector",
        limit_words="at most",
        unit="1",
        needs=(),
        other_needs={"jet": (*AT_WORK, *(f"ejector.{name}" for name in ("fitted", "annulus", "cavitation", "below")))},
        source="cunningham-1970",
        remedy="a wider throat or a smaller nozzle, less lift, or a flow control valve that holds it to less",
        figures=("ejector_share", "ejector_share_comfort"),
        reach="picked",
    ),
    Check(
        two_pipes_keep_their_prime,
        force="must",
        block="ejector",
        cases="running",
        shows="gauge",
        at="pump",
        label="at the pump's outlet",
        limit_words="at least",
        unit="Pa",
        needs=(),
        other_needs={"jet": (*AT_WORK, "ejector.outlet_held", "ejector.least_outlet")},
        source="ours",
        remedy="a control valve at the pump's outlet, set over that pressure at start-up",
        figures=("prime_kept_comfort",),
        reach="picked",
    ),
)
