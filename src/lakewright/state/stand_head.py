"""What stands on the frame: riser, foot valve and screen, and the end that takes the line; and what hangs instead."""

from __future__ import annotations

from dataclasses import dataclass

from lakewright.state.gather import defaults
from lakewright.state.placed import At, Mouth, Placed, Vector, back, moved
from lakewright.state.runs import close_nipple
from lakewright.state.stand_build import ASHORE, DOWN, OUT, UP, Building, fitting_outside, straight_length
from lakewright.stock.joints import joint
from lakewright.stock.materials import density_of
from lakewright.stock.ports import Port
from lakewright.stock.rows import FootValve, Part, Pipe, Screen

VALVE_OVER_BORE = 1.75
"""ours: outside of a foot valve's body over its bore, until measured."""
PLASTIC = ("PVC",)
METAL = ("brass", "stainless steel")
"""common practice, no source: metal outside a plastic thread cannot split it, where metal inside one can."""
TO_THE_LINE = "the suction line"
FLOAT_TO_INLET = 0.762
"""common practice, no source: an inlet hangs 2 to 3 ft under its float; the middle."""


@dataclass(frozen=True, slots=True)
class Head:
    """A foot valve and a screen, either of which may be missing, and which way they look.

    attitude: up, side (level, away from the shore) or down.
    """

    valve: FootValve | None
    screen: Screen | None
    attitude: str

    @property
    def length(self) -> float:
        """How far they reach from the mouth they stand on [m]."""
        return self.screen.length if self.screen else valve_length() if self.valve else 0.0

    @property
    def outside(self) -> float:
        """Their width [m]."""
        return self.screen.diameter if self.screen else valve_outside(self.valve) if self.valve else 0.0

    @property
    def rise(self) -> float:
        """How far they reach over the entrance of the inlet [m]: their length, or half their width on their side."""
        return 0.5 * self.outside if self.attitude == "side" else self.length


def valve_length() -> float:
    """Length of a foot valve with its own strainer [m]: the default rise of an inlet without a screen."""
    return defaults()["stand.inlet_rise"].value


def valve_outside(valve: FootValve) -> float:
    """Outside of a foot valve's body [m]."""
    return VALVE_OVER_BORE * valve.bore


def lay_riser(building: Building, at: At, head: Head, height: float) -> float:
    """Lay the riser to the height [m] asked of the inlet's entrance, and the head on it; gives the height it got.

    Parameters
    ----------
    at : a mouth that looks up
    height : [m] over the bed; where the shortest nipple stands higher, that is built

    Returns
    -------
    [m] of the entrance: the mouth the head stands on, its axis where it is level, its lower end where it hangs
    """
    elbow = building.part("elbow").length
    extra = _reach(building, head)
    bottom = building.mouth(at).at[2]
    if head.attitude == "up":
        end = building.run(at, "riser", True, height - bottom - extra, at_least=True)
        return _top(building, end, head, UP)
    below = elbow
    if head.attitude == "down":
        below = -(building.span(0.0).distance + extra + head.length)
    end = building.run(at, "riser", True, height - bottom - below, at_least=True)
    turn = building.fitting(building.part("elbow"), "riser", True, (DOWN, OUT), end)
    if head.attitude == "side":
        return lay_level(building, At(turn, 1), head)
    # What hangs beside the riser keeps clear of it.
    aside = 0.5 * head.outside + fitting_outside(building.stock, building.size) - 2.0 * elbow
    end = building.run(At(turn, 1), "riser", True, aside, at_least=True)
    turn = building.fitting(building.part("elbow"), "riser", True, (ASHORE, DOWN), end)
    return _top(building, building.run(At(turn, 1), "riser", True, 0.0), head, DOWN)


def lay_level(building: Building, at: At, head: Head) -> float:
    """Lay the head level on a mouth that looks away from the shore, and give the height [m] of its axis."""
    return _top(building, building.run(at, "riser", True, 0.0), head, OUT)


def lay_hanging(building: Building, head: Head, height: float, drop: float) -> tuple[At, float]:
    """Lay an elbow, a drop pipe and the head under it, and give the elbow's mouth for the line, and the height got.

    Parameters
    ----------
    height : [m] over the bed of the lower end of the head
    drop : [m] from the elbow's middle to the upper end of the head

    Returns
    -------
    mouth for the line, and the height as asked: the elbow stands where the drop pipe brings it
    """
    extra = _reach(building, head)
    part = building.part("elbow")
    run = building.span(drop - part.length - extra)
    middle = height + head.length + extra + run.distance + part.length
    turn = building.fitting(part, "riser", True, (DOWN, ASHORE), (0.0, 0.0, middle))
    end = building.run(At(turn, 0), "riser", True, drop - part.length - extra)
    return At(turn, 1), _top(building, end, head, DOWN)


def _top(building: Building, end: At, head: Head, facing: Vector) -> float:
    """Lay the head on the end of a nipple, and give the height of the inlet's entrance [m]."""
    at = building.row(end, reducers(building, head), "riser", True)
    mouth = building.mouth(at)
    if head.valve is not None:
        building.lump(_valve(head.valve, mouth, sheltered=head.screen is not None), at)
    else:
        building.openings.append((at, "the lake, under the screen" if head.screen else "the lake"))
    if head.screen is not None:
        building.lump(_screen(head.screen, mouth))
    hanging = head.length if facing == DOWN else 0.0
    return mouth.at[2] - hanging


def reducers(building: Building, head: Head) -> tuple[Part, ...]:
    """What brings the frame's pipe to the valve, where they are not of one size; none where nothing does.

    Of plastic, where it can be, with a coupling first if need be: a metal thread in plastic splits it.
    """
    if head.valve is None:
        return ()
    stock, valve = building.stock, head.valve.ports[0]
    out = Port(building.size, "NPT", "thread out")
    found = joint(stock, out, valve, PLASTIC)
    if found is not None and all(part.material in PLASTIC for part in found.parts):
        return found.parts
    close = close_nipple(stock, valve.size)
    bushings = (part for part in stock.parts_of("bushing") if part.material in PLASTIC)
    fit = next((part for part in bushings if part.ports == (out, valve)), None)
    if fit is not None and close is not None and close.nipples:
        return (building.part("coupling"), fit, *close.nipples)
    return () if found is None else found.parts


def _reach(building: Building, head: Head) -> float:
    return sum(straight_length(building.stock, part, part.length) for part in reducers(building, head))


def _valve(valve: FootValve, mouth: Mouth, sheltered: bool) -> Placed:
    outside = valve_outside(valve)
    end = moved(mouth.at, mouth.facing, valve_length())
    return Placed(
        valve, "sheltered" if sheltered else "head", ((mouth.at, end),), outside, valve.bore,
        (Mouth(mouth.at, back(mouth.facing), valve.ports[0]),), valve_length(),
        valve.mass / density_of(valve.material), 0.0, 0, True,
    )  # fmt: skip


def _screen(screen: Screen, mouth: Mouth) -> Placed:
    end = moved(mouth.at, mouth.facing, screen.length)
    # ours: wire and plate alike are stainless.
    solid = screen.mass / density_of("stainless steel")
    return Placed(screen, "head", ((mouth.at, end),), screen.diameter, 0.0, (), screen.length, solid, 0.0, 0, False)


def lay_line_end(building: Building, at: At, pipe: Pipe | None) -> At:
    """Lay what takes the suction line: a plastic nipple and a metal fitting over its thread."""
    if building.mouth(at).port.kind == "thread in":
        at = building.run(at, "line end", True, 0.0)
    if pipe is None:
        building.openings.append((at, TO_THE_LINE))
        return at
    parts = building.between(at, pipe.ports[0], METAL)
    if parts is None:
        building.gaps.append(f"{building.mouth(at).port} and {pipe.name} do not join: no chain of one or two fittings")
        building.openings.append((at, TO_THE_LINE))
        return at
    if parts and parts[0].material not in METAL:
        building.notes.append(f"no metal fitting in stock takes {pipe.name}: {parts[0].name} is taken, a plastic one")
    end = building.row(at, parts, "line end", True)
    building.openings.append((end, TO_THE_LINE))
    return end
