"""Winter: what is emptied, how deep it lies, whether it can be taken in, and in time."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import LINE_WEIGHT, SHAPE
from lakewright.checks.verdict import Check, Verdict, at_least, at_most, under_band
from lakewright.state.limits import Limits
from lakewright.state.season import Season


def supply_drains_empty(season: Season, limits: Limits) -> Verdict:
    """What is drained for the winter keeps no water where frost gets at it: its ends open, its foot valve too."""
    return at_most(season.left, limits.left_most, limits.left_comfort, where=season.emptied)


def trench_is_below_frost(season: Season, limits: Limits) -> Verdict:
    """A line that stays full in winter lies deeper than the ground freezes."""
    return at_least(season.trench, season.frost, limits.trench_comfort, where=~np.isinf(season.trench))


def line_has_slack_for_the_cold(season: Season, limits: Limits) -> Verdict:
    """A plastic line that stays in the water is longer than its way by more than the cold shortens it."""
    return at_least(season.slack, season.shrinks, limits.slack_comfort, where=season.stays)


def line_can_be_hauled(season: Season, limits: Limits) -> Verdict:
    """Line and stand can be dragged ashore along the bed by hand: by one person, or at the most by two."""
    easy, most = np.array(limits.haul_easy), np.array(limits.haul_most)
    return under_band(season.pull, easy, most, where=season.hauled)


def closes_before_the_frost(season: Season, limits: Limits) -> Verdict:
    """The day it is hauled or drained comes before the hard frost that one autumn in ten has by then."""
    return at_least(season.before_frost, 0.0, limits.close_comfort, where=season.closes)


def opens_after_the_frost(season: Season, limits: Limits) -> Verdict:
    """The day it is started comes after the hard frost that one spring in ten still has."""
    return at_least(season.after_frost, 0.0, limits.open_comfort, where=season.opens)


SEASON = (
    Check(
        supply_drains_empty,
        force="should",
        block="season",
        cases="all",
        shows="volume",
        at="suction line",
        label="of water left when all is opened",
        limit_words="at most",
        unit="m3",
        needs=(
            *("season.emptied", "season.suction_left", "season.delivery_left"),
            *("suction.bore", "delivery.bore"),
        ),
        source="ours",
        remedy="give each low place a drain, and the foot valve a cord that opens it, or haul the line",
        figures=("left_most", "left_comfort"),
        reach="picked",
    ),
    Check(
        trench_is_below_frost,
        force="should",
        block="season",
        cases="all",
        shows="depth",
        at="bank",
        label="of earth over the line",
        limit_words="the ground freezes",
        unit="m",
        needs=("season.trench_depth", "season.frost_depth"),
        source="ours",
        remedy="dig deeper, drain it for the winter, or ask about listed heat cable; the local code's depth decides",
        figures=("trench_comfort",),
        reach="picked",
    ),
    Check(
        line_has_slack_for_the_cold,
        force="note",
        block="season",
        cases="standing",
        shows="depth",
        at="suction line",
        label="of slack in the line",
        limit_words="the cold takes",
        unit="m",
        needs=(
            *("season.expansion", "season.slack", "days.temperature", "stand.on_legs"),
            *("suction.bed_length", "suction.bank_length", "suction.along"),
        ),
        source="ppi-handbook",
        remedy="lay it in long bends, so that it does not pull on stand and pump",
        figures=("slack_comfort",),
        reach="picked",
    ),
    Check(
        line_can_be_hauled,
        force="should",
        block="season",
        cases="standing",
        shows="force",
        at="suction line",
        label="to drag line and stand ashore",
        limit_words="at most",
        unit="N",
        needs=(
            *("season.hauled", "stand.on_legs", "site.bed_friction", "suction.bed_length", "suction.along"),
            *SHAPE,
            *LINE_WEIGHT,
        ),
        source="ours",
        remedy="open the foot valve first, clip the weights off, or haul it in parts",
        figures=("haul_easy", "haul_most"),
        reach="picked",
    ),
    Check(
        closes_before_the_frost,
        force="should",
        block="season",
        cases="all",
        shows="days",
        at="shore",
        label="from closing to the early date of the first hard frost",
        limit_words="",
        unit="s",
        needs=("season.closes", "season.first_frost", "season.frost_spread"),
        source="freeze-definitions",
        remedy="close earlier, or drain pump and risers on the first cold evenings",
        figures=("close_comfort",),
        short_words="after the early date of the first hard frost",
        reach="picked",
    ),
    Check(
        opens_after_the_frost,
        force="note",
        block="season",
        cases="all",
        shows="days",
        at="shore",
        label="from the late date of the last hard frost to opening",
        limit_words="",
        unit="s",
        needs=("season.opens", "season.last_frost", "season.frost_spread"),
        source="freeze-definitions",
        remedy="start later, or drain pump and risers on cold nights",
        figures=("open_comfort",),
        short_words="before the late date of the last hard frost",
        reach="picked",
    ),
)
