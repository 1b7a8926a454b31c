"""Pennants: findings that matter, flown on the drawing where they belong."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from lakewright import units
from lakewright.checks.registry import CHECKS
from lakewright.documents import ink
from lakewright.documents.layout import Bools, Grid, Numbers, Room, Taken, rows_of
from lakewright.documents.scene import Box, Circle, Flag, Leader, Path, Point, Text, area, line
from lakewright.report import Finding

# A word for a flag, where a check's name says it at length. A check that is not here flies its name.
SHORT = {
    "pump_stands_in_its_window": "pump window",
    "water_covers_the_inlet": "cover",
    "inlet_stands_clear_of_the_bed": "off the bed",
    "inlet_stays_below_the_ice": "below the ice",
    "screen_is_slow_enough": "screen",
    "line_fills_without_pockets": "pockets",
    "frozen_band_is_buried": "trench",
    "line_rises_to_the_pump": "rise",
    "no_joint_above_the_water": "joints",
    "foot_valve_seats_as_mounted": "foot valve",
    "valves_hold_the_water": "holding",
    "line_bears_its_pressure": "line pressure",
    "flooded_suction_can_be_shut": "shutting",
    "line_bears_its_vacuum": "line vacuum",
    "lift_is_within_practice": "lift",
    "suction_stays_liquid": "suction",
    "suction_runs_gently": "suction speed",
    "pump_stays_on_its_curve": "pump curve",
    "pump_curve_falls": "pump curve falls",
    "delivers_the_need": "flow",
    "reaches_cut_out": "cut-out",
    "runs_long_enough": "run",
    "a_screen_stands_where_a_rule_asks": "fish screen",
    "screen_openings_are_fine_enough": "openings",
    "motor_starts_seldom_enough": "starts",
    "delivery_runs_gently": "delivery speed",
    "tank_bears_the_shut_off": "tank's rating",
    "delivery_pipe_bears_the_shut_off": "pipe's rating",
    "switch_can_start_the_pump": "switch",
    "controller_feels_an_open_tap": "controller",
    "controller_lets_the_pump_rest": "rest",
    "pressure_holds_at_the_need": "pressure",
    "drive_stays_above_its_least_speed": "least speed",
    "controller_rests_at_a_trickle": "trickle",
    "least_flow_cools_the_pump": "cooling",
    "pump_fills_the_store": "filling",
    "store_lasts_through_the_peak": "peak",
    "store_holds_a_day": "a day's store",
    "store_cannot_run_over": "running over",
    "booster_stands_under_the_store": "booster",
    "booster_delivers_the_need": "boosted tap",
    "taps_have_pressure": "tap",
    "stand_does_not_slide": "no sliding",
    "stand_does_not_tip": "no tipping",
    "stand_is_not_undermined": "undermining",
    "stand_does_not_float": "no floating",
    "stand_does_not_sink": "no sinking",
    "stand_bears_a_snag": "snag",
    "stand_can_be_lifted": "lift by hand",
    "line_stays_down": "line's weight",
    "line_is_held_in_the_waves": "line held",
}

# The same for the words after a figure, at and under nothing.
LABELS = {
    "pump_stands_in_its_window": ("inside", "outside"),
    "line_bears_its_vacuum": ("times its vacuum", ""),
    "line_fills_without_pockets": ("of air", ""),
    "frozen_band_is_buried": ("under the ice", "in reach of ice"),
    "line_rises_to_the_pump": ("at least", "of fall"),
    "no_joint_above_the_water": ("on the bank", ""),
    "foot_valve_seats_as_mounted": ("of spring", ""),
    "valves_hold_the_water": ("that hold", ""),
    "line_bears_its_pressure": ("at the stand", "of vacuum"),
}

# ours: what a customer asks about first, flown where nothing is wrong.
BEST_KNOWN = (
    "delivers_the_need",
    "lift_is_within_practice",
    "water_covers_the_inlet",
    "inlet_stays_below_the_ice",
    "pump_stands_in_its_window",
)
MOST_SERIOUS, MOST_IN_ALL = 9, 6  # ours: more than nine is a thicket; holds fly only while fewer than six do
MOST_AT_ONE = 1  # ours: a part flies the worst said of it; the list has the rest

COLOURS = {"fails": ink.RED, "tight": ink.OCHRE, "holds": ink.GREEN, "unknown": ink.GREY}
FILLS = {"fails": ink.RED, "tight": ink.OCHRE_TINT, "holds": ink.SHEET, "unknown": ink.SHEET}

HIGH, PAD, MARK, TIP = 5.0, 1.4, 2.6, 2.2  # mm: of a flag of one line, inside its edges, its mark, its point
GAP, LEADER_GAP = 1.2, 0.5  # mm that flags keep from words and each other, and leaders from words. ours
NEAR = 45.0  # mm of leader that most flags do with, looked at first. ours
LONGEST = 95.0  # mm of leader where nothing is wrong. ours
WIDEST = 58.0  # mm of words on a flag before they take a second line. ours


Place = tuple[Box, Leader]


@dataclass(frozen=True)
class Pennant:
    """What a flag will say, before it has a place."""

    name: str
    at: str
    status: str
    lead: str
    lines: tuple[str, ...]

    @property
    def lead_width(self) -> float:
        """Of the bold words."""
        return ink.width(self.lead, ink.FLAG, ink.BOLD)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm], tip and all."""
        first, *rest = self.lines
        words = self.lead_width + (ink.width(f" {first}", ink.FLAG) if first else 0.0)
        words = max([words, *(ink.width(text, ink.FLAG) for text in rest)])
        return PAD + MARK + 1.0 + words + PAD + TIP, HIGH + len(rest) * ink.leading(ink.FLAG)


def word_for(name: str) -> str:
    """A check's short word."""
    return SHORT.get(name, name.replace("_", " "))


def short_figure(finding: Finding, system: str) -> str:
    """What was found beside what is asked, without the words around them."""
    check = next((check for check in CHECKS if check.name == finding.name), None)
    if check is None or finding.value is None:
        return ""
    label, short_words = LABELS.get(check.name, (check.label, check.short_words))
    if finding.value < 0.0 and short_words:
        return ink.typeset(f"{units.show(-finding.value, check.shows, system)} {short_words}")
    shown = units.show(finding.value, check.shows, system)
    if check.limit_words and finding.limit is not None:
        return ink.typeset(f"{shown}, {check.limit_words} {units.show(finding.limit, check.shows, system)}")
    return ink.typeset(f"{shown} {label}") if label else ""


def chosen(findings: Sequence[Finding]) -> list[Finding]:
    """The findings that fly: what is wrong, unknown or tight, worst first, then the few best known that hold."""
    serious = [
        f for f in findings if f.status in ("fails", "unknown", "tight") and (f.force != "note" or f.status == "fails")
    ]
    stations = [f.station for f in serious]
    serious = [f for n, f in enumerate(serious) if stations[:n].count(f.station) < MOST_AT_ONE][:MOST_SERIOUS]
    held = {f.name: f for f in findings if f.status == "holds" and "if only" not in f.message}
    known = [held[name] for name in BEST_KNOWN if name in held]
    return serious + known[: max(0, MOST_IN_ALL - len(serious))]


def pennant(finding: Finding, system: str) -> Pennant:
    """What a finding's flag says."""
    lead = f"{word_for(finding.name)} {finding.status}"
    figure = short_figure(finding, system)
    first = WIDEST - ink.width(f"{lead} ", ink.FLAG, ink.BOLD)
    if ink.width(figure, ink.FLAG) <= first:
        lines: tuple[str, ...] = (figure,)
    else:
        lines = ("", *ink.wrapped(figure, WIDEST, ink.FLAG))
    return Pennant(finding.name, finding.station, finding.status, lead, lines)


def fly(
    findings: Sequence[Finding], anchors: Mapping[str, Point], system: str, room: Room
) -> tuple[list[Flag], tuple[str, ...]]:
    """Flags that found a place, and the names of the findings that did not.

    The worst choose first. Then each in turn may move to a better place, the others staying: twice.
    """
    wanted = [pennant(finding, system) for finding in chosen(findings)]
    taken = room.taken()
    places = [_Places(each, anchors[each.at], room.area, taken) for each in wanted]
    placed: dict[str, Place] = {}
    for _ in range(3):
        before = dict(placed)
        for at, each in enumerate(wanted):
            others = [placed[name] for name in placed if name != each.name]
            place = places[at].cheapest(others)
            if place is None and each.name not in placed and not places[at].folded:
                # Narrower, and looked for with more patience.
                wanted[at] = _folded(each)
                places[at] = _Places(wanted[at], anchors[each.at], room.area, taken, fine=0.5)
                place = places[at].cheapest(others)
            if place is not None:
                placed[each.name] = place
        if placed == before:
            break
    flags = [drawn(each, *placed[each.name]) for each in wanted if each.name in placed]
    for flag in flags:
        room.words.append(flag.box)
        room.leaders.append((flag.leader.start, flag.leader.end))
    return flags, tuple(each.name for each in wanted if each.name not in placed)


def _folded(what: Pennant) -> Pennant:
    """The same on two lines."""
    first, *rest = what.lines
    return replace(what, lines=("", first, *rest)) if first else what


class _Field:
    """Places on a grid where a flag might fly, and what each costs by itself."""

    def __init__(self, grid: Grid, anchor: Point, taken: Taken, longest: float) -> None:
        self.grid = grid
        x, y = _hoists(grid, anchor)
        length = np.hypot(x - anchor[0], (y - anchor[1])[:, None])
        self.leaders = np.empty((len(y), len(x), 4))
        self.leaders[..., 0], self.leaders[..., 1], self.leaders[..., 2:] = x, y[:, None], anchor
        self.costs = grid.costs(taken, GAP) + length + np.where(length < 5.0, 20.0, 0.0)
        for over_it in grid.near(np.array([[*anchor, *anchor]]), 1.5):
            self.costs[over_it] = np.inf
        self.costs[length > longest] = np.inf

    def cheapest(self, flown: Taken, taken: Taken) -> tuple[Box, Point, float] | None:
        """The cheapest place beside flags that fly already, where its leader is tied to it, and what it costs."""
        costs = (self.costs + self.grid.costs(flown, GAP)).ravel()
        found = taken.cheapest(costs, self.leaders.reshape(-1, 4), LEADER_GAP)
        if found is None:
            return None
        row, column = divmod(found[0], len(self.grid.left))
        left, top = float(self.grid.left[column]), float(self.grid.top[row])
        x, y, *_ = self.leaders[row, column].tolist()
        return Box(left, top, left + self.grid.wide, top + self.grid.high), (x, y), found[1]


class _Places:
    """Where a flag might fly: near by first, for what is further costs more, and all over where that is needed."""

    def __init__(self, what: Pennant, anchor: Point, area: Box, taken: Taken, fine: float = 1.0) -> None:
        self.anchor, self.taken, self.folded = anchor, taken, fine < 1.0
        self.colour = COLOURS[what.status]
        self.grid = Grid.over(area, *what.size, 2.5 * fine, 1.5 * fine)
        # A longer leader is hard to follow: better in the list, unless something is wrong.
        self.longest = np.inf if what.status in ("fails", "unknown") else LONGEST
        self.fields: dict[float, _Field] = {}
        self.found: tuple[list[Place], Place | None] | None = None

    def cheapest(self, others: list[Place]) -> Place | None:
        """The cheapest place beside flags that fly already."""
        if self.found is not None:
            before, place = self.found
            more = [other for other in others if other not in before]
            # Where there is only more in the way than before, a place that it leaves free is still the cheapest.
            still = len(more) + len(before) == len(others)
            if still and (place is None or not more or _is_free(place, more)):
                return place
        self.found = others, self._looked_for(others)
        return self.found[1]

    def _looked_for(self, others: Sequence[Place]) -> Place | None:
        flown = _flown(others)
        taken = self.taken.with_more(flown)
        for reach in (NEAR, np.inf):
            found = self._within(reach).cheapest(flown, taken)
            # A place costs its leader's length at least: none further than this one costs can be cheaper.
            if found is not None and found[2] <= reach:
                box, tie, _ = found
                return box, Leader(tie, self.anchor, "leader", self.colour)
        return None

    def _within(self, reach: float) -> _Field:
        """The places whose leaders go no further than so along either axis, and perhaps some more."""
        if reach not in self.fields:
            x, y = _hoists(self.grid, self.anchor)
            columns, rows = (
                _from_first_to_last(np.abs(each - at) <= reach) for each, at in zip((x, y), self.anchor, strict=True)
            )
            self.fields[reach] = _Field(self.grid.part(rows, columns), self.anchor, self.taken, self.longest)
        return self.fields[reach]


def _from_first_to_last(which: Bools) -> slice:
    """The run that holds all that are true."""
    true = np.flatnonzero(which)
    return slice(int(true[0]), int(true[-1]) + 1) if len(true) else slice(0)


def _flown(others: Sequence[Place]) -> Taken:
    """What flags that fly already take up: themselves, their leaders, and the ends of these."""
    leaders = np.array([(leader.start, leader.end) for _, leader in others]).reshape(-1, 4)
    ends = np.column_stack([leaders[:, 2:], leaders[:, 2:]])
    nothing = np.zeros(0)
    return Taken(rows_of([box for box, _ in others]), ends, leaders, nothing.reshape(0, 4), nothing, nothing)


def _is_free(place: Place, others: Sequence[Place]) -> bool:
    """Whether other flags leave a place and its leader alone."""
    box, leader = place
    flown, tie = _flown(others), np.array([[*leader.start, *leader.end]])
    return bool(np.isfinite(flown.costs(rows_of([box]), box, GAP) + flown.leader_costs(tie, LEADER_GAP))[0])


def _hoists(grid: Grid, anchor: Point) -> tuple[Numbers, Numbers]:
    """Where a flag is tied, column by column and row by row: its edge toward the anchor, the corner that is nearer."""
    right, bottom = grid.left + grid.wide, grid.top + grid.high
    x = np.where(anchor[0] <= grid.left + 0.5 * grid.wide, grid.left, right)
    centre = grid.top + 0.5 * grid.high
    y = np.where(anchor[1] > bottom, bottom, np.where(anchor[1] < grid.top, grid.top, centre))
    return x, y


def drawn(what: Pennant, box: Box, leader: Leader) -> Flag:
    """A flag at its place, its point away from the anchor."""
    colour, fill = COLOURS[what.status], FILLS[what.status]
    flies_right = leader.start[0] <= box.middle[0]
    shapes: list[Path | Circle | Text] = [_outline(what, box, flies_right, colour, fill)]
    left = box.left + PAD + (0.0 if flies_right else TIP)
    letters = ink.SHEET if what.status == "fails" else colour
    shapes += mark(what.status, left + 0.5 * MARK, box.top + 0.5 * HIGH, MARK, letters)
    x, y = left + MARK + 1.0, box.top + 0.5 * HIGH + 0.9
    shapes.append(Text(x, y, what.lead, "flag", ink.FLAG, ink.BOLD, letters))
    words = ink.SHEET if what.status == "fails" else ink.INK
    first, *rest = what.lines
    if first:
        gap = ink.width(" ", ink.FLAG)
        shapes.append(Text(x + what.lead_width + gap, y, first, "flag", ink.FLAG, ink.REGULAR, words))
    for row, text in enumerate(rest, start=1):
        shapes.append(Text(x, y + row * ink.leading(ink.FLAG), text, "flag", ink.FLAG, ink.REGULAR, words))
    return Flag(what.name, what.status, box, tuple(shapes), leader)


def _outline(what: Pennant, box: Box, flies_right: bool, colour: str, fill: str) -> Path:
    middle = box.middle[1]
    if flies_right:
        points = [(box.left, box.top), (box.right - TIP, box.top), (box.right, middle), (box.right - TIP, box.bottom),
                  (box.left, box.bottom)]  # fmt: skip
    else:
        points = [(box.right, box.top), (box.left + TIP, box.top), (box.left, middle), (box.left + TIP, box.bottom),
                  (box.right, box.bottom)]  # fmt: skip
    dash = (0.9, 0.6) if what.status == "unknown" else ()
    return Path((tuple(points),), f"flag {what.status}", colour, 0.25, fill, closed=True, dash=dash)


def mark(status: str, x: float, y: float, size: float, colour: str) -> list[Path | Circle | Text]:
    """The shape that says a status without colour: cross, triangle, tick, broken ring; a dash for not asked."""
    r = 0.42 * size
    if status == "fails":
        bars = (((x - r, y - r), (x + r, y + r)), ((x - r, y + r), (x + r, y - r)))
        return [Path(bars, "mark", colour, 0.45)]
    if status == "tight":
        return [Path((((x, y - r), (x + 1.1 * r, y + 0.9 * r), (x - 1.1 * r, y + 0.9 * r)),), "mark", colour, 0.35,
                     closed=True)]  # fmt: skip
    if status == "holds":
        return [line([(x - r, y + 0.1 * r), (x - 0.3 * r, y + 0.8 * r), (x + r, y - 0.8 * r)], "mark", colour, 0.45)]
    if status == "unknown":
        arcs = tuple(
            tuple(
                (x + r * math.cos(turn), y + r * math.sin(turn))
                for turn in np.linspace(first, first + 0.62, 4).tolist()
            )
            for first in np.arange(6) * math.pi / 3.0
        )
        return [Path(arcs, "mark", colour, 0.4)]
    return [area([(x - r, y - 0.15), (x + r, y - 0.15), (x + r, y + 0.15), (x - r, y + 0.15)], "mark", colour)]
