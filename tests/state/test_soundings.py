"""Soundings from files: distances and depths, and tracks; every row that cannot be used is told with its line."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.read import read
from lakewright.errors import JobError
from lakewright.state.profile import bed_profile
from lakewright.state.soundings import EARTH, from_the_edge

JOB = """
[job]
units = "US"
grade = "quote"
[site]
kind = "lake"
soundings_file = "{name}"
[site.levels]
today = "{today}"
"""


def written(folder: Path, text: str, name: str = "bed.csv", today: str = "0 ft") -> Path:
    (folder / name).write_text(text, encoding="utf-8")
    job = folder / "job.toml"
    job.write_text(JOB.format(name=name, today=today), encoding="utf-8")
    return job


def profile(job: Path) -> list[tuple[float, float]]:
    """Distances and depths in feet."""
    distances, depths = bed_profile(read(job)[0])
    return [(round(x / 0.3048, 3), round(d / 0.3048, 3)) for x, d in zip(distances, depths, strict=True)]


def complaints(job: Path) -> list[tuple[str, int, str, str]]:
    with pytest.raises(JobError) as caught:
        read(job)
    return [(m.file, m.line, m.key, m.found) for m in caught.value.mistakes]


WANTED = [(0.0, 0.0), (40.0, 6.0), (80.0, 11.0)]


@pytest.mark.parametrize(
    "text",
    [
        "distance ft,depth ft\n0,0\n40,6\n80,11\n",
        "# the line off the dock\nDepth (ft);Distance [ft]\n0;0\n6;40\n11;80\n",
        "out m\tdepth in\tbed\n0\t0\t\n12,192\t72\tsand\n24,384\t132,0\tsilt\n",
        "distance ft,depth ft\n40,6\n80,11 ft\n",
    ],
)
def test_distances_and_depths_in_any_unit_the_head_names(tmp_path: Path, text: str) -> None:
    assert profile(written(tmp_path, text)) == WANTED


def test_what_the_bed_is_comes_with_them(tmp_path: Path) -> None:
    job, _, _ = read(written(tmp_path, "distance ft,depth ft,bed\n0,0,gravel\n40,6,\n80,11,Silt\n"))
    assert [each.bed for each in job.site.soundings] == ["gravel", None, "silt"]


def test_depths_are_below_the_water_of_their_day(tmp_path: Path) -> None:
    # Half a foot over the usual level: the edge of the usual water lies further out, and all is shallower.
    found = profile(written(tmp_path, "distance ft,depth ft\n0,0\n10,1\n40,6\n", today="0.5 ft"))
    assert found == [(0.0, 0.0), (5.0, 0.5), (35.0, 5.5)]


@pytest.mark.law
def test_a_bed_that_begins_deep_is_carried_on_to_its_edge() -> None:
    rows, notes = from_the_edge([(0.0, 1.0, ""), (10.0, 3.0, ""), (20.0, 5.0, "")], "SI")
    assert rows == [(0.0, 0.0, ""), (5.0, 1.0, ""), (15.0, 3.0, ""), (25.0, 5.0, "")]
    assert notes == ("the first depth is 1.00 m: the edge is taken 5.0 m nearer the shore, as the bed falls there",)


# Tracks.


def track(bearing: float, seed: int = 1) -> list[tuple[float, float, float]]:
    """A wandering boat over a bed that falls one in ten: latitude, longitude, depth in metres."""
    random = np.random.default_rng(seed)
    turn = math.radians(bearing)
    points = []
    for x in np.linspace(0.0, 80.0, 161):
        aside = random.normal(0.0, 1.0) if x else 0.0
        east = x * math.sin(turn) + aside * math.cos(turn)
        north = x * math.cos(turn) - aside * math.sin(turn)
        latitude = 46.2 + math.degrees(north / EARTH)
        longitude = -91.3 + math.degrees(east / (EARTH * math.cos(math.radians(46.2))))
        points.append((latitude, longitude, 0.1 * x))
    return points


def csv_of(points: list[tuple[float, float, float]], comma: bool = False) -> str:
    rows = [f"{lat:.9f};{lon:.9f};{depth:.3f}" for lat, lon, depth in points]
    text = "lat;lon;depth m\n" + "\n".join(rows) + "\n"
    return text.replace(".", ",") if comma else text


def gpx_of(points: list[tuple[float, float, float]], by: str = "ele") -> str:
    def inner(depth: float) -> str:
        if by == "ele":
            return f"<ele>{-depth:.3f}</ele>"
        return f"<extensions><d:depth xmlns:d='urn:sounder'>{depth:.3f}</d:depth></extensions>"

    body = "".join(f'<trkpt lat="{a:.9f}" lon="{o:.9f}">{inner(d)}</trkpt>' for a, o, d in points)
    return f'<gpx xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>{body}</trkseg></trk></gpx>'


@pytest.mark.law
@pytest.mark.parametrize("bearing", [0.0, 77.0, 190.0, 301.0])
@pytest.mark.parametrize("form", ["csv", "comma", "gpx", "depth", "back"])
def test_a_track_becomes_distances_along_its_line(tmp_path: Path, bearing: float, form: str) -> None:
    points = track(bearing)
    if form in ("csv", "comma", "back"):
        # Rowed home, the track ends at the shore.
        job = written(tmp_path, csv_of(points[::-1] if form == "back" else points, form == "comma"))
    else:
        job = written(tmp_path, gpx_of(points, "ele" if form == "gpx" else "depth"), "bed.gpx")
    found, _, assembly = read(job)
    distances, depths = bed_profile(found)
    assert distances[0] == depths[0] == 0.0
    assert distances[-1] == pytest.approx(80.0, abs=0.5)
    # Along the line, the bed that was sounded.
    assert np.allclose(depths, 0.1 * np.array(distances), atol=0.06)
    words = [each.why for each in assembly.assumed if each.key == "site.soundings"]
    told = float(words[0].rpartition(" ")[2])
    assert abs((told - bearing + 180.0) % 360.0 - 180.0) < 2.0


def test_what_lies_off_the_line_is_left_out_and_said(tmp_path: Path) -> None:
    points = track(90.0)
    astray = [(46.2 + math.degrees(30.0 / EARTH), points[80][1], 9.9)] * 3
    _, _, assembly = read(written(tmp_path, csv_of([*points[:80], *astray, *points[80:]])))
    words = [each.why for each in assembly.assumed if each.key == "site.soundings"]
    assert words[1] == "3 points of it lie off that line and are left out"


def test_a_grid_of_metres_is_a_track_too(tmp_path: Path) -> None:
    text = "easting ft,northing ft,depth ft\n1000,500,0\n1030,540,5\n1060,580,12\n"
    assert profile(written(tmp_path, text)) == [(0.0, 0.0), (50.0, 5.0), (100.0, 12.0)]


# What cannot be used.


@pytest.mark.message
def test_bad_rows_are_each_told_with_their_line(tmp_path: Path) -> None:
    text = "distance ft,depth ft,bed\n0,0,\n40,six,\n30,7,lava\n20,8,\n60,-2,\n,9,\n90,12,1,5\n"
    assert (
        complaints(written(tmp_path, text))
        == [
            ("bed.csv", 3, "depth", '"six"'),
            ("bed.csv", 4, "bed", '"lava"'),
            ("bed.csv", 5, "distance", '"20"'),
            ("bed.csv", 6, "depth", '"-2"'),
            ("bed.csv", 7, "distance", "nothing"),
            ("bed.csv", 8, "", "4 cells under a head of 3"),
        ][-1:]
    )
    without = text.replace("90,12,1,5\n", "")
    assert complaints(written(tmp_path, without)) == [
        ("bed.csv", 3, "depth", '"six"'),
        ("bed.csv", 4, "bed", '"lava"'),
        ("bed.csv", 5, "distance", '"20"'),
        ("bed.csv", 6, "depth", '"-2"'),
        ("bed.csv", 7, "distance", "nothing"),
    ]


@pytest.mark.message
@pytest.mark.parametrize(
    "text, found",
    [
        ("distance,depth ft\n0,0\n9,1\n", ("bed.csv", 1, "distance", "no unit")),
        ("distance ft,depth fathoms deep\n0,0\n9,1\n", ("bed.csv", 1, "depth", '"fathoms" for a unit')),
        ("far,down\n0,0\n", ("bed.csv", 1, "", "a head with no name we know")),
        ("distance ft,depth ft\n0,0\n", ("bed.csv", 0, "", "fewer than two depths along the line")),
        ("", ("bed.csv", 0, "", "no rows")),
        ("lat,lon,depth m\n146.2,-91.3,0\n46.2,-91.4,5\n", ("bed.csv", 2, "latitude", "146.2, -91.3")),
        ("distance ft;depth ft\n0;1,250\n9;2,375\n", ("bed.csv", 2, "depth", '"1,250"')),
    ],
)
def test_a_file_that_says_too_little(tmp_path: Path, text: str, found: tuple[str, int, str, str]) -> None:
    assert complaints(written(tmp_path, text))[0] == found


@pytest.mark.message
def test_a_gpx_file_that_is_none(tmp_path: Path) -> None:
    bomb = '<!DOCTYPE g [<!ENTITY a "aaaa">]><gpx>&a;</gpx>'
    assert complaints(written(tmp_path, bomb, "bed.gpx"))[0][3] == "a file that declares entities of its own"
    text = gpx_of(track(0.0)[:3]).replace("<ele>-0.000</ele>", "")
    assert complaints(written(tmp_path, text, "bed.gpx"))[0][2:] == ("point 1", "no such place or depth")


@pytest.mark.message
@pytest.mark.parametrize("name", ["nowhere.csv", "../bed.csv", "/etc/hostname"])
def test_a_file_that_does_not_lie_beside_the_job(tmp_path: Path, name: str) -> None:
    job = tmp_path / "job.toml"
    job.write_text(JOB.format(name=name, today="0 ft"), encoding="utf-8")
    ((_, line, key, found),) = complaints(job)
    assert (line, key, found) == (7, "[site] soundings_file", f'"{name}"')


@pytest.mark.message
def test_nothing_is_further_or_deeper_than_a_job_file_may_say(tmp_path: Path) -> None:
    far = complaints(written(tmp_path, "distance mi,depth ft\n0,0\n13,6\n"))
    assert far == [("bed.csv", 0, "distance", "68640 ft")]
    deep = complaints(written(tmp_path, "distance ft,depth ft\n0,0\n40,1700\n"))
    assert deep == [("bed.csv", 0, "depth", "1700 ft")]


def test_soundings_are_given_once(tmp_path: Path) -> None:
    job = written(tmp_path, "distance ft,depth ft\n0,0\n9,1\n")
    row = '[[site.soundings]]\ndistance = "0 ft"\ndepth = "0 ft"\n'
    job.write_text(job.read_text(encoding="utf-8") + row, encoding="utf-8")
    assert complaints(job)[0][3] == "a file, and [[site.soundings]] besides"
