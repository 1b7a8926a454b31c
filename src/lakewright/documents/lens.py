"""The intake stand in a lens, at a scale of its own."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.scale import largest_within
from lakewright.documents.scene import Box, Circle, Path, Point, Text, area, centred, line, rectangle
from lakewright.documents.site import Site
from lakewright.documents.terrain import FRAME, INLET_RISE, RISER, known

Shapes = list[Path | Circle | Text]

REACH = 0.4  # m, of a leg, where nobody says. ours
SCREEN_WIDE, VALVE_HIGH, LYING_SCREEN = 0.13, 0.09, 0.4  # m, schematic. ours


@dataclass(frozen=True)
class Lens:
    """Shapes around a centre at 0, 0, and where on them things are. `box` holds the circle and its words."""

    shapes: tuple[Path | Circle | Text, ...]
    anchors: dict[str, Point]
    radius: float
    box: Box
    caption: Box
    scale: str


def lens(site: Site, radius: float) -> Lens:
    """The stand: frame, riser, valve and screen over the bed, with what holds it up."""
    frame = known(site.frame, FRAME) - known(site.sink, 0.0)
    entrance = frame + known(site.riser, RISER)
    rise = known(site.inlet_rise, INLET_RISE)
    top = entrance + rise
    sideways = site.form in ("side", "low") or site.attitude == "side"
    crown = entrance + 0.5 * SCREEN_WIDE if sideways else top
    low = min(0.0, frame - 0.08)
    scale = largest_within(site.units, 1.25 * radius / max(crown - low, 0.25))
    if scale.mm * 2.0 * min(known(site.reach, REACH), REACH) > 1.5 * radius:
        scale = largest_within(site.units, 1.5 * radius / (2.0 * min(known(site.reach, REACH), REACH)))
    # The bed lies where frame and screen together are in the middle.
    bed = 0.5 * (crown + low) * scale.mm + 0.06 * radius
    drawing = _Drawing(radius, bed, scale.mm)
    drawing.water_and_bed()
    if site.form in ("hung", "floating"):
        drawing.hanging(entrance, rise)
    else:
        # The feet stay inside the rim, however far they have sunk.
        chord = math.sqrt(max(radius**2 - (abs(bed - frame * scale.mm) + 2.0) ** 2, 1.0))
        reach = min(known(site.reach, REACH), chord / scale.mm - 0.06)
        drawing.legs(frame, reach, site.legs)
        drawing.riser(frame, entrance)
        drawing.inlet(entrance, rise, sideways)
    drawing.dimension(entrance, ink.typeset(units.show(entrance, "depth", site.units)))
    drawing.shapes.append(Circle(0.0, 0.0, radius, "lens", ink.SOFT, 0.3))
    open_place = not (math.isfinite(site.riser) and math.isfinite(site.frame))
    words = "stand, for shape only" if open_place else f"stand, {scale.words}"
    caption = centred(0.0, radius + 3.3, words, "caption", colour=ink.SOFT)
    drawing.shapes.append(caption)
    half = max(radius, 0.5 * caption.width)
    box = Box(-half, -radius, half, caption.box.bottom)
    return Lens(tuple(drawing.shapes), drawing.anchors, radius, box, caption.box, scale.words)


class _Drawing:
    """Shapes in the lens: x from the riser's axis and height over the bed, in metres."""

    def __init__(self, radius: float, bed: float, mm: float) -> None:
        self.radius, self.bed, self.mm = radius, bed, mm
        self.shapes: Shapes = []
        self.anchors: dict[str, Point] = {}

    def at(self, x: float, height: float) -> Point:
        return x * self.mm, self.bed - height * self.mm

    def box(self, left: float, low: float, right: float, high: float) -> Box:
        (x0, y0), (x1, y1) = self.at(left, high), self.at(right, low)
        return Box(x0, y0, x1, y1)

    def water_and_bed(self) -> None:
        self.shapes.append(Circle(0.0, 0.0, self.radius, "lens water", "", 0.0, ink.LENS_WATER))
        half = math.sqrt(max(self.radius**2 - self.bed**2, 0.0))
        first = math.atan2(self.bed, half)
        turns = [first + (math.pi - 2.0 * first) * n / 24.0 for n in range(25)]
        rim = [(self.radius * math.cos(turn), self.radius * math.sin(turn)) for turn in turns]
        self.shapes.append(area(rim, "lens bed", ink.SAND))
        self.shapes.append(line([(-half, self.bed), (half, self.bed)], "lens bed", ink.SAND_EDGE, 0.3))
        self.anchors["bed"] = (-0.6 * half, self.bed)

    def legs(self, frame: float, reach: float, number: int) -> None:
        high = max(0.5 * 0.05, 0.25 / self.mm)
        self.shapes.append(rectangle(self.box(-reach, frame - high, reach, frame + high), "legs", ink.INK))
        pads = (-reach, 0.0, reach) if number % 2 else (-reach, reach)
        for x in pads:
            foot = self.box(x - 0.05, frame - 3.0 * high, x + 0.05, frame + 3.0 * high)
            self.shapes.append(rectangle(foot, "legs", ink.SOFT, ink.INK, ink.FINE))
        self.anchors["frame"] = self.at(-0.7 * reach, frame)
        self.anchors["stand"] = self.at(0.6 * reach, frame)
        self.anchors["ballast"] = self.at(-reach, frame)

    def riser(self, low: float, high: float) -> None:
        half = max(0.024, 0.35 / self.mm)
        self.shapes.append(rectangle(self.box(-half, low, half, high), "riser", ink.INK))
        self.anchors["riser"] = self.at(half, low + 0.45 * (high - low))

    def inlet(self, entrance: float, rise: float, sideways: bool) -> None:
        wide, valve = 0.5 * SCREEN_WIDE, min(VALVE_HIGH, 0.35 * rise)
        if sideways:
            # Lying, its length is not its rise.
            valve, rise = VALVE_HIGH, max(rise, LYING_SCREEN)
            self._screen(self.box(valve, entrance - wide, rise, entrance + wide), upright=False)
            body = self.box(-0.04, entrance - 0.04, valve, entrance + 0.04)
            self.anchors["screen"] = self.at(valve + 0.7 * (rise - valve), entrance + wide)
            self.anchors["inlet"] = self.at(0.5 * valve, entrance + 0.04)
        else:
            self._screen(self.box(-wide, entrance + valve, wide, entrance + rise), upright=True)
            body = self.box(-0.042, entrance, 0.042, entrance + valve)
            self.anchors["screen"] = self.at(-wide, entrance + valve + 0.4 * (rise - valve))
            self.anchors["inlet"] = self.at(0.0, entrance + rise)
        self.shapes.append(rectangle(body, "foot valve", ink.SOFT, ink.INK, ink.THIN))
        self.anchors["foot valve"] = (body.left, body.middle[1])

    def hanging(self, entrance: float, rise: float) -> None:
        """The line comes down to it, and the strainer hangs below the valve."""
        half, reach = max(0.024, 0.35 / self.mm), 0.97 * self.radius
        x0, y0 = self.at(-half, entrance)
        x1, _ = self.at(half, entrance)
        self.shapes.append(rectangle(Box(x0, -reach, x1, y0), "riser", ink.INK))
        wide, valve = 0.5 * SCREEN_WIDE, min(VALVE_HIGH, 0.35 * rise)
        self._screen(self.box(-wide, max(entrance - rise, 0.02), wide, entrance - valve), upright=True)
        body = self.box(-0.042, entrance - valve, 0.042, entrance)
        self.shapes.append(rectangle(body, "foot valve", ink.SOFT, ink.INK, ink.THIN))
        self.anchors |= {
            "foot valve": (body.left, body.middle[1]),
            "screen": self.at(-wide, entrance - 0.6 * rise),
            "inlet": self.at(wide, entrance - valve),
            "riser": (x1, y0 - 2.0),
            "stand": (x0, y0 - 3.0),
            "frame": (x0, y0 - 3.0),
            "ballast": (x0, y0 - 3.0),
        }

    def _screen(self, box: Box, upright: bool) -> None:
        self.shapes.append(rectangle(box, "screen", ink.SHEET, ink.INK, ink.THIN))
        length = box.height if upright else box.width
        slots = max(2, min(7, int(length / 1.1)))
        bars: list[tuple[Point, ...]] = []
        for n in range(1, slots):
            if upright:
                y = box.top + box.height * n / slots
                bars.append(((box.left, y), (box.right, y)))
            else:
                x = box.left + box.width * n / slots
                bars.append(((x, box.top), (x, box.bottom)))
        self.shapes.append(Path(tuple(bars), "screen", ink.INK, ink.FINE))

    def dimension(self, high: float, words: str) -> None:
        """The height of the entrance over the bed, at the right."""
        text = Text(0.0, 0.0, words, "dimension", colour=ink.INK)
        x = 0.34 * self.radius
        (_, y0), (_, y1) = self.at(0.0, 0.0), self.at(0.0, high)
        ticks = (((x - 0.8, y0), (x + 0.8, y0)), ((x, y0), (x, y1)), ((x - 0.8, y1), (x + 0.8, y1)))
        self.shapes.append(Path(ticks, "dimension", ink.SOFT, ink.FINE))
        middle = min(0.5 * (y0 + y1) + 0.9, y0 - 1.0)
        room = math.sqrt(max(self.radius**2 - (abs(middle) + 1.0) ** 2, 0.0))
        self.shapes.append(text.moved(min(x + 1.0, room - text.width - 0.4), middle))
