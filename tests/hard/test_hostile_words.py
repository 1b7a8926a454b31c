"""Words of a job that mean something to another program: in every file that is written they stay words."""

from __future__ import annotations

import csv
import io
import re
from contextlib import suppress
from pathlib import Path
from xml.etree import ElementTree

import icalendar
import openpyxl
import pytest

from lakewright.api.packet import packet
from lakewright.documents.outcome_tables import inert, table_csv
from lakewright.documents.pdf import source
from lakewright.documents.scene import Scene, Text
from lakewright.errors import LakewrightError
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"

HOSTILE = (
    "=cmd|' /C calc'!A0",
    "@SUM(1+1)",
    "</text><script>alert(1)</script>",
    "]]><!ENTITY x SYSTEM 'file:///etc/passwd'>&x;",
    '"); #read("/etc/passwd") //',
    "#set page(width: 1mm) $x$ *b* _i_ `c` \\ @y <z>",
    "\u0000\u0007\u001b[31m\u007f",
    "\u202eodd\u202c \u05d0\u05d1 \U0001f4a7",
    "AC1015\n  0\nEOF",
)

FORMULA = re.compile(r"^[\s\ufeff\u200b]*[=+\-@\uff1d\uff0b\uff0d\uff20](?![0-9.]+$)")


PLACES = ("job.title", "job.customer", "job.note", "site.water", "site.days.1.name", "site.days.2.name",
          "site.levels.low.note", "pump.height.note", "price.labour_rate.note")  # fmt: skip


def filled(turn: int) -> tuple[str, int]:
    """The cabin with hostile words wherever a job takes any, each in another place every turn; and how many it took."""
    text, count = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8"), 0
    for number, place in enumerate(PLACES):
        with suppress(LakewrightError):
            changed = set_values(text, {place: HOSTILE[(number + turn) % len(HOSTILE)]})
            read_job_text(changed)
            text, count = changed, count + 1
    return text, count


@pytest.mark.parametrize("turn", [0, 4])
def test_every_sheet_shows_words_as_words(turn: int, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    text, count = filled(turn)
    assert count > 5
    job.write_text(text, encoding="utf-8")
    written = packet(job, tmp_path / "out", everything=True)
    assert {file.suffix for file in written} >= {".pdf", ".svg", ".csv", ".dxf"}
    for file in written:
        if file.suffix in LOOKED_AT:
            LOOKED_AT[file.suffix](file.read_bytes())


def _svg(raw: bytes) -> None:
    tags = {each.tag.rpartition("}")[2] for each in ElementTree.fromstring(raw).iter()}
    assert tags <= {"svg", "g", "path", "circle", "text", "tspan", "title", "desc", "rect", "line", "style"}
    assert not re.search(rb"\son\w+=\"|javascript:|href=", raw)


def _csv(raw: bytes) -> None:
    cells = [cell for row in csv.reader(io.StringIO(raw.decode("utf-8"), newline="")) for cell in row]
    assert [cell for cell in cells if FORMULA.match(cell)] == []


def _dxf(raw: bytes) -> None:
    assert raw.rstrip().endswith(b"EOF")
    assert raw.count(b"\nEOF") == 1


def _pdf(raw: bytes) -> None:
    assert raw.startswith(b"%PDF")
    assert not re.search(rb"/JavaScript|/JS\b|/Launch|/URI", raw)


def _ics(raw: bytes) -> None:
    calendar = icalendar.Calendar.from_ical(raw)
    assert len(calendar.walk("VEVENT")) == len(re.findall(rb"\r\nUID", raw))
    assert re.findall(rb"(?<!\r)\n", raw) == []


LOOKED_AT = {".svg": _svg, ".csv": _csv, ".dxf": _dxf, ".pdf": _pdf, ".ics": _ics}


def test_no_words_reach_the_typesetter_but_as_a_string() -> None:
    """What would read a file, were it code, is written between quotes that it cannot end."""
    words = HOSTILE[4]
    shown = source([Scene(10.0, 10.0, words, [Text(1.0, 1.0, words, "word")])], words)
    assert shown.count('"\\"); #read(\\"/etc/passwd\\") //"') == 2
    assert shown.count("#read(") == 2


@pytest.mark.parametrize(
    "cell",
    ["=1+1", " =1+1", "\t=1+1", "\r=1+1", "x\r=1+1", "+A1", "-A1", "@SUM(A1)", "\ufeff=1", "\uff1d1+1", "\n=1", "-1-1"],
    ids=ascii,
)
def test_no_cell_is_a_formula_to_a_spreadsheet(cell: str) -> None:
    text = table_csv(["what"], [[cell]])
    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert len(rows) == 2, "a cell is one row"
    assert not FORMULA.match(rows[1][0])
    book = openpyxl.Workbook()
    book.worksheets[0].append([inert(cell)])
    assert book.worksheets[0]["A1"].data_type == "s"


@pytest.mark.parametrize("cell", ["-2.5", "+3", "12 ft", "a = b", "0"])
def test_a_number_stays_one(cell: str) -> None:
    assert table_csv(["what"], [[cell]]).splitlines()[1] == cell
