"""Soundings from a file beside the job: distances and depths, or the track of a boat with a sounder."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, get_args
from xml.etree import ElementTree

import numpy as np

from lakewright import units
from lakewright.errors import JobError, Mistake
from lakewright.job.fields import shape_at
from lakewright.job.models import Job
from lakewright.job.models_site import BedKind, Sounding
from lakewright.job.quantity import Quantity
from lakewright.physics.types import Array
from lakewright.state.columns import DEGREES, Measurements, measurements
from lakewright.state.gather import Assumed
from lakewright.stock.sheet import MOST_BYTES

FIELD = "[site] soundings_file"

NAMES = {
    "distance": ("distance", "dist", "out", "chainage", "station"),
    "depth": ("depth", "sounding"),
    "bed": ("bed", "bottom"),
    "latitude": ("latitude", "lat"),
    "longitude": ("longitude", "lon", "long", "lng"),
    "east": ("east", "easting", "x"),
    "north": ("north", "northing", "y"),
}
WANTED = "columns of distance and depth, of latitude, longitude and depth, or of east, north and depth"

EARTH = 6_371_009.0
"""Mean radius of the Earth [m]. memory: the geodesists' mean of three axes; a part in 300 off at the most."""

POINTS = 200
"""ours: a track is brought to so many places along its line at the most; a sounder gives one a second."""

OFF_LINE = 0.2
"""ours: what lies further from a track's straight line than this share of its length is another part of the bed."""

BEGINS_DRY = 0.05
"""ours: a first depth [m] up to this is taken as the water's edge."""

Row = tuple[float, float, str]
"""Distance from the water's edge, depth [m], and what the bed is there."""


@dataclass(frozen=True)
class Sounded:
    """A job with the soundings of its file, and what was taken on the way that nobody measured."""

    job: Job
    assumed: tuple[Assumed, ...]


def sounded(job: Job, folder: Path) -> Sounded:
    """The job with the soundings of the file it names, which lies in the folder of the job.

    Depths in the file are below the water of that day: how it stood from the usual level is `[site.levels] today`.

    Raises
    ------
    JobError where the file cannot be used, with every row that cannot
    """
    name = job.site.soundings_file
    if name is None:
        return Sounded(job, ())
    if job.site.soundings:
        wanted = "the soundings once"
        raise JobError([Mistake("", 0, FIELD, "a file, and [[site.soundings]] besides", wanted, "take out the one")])
    rows, notes, mistakes = _rows_of(folder / name)
    if not mistakes and len(rows) < 2:
        mistakes = [Mistake(name, 0, "", "fewer than two depths along the line", "two or more", "sound further out")]
    if not mistakes:
        mistakes = [] if (too_far := _too_far(rows, name, job.job.units)) is None else [too_far]
    if mistakes:
        raise JobError(mistakes, name)
    today = job.site.levels.today
    level = today.value if today is not None and not today.open else 0.0
    settled, more = from_the_edge([(x, depth - level, bed) for x, depth, bed in rows], job.job.units)
    if today is None:
        more = ("depths as sounded: nobody has said how the water stood that day, [site.levels] today", *more)
    soundings = [_sounding(row, name, job.job.units) for row in settled]
    site = job.site.model_copy(update={"soundings": soundings})
    said = tuple(Assumed("site.soundings", math.nan, "", "assumed", why, name, FIELD) for why in (*notes, *more))
    return Sounded(job.model_copy(update={"site": site}), said)


def _too_far(rows: Sequence[Row], name: str, system: str) -> Mistake | None:
    """What lies further out, or deeper, than a job file may say either."""
    for key, value in (("distance", rows[-1][0] - rows[0][0]), ("depth", max(depth for _, depth, _ in rows))):
        shape = shape_at(("site", "soundings", 0, key))
        most = math.inf if shape is None or shape.dimension is None else shape.dimension.most
        if value > most:
            found, limit = (units.show(each, key if key == "depth" else "length", system) for each in (value, most))
            return Mistake(name, 0, key, found, f"{limit} at the most", "see that figures and units are right")
    return None


def _sounding(row: Row, file: str, system: str) -> Sounding:
    def quantity(value: float, kind: str) -> Quantity:
        return Quantity(value, value, value, 0.0, "measured", None, file, False, units.show(value, kind, system))

    distance, depth, bed = row
    words: Any = bed or None
    return Sounding.model_construct(distance=quantity(distance, "length"), depth=quantity(depth, "depth"), bed=words)


# What a file says.


def _rows_of(path: Path) -> tuple[list[Row], tuple[str, ...], list[Mistake]]:
    if path.suffix.lower() == ".gpx":
        points, mistakes = _gpx(path)
        if mistakes:
            return [], (), mistakes
        return _along(points)
    found = measurements(path, NAMES)
    if found.mistakes and not found.columns:
        return [], (), found.mistakes
    ways = (("distance",), ("latitude", "longitude"), ("east", "north"))
    way = next((way for way in ways if {*way, "depth"} <= set(found.columns)), None)
    if way is None:
        heads = ", ".join(found.columns) or "no name we know"
        found.refuse(1, "", f"a head with {heads}", WANTED, 'write it as "distance ft, depth ft"')
        return [], (), found.mistakes
    for name in (*way, "depth"):
        if name not in ("latitude", "longitude") and not _is_length(found.columns[name][1]):
            named = f'"{found.columns[name][1]}" for a unit' if found.columns[name][1] else "no unit"
            found.refuse(1, name, named, "a unit of length in the head", f'write "{name} ft" or "{name} m"')
    if found.mistakes:
        return [], (), found.mistakes
    return _from_distances(found) if way == ("distance",) else _along_of(found, way)


def _is_length(unit: str) -> bool:
    try:
        return bool(unit) and units.read(f"1 {unit}", "length") > 0.0
    except ValueError:
        return False


def _from_distances(found: Measurements) -> tuple[list[Row], tuple[str, ...], list[Mistake]]:
    rows: list[Row] = []
    for row in found.rows:
        distance, depth = found.figure(row, "distance", "length"), _depth(found, row)
        if rows and not distance > rows[-1][0] and not math.isnan(distance):
            last = "a distance beyond the row before"
            found.refuse(row.line, "distance", f'"{found.text(row, "distance")}"', last, "put the rows in rising order")
        elif not math.isnan(distance + depth):
            rows.append((distance, depth, _bed(found, row)))
    if rows and rows[0][0] > 0.0:
        rows.insert(0, (0.0, 0.0, ""))
    return rows, (), found.mistakes


def _depth(found: Measurements, row: Any) -> float:
    depth = found.figure(row, "depth", "length")
    if depth < 0.0:
        text = f'"{found.text(row, "depth")}"'
        return found.refuse(row.line, "depth", text, "a depth below the water, 0 or more", "take out the minus")
    return depth


def _bed(found: Measurements, row: Any) -> str:
    said = found.text(row, "bed").lower()
    if said and said not in get_args(BedKind):
        kinds = f"one of: {', '.join(get_args(BedKind))}"
        found.refuse(row.line, "bed", f'"{said}"', kinds, "write one of them, or nothing")
    return said


def _along_of(found: Measurements, way: tuple[str, ...]) -> tuple[list[Row], tuple[str, ...], list[Mistake]]:
    on_globe = way == ("latitude", "longitude")
    points: list[tuple[float, float, float]] = []
    for row in found.rows:
        one, other = (found.figure(row, name, DEGREES if on_globe else "length") for name in way)
        depth = _depth(found, row)
        if on_globe and not _is_on_earth(one, other) and not math.isnan(one + other):
            place = f"{found.text(row, way[0])}, {found.text(row, way[1])}"
            found.refuse(row.line, "latitude", place, "a place on the Earth", "see that the two are not swapped")
        elif not math.isnan(one + other + depth):
            points.append((one, other, depth))
    if found.mistakes:
        return [], (), found.mistakes
    return _along(_flat(points) if on_globe else np.array(points).reshape(-1, 3))


def _is_on_earth(latitude: float, longitude: float) -> bool:
    return abs(latitude) <= 90.0 and abs(longitude) <= 180.0


def _flat(points: Sequence[tuple[float, float, float]]) -> Array:
    """Latitude, longitude and depth as metres east and north of the first point, and depth."""
    table: Array = np.array(points, dtype=float).reshape(-1, 3)
    if not len(table):
        return table
    latitude, longitude = np.radians(table[:, 0]), np.radians(table[:, 1])
    east = EARTH * np.cos(latitude[0]) * (longitude - longitude[0])
    return np.column_stack([east, EARTH * (latitude - latitude[0]), table[:, 2]])


def _gpx(path: Path) -> tuple[Array, list[Mistake]]:
    """The points of a track: each with its depth, or with an elevation under the water, in metres."""
    nothing: Array = np.zeros((0, 3))
    try:
        with path.open("rb") as stream:
            text = stream.read(MOST_BYTES + 1)
        if len(text) > MOST_BYTES:
            raise ElementTree.ParseError("more than 20 MB")
        # In two bytes a letter there is a zero beside each of ours.
        if re.search(rb"<!(?:DOCTYPE|ENTITY)", text.replace(b"\0", b"")):
            raise ElementTree.ParseError("a file that declares entities of its own")
        root = ElementTree.fromstring(text)
    except (OSError, ElementTree.ParseError) as problem:
        reason = str(getattr(problem, "strerror", None) or problem).lower()
        return nothing, [Mistake(path.name, 0, "", reason, "a GPX file that can be read", "export the track again")]
    points: list[tuple[float, float, float]] = []
    mistakes: list[Mistake] = []
    number = 0
    for element in root.iter():
        if element.tag.rpartition("}")[2] not in ("trkpt", "wpt", "rtept"):
            continue
        number += 1
        figures = _gpx_figures(element)
        if not math.isfinite(sum(figures)) or not _is_on_earth(*figures[:2]):
            wanted = "lat, lon, and a depth or an elevation of 0 or less, in metres"
            mistakes.append(
                Mistake(
                    path.name, 0, f"point {number}", "no such place or depth", wanted, "take out the point, or fill it"
                )
            )
        else:
            points.append(figures)
    return _flat(points), mistakes


def _gpx_figures(point: ElementTree.Element) -> tuple[float, float, float]:
    inner = {each.tag.rpartition("}")[2].lower(): each.text or "" for each in point.iter()}
    depth = _plain(inner.get("depth", ""))
    if math.isnan(depth):
        depth = -_plain(inner.get("ele", ""))
    return _plain(point.get("lat", "")), _plain(point.get("lon", "")), depth if depth >= 0.0 else math.nan


def _plain(text: str) -> float:
    try:
        return float(text.strip().replace(",", "."))
    except ValueError:
        return math.nan


# From places to distances.


def _along(points: Array) -> tuple[list[Row], tuple[str, ...], list[Mistake]]:
    """A track as distances along a straight line from its shallower end to the point furthest from there."""
    if len(points) < 2:
        return [], (), []
    start = points[0] if points[0, 2] <= points[-1, 2] else points[-1]
    east, north = points[:, 0] - start[0], points[:, 1] - start[1]
    furthest = int(np.argmax(np.hypot(east, north)))
    length = float(np.hypot(east[furthest], north[furthest]))
    if length == 0.0:
        return [], (), []
    toward = (float(east[furthest]) / length, float(north[furthest]) / length)
    along, aside = east * toward[0] + north * toward[1], north * toward[0] - east * toward[1]
    kept = (np.abs(aside) <= OFF_LINE * length) & (along >= 0.0)
    bearing = math.degrees(math.atan2(*toward)) % 360.0
    notes = [f"a track of {len(points)} points, laid on a straight line from its shallow end, bearing {bearing:.0f}"]
    if not kept.all():
        notes.append(f"{int((~kept).sum())} points of it lie off that line and are left out")
    cell = np.minimum((along[kept] / length * POINTS).astype(int), POINTS - 1)
    depths = points[kept, 2]
    rows = [
        (float(np.median(along[kept][cell == each])), float(np.median(depths[cell == each])), "")
        for each in np.unique(cell)
    ]
    # Both ends are kept as they are: the shore's, and how far the boat went.
    far = (length, float(points[furthest, 2]), "")
    rows = [(0.0, float(start[2]), ""), *(row for row in rows if 0.0 < row[0] < length), far]
    return rows, tuple(notes), []


def from_the_edge(rows: Sequence[Row], system: str) -> tuple[list[Row], tuple[str, ...]]:
    """Soundings from where the water is 0 deep, and what was taken to find it.

    What lies higher than the usual level is cut off; where the first place is deep already, the bed is carried on to
    the edge at the slope of the first two places.

    >>> from_the_edge([(0.0, -0.5, ""), (2.0, 0.5, ""), (4.0, 2.5, "")], "SI")[0]
    [(0.0, 0.0, ''), (1.0, 0.5, ''), (3.0, 2.5, '')]
    """
    wet = next((n for n, (_, depth, _) in enumerate(rows) if depth > (0.0 if n else BEGINS_DRY)), len(rows))
    if wet == len(rows):
        return list(rows), ()
    first = rows[wet]
    if wet > 0:
        (x0, d0, bed), (x1, d1, _) = rows[wet - 1], first
        edge = x0 + (x1 - x0) * max(-d0, 0.0) / (d1 - d0) if d0 < 0.0 else x0
        return [(0.0, 0.0, bed), *((x - edge, depth, bed) for x, depth, bed in rows[wet:])], ()
    deeper = next(((x, depth) for x, depth, _ in rows[1:] if depth > first[1]), None)
    # ours: a bed that does not deepen is carried on at one in ten, flatter than most shores are steep.
    slope = (deeper[1] - first[1]) / (deeper[0] - first[0]) if deeper else 0.1
    short = first[1] / slope
    why = f"the first depth is {units.show(first[1], 'depth', system)}: the edge is taken "
    why += f"{units.show(short, 'length', system)} nearer the shore, as the bed falls there"
    return [(0.0, 0.0, ""), *((x - first[0] + short, depth, bed) for x, depth, bed in rows)], (why,)
