"""Writing back: what was asked changes, and every other byte stays."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from lakewright.errors import AskError
from lakewright.job.read import read_job_text
from lakewright.job.write import keys_of, set_values, write_job
from tests.job.example import example_text

SMALL = """\
# The cabin.
[stand]
at    = { value = "170 ft", measured = 2026-05-03 }   # from the edge
legs  = 4
riser = "24 in"

[pump]
curve = [
  { flow = "0 gpm", head = "150 ft" },  # shut off
  { flow = "9 gpm", head = "90 ft" },
]
lift_table.lifts = ["5 ft"]

[[site.days]]
name = "July"  # a weekend
[[site.days]]
name = "April"
"""


def test_no_change_is_no_change() -> None:
    assert set_values(example_text(), {}) == example_text()


def test_the_same_values_again_are_the_same_bytes() -> None:
    same = {
        "site.levels.low": "-2.5 ft",
        "need.people": "4",
        "job.date": "2026-05-09",
        "site.days.2.water": "58 F",
    }
    assert set_values(example_text(), same) == example_text()


@pytest.mark.parametrize(
    "path, value, old, new",
    [
        ("stand.riser", "18 in", 'riser = "24 in"', 'riser = "18 in"'),
        ("stand.at", "160 ft", '"170 ft", measured', '"160 ft", measured'),
        ("stand.at.note", "by line", "2026-05-03 }", '2026-05-03, note = "by line" }'),
        ("stand.riser.told", "true", '"24 in"', '{ value = "24 in", told = true }'),
        ("stand.legs", "3", "legs  = 4", "legs  = 3"),
        ("stand.legs", "three", "legs  = 4", 'legs  = "three"'),
        ("stand.wet", "dry", '"24 in"\n', '"24 in"\nwet   = "dry"\n'),
        ("stand.tether", "true", '"24 in"\n', '"24 in"\ntether = true\n'),
        ("pump.curve.2.head", "95 ft", '"90 ft"', '"95 ft"'),
        ("pump.curve.3.flow", "15 gpm", '"90 ft" },', '"90 ft" }, { flow = "15 gpm" },'),
        (
            "pump.lift_table.pressures",
            '["20 psi"]',
            '["5 ft"]\n',
            '["5 ft"]\nlift_table.pressures = ["20 psi"]\n',
        ),
        ("pump.lift_table.lifts.2", "10 ft", '["5 ft"]', '["5 ft", "10 ft"]'),
        ("site.days.1.level", "0 ft", "# a weekend\n", '# a weekend\nlevel = "0 ft"\n'),
        ("site.days.3.name", "Ice", 'name = "April"\n', 'name = "April"\n\n[[site.days]]\nname = "Ice"\n'),
        ("site.levels.low", "-2 ft", 'name = "April"\n', 'name = "April"\n\n[site.levels]\nlow = "-2 ft"\n'),
        ("have.'x'", "", "", ""),
        ('have."old pump".age', "8 yr", '"April"\n', '"April"\n\n[have."old pump"]\nage = "8 yr"\n'),
        ("job.title", 'a "b" \\ c', '"April"\n', '"April"\n\n[job]\ntitle = "a \\"b\\" \\\\ c"\n'),
        ("stand.riser", "", 'riser = "24 in"\n', ""),
        ("stand.at.measured", "", ", measured = 2026-05-03", ""),
        ("stand.ballast", "", "", ""),
        ("pump.curve.1", "", '{ flow = "0 gpm", head = "150 ft" },  # shut off\n  ', "# shut off\n  "),
        ("site.days.1", "", '[[site.days]]\nname = "July"  # a weekend\n', ""),
    ],
)
def test_a_change_touches_its_own_place_alone(path: str, value: str, old: str, new: str) -> None:
    if path == "have.'x'":
        with pytest.raises(AskError, match="no path of keys"):
            keys_of(path)
        return
    assert set_values(SMALL, {path: value}) == (SMALL.replace(old, new, 1) if old else SMALL)


def test_many_changes_read_back() -> None:
    changes = {
        "site.levels.low": "-3 ft",
        "site.days.6.name": "Thaw",
        "site.days.6.level": "1 ft",
        "need.people": "6",
        "delivery.precharge": "28 psi",
        "site.wind.fetch": "2 mi",
        "site.position.bearings.1.mark": "boathouse",
        "site.position.bearings.1.bearing": "235 degrees",
        "limits.lift.reason": "tried it",
        "have.pump.keep": "true",
    }
    job = read_job_text(set_values(example_text(), changes))
    low = job.site.levels.low
    assert low is not None
    assert (low.text, low.standing) == ("-3 ft", "told")
    assert job.site.days[5].name == "Thaw"
    assert job.site.position.bearings[0].mark == "boathouse"
    assert job.have["pump"].keep is True
    assert job.limits["lift"].reason == "tried it"


@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_windows_line_ends_and_a_mark_stay(mark: str) -> None:
    text = mark + example_text().replace("\n", "\r\n")
    changed = set_values(text, {"need.kitchens": "1", "site.wind.fetch": "2 mi", "site.boats": ""})
    assert changed.startswith(mark)
    assert changed.count("\n") == changed.count("\r\n")
    assert read_job_text(changed).need.kitchens == 1


def test_an_empty_file_can_be_begun() -> None:
    assert set_values("", {"job.title": "x"}) == '[job]\ntitle = "x"\n'
    assert set_values("# mine\n", {"job.title": "x"}) == '# mine\n\n[job]\ntitle = "x"\n'


@pytest.mark.message
@pytest.mark.parametrize(
    "path, value, words",
    [
        ("site..days", "x", "'site..days' is no path of keys such as site.levels.low or site.days.2.level"),
        ("", "x", "'' is no path of keys such as site.levels.low or site.days.2.level"),
        ("site.days.9.name", "x", "site.days.9.name: the next row is number 3"),
        ("site.days", "x", "site.days is a table of many values; name one of them"),
        ("stand", "x", "stand is a table of many values; name one of them"),
        (
            "stand.legs.left.foot",
            "1",
            "stand.legs.left.foot cannot be changed in place in this file; change it by hand",
        ),
        ("stand.legs.left", "1", "stand.legs.left leads through a value, not a table"),
    ],
)
def test_what_cannot_be_set_is_refused_in_words(path: str, value: str, words: str) -> None:
    with pytest.raises(AskError) as refused:
        set_values(SMALL, {path: value})
    assert str(refused.value) == words


@pytest.mark.message
def test_a_text_that_is_no_toml_is_refused() -> None:
    with pytest.raises(AskError, match="the file is not TOML, so no value in it can be set: "):
        set_values("[site\n", {"site.water": "x"})


def test_a_job_is_written_whole(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    write_job(path, "a = 1\r\n")
    assert path.read_bytes() == b"a = 1\r\n"
    path.chmod(0o640)
    write_job(path, "é = 2\n".replace("é", '"é"'))
    assert path.read_text(encoding="utf-8") == '"é" = 2\n'
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert os.listdir(tmp_path) == ["job.toml"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    path, link = tmp_path / "job.toml", tmp_path / "link.toml"
    path.write_text("")
    link.symlink_to(path)
    write_job(link, "a = 1\n")
    assert link.is_symlink()
    assert path.read_text() == "a = 1\n"


def test_a_write_that_fails_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "job.toml"
    path.write_text("old = 1\n")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_job(path, "new = 1\n")
    with pytest.raises(UnicodeEncodeError):
        write_job(path, "\ud800")
    assert path.read_text() == "old = 1\n"
    assert os.listdir(tmp_path) == ["job.toml"]


@pytest.mark.message
def test_a_folder_is_not_written_over(tmp_path: Path) -> None:
    with pytest.raises(AskError) as refused:
        write_job(tmp_path, "")
    assert str(refused.value) == f"{tmp_path} is a folder; name the file inside it"


@pytest.mark.law
def test_a_comment_at_the_end_without_an_end_of_line_is_a_comment() -> None:
    assert (
        set_values('need = { flow = "8 gpm" } # asked', {"need.flow": "9 gpm"}) == 'need = { flow = "9 gpm" } # asked'
    )
