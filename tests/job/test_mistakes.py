"""Every table and every kind of error in a job file, with the exact words a person reads."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from lakewright import units
from lakewright.errors import JobError, UnitError
from lakewright.job.fields import walk
from lakewright.job.read import BIGGEST, read_job, read_job_text

pytestmark = pytest.mark.message

BLOCKS = re.findall(
    r"^===== (.+)\n((?:.*\n)*?)-----\n((?:(?!=====).*\n)+)",
    (Path(__file__).parent / "mistakes.txt").read_text(encoding="utf-8"),
    re.MULTILINE,
)


def mistakes_in(text: str) -> list[str]:
    with pytest.raises(JobError) as caught:
        read_job_text(text)
    return [str(mistake) for mistake in caught.value.mistakes]


@pytest.mark.parametrize("text, expected", [block[1:] for block in BLOCKS], ids=[block[0] for block in BLOCKS])
def test_a_wrong_job_file_says_what_to_write(text: str, expected: str) -> None:
    assert "\n".join(mistakes_in(text)) + "\n" == expected


def test_every_table_has_a_wrong_file() -> None:
    places = "".join(expected for _, _, expected in BLOCKS)
    tables = [".".join(path) for path, _, _ in walk()]
    assert [table for table in tables if not re.search(rf"\[{re.escape(table)}[].]", places)] == []


def test_all_mistakes_come_at_once_in_the_order_of_the_file() -> None:
    with pytest.raises(JobError) as caught:
        read_job_text("[need]\nbaths = -1\n[stand]\nat = 50\nriser = 24\n[site]\nkind = 3\n")
    assert str(caught.value).splitlines()[0] == "4 mistakes in the job file"
    assert [mistake.line for mistake in caught.value.mistakes] == [2, 4, 5, 7]


@pytest.mark.parametrize(
    "field, dimension, text",
    [
        ("stand.at", "length", "12 psi"),
        ("stand.at", "length", "12 5 ft"),
        ("stand.riser", "length", "14..10 in"),
        ("delivery.cut_in", "pressure", "a lot"),
        ("site.elevation", "length", "1,340 ft"),
    ],
)
def test_a_quantity_that_cannot_be_read_says_what_the_unit_reader_says(field: str, dimension: str, text: str) -> None:
    with pytest.raises(UnitError) as said:
        units.read_amount(text, dimension)
    table, key = field.split(".")
    (mistake,) = mistakes_in(f'[{table}]\n{key} = "{text}"\n')
    assert mistake == (
        f"job.toml, line 2, [{table}] {key}\n    found   {said.value.found}\n"
        f"    wanted  {said.value.wanted}\n    do      {said.value.remedy}"
    )


@pytest.mark.parametrize(
    "table, line, wanted",
    [
        ("[[site.soundings]] 1", 'depth = "-6 ft"', "a depth from 0 to {depth}"),
        ("[suction]", 'along = "150 %"', "a share of the whole from 0 to {share}"),
        ("[need]", "people = -4", "a number from 0 to {count}"),
        ("[suction]", 'bore = "0 in"', "a bore from {least_bore} to {bore}"),
        ("[[site.days]] 1", 'water = "180 F"', "a temperature from {coldest} to {warmest}"),
    ],
)
def test_a_number_out_of_bounds_says_which(table: str, line: str, wanted: str) -> None:
    needed = {"[[site.soundings]] 1": 'distance = "0 ft"\n', "[[site.days]] 1": 'name = "x"\n'}.get(table, "")
    (mistake,) = mistakes_in(f"{table.removesuffix(' 1')}\n{needed}{line}\n")
    key, _, found = line.partition(" = ")
    between = ", " if table.endswith("1") else " "
    bounds = {
        "depth": units.show(500.0, "depth", "US", most=units.EVERY_DIGIT),
        "share": units.show(1.0, "share", "US", most=units.EVERY_DIGIT),
        "count": units.show(1.0e6, "count", "US", most=units.EVERY_DIGIT),
        "least_bore": units.show(0.001, "bore", "US", most=units.EVERY_DIGIT),
        "bore": units.show(1.0, "bore", "US", most=units.EVERY_DIGIT),
        "coldest": units.show(272.15, "temperature", "US", most=units.EVERY_DIGIT),
        "warmest": units.show(318.15, "temperature", "US", most=units.EVERY_DIGIT),
    }
    assert mistake == (
        f"job.toml, line {3 if needed else 2}, {table}{between}{key}\n    found   {found}\n"
        f"    wanted  {wanted.format(**bounds)}\n    do      check the number, its sign and its unit"
    )


@pytest.mark.parametrize(
    "text, expected",
    [
        (
            "[site]\r\n# a comment\r\nkind = 3\r\n",
            "job.toml, line 3, [site] kind\n    found   3\n"
            '    wanted  one of "lake", "stream", "pond", "tank", "reservoir"\n'
            '    do      write kind = "lake"',
        ),
        (
            '\ufeff[site]\nwater = "x"\nwater = "y"\n',
            'job.toml, line 3\n    found   water = "y"\n    wanted  each key once in its table\n'
            "    do      take out one of the two",
        ),
        (
            f'[site]\nwater = "{"x" * 4001}"\n',
            "job.toml, line 2, [site] water\n    found   text of 4001 letters\n"
            "    wanted  at most 4000 letters\n    do      say it shorter",
        ),
        (
            f"[need]\nbaths = {'9' * 70}\n",
            f"job.toml, line 2, [need] baths\n    found   {'9' * 60}...\n"
            "    wanted  a whole number from 0 to 100,000\n    do      write baths = 3",
        ),
        (
            f"[need]\nbaths = {'9' * 5000}\n",
            f'job.toml, line 2\n    found   "baths = {"9" * 51}..."\n'
            "    wanted  a number of reasonable length\n    do      write the number in fewer digits",
        ),
        (
            f"a = {'[' * 3000}\n",
            "job.toml\n    found   lists or tables nested without end\n    wanted  a job file\n"
            "    do      write each value plainly",
        ),
        (
            '[site]\nwater = "a\x07"\n',
            'job.toml, line 2\n    found   "water = \\"a\\u0007\\""\n'
            "    wanted  text of letters, digits and signs alone\n"
            "    do      take it out, or close the quotes",
        ),
        (
            '[site]\nkind = "la\\u0007ke"\n',
            'job.toml, line 2, [site] kind\n    found   "la\\u0007ke"\n'
            '    wanted  one of "lake", "stream", "pond", "tank", "reservoir"\n'
            '    do      did you mean "lake"?',
        ),
        (
            "",
            "job.toml\n    found   an empty file\n    wanted  a job file\n"
            '    do      write [job] on one line and title = "Heron Point cabin" on the next',
        ),
        (
            "\ufeff\r\n",
            "job.toml\n    found   an empty file\n    wanted  a job file\n"
            '    do      write [job] on one line and title = "Heron Point cabin" on the next',
        ),
        (
            "# nothing yet\n",
            "job.toml\n    found   a file with nothing but comments\n    wanted  a job file\n"
            '    do      write [job] on one line and title = "Heron Point cabin" on the next',
        ),
    ],
    ids=[
        "windows",
        "mark",
        "long",
        "huge",
        "endless",
        "nested",
        "bell",
        "bell in text",
        "empty",
        "blank",
        "comments",
    ],
)
def test_an_odd_text_says_what_is_odd(text: str, expected: str) -> None:
    assert mistakes_in(text) == [expected]


def test_a_flood_of_mistakes_is_cut_short_and_counted() -> None:
    mistakes = mistakes_in("[need]\n" + "".join(f"strange_{n} = 1\n" for n in range(700)))
    assert len(mistakes) == 501
    assert [mistake for mistake in mistakes if "strange" not in mistake] == [
        "job.toml, line 501\n    found   200 more mistakes\n    wanted  a job file\n"
        "    do      mend those above and look again"
    ]


def refused(path: Path) -> str:
    with pytest.raises(JobError) as caught:
        read_job(path)
    (mistake,) = caught.value.mistakes
    return str(mistake)


def test_a_file_that_is_not_there_names_one_that_is(tmp_path: Path) -> None:
    (tmp_path / "cabin.toml").write_text("")
    assert refused(tmp_path / "cabn.toml") == (
        f"{tmp_path}/cabn.toml\n    found   no such file\n    wanted  a job file\n    do      did you mean cabin.toml?"
    )
    assert refused(tmp_path / "nowhere" / "x.toml") == (
        f"{tmp_path}/nowhere/x.toml\n    found   no such file\n    wanted  a job file\n"
        "    do      check the name and the folder"
    )


def test_a_folder_is_no_job_file(tmp_path: Path) -> None:
    assert refused(tmp_path) == (
        f"{tmp_path}\n    found   a folder\n    wanted  a job file\n    do      name the file inside it"
    )


def test_a_name_that_cannot_be_one(tmp_path: Path) -> None:
    assert refused(tmp_path / ("x" * 300)).endswith(
        "    found   file name too long\n    wanted  a job file that can be read\n"
        "    do      check its name and permissions"
    )
    assert "wanted  a job file that can be read" in refused(tmp_path / "a\x00b")


def test_a_file_that_is_not_utf8_names_the_byte(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b'[site]\nwater = "Lac \xe9t\xe9"\n')
    assert refused(path) == (
        f"{path}, line 2\n    found   the byte 0xe9\n    wanted  text in UTF-8\n"
        "    do      save the file again as UTF-8"
    )


def test_a_file_too_big_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"#" * (BIGGEST + 1))
    assert refused(path) == (
        f"{path}\n    found   a file of more than 5 MB\n    wanted  a job file\n"
        "    do      keep soundings and level records in files of their own"
    )
