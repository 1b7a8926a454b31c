"""The commands under `book`: what each prints, and the code it ends with."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from lakewright.cli import main
from tests.job.example import EXAMPLE, example_text

pytestmark = pytest.mark.message

NAME = "Heron Point cabin"

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs a command on a book of its own: its code, and what it wrote to stdout and to stderr."""

    def run(*arguments: str, by: str = "Ann") -> tuple[int, str, str]:
        code = main(["book", *arguments, "--book", str(tmp_path / "book.sqlite"), "--date", "2026-09-25", "--by", by])
        said = capsys.readouterr()
        return code, said.out, said.err

    return run


def edited(tmp_path: Path, old: str, new: str) -> str:
    text = example_text()
    assert old in text
    file = tmp_path / "edited.toml"
    file.write_text(text.replace(old, new), encoding="utf-8")
    return str(file)


def test_a_job_is_kept_listed_and_shown(run: Run) -> None:
    assert run("list") == (0, "None.\n", "")
    assert run("add", str(EXAMPLE), "--note", "the first") == (
        0,
        f"{NAME} is in the book: revision 1, by Ann, 2026-09-25\n",
        "",
    )
    assert run("mark", NAME, "looked", "at", "--note", "with the neighbour")[1] == f"{NAME}: looked at, 2026-09-25\n"
    assert run("list")[1] == f"{NAME}   revision 1, 2026-09-25   looked at since 2026-09-25   Long Arm Lake\n"
    assert run("list", "--stage", "built")[1] == "None.\n"
    assert run("list", "--kind", "water")[1].startswith("Long Arm Lake   revision 1, 2026-09-25")
    run("found", NAME, "depth", "at", "the", "stand", "--said", "24 ft", "--found", "22.5 ft", "--note", "sounded")
    run("order", NAME, "rope, 3/8 in", "2", "--whom", "the shop")
    run("order", NAME, "rope, 3/8 in", "--came")
    run("done", NAME, "repair", "20", "--parts", "a union ring")
    assert run("show", NAME)[1] == (
        f"{NAME}   revision 1, 2026-09-25   looked at since 2026-09-25   Long Arm Lake\n"
        "\n"
        "  revision 1   2026-09-25  Ann; the first\n"
        "\n"
        "How it stood\n"
        "  2026-09-25  asked      Ann\n"
        "  2026-09-25  looked at  Ann; with the neighbour\n"
        "\n"
        "Said and found\n"
        "  2026-09-25  depth at the stand: said 24 ft, found 22.5 ft, off by -6.3 %; sounded\n"
        "\n"
        "Parts\n"
        "  2026-09-25  ordered         2  rope, 3/8 in, the shop\n"
        "  2026-09-25  came            1  rope, 3/8 in\n"
        "\n"
        "Visits\n"
        "  2026-09-25  repair: 20 min, 1 there; a union ring\n"
    )
    assert run("search", "wrack", "boathouse")[1].startswith(f"{NAME}   job, looked at\n")
    assert run("search", "xylophone")[1] == "Nothing in the book has all of: xylophone\n"
    assert run("invoices")[1] == (
        f"2026-09-25      $42.50  {NAME}: repair, 0.5 h, 1 there, at the job's rate; a union ring\n"
        "1 ready to invoice, labour $42.50; parts and travel on top\n"
    )
    assert run("invoices", "--sent", NAME)[1] == f"{NAME}: 1 visit invoiced on 2026-09-25\n"


def test_a_stale_edit_ends_with_2_and_is_shown_beside_the_other(run: Run, tmp_path: Path) -> None:
    run("add", str(EXAMPLE))
    assert (
        run("save", edited(tmp_path, 'riser = "24 in"', 'riser = "30 in"'), "--as", NAME, "--on", "1", by="Bea")[0] == 0
    )
    mine = edited(tmp_path, 'riser = "24 in"', 'riser = "18 in"')
    code, out, err = run("save", mine, "--as", NAME, "--on", "1")
    assert (code, out) == (2, "")
    assert err == (
        f"{NAME} has moved on since revision 1, and this edit is not kept: revision 2, by Bea, 2026-09-25 is the last."
        " Put yours into that one, and save it on 2.\n"
        "Line 129, changed by them and by you\n"
        '  was     riser = "24 in"\n'
        '  theirs  riser = "30 in"\n'
        '  yours   riser = "18 in"\n'
    )
    assert run("save", mine, "--as", NAME, "--on", "2")[1] == f"{NAME}: revision 3, by Ann, 2026-09-25\n"
    out = run("between", NAME)[1]
    assert "  stand.riser: 30 in -> 18 in\n" in out
    assert "  inlet stands clear of the bed: holds -> " in out
    assert "\n    was  2.4 ft from the bed to the inlet" in out


def test_a_water_is_revised_too(run: Run, tmp_path: Path) -> None:
    record = EXAMPLE.parent / "waters" / "long_arm_lake.toml"
    file = tmp_path / "water.toml"
    file.write_text(f"# ours\n{record.read_text(encoding='utf-8')}", encoding="utf-8")
    run("add", str(record), "--kind", "water")
    run("save", str(file), "--kind", "water", "--as", "long arm lake", "--on", "1")
    assert run("between", "long arm lake", "--kind", "water")[1] == (
        "Long Arm Lake   revision 1, by Ann, 2026-09-25\n"
        "                revision 2, by Ann, 2026-09-25\n"
        "\n"
        "No value changed; comments or the layout did.\n"
    )


def test_the_text_of_a_revision_comes_back(run: Run, tmp_path: Path) -> None:
    run("add", str(EXAMPLE))
    assert run("text", NAME)[1].splitlines() == [line.rstrip() for line in example_text().splitlines()]
    file = tmp_path / "back.toml"
    assert run("text", NAME, "--to", str(file))[1].endswith(f"book save {file} --as 'Heron Point cabin' --on 1\n")
    assert file.read_bytes() == EXAMPLE.read_bytes()


def test_a_round_says_its_stops_and_whom_it_leaves_out(run: Run, tmp_path: Path) -> None:
    run("add", edited(tmp_path, 'season   = "year-round"', 'season   = "hauled"\nclose_by = 2020-10-10'))
    run("add", str(EXAMPLE), "--as", "stays in")
    for name in (NAME, "stays in"):
        run("mark", name, "put in")
    calendar = tmp_path / "round.ics"
    assert run("round", "haul-out", "--calendar", str(calendar))[1] == (
        "Friday 2026-09-25\n"
        f"  08:30   ~30 min road   155 min  {NAME}, Long Arm Lake; 2 to go\n"
        "\n"
        "1 stop, 155 min on the sites, 60 min on the road\n"
        "Roads with ~ nobody has timed: lakewright book way FROM TO MINUTES puts them down.\n"
        "\n"
        "On the truck\n"
        "    1  bag for plugs\n"
        "    1  mouse mesh\n"
        "    1  tag for the breaker\n"
        "    1  rope, float and mark for the stand\n"
        "\n"
        "Left out\n"
        "  stays in: it stays in all winter\n"
    )
    assert b"SUMMARY:haul-out: Heron Point cabin\r\n" in calendar.read_bytes()
    assert run("done", NAME, "haul-out", "140", "--people", "2")[1].endswith("2026-09-25; it stands wintered\n")
    assert run("round", "haul-out")[1].startswith("Nobody is due for a haul-out.\n")


def test_copies_go_out_and_come_back(run: Run, tmp_path: Path) -> None:
    run("add", str(EXAMPLE))
    copy, folder = tmp_path / "copy.sqlite", tmp_path / "out"
    assert run("backup", str(copy))[1] == f"{tmp_path / 'book.sqlite'} is copied to {copy}, and the copy is sound\n"
    assert run("export", str(folder))[1].endswith(f"files in {folder}\n")
    assert run("import", str(folder))[2].startswith("the book has papers already; take the files into a new one")
    run("mark", NAME, "put in")
    assert run("restore", str(copy))[1].endswith(f"what it was before is {tmp_path / 'book-before-1.sqlite'}\n")
    assert "asked since" in run("list")[1]


@pytest.mark.parametrize(
    "arguments, words",
    [
        (["mark", NAME, "bought"], "found 'bought'; wanted one of: asked, looked at, priced, said yes, ordered, built"),
        (["list", "--stage", "bought"], "found 'bought'; wanted one of: asked"),
        (["show", "Heron Pont cabin"], "the book has no job 'Heron Pont cabin'; did you mean Heron Point cabin?"),
        (["between", NAME, "1"], "found 1 revision; wanted two, or none for the last two"),
        (["between", NAME, "1", "2"], f"{NAME} has no revision 2; it has 1 to 1"),
        (["save", str(EXAMPLE), "--as", NAME, "--on", "7"], None),
        (["add", str(EXAMPLE)], f"{NAME} is in the book already; save it as a revision"),
        (["order", NAME, "--came"], "which part came? Name it, as it was ordered"),
        (["order", NAME, "rope", "0"], "found count 0; wanted a number over 0"),
        (["order", NAME, "rope", "nan"], "found count nan; wanted a number over 0"),
        (["way", "shop", NAME, "inf"], "found minutes inf; wanted a number over 0"),
        (["done", NAME, "repair", "-1"], "found minutes -1; wanted a number over 0"),
        (["done", NAME, "repair", "1", "--people", "0"], "found nobody; wanted 1 or more people"),
        (
            ["found", NAME, "depth", "--said", "1 ft", "--found", "1 ft"],
            f'{NAME}: found the unknown "depth"; wanted one of',
        ),
        (["restore", "nowhere.sqlite"], "nowhere.sqlite is no file; name a backup of a book"),
        (["import", "nowhere"], "is no folder"),
    ],
)
def test_what_cannot_be_done_says_why(run: Run, arguments: list[str], words: str | None) -> None:
    if arguments[0] != "import":
        run("add", str(EXAMPLE))
    code, out, err = run(*arguments)
    if words is None:
        # What says the same as the last revision is that one, whatever it was made on.
        assert (code, out) == (0, f"{NAME}: revision 1, by Ann, 2026-09-25\n")
    else:
        assert (code, out) == (2, "")
        assert words in err


def test_a_day_that_is_in_no_calendar_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for day in ("2026-02-30", "20260225", "today"):
        assert main(["book", "list", "--book", str(tmp_path / "book.sqlite"), "--date", day]) in (0, 2)
        said = capsys.readouterr().err
        assert said in ("", f"--date: found {day!r}; wanted a day, as 2026-08-14\n")
    assert said
