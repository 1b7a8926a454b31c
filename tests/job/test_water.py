"""The record of a water: what the door makes of it, in which words it refuses, how one is found, what it lacks."""

from __future__ import annotations

import datetime
import os
import subprocess
import sys
from pathlib import Path

import pytest

import lakewright.job.read_water as records
from lakewright.api.waters import water_folders, water_of, waters
from lakewright.errors import AskError, JobError
from lakewright.job.fields import example, header, shapes, walk
from lakewright.job.read import read_job_text
from lakewright.job.read_water import WaterError, find_water, read_water, read_water_text, water_files
from lakewright.job.water import Water, facts_in, lacks, unsigned
from lakewright.job.water_page import water_reference

FOOT = 0.3048  # exact by definition
ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples" / "waters"
PAGE = ROOT / "docs" / "reference" / "water_file.md"
NAMED = 'name = "x"\n'
EVERY_TABLE = [("", Water), *((header(path, form), table) for path, table, form in walk(Water))]


def mistakes_in(text: str) -> list[str]:
    with pytest.raises(WaterError) as caught:
        read_water_text(text)
    return [str(mistake) for mistake in caught.value.mistakes]


def a_folder(tmp_path: Path, **texts: str) -> Path:
    folder = tmp_path / "waters"
    folder.mkdir()
    for name, text in texts.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return folder


# What is read.


def test_a_fact_keeps_its_value_and_whose_word_it_is() -> None:
    text = '[levels]\nlow = { value = "-3..-2 ft", told = 2026-05-03, said_by = "the neighbour", note = "dry year" }\n'
    low = read_water_text(NAMED + text).levels.low
    assert low is not None
    assert (low.standing, low.since, low.said_by, low.note) == (
        "told",
        datetime.date(2026, 5, 3),
        "the neighbour",
        "dry year",
    )
    assert low.value.value == pytest.approx(-2.5 * FOOT)
    assert low.value.low == pytest.approx(-3.0 * FOOT)
    assert (low.value.standing, low.value.since, low.value.note) == (low.standing, low.since, low.note)


def test_words_and_months_are_facts_too() -> None:
    water = read_water_text(
        'name = "x"\nweed = { value = "many", looked_up = true, said_by = "the diver" }\n'
        '[clarity]\nbloom_months = { value = ["July", "August"], measured = 2026-08-01 }\n'
    )
    assert water.weed is not None
    assert (water.weed.value, water.weed.standing, water.weed.since) == ("many", "looked up", None)
    assert water.clarity.bloom_months is not None
    assert water.clarity.bloom_months.value == ("July", "August")
    assert water.clarity.bloom_months.standing == "measured"


def test_a_plain_value_has_nobodys_word() -> None:
    water = read_water_text('name = "x"\nelevation = "410 m"\n')
    assert water.elevation is not None
    assert (water.elevation.value.value, water.elevation.standing, water.elevation.said_by) == (410.0, "", "")


def test_what_someone_said_without_more_is_told() -> None:
    water = read_water_text('name = "x"\nelevation = { value = "410 m", said_by = "the owner" }\n')
    assert water.elevation is not None
    assert (water.elevation.standing, water.elevation.value.standing) == ("told", "told")


@pytest.mark.parametrize("file", sorted(EXAMPLES.glob("*.toml")), ids=lambda file: file.stem)
def test_the_examples_read(file: Path) -> None:
    water = read_water(file)
    assert water.days
    assert len(list(facts_in(water))) > 25


def test_windows_line_ends_and_a_mark_of_byte_order_do_no_harm() -> None:
    assert read_water_text('\ufeffname = "x"\r\nweed = "some"\r\n').name == "x"


def test_every_field_may_be_given_beside_who_said_so() -> None:
    for head, table in EVERY_TABLE:
        needed = 'name = "d"\n' if head == "[[days]]" else ""
        for name, shape in shapes(table).items():
            if not shape.is_fact:
                continue
            line = f'{name} = {{ value = {example(shape)}, told = 2026-05-03, said_by = "w" }}\n'
            water = read_water_text(f"{NAMED}{head}\n{needed}{line}")
            ((place, fact),) = facts_in(water)
            assert place.endswith(name)
            assert (fact.standing, fact.said_by) == ("told", "w")


# In which words it is refused.

REFUSED = {
    "a number without its unit": (
        NAMED + "elevation = 1340\n",
        "water.toml, line 2, elevation\n    found   1340\n    wanted  a height above the sea with its unit\n"
        '    do      write elevation = "1340 ft"',
    ),
    "a sign that cannot be": (
        NAMED + '[levels]\ndrawdown = "-10 ft"\n',
        'water.toml, line 3, [levels] drawdown\n    found   "-10 ft"\n    wanted  a length from 0 to 65617 ft\n'
        "    do      check the number, its sign and its unit",
    ),
    "a word that is not one of them": (
        NAMED + 'dam = "Yess"\n',
        'water.toml, line 2, dam\n    found   "Yess"\n    wanted  one of "yes", "no", "unknown"\n'
        '    do      did you mean "yes"?',
    ),
    "a word like none of them": (
        NAMED + "dam = true\n",
        'water.toml, line 2, dam\n    found   true\n    wanted  one of "yes", "no", "unknown"\n'
        '    do      write dam = "yes"',
    ),
    "a month in short": (
        NAMED + '[levels]\nlow_months = ["August", "Sept"]\n',
        'water.toml, line 3, [levels] low_months, item 2\n    found   "Sept"\n    wanted  one of "January", "February",'
        ' "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"\n'
        '    do      did you mean "September"?',
    ),
    "a month that is a number": (
        NAMED + "[levels]\nlow_months = [8]\n",
        "water.toml, line 3, [levels] low_months, item 1\n    found   8\n    wanted  one of "
        '"January", "February", "March", "April", "May", "June", "July", "August", "September", "October",'
        ' "November", "December"\n    do      write "January"',
    ),
    "months that are no list": (
        NAMED + '[levels]\nlow_months = "August"\n',
        'water.toml, line 3, [levels] low_months\n    found   "August"\n    wanted  a list of months\n'
        '    do      write low_months = ["January"]',
    ),
    "words without quotes around them": (
        NAMED + "position = 3\n",
        'water.toml, line 2, position\n    found   3\n    wanted  words in quotes\n    do      write position = "..."',
    ),
    "words that say nothing": (
        NAMED + 'position = " "\n',
        'water.toml, line 2, position\n    found   " "\n    wanted  words in quotes\n'
        '    do      write position = "..."',
    ),
    "a name that says nothing": (
        'name = ""\n',
        'water.toml, line 1, name\n    found   ""\n    wanted  words in quotes\n    do      write name = "..."',
    ),
    "words too long": (
        NAMED + f'position = "{"a" * 4001}"\n',
        "water.toml, line 2, position\n    found   text of 4001 letters\n    wanted  at most 4000 letters\n"
        "    do      say it shorter",
    ),
    "a key beside a value that is none": (
        NAMED + 'elevation = { value = "410 m", by = "me" }\n',
        'water.toml, line 2, elevation.by\n    found   a table with the key "by"\n    wanted  value, and beside it '
        "said_by, one of told, measured, looked_up, assumed, and a note\n"
        '    do      write elevation = { value = "1340 ft", told = 2026-05-03, said_by = "..." }',
    ),
    "a table without a value": (
        NAMED + "weed = { told = 2026-05-03 }\n",
        "water.toml, line 2, weed\n    found   a table without a value\n    wanted  value, and beside it "
        "said_by, one of told, measured, looked_up, assumed, and a note\n"
        '    do      write weed = { value = "none", told = 2026-05-03, said_by = "..." }',
    ),
    "a table in a table": (
        NAMED + 'elevation = { value = { value = "410 m" } }\n',
        "water.toml, line 2, elevation\n    found   a table in a table\n    wanted  a value beside its standing\n"
        '    do      write elevation = "1340 ft"',
    ),
    "two standings": (
        NAMED + 'weed = { value = "none", told = true, measured = true }\n',
        "water.toml, line 2, weed.measured\n    found   told and measured\n    wanted  one standing: told, measured, "
        "looked_up or assumed\n    do      keep the one that is so, as in told = 2026-05-03",
    ),
    "a date in quotes": (
        NAMED + 'weed = { value = "none", told = "2026-05-03" }\n',
        'water.toml, line 2, weed.told\n    found   "2026-05-03"\n    wanted  the date it became known, or true\n'
        "    do      write told = 2026-05-03, without quotes",
    ),
    "a name that is no words": (
        NAMED + 'weed = { value = "none", said_by = 3 }\n',
        "water.toml, line 2, weed.said_by\n    found   3\n    wanted  who said so, in words\n"
        "    do      put the name in quotes",
    ),
    "no name": (
        'weed = "none"\n',
        "water.toml, name\n    found   nothing\n    wanted  what the water is called; jobs refer to it by this\n"
        '    do      write name = "..."',
    ),
    "a day without a name": (
        NAMED + '[[days]]\nlevel = "0 ft"\n',
        "water.toml, line 2, [[days]] 1, name\n    found   nothing\n    wanted  what to call the day: July weekend, "
        'February under ice\n    do      write name = "..."',
    ),
    "two days of one name": (
        NAMED + '[[days]]\nname = "May"\n[[days]]\nname = "may"\n',
        'water.toml, line 5, [[days]] 2, name\n    found   "may" a second time\n    wanted  a name of its own\n'
        "    do      give this one another name",
    ),
    "a key a letter off": (
        NAMED + "[levels]\ndrawdwn = 3\n",
        'water.toml, line 3, [levels] drawdwn\n    found   the unknown key "drawdwn"\n    wanted  one of usual, low, '
        "low_months, flood, flood_months, lowest_seen, drawdown, drawdown_months\n    do      did you mean drawdown?",
    ),
    "a key of another table": (
        NAMED + '[ice]\nsecchi = "3 m"\n',
        'water.toml, line 3, [ice] secchi\n    found   the unknown key "secchi"\n'
        "    wanted  one of thickness, freezing_index\n    do      secchi belongs in [clarity]",
    ),
    "a key of the top in a table": (
        NAMED + '[ice]\nmussels = "none"\n',
        'water.toml, line 3, [ice] mussels\n    found   the unknown key "mussels"\n'
        "    wanted  one of thickness, freezing_index\n"
        "    do      mussels belongs in the lines above the first [table]",
    ),
    "a key nobody knows": (
        NAMED + "[ice]\nzzz = 1\n",
        'water.toml, line 3, [ice] zzz\n    found   the unknown key "zzz"\n'
        "    wanted  one of thickness, freezing_index\n    do      take it out, or put what it says in a note",
    ),
    "a table that is a value": (
        NAMED + 'ice = "28 in"\n',
        'water.toml, line 2, [ice]\n    found   "28 in"\n    wanted  a table\n    do      write [ice] above its keys',
    ),
    "days that are a value": (
        NAMED + 'days = "usual"\n',
        'water.toml, line 2, [days]\n    found   "usual"\n    wanted  a list of tables\n'
        "    do      write [[days]] above the keys of each",
    ),
    "a day that is a value": (
        NAMED + 'days = ["usual"]\n',
        'water.toml, line 2, [[days]] 1\n    found   "usual"\n    wanted  a table\n'
        "    do      write [[days]] above its keys",
    ),
    "what is not TOML": (
        "name = Long Arm\n",
        "water.toml, line 1\n    found   name = Long Arm\n    wanted  a value: text in quotes, a number, true, false, "
        'a date or a list\n    do      put text and quantities in quotes, as in depth = "12 ft"',
    ),
}


@pytest.mark.message
@pytest.mark.parametrize("text, expected", REFUSED.values(), ids=REFUSED)
def test_a_wrong_file_says_what_to_write(text: str, expected: str) -> None:
    assert mistakes_in(text) == [expected]


@pytest.mark.message
def test_all_mistakes_come_at_once_in_the_order_of_the_file() -> None:
    with pytest.raises(JobError) as caught:
        read_water_text('dam = "perhaps"\nweed = 3\n[levels]\nlow = "three"\nhigh = "3 ft"\n')
    assert str(caught.value).splitlines()[0] == "5 mistakes in a water's file"
    assert [(m.line, m.key) for m in caught.value.mistakes] == [
        (0, "name"),
        (1, "dam"),
        (2, "weed"),
        (4, "[levels] low"),
        (5, "[levels] high"),
    ]


@pytest.mark.message
def test_a_file_that_cannot_be_read_says_so(tmp_path: Path) -> None:
    with pytest.raises(WaterError) as caught:
        read_water(tmp_path / "none.toml")
    (mistake,) = caught.value.mistakes
    assert (mistake.found, mistake.wanted, mistake.remedy) == (
        "no such file",
        "a water's file",
        "check the name and the folder",
    )


@pytest.mark.parametrize("text", ["", "= 3", "[[[", 'name = "x"\n[levels]\n"a b".c = 3\n', "x = " + "[" * 5000, "\x00"])
def test_no_text_raises_anything_but_a_list_of_mistakes(text: str) -> None:
    assert mistakes_in(text) != []


def test_examples_in_messages_are_in_the_units_of_the_job() -> None:
    with pytest.raises(WaterError) as caught:
        read_water_text(NAMED + "elevation = 410\n", system="SI")
    assert caught.value.mistakes[0].remedy == 'write elevation = "410 m"'


# How one is found.


@pytest.mark.parametrize(
    "name", ["Long Arm Lake", "long arm lake", " LONG  arm_lake", "long_arm_lake", "long-arm-lake.toml"]
)
def test_a_water_is_found_by_its_name_or_its_files(name: str) -> None:
    water = find_water(name, [EXAMPLES])
    assert water is not None
    assert water.name == "Long Arm Lake"


def test_a_name_on_no_record_is_just_a_name(tmp_path: Path) -> None:
    assert find_water("Nowhere Pond", [tmp_path / "not there", EXAMPLES]) is None
    assert find_water("", [EXAMPLES]) is None
    assert find_water(" _- ", [EXAMPLES]) is None


def test_only_the_folder_beside_the_job_is_looked_in(tmp_path: Path) -> None:
    a_folder(tmp_path, mine='name = "Long Arm Lake"\nnote = "ours"\n')
    job = read_job_text('[site]\nwater = "long arm lake"\n')
    beside = water_of(job, tmp_path / "job.toml")
    assert beside is not None
    assert beside.note is not None
    assert water_of(job, tmp_path / "far" / "job.toml") is None
    assert water_folders(tmp_path / "job.toml") == (tmp_path / "waters",)


def test_a_broken_file_harms_only_its_own_water(tmp_path: Path) -> None:
    folder = a_folder(tmp_path, good='name = "Good"\n', broken="name = ", wrong='name = "Wrong"\nweed = 3\n')
    assert find_water("good", [folder]) is not None
    for name in ("broken", "Wrong"):
        with pytest.raises(WaterError, match="1 mistake in a water's file"):
            find_water(name, [folder])


@pytest.mark.message
def test_two_waters_of_one_name_are_a_mistake_of_each(tmp_path: Path) -> None:
    folder = a_folder(tmp_path, east='name = "Mud Lake"\n', mud_lake='weed = "none"\nname = "West Mud Lake"\n')
    with pytest.raises(WaterError) as caught:
        find_water("mud lake", [folder])
    assert [str(mistake) for mistake in caught.value.mistakes] == [
        f'{folder / "east.toml"}, line 1, name\n    found   the name "Mud Lake", to which mud_lake.toml answers too\n'
        "    wanted  one record of each water\n    do      put them together, or rename one",
        f"{folder / 'mud_lake.toml'}, line 2, name\n"
        '    found   the name "West Mud Lake", to which east.toml answers too\n'
        "    wanted  one record of each water\n    do      put them together, or rename one",
    ]


@pytest.mark.parametrize(
    "name",
    [
        "../secret",
        "../secret.toml",
        "waters/../../secret",
        "{outside}",
        "{outside}.toml",
        "..",
        ".",
        "/",
        "*",
        "?" * 6,
        "[s]ecret",
        "~/secret",
        "secret\x00.toml",
        "file://{outside}.toml",
        "a" * 5000,
        "secret",
    ],
)
def test_a_name_never_leads_out_of_the_folder(tmp_path: Path, name: str) -> None:
    outside = tmp_path / "secret.toml"
    outside.write_text('name = "secret"\n', encoding="utf-8")
    folder = a_folder(tmp_path, tame='name = "Tame"\n')
    (folder / "inner").mkdir()
    (folder / "inner" / "secret.toml").write_text('name = "secret"\n', encoding="utf-8")
    assert find_water(name.format(outside=outside.with_suffix("")), [folder]) is None


def test_a_link_that_leads_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "secret.toml").write_text('name = "secret"\n', encoding="utf-8")
    folder = a_folder(tmp_path, tame='name = "Tame"\n')
    (folder / "link.toml").symlink_to(tmp_path / "secret.toml")
    (folder / "round.toml").symlink_to(folder / "round.toml")
    (folder / "other.toml").symlink_to(folder / "tame.toml")
    (folder / "folder.toml").mkdir()
    os.mkfifo(folder / "pipe.toml")
    assert find_water("secret", [folder]) is None
    assert find_water("link", [folder]) is None
    assert [file.name for file in water_files(folder)] == ["other.toml", "tame.toml"]


def test_a_name_that_a_file_gives_its_water_is_only_compared(tmp_path: Path) -> None:
    folder = a_folder(tmp_path, tame='name = "../secret"\n')
    water = find_water("../secret", [folder])
    assert water is not None
    assert water.name == "../secret"


# What it lacks.

EVERYTHING = (
    "what kind of water it is",
    "where it is",
    "how high it lies above the sea",
    "whether a dam sets its level",
    "what its usual level is read on",
    "how low it falls in an ordinary year",
    "in which months it is low",
    "how high it floods",
    "in which months it floods",
    "the lowest it was ever seen",
    "how thick its ice grows",
    "how clear it is",
    "what its bed is",
    "whether it has mussels",
    "how much weed it has",
    "in which months algae bloom, if ever",
    "which screen rule is in force",
    "which permit is needed",
    "when work in the water is allowed",
    "whom to call",
    "what the authority says about drinking it",
    "its days",
)
BEHIND_A_DAM = (
    "who controls its level",
    "how to reach whoever controls it",
    "how far it is drawn down in winter",
    "in which months it is drawn down",
)


def test_a_name_alone_lacks_everything() -> None:
    assert lacks(read_water_text(NAMED)) == EVERYTHING


def test_a_dam_asks_for_its_keeper_and_its_winter() -> None:
    more = lacks(read_water_text(NAMED + 'dam = "yes"\n'))
    assert set(more) == {*EVERYTHING, *BEHIND_A_DAM} - {"whether a dam sets its level"}
    assert tuple(words for words in more if words in BEHIND_A_DAM) == BEHIND_A_DAM


def test_unknown_is_no_answer() -> None:
    text = 'dam = "unknown"\nmussels = "unknown"\n[rules]\ndrinking = "not asked"\n[clarity]\nbloom_months = []\n'
    assert lacks(read_water_text(NAMED + text)) == EVERYTHING


def test_a_water_that_never_blooms_has_no_months_of_it() -> None:
    text = '[clarity]\nbloom = "no"\nturbidity = "3 NTU"\n'
    left = {"in which months algae bloom, if ever", "how clear it is"}
    assert set(lacks(read_water_text(NAMED + text))) == set(EVERYTHING) - left


def test_a_fact_that_nobody_signed_is_named() -> None:
    water = read_water_text(
        'name = "x"\nweed = "none"\nmussels = { value = "none", told = true, said_by = "w" }\n'
        'bed = { value = "silt", told = 2026-05-03 }\n[ice]\n'
        'thickness = { value = "2 ft", told = 2026-05-03, said_by = "w" }\n'
        '[[days]]\nname = "May"\nmonths = ["May"]\ndirt = "50 %"\nlevel = "1 ft"\n'
    )
    assert unsigned(water) == (
        "bed: who said so",
        "weed: who said so and when",
        "mussels: when",
        "[[days]] 1, level: who said so and when",
    )


def test_the_cards_of_the_examples() -> None:
    lake, flowage = waters(EXAMPLES)
    assert (lake.name, lake.kind, lake.dam) == ("Long Arm Lake", "lake", "no")
    assert (lake.lacks, lake.unsigned, lake.mistakes) == ((), (), ())
    assert (flowage.name, flowage.file.name, flowage.dam) == ("Quill Forge Flowage", "quill_forge_flowage.toml", "yes")
    assert "how far it is drawn down in winter" in flowage.lacks
    assert "mussels: who said so and when" in flowage.unsigned


def test_a_card_says_why_no_job_can_use_its_water(tmp_path: Path) -> None:
    folder = a_folder(tmp_path, a='name = "Twin"\n', b='name = "twin"\n', c="weed = 3\n")
    first, second, broken = waters(folder)
    assert [mistake.file for mistake in first.mistakes] == [str(folder / "a.toml")]
    assert [mistake.file for mistake in second.mistakes] == [str(folder / "b.toml")]
    assert (broken.name, broken.lacks, [m.key for m in broken.mistakes]) == ("c", (), ["name", "weed"])


@pytest.mark.law
def test_a_folder_is_read_for_names_once_however_many_waters_lie_in_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = a_folder(tmp_path, **{f"w{n}": f'name = "Water {n}"\n' for n in range(12)})
    asked: list[Path] = []
    name_in = records._name_in
    monkeypatch.setattr(records, "_name_in", lambda file: asked.append(file) or name_in(file))
    assert len(waters(folder)) == len(asked) == 12


@pytest.mark.message
def test_a_folder_that_is_not_there_says_so(tmp_path: Path) -> None:
    with pytest.raises(AskError) as caught:
        waters(tmp_path / "waters")
    assert str(caught.value) == (
        f"{tmp_path / 'waters'} is no folder; make it and put a file for each water in it, or name another"
    )


# The reference page.


@pytest.mark.golden
def test_the_reference_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == water_reference(), (
        "run: python -m lakewright.job.water_page docs/reference/water_file.md"
    )


def test_the_page_names_every_field(tmp_path: Path) -> None:
    run = [sys.executable, "-m", "lakewright.job.water_page", str(tmp_path / "page.md")]
    subprocess.run(run, check=True, env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    page = (tmp_path / "page.md").read_text(encoding="utf-8")
    assert page == water_reference()
    for head, table in EVERY_TABLE:
        assert not head or f"## `{head}`" in page
        for name, shape in shapes(table).items():
            assert shape.table or f"| `{name}` | " in page
            assert shape.table or shape.description in page
