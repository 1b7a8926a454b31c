"""What the door makes of a sound job file."""

from __future__ import annotations

import datetime
import math
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from lakewright import units
from lakewright.job.fields import shapes, walk
from lakewright.job.models import Job
from lakewright.job.quantity import STANDINGS, read_quantity
from lakewright.job.read import read_job, read_job_text
from tests.job.example import EXAMPLE, example_text

FOOT = 0.3048  # exact by definition


def test_the_example_reads_without_a_mistake() -> None:
    job = read_job(EXAMPLE)
    assert job.job.title == "Heron Point cabin"
    assert [day.name for day in job.site.days][2] == "February under ice"
    assert len(job.site.soundings) == 6
    assert job.suction.fittings.elbows == 2
    assert job.suction.fittings.unions == 0
    assert job.limits == {}
    low = job.site.levels.low
    assert low is not None
    assert low.value == pytest.approx(-2.5 * FOOT)
    assert (low.standing, low.since) == ("told", datetime.date(2026, 5, 3))
    assert low.note == "lowest seen in thirty years, by the neighbour"
    assert low.text == "-2.5 ft"


def test_a_table_left_out_is_there_with_its_defaults() -> None:
    job = read_job_text('[job]\ntitle = "x"\n')
    assert job.job.grade == "quote"
    assert job.job.units == "US"
    assert job.site.levels.low is None
    assert job.site.days == []
    assert job.need.fixtures == {}
    assert job.delivery.fittings.elbows == 0
    assert job.pump.lift_table.flows == []


@pytest.mark.parametrize("key", STANDINGS)
def test_each_standing_is_kept(key: str) -> None:
    at = read_job_text(f'[stand]\nat = {{ value = "50 ft", {key} = true, note = "n" }}\n').stand.at
    assert at is not None
    assert (at.standing, at.since, at.note) == (STANDINGS[key], None, "n")


def test_a_range_and_a_spread_are_kept() -> None:
    job = read_job_text('[stand]\nat = "10..14 ft"\nriser = "24 +- 6 in"\n')
    at, riser = job.stand.at, job.stand.riser
    assert at is not None
    assert riser is not None
    assert (at.low, at.value, at.high) == pytest.approx((10 * FOOT, 12 * FOOT, 14 * FOOT))
    assert riser.spread == pytest.approx(0.5 * FOOT)


def test_open_is_open() -> None:
    at = read_job_text('[stand]\nat = "open"\n').stand.at
    assert at is not None
    assert at.open
    assert math.isnan(at.value)


def test_a_plain_number_is_a_count_or_a_share() -> None:
    job = read_job_text("[need]\npeople = 4\n[suction]\nalong = 0.05\n")
    assert job.need.people is not None
    assert job.suction.along is not None
    assert (job.need.people.value, job.suction.along.value) == (4.0, 0.05)


def test_a_limit_is_changed_with_its_reason() -> None:
    limit = read_job_text('[limits.lift]\nreason = "tried it"\ncomfort = "1 ft"\nfactor = 2\n').limits["lift"]
    assert limit.reason == "tried it"
    assert limit.figures == {"comfort": "1 ft", "factor": 2}


@pytest.mark.parametrize(
    "text",
    [example_text(), '[limits.a]\nreason = "r"\nb = 1\n', '[[readings]]\nsuction_running = "-12 psi"\n'],
)
def test_the_model_library_reads_the_same(text: str) -> None:
    assert Job.model_validate(tomllib.loads(text)) == read_job_text(text)


def test_windows_line_ends_and_a_mark_change_nothing() -> None:
    windows = "\ufeff" + example_text().replace("\n", "\r\n")
    assert read_job_text(windows) == read_job_text(example_text())


def test_a_read_job_does_not_change() -> None:
    job = read_job(EXAMPLE)
    with pytest.raises(ValueError, match="frozen"):
        job.stand.legs = 3  # type: ignore[misc]


def test_every_kind_of_a_field_can_be_shown() -> None:
    for _, table, _ in walk():
        for shape in shapes(table).values():
            found = shape.item if shape.form == "list" else shape
            if found is not None and found.dimension is not None:
                assert units.KINDS[found.dimension.kind].dimension == found.dimension.dimension, shape.name


def test_every_example_of_a_field_reads_in_that_field() -> None:
    for path, table, _ in walk():
        for name, shape in shapes(table).items():
            if shape.dimension is not None:
                for example in (shape.dimension.noun.us_example, shape.dimension.noun.si_example):
                    assert not read_quantity(example, shape.dimension).open, (path, name, example)


def test_every_field_says_what_it_is() -> None:
    for path, table, _ in walk():
        assert table.__doc__, path
        for shape in shapes(table).values():
            assert shape.description.endswith("."), (path, shape.name)


def test_nothing_heavy_is_imported_before_a_job_is_read() -> None:
    code = (
        "import sys; import lakewright.job.read, lakewright.job.write; "
        "print([name for name in ('pydantic', 'pydantic_core', 'tomlkit', 'numpy') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_path_may_be_odd(tmp_path: Path) -> None:
    path = tmp_path / "Lac à l’Épaule = 1.toml"
    path.write_text('[job]\ntitle = "x"\n', encoding="utf-8")
    assert read_job(path).job.title == "x"
