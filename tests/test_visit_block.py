"""The visit that `diagnose` prints to paste where a job has none: it can be read, whatever of it is filled in."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

import pytest

from lakewright.api.diagnose import advise
from lakewright.cli import main
from lakewright.diagnosis_lines import NAMES
from lakewright.job.fields import shapes
from lakewright.job.models_shop import Reading
from lakewright.job.read import read_job_text
from lakewright.lines import WIDTH
from lakewright.visit_block import visit_block
from tests.job.example import EXAMPLE

TODAY = datetime.date(2026, 8, 14)


def block(text: str, tmp_path: Path) -> list[str]:
    file = tmp_path / "job.toml"
    file.write_text(text, encoding="utf-8")
    found = advise(file)
    return list(visit_block(found.found.expected, found.units, TODAY))


@pytest.mark.law
@pytest.mark.parametrize("system", ["US", "SI"])
def test_a_job_takes_the_block_as_it_is_and_filled_in(system: str, tmp_path: Path) -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace('units = "US"', f'units = "{system}"')
    lines = block(text, tmp_path)
    (bare,) = read_job_text("\n".join([text, *lines])).readings
    assert {name for name, value in bare if value} == {"date"}
    assert bare.date == TODAY
    filled = [line.removeprefix("# ") for line in lines]
    (visit,) = read_job_text("\n".join([text, *filled])).readings
    assert {name for name, _ in visit} == set(shapes(Reading))
    assert [name for name, value in visit if value is None] == []
    unit = {"US": ("inHg vacuum", "psi", "gpm"), "SI": ("kPa vacuum", "kPa", "L/s")}[system]
    said = [getattr(visit, name).text for name in ("suction_running", "pressure_running", "flow")]
    assert [text.endswith(end) for text, end in zip(said, unit, strict=True)] == [True] * 3, said


@pytest.mark.message
def test_each_reading_has_what_is_read_when_sound_and_each_phrase_stands_whole(tmp_path: Path) -> None:
    lines = block(EXAMPLE.read_text(encoding="utf-8"), tmp_path)
    told = {name for name in shapes(Reading) if f"# {name} = " in "\n".join(lines)}
    assert told == set(shapes(Reading)) - {"date"}
    expected = [name for name, _ in NAMES.values() if any(line.startswith(f"## {name}; sound: ") for line in lines)]
    assert len(expected) >= 8
    for shape in shapes(Reading).values():
        words = shape.item.choices if shape.item is not None else shape.choices
        assert [word for word in words if not any(json.dumps(word) in line for line in lines)] == []
    assert max(map(len, lines)) <= WIDTH


@pytest.mark.message
def test_diagnose_prints_it_where_nobody_has_said_anything(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "my cabin.toml"
    file.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    assert main(["diagnose", str(file)]) == 0
    before, _, pasted = capsys.readouterr().out.partition("\n[[readings]]\n")
    assert "my cabin.toml'" in before
    assert pasted.startswith(f"date = {datetime.date.today().isoformat()}\n")
    with file.open("a", encoding="utf-8") as job:
        job.write(f"\n[[readings]]\n{pasted}does = ['no water']\n")
    assert main(["diagnose", str(file)]) == 0
    assert "[[readings]]\n" not in capsys.readouterr().out
