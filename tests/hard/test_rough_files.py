"""Files as they come: from other machines, with odd names, far too large, or naming what is not theirs."""

from __future__ import annotations

import json
import shutil
import tracemalloc
from collections.abc import AsyncIterator, Callable
from contextlib import closing
from pathlib import Path

import httpx
import pytest

from lakewright.api.doubt import doubted
from lakewright.api.read import read
from lakewright.api.stock import stock_list
from lakewright.api.waters import waters
from lakewright.book.drafts import Book
from lakewright.cli import main
from lakewright.errors import LakewrightError
from lakewright.job.read_water import read_water
from lakewright.job.scenarios import read_scenarios
from lakewright.state.level_record import readings_of
from lakewright.state.unknowns import read_record
from lakewright.web.app import app_of
from lakewright.web.jobs import Jobs
from lakewright.web.posts import LARGEST_POST
from tests.apart import run_apart
from tests.fuzz.doors import CORPUS, EXAMPLES

CABIN = EXAMPLES / "year_round_cabin.toml"


def soundings(file: Path) -> object:
    """What a file of soundings says of the bed, to a job beside it."""
    job = file.with_name("job.toml")
    job.write_text(f'[job]\ngrade = "quote"\n[site]\nkind = "lake"\nsoundings_file = "{file.name}"\n', encoding="utf-8")
    return [(each.distance.value, each.depth.value, each.bed) for each in read(job)[0].site.soundings]


def own_stock(file: Path) -> object:
    found = stock_list(own=file)
    return found.rows, [(mistake.line, mistake.found) for mistake in found.mistakes]


READERS: dict[str, tuple[Path, Callable[[Path], object]]] = {
    "job": (CABIN, lambda file: read(file)[0]),
    "water": (EXAMPLES / "waters" / "long_arm_lake.toml", read_water),
    "soundings": (CORPUS / "soundings" / "sound_feet.csv", soundings),
    "track": (CORPUS / "soundings" / "sound_track.gpx", soundings),
    "levels": (CORPUS / "levels" / "sound_days.csv", readings_of),
    "stock": (CORPUS / "stock" / "sound_own.csv", own_stock),
    "scenarios": (CORPUS / "scenarios" / "sound_few.toml", read_scenarios),
    "record": (CORPUS / "record" / "sound_record.csv", read_record),
}


@pytest.mark.parametrize("kind", READERS)
def test_line_ends_and_a_byte_order_mark_change_nothing(kind: str, tmp_path: Path) -> None:
    sound, reads = READERS[kind]
    file, plain = tmp_path / sound.name, sound.read_bytes().replace(b"\r\n", b"\n")
    said = []
    for raw in (plain, plain.replace(b"\n", b"\r\n"), b"\xef\xbb\xbf" + plain, b"\xef\xbb\xbf" + plain.rstrip(b"\n")):
        file.write_bytes(raw)
        said.append(reads(file))
    assert said[1:] == said[:1] * 3


@pytest.mark.parametrize(
    "head, rows", [("date;level ft", "1964-03-21;577,25"), ("date\tlevel ft", "1964-03-21\t577,25")]
)
def test_a_comma_for_a_point_is_a_point(head: str, rows: str, tmp_path: Path) -> None:
    file = tmp_path / "levels.csv"
    file.write_text(f"{head}\n{rows}\n", encoding="utf-8")
    assert readings_of(file)[0].level == pytest.approx(577.25 * 0.3048, abs=1e-9)


ODD_NAMES = ("the job.toml", "-x.toml", "--to.toml", "\u05d0\u05d1.toml", "\U0001f4a7.toml", "a'b\"c.toml",
             "a;b&c.toml", "$HOME.toml", "%s{0}.toml", "e\u0301.toml", "x" * 200 + ".toml", "a\nb.toml")  # fmt: skip


@pytest.mark.parametrize("name", ODD_NAMES, ids=ascii)
def test_a_file_may_be_called_anything(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    shutil.copy(CABIN, name)
    assert main(["check", "--", name]) == 0
    assert main(["packet", f"--to={tmp_path / 'out'}", "--", name]) == 0
    written = {file.name for file in (tmp_path / "out").iterdir()}
    assert f"{Path(name).stem}-parts.csv" in written
    # Beside them is the record of what was written, under the same name with a point before it.
    assert all(each.removeprefix(".").startswith(f"{Path(name).stem}-") for each in written)
    assert capsys.readouterr().err == f"5 files in {tmp_path / 'out'}\n"


@pytest.mark.message
def test_what_is_to_be_typed_next_can_be_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    shutil.copy(EXAMPLES / "year_round_cabin_open.toml", "-x y.toml")
    main(["check", "--", "-x y.toml"])
    assert "Next: lakewright design './-x y.toml'," in capsys.readouterr().out


LARGE = 100_000_000
TOO_LARGE: dict[str, Callable[[Path], object]] = {
    "job.toml": read,
    "water.toml": read_water,
    "scenarios.toml": read_scenarios,
    "record.csv": lambda file: doubted(CABIN, file),
    "bed.csv": soundings,
    "bed.gpx": soundings,
    "bed.xlsx": soundings,
    "levels.csv": readings_of,
}


@pytest.mark.parametrize("name", [*TOO_LARGE, "own.csv", "waters"])
def test_a_file_of_a_hundred_megabytes_is_refused_and_not_read_to_its_end(name: str, tmp_path: Path) -> None:
    file = tmp_path / (name if name != "waters" else "large.toml")
    with file.open("wb") as stream:
        stream.write(b"PK\x03\x04" if name.endswith("xlsx") else b"# ")
        stream.truncate(LARGE)
    tracemalloc.start()
    try:
        if name == "waters":
            assert [len(card.mistakes) for card in waters(tmp_path)] == [1]
        elif name == "own.csv":
            assert [each.found for each in stock_list(own=file).mistakes] == ["more than 20 MB"]
        else:
            with pytest.raises(LakewrightError, match="more than"):
                TOO_LARGE[name](file)
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert most < 0.6 * LARGE


def test_a_hundred_megabytes_posted_are_refused_unread(tmp_path: Path) -> None:
    piece, sent = b"x" * 65_536, 0

    async def posted() -> AsyncIterator[bytes]:
        nonlocal sent
        yield b'{"part": "'
        while sent < LARGE:
            sent += len(piece)
            yield piece

    async def ask(app: object) -> httpx.Response:
        transport = httpx.ASGITransport(app=app)  # type: ignore[arg-type]
        async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1:8437") as client:
            return await client.post("/draft", content=posted(), headers={"content-type": "application/json"})

    with closing(Book(tmp_path / "book.sqlite")) as book:
        answer = run_apart(ask(app_of(Jobs(CABIN, book, True), frozenset({"127.0.0.1:8437"}))))
    assert answer.status_code == 400
    assert sent <= LARGEST_POST + 2 * len(piece)


ASTRAY = ("../secret.csv", "/etc/passwd", "folder/bed.csv", "./bed.csv", "..", ".", "link.csv", "round.csv",
          "far/../bed.csv", "bed.csv\\u0000", "", "x" * 300, "C:\\\\bed.csv", "~/bed.csv", "folder")  # fmt: skip


@pytest.mark.parametrize("name", ASTRAY, ids=ascii)
@pytest.mark.parametrize("field", ["soundings_file", "levels.record"])
def test_a_job_names_only_files_beside_it(field: str, name: str, tmp_path: Path) -> None:
    (tmp_path / "secret.csv").write_text("distance ft,depth ft\n0,0\n40,77\n", encoding="utf-8")
    home = tmp_path / "home"
    (home / "folder").mkdir(parents=True)
    for file in (home / "bed.csv", home / "folder" / "bed.csv"):
        shutil.copy(tmp_path / "secret.csv", file)
    (home / "link.csv").symlink_to(tmp_path / "secret.csv")
    (home / "round.csv").symlink_to(home / "round.csv")
    job = home / "job.toml"
    job.write_text(f'[job]\ngrade = "quote"\n[site]\nkind = "lake"\n{field} = "{name}"\n', encoding="utf-8")
    with pytest.raises(LakewrightError) as refused:
        read(job)
    assert "77" not in str(refused.value)
    assert json.dumps(str(refused.value)).isascii()


def test_a_link_inside_the_folder_is_followed(tmp_path: Path) -> None:
    shutil.copy(CORPUS / "soundings" / "sound_feet.csv", tmp_path / "bed.csv")
    (tmp_path / "other.csv").symlink_to(tmp_path / "bed.csv")
    assert soundings(tmp_path / "other.csv") == soundings(tmp_path / "bed.csv")
