"""Every place along the soundings judged: the best, the reasons, what further out buys; and what design tries."""

from __future__ import annotations

import itertools
from functools import cache
from pathlib import Path

import pytest

from lakewright.api.check import check
from lakewright.api.read import read
from lakewright.api.where import telling, where
from lakewright.errors import AskError
from lakewright.job.write import set_values
from lakewright.lines import where_lines
from lakewright.search.options import problem_of, stations
from lakewright.search.spots import JUDGED, Spots, spots_of
from tests.told import TOLD

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
CABIN = EXAMPLES / "year_round_cabin.toml"


@cache
def found(path: Path) -> Spots:
    return spots_of(*read(path))


def written(folder: Path, changes: dict[str, str], name: str = "job.toml") -> Path:
    """The cabin with some of its text changed."""
    text = CABIN.read_text(encoding="utf-8")
    for old, new in changes.items():
        assert old in text, old
        text = text.replace(old, new, 1)
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.law
def test_every_break_and_every_fiftieth_of_the_bed_is_judged() -> None:
    job, _, _ = read(CABIN)
    spots = found(CABIN).spots
    at = [spot.at / 0.3048 for spot in spots]
    assert {40.0, 80.0, 120.0, 170.0, 240.0} <= {round(x, 3) for x in at}
    assert max(b - a for a, b in itertools.pairwise(at)) <= 240.0 / 50.0 + 1e-6
    assert [(spot.at, spot.depth) for spot in spots] == stations(job)
    assert spots[0].name == "10 ft from the edge in 1.4 ft of water"


@pytest.mark.law
def test_a_line_that_is_open_is_one_that_the_asked_flow_runs_through_gently(tmp_path: Path) -> None:
    """The narrowest in stock would draw air anywhere, which says nothing about a place."""
    past = "does not go so far"
    asked = {}
    for line in ("open", "suction hose, 3/4 in"):
        path = tmp_path / "job.toml"
        path.write_text(set_values(TOLD, {"suction.stock": line}), encoding="utf-8")
        spots = spots_of(*read(path)).spots
        asked[line] = {past in finding.message for spot in spots for finding in spot.findings}
    assert asked == {"open": {False}, "suction hose, 3/4 in": {False, True}}


@pytest.mark.law
def test_a_place_is_judged_as_the_check_judges_it_there(tmp_path: Path) -> None:
    """The job written with its stand at a place finds what the place was told."""
    for spot in found(CABIN).spots[:40:13]:
        path = written(tmp_path, {'at    = { value = "170 ft"': f'at    = {{ value = "{spot.at!r} m"'})
        report = {f.name: f for f in check(path).findings}
        for finding in spot.findings:
            assert (finding.status, finding.margin) == (report[finding.name].status, report[finding.name].margin)


@pytest.mark.law
def test_the_best_is_the_cheapest_and_nearest_where_all_holds() -> None:
    places = found(CABIN)
    holds = [n for n, spot in enumerate(places.spots) if spot.status == "holds"]
    assert places.best in holds
    assert all((places.spots[n].price, n) >= (places.pick.price, places.best) for n in holds)
    # Further out more coils are bought, and never fewer.
    assert sorted(spot.price for spot in places.spots) == [spot.price for spot in places.spots]


@pytest.mark.message
def test_the_reasons_say_what_stands_against_the_places_nearer_in() -> None:
    reasons = found(CABIN).reasons
    assert reasons[0] == "all that decides a place holds there, and no nearer place and no cheaper line has that"
    assert reasons[1] == "asked for at 170 ft: there, all holds"
    assert reasons[2].startswith("nearer in, at 96 ft from the edge in 13.4 ft of water: stand does not slide: tight, ")
    assert reasons[3].startswith("about 57.2 ft down daylight has faded: nowhere along these soundings")


@pytest.mark.message
def test_soundings_in_and_the_best_place_out(tmp_path: Path) -> None:
    """A file of soundings beside a quote of a few lines: the place, why, and where dark and cold water begin."""
    rows = "".join(f"{x},{0.3 * x}\n" for x in range(0, 201, 20))
    (tmp_path / "bed.csv").write_text(f"distance ft,depth ft\n{rows}", encoding="utf-8")
    job = tmp_path / "job.toml"
    job.write_text(
        '[job]\ntitle = "North bay"\nunits = "US"\ngrade = "quote"\n[site]\nkind = "lake"\nsoundings_file = "bed.csv"\n'
        '[site.bed]\nkind = "gravel"\n[site.wind]\nfetch = "0.5 mi"\n[site.clarity]\nsecchi = "9 ft"\n',
        encoding="utf-8",
    )
    places = where(job)
    assert places.found.pick.status in ("holds", "tight")
    text = "\n".join(where_lines(places)).replace("\n    ", " ")
    assert text.startswith(f"North bay: {places.found.pick.name}\n")
    assert "daylight has faded: reached at" in text
    assert "more of line in whole coils; less for filters and lamp to do" in text
    assert "local rules and whoever holds them decide" in text
    assert len(telling(places.found)) < len(places.found.spots)


@pytest.mark.message
def test_where_nobody_has_sounded_there_is_nothing_to_judge(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text('[job]\nunits = "US"\n[site]\nkind = "lake"\n', encoding="utf-8")
    with pytest.raises(AskError, match="no soundings: give"):
        where(job)


@pytest.mark.law
def test_a_must_outweighs_a_should_and_what_is_only_told_decides_nothing() -> None:
    assert not [name for name in JUDGED if name.endswith("is_told")]
    for spot in found(CABIN).spots:
        assert (spot.status == "fails") == any(f.status == "fails" and f.force == "must" for f in spot.findings)


@pytest.mark.law
def test_design_tries_no_place_in_the_breakers() -> None:
    job, stock, assembly = read(EXAMPLES / "year_round_cabin_open.toml")
    tried = {words["stand.at"].value for words in problem_of(job, stock, assembly).part("spot").says}
    places = {spot.at: spot.status_of("stand_is_outside_breakers") for spot in found(CABIN).spots}
    assert tried == {at for at, status in places.items() if status != "fails"}
    assert len(tried) < len(places)
