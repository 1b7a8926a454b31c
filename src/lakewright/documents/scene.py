"""What is drawn, as shapes in millimetres of paper: x to the right, y down. Nothing here knows what it shows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from lakewright.documents import ink

Point = tuple[float, float]


@dataclass(frozen=True)
class Box:
    """A rectangle [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def middle(self) -> Point:
        """Its centre."""
        return 0.5 * (self.left + self.right), 0.5 * (self.top + self.bottom)

    def grown(self, by: float) -> Box:
        """The same with so much more on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: Box, slack: float = 1e-6) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left < other.right - slack
            and other.left < self.right - slack
            and self.top < other.bottom - slack
            and other.top < self.bottom - slack
        )

    def holds(self, other: Box, slack: float = 1e-6) -> bool:
        """Whether the other lies inside."""
        return (
            self.left <= other.left + slack
            and self.top <= other.top + slack
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )

    def holds_point(self, point: Point) -> bool:
        """Whether a point lies inside or on the edge."""
        return self.left <= point[0] <= self.right and self.top <= point[1] <= self.bottom


@dataclass(frozen=True)
class Path:
    """Lines and areas: one or more runs of points, stroked, filled or both."""

    runs: tuple[tuple[Point, ...], ...]
    role: str
    stroke: str = ""
    weight: float = ink.THIN
    fill: str = ""
    closed: bool = False
    dash: tuple[float, ...] = ()
    see_through: float = 1.0

    def moved(self, dx: float, dy: float) -> Path:
        """The same, elsewhere."""
        return replace(self, runs=tuple(tuple((x + dx, y + dy) for x, y in run) for run in self.runs))


@dataclass(frozen=True)
class Circle:
    """A circle."""

    x: float
    y: float
    radius: float
    role: str
    stroke: str = ""
    weight: float = ink.THIN
    fill: str = ""

    def moved(self, dx: float, dy: float) -> Circle:
        """The same, elsewhere."""
        return replace(self, x=self.x + dx, y=self.y + dy)


@dataclass(frozen=True)
class Text:
    """Words on one line; `x` is their left end and `y` their baseline."""

    x: float
    y: float
    words: str
    role: str
    size: float = ink.SMALL
    weight: str = ink.REGULAR
    colour: str = ink.INK

    @property
    def width(self) -> float:
        """As measured."""
        return ink.width(self.words, self.size, self.weight)

    @property
    def box(self) -> Box:
        """What the words take up."""
        high = self.size * ink.POINT
        return Box(self.x, self.y - ink.ASCENT * high, self.x + self.width, self.y + ink.DESCENT * high)

    def moved(self, dx: float, dy: float) -> Text:
        """The same, elsewhere."""
        return replace(self, x=self.x + dx, y=self.y + dy)


@dataclass(frozen=True)
class Leader:
    """A straight line from a flag or a lens to what it speaks of."""

    start: Point
    end: Point
    role: str
    stroke: str
    weight: float = ink.THIN

    @property
    def path(self) -> Path:
        """The line itself."""
        return Path(((self.start, self.end),), self.role, self.stroke, self.weight)

    def moved(self, dx: float, dy: float) -> Leader:
        """The same, elsewhere."""
        (x0, y0), (x1, y1) = self.start, self.end
        return replace(self, start=(x0 + dx, y0 + dy), end=(x1 + dx, y1 + dy))


@dataclass(frozen=True)
class Flag:
    """A pennant: its box, its shapes and texts, the leader that ties it to its anchor."""

    name: str
    status: str
    box: Box
    shapes: tuple[Path | Circle | Text, ...]
    leader: Leader

    @property
    def parts(self) -> tuple[Path | Circle | Text | Leader, ...]:
        """What is drawn, in order: the leader, the dot at its end, and the pennant over both."""
        dot = Circle(*self.leader.end, 0.55, "anchor", "", 0.0, self.leader.stroke)
        return self.leader, dot, *self.shapes

    def moved(self, dx: float, dy: float) -> Flag:
        """The same, elsewhere."""
        box = self.box
        return replace(
            self,
            box=Box(box.left + dx, box.top + dy, box.right + dx, box.bottom + dy),
            shapes=tuple(shape.moved(dx, dy) for shape in self.shapes),
            leader=self.leader.moved(dx, dy),
        )


Shape = Path | Circle | Text | Leader | Flag


@dataclass
class Scene:
    """Shapes in the order they are drawn, on a frame."""

    width: float
    height: float
    title: str = ""
    shapes: list[Shape] = field(default_factory=list)

    @property
    def frame(self) -> Box:
        """The paper it may use."""
        return Box(0.0, 0.0, self.width, self.height)

    def add(self, *shapes: Shape) -> None:
        """Draw on top of what is there."""
        self.shapes += shapes

    def put(self, other: Scene, dx: float, dy: float) -> None:
        """Draw another scene at a place in this one."""
        self.shapes += [shape.moved(dx, dy) for shape in other.shapes]

    def texts(self) -> list[Text]:
        """All texts that stand by themselves; those of flags are inside their flags."""
        return [shape for shape in self.shapes if isinstance(shape, Text)]

    def flags(self) -> list[Flag]:
        """All flags."""
        return [shape for shape in self.shapes if isinstance(shape, Flag)]

    def leaders(self) -> list[Leader]:
        """All leaders, those of flags among them."""
        return [shape for shape in self.shapes if isinstance(shape, Leader)] + [flag.leader for flag in self.flags()]

    def flat(self) -> Iterator[Path | Circle | Text | Leader]:
        """All shapes in the order they are drawn, each flag taken apart where it stands."""
        for shape in self.shapes:
            if isinstance(shape, Flag):
                yield from shape.parts
            else:
                yield shape


def line(
    points: Sequence[Point], role: str, stroke: str, weight: float = ink.THIN, dash: tuple[float, ...] = ()
) -> Path:
    """A line through points."""
    return Path((tuple(points),), role, stroke, weight, dash=dash)


def area(points: Sequence[Point], role: str, fill: str, stroke: str = "", weight: float = ink.THIN) -> Path:
    """A filled area."""
    return Path((tuple(points),), role, stroke, weight, fill, closed=True)


def rectangle(box: Box, role: str, fill: str, stroke: str = "", weight: float = ink.THIN) -> Path:
    """A rectangle."""
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    return area(corners, role, fill, stroke, weight)


def ending_at(right: float, y: float, words: str, role: str, size: float = ink.SMALL, **look: str) -> Text:
    """Words whose right end is at a place."""
    text = Text(right, y, words, role, size, **look)
    return text.moved(-text.width, 0.0)


def centred(x: float, y: float, words: str, role: str, size: float = ink.SMALL, **look: str) -> Text:
    """Words whose middle is at a place."""
    text = Text(x, y, words, role, size, **look)
    return text.moved(-0.5 * text.width, 0.0)


def segment_meets(start: Point, end: Point, box: Box, slack: float = 1e-6) -> bool:
    """Whether a straight line runs through the inside of a box."""
    (x0, y0), (x1, y1) = start, end
    low, high = 0.0, 1.0
    for first, last, near, far in (
        (x0, x1, box.left + slack, box.right - slack),
        (y0, y1, box.top + slack, box.bottom - slack),
    ):
        run = last - first
        if run == 0.0:
            if not near < first < far:
                return False
            continue
        one, other = (near - first) / run, (far - first) / run
        low, high = max(low, min(one, other)), min(high, max(one, other))
    return low < high
