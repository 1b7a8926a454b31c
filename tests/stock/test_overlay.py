"""The shop's own sheet over ours: good rows taken, each bad one named."""

from __future__ import annotations

import csv
import re
import sys
import zipfile
from pathlib import Path

import pytest

from lakewright.errors import AskError, Mistake
from lakewright.stock.load import Stock, load_stock
from lakewright.stock.measure import FOOT, INCH, PSI
from lakewright.stock.overlay import OVERLAID, overlay
from lakewright.stock.sheet import SheetRow, rows_of

pytestmark = pytest.mark.message

STOCK = load_stock()
TANK = "diaphragm tank, 62 gal"
PIPE = "polyethylene, SIDR 9, 1-1/2 in"
VALVE = "foot valve, spring, 1-1/2 in"
HINGED = "foot valve, hinged, 1-1/2 in"
PUMP = "centrifugal, two-stage, 3/4 hp"
SWITCH = "pressure switch, 30/50 psi"
CLAMP = "clamp, stainless steel, 1 in"
PRICED = {"counter_cents": "2500", "trade_cents": "2000", "web_cents": "2400", "priced": "2026-05-03"}
PRICED |= {"supplier": "the shop", "lead_days": "0", "bin": "1"}


def write(folder: Path, rows: list[dict[str, str]], name: str = "own.csv") -> Path:
    columns = list(dict.fromkeys(column for row in rows for column in row))
    file = folder / name
    with file.open("w", newline="", encoding="utf-8") as handle:
        table = csv.DictWriter(handle, columns, restval="")
        table.writeheader()
        table.writerows(rows)
    return file


def put_over(folder: Path, rows: list[dict[str, str]]) -> tuple[Stock, tuple[Mistake, ...]]:
    return overlay(STOCK, write(folder, rows))


NUMBER = ("a number, 0 or more", "write it in digits, such as 1.610")
WHOLE = "a whole number"
CENTS = "write cents, so 12.50 as 1250"
TABLES = "pipes, foot_valves, screens, pumps, jets, tanks, parts"
SIZE = "a nominal size such as 1-1/2"

# Each kind of bad row: its cells, then the column named, what was found, what was wanted, what to do.
BAD: list[tuple[dict[str, str], tuple[str, str, str, str]]] = [
    ({"like": TANK, "bin": "9"}, ("name", "nothing", "a name", "every part has one, yours or ours")),
    (
        {"name": "a stranger"},
        (
            "like",
            "nothing, and no part of ours of that name",
            "what it is like",
            f"say like and a part it is like, or table and one of {TABLES}",
        ),
    ),
    (
        {"name": "t1", "like": "diaphram tank, 62 gal"},
        (
            "like",
            "'diaphram tank, 62 gal'",
            "the name of a part of ours, or of a row above",
            "did you mean 'diaphragm tank, 62 gal' or 'diaphragm tank, 32 gal'?",
        ),
    ),
    (
        {"name": "t2", "like": "qqqq"},
        ("like", "'qqqq'", "the name of a part of ours, or of a row above", "take it out, or mend it"),
    ),
    ({"name": "t3", "table": "tank"}, ("table", "'tank'", f"one of {TABLES}", "did you mean 'tanks'?")),
    (
        {"name": "t4", "like": TANK, "table": "pumps"},
        ("table", "'pumps'", "tanks, where what it is like stands", "empty it"),
    ),
    (
        {"name": CLAMP, "like": TANK},
        ("name", f"'{CLAMP}', which is one of parts", "a new name in tanks", "give it another name"),
    ),
    ({"name": "good pipe"}, ("name", "'good pipe' again, first on line 2", "each name once", "remove one of the two")),
    (
        {"name": "t5", "like": TANK, "bore_in": "1.0"},
        ("bore_in", "'1.0'", "nothing, in tanks", "empty it: that table has no such column"),
    ),
    ({"name": "t6", "like": TANK, "max_psi": "a lot"}, ("max_psi", "'a lot'", *NUMBER)),
    ({"name": "t7", "like": TANK, "max_psi": "100 psi"}, ("max_psi", "'100 psi'", *NUMBER)),
    ({"name": "t8", "like": TANK, "max_psi": "-100"}, ("max_psi", "'-100'", *NUMBER)),
    ({"name": "t9", "like": TANK, "max_psi": "nan"}, ("max_psi", "'nan'", *NUMBER)),
    ({"name": "t10", "like": TANK, "max_psi": "#REF!"}, ("max_psi", "'#REF!'", *NUMBER)),
    ({"name": "t11", "like": TANK, "max_psi": "1,25"}, ("max_psi", "'1,25'", *NUMBER)),
    ({"name": "t12", "like": TANK, "max_psi": "-"}, ("max_psi", "''", *NUMBER)),
    (
        {"name": "t13", "like": TANK, "max_psi": "0"},
        ("max_psi", "'0'", "a number above 0", "look it up and write it in"),
    ),
    (
        {"name": "t14", "like": TANK, "acceptance_gal": "70"},
        (
            "acceptance_gal",
            "'70'",
            "less than the whole volume, 62",
            "give the most water the diaphragm lets in",
        ),
    ),
    ({"name": "t15", "like": TANK, "counter_cents": "449.00"}, ("counter_cents", "'449.00'", WHOLE, CENTS)),
    ({"name": "t16", "like": TANK, "counter_cents": "$44,900"}, ("counter_cents", "'$44,900'", WHOLE, CENTS)),
    ({"name": "t17", "like": TANK, "counter_cents": "ask"}, ("counter_cents", "'ask'", WHOLE, CENTS)),
    (
        {"name": "t18", "like": TANK, "trade_cents": "99000"},
        ("trade_cents", "99000, over the counter's 44900", "no more than it", "change places"),
    ),
    (
        {"name": "t19", "like": TANK, "priced": "May 3"},
        ("priced", "'May 3'", "a date", "write it as 2026-05-03"),
    ),
    (
        {"name": "t20", "like": TANK, "priced": "2026-02-30"},
        ("priced", "'2026-02-30'", "a date", "write it as 2026-05-03"),
    ),
    (
        {"name": "t21", "like": TANK, "lead_days": "two"},
        ("lead_days", "'two'", WHOLE, "write it in digits, such as 2"),
    ),
    ({"name": "t22", "like": TANK, "supplier": "-"}, ("supplier", "nothing", "a word or two", "write it in")),
    ({"name": "t23", "like": TANK, "connection": "1.25"}, ("connection", "'1.25'", SIZE, "write 1-1/4")),
    ({"name": "p1", "like": PIPE, "size": "1 1/2"}, ("size", "'1 1/2'", SIZE, "write 1-1/2")),
    ({"name": "p2", "like": PIPE, "size": "6"}, ("size", "'6'", SIZE, "write a nominal size")),
    (
        {"name": "p3", "like": PIPE, "size": "46024"},
        (
            "size",
            "'46024'",
            SIZE,
            "a spreadsheet took a size such as 1/2 for a date: set the column to text and type it again",
        ),
    ),
    (
        {"name": "p4", "like": PIPE, "bore_in": "40.9"},
        ("bore_in", "'40.9'", "0.75 to 2.25 in for size 1-1/2", "give inches, not millimetres"),
    ),
    (
        {"name": "p5", "like": PIPE, "outside_in": "1.5"},
        (
            "outside_in",
            "1.5, and a bore of 1.610",
            "an outside wider than the bore",
            "change places, or measure again",
        ),
    ),
    (
        {"name": "p6", "like": PIPE, "wall_in": "1.79"},
        ("wall_in", "'1.79'", "less than half of the outside, 1.968", "measure again"),
    ),
    ({"name": "p7", "like": PIPE, "potable": "maybe"}, ("potable", "'maybe'", "yes or no", "write one of the two")),
    (
        {"name": "p8", "like": PIPE, "coils_ft": "500 100"},
        ("coils_ft", "'500 100'", "numbers that rise", "sort the points and write each once"),
    ),
    (
        {"name": "v1", "like": VALVE, "attitudes": "up, down"},
        ("attitudes", "'up, down'", "up, side, down", "write those it seats in"),
    ),
    (
        {"name": "v2", "like": HINGED, "attitudes": "up down"},
        (
            "attitudes",
            "'up down'",
            "down, for a hinged disc",
            "a hinged disc shuts by its own weight and must hang",
        ),
    ),
    (
        {"name": "u1", "like": PUMP, "flow_gpm": "4 8 12"},
        ("flow_gpm", "'4 8 12'", "a first flow of 0", "give the shut-off point"),
    ),
    (
        {"name": "u2", "like": PUMP, "head_ft": "195 100"},
        ("head_ft", "2 numbers", "7, as in flow_gpm", "give one number for each of flow_gpm"),
    ),
    (
        {"name": "s1", "like": SWITCH, "figures": "cut_in 30; cut_out 50 psi; power 2 hp"},
        (
            "figures",
            'cut_in: "30", a number without a unit',
            'a gauge pressure such as "30 psi" or "200 kPa"',
            'add the unit: psi, kPa, bar, ft of water, m of water or "inHg vacuum"',
        ),
    ),
    (
        {"name": "s2", "like": SWITCH, "ports": "1/4 NPT"},
        (
            "ports",
            "'1/4 NPT'",
            "one of thread in, thread out, barb, hose, socket, compression, fuse, union, plain end first",
            "write such as thread in 1-1/4 NPT",
        ),
    ),
    (
        {"name": "n1", "table": "tanks", "volume_gal": "30"},
        ("acceptance_gal", "''", *NUMBER),
    ),
    (
        {"name": "n2", "table": "screens", "kind": "plate"},
        ("diameter_in", "no such column", "one, with a cell in it", "add the column, or say like"),
    ),
]

GOOD = [
    {"name": "good pipe", "like": PIPE, "counter_cents": "$1.20", "bin": "yard"},
    {"name": TANK, "counter_cents": "39900", "trade_cents": "30000"},
    {"name": "good pipe, cheap", "like": "good pipe", "trade_cents": "60"},
]


def test_thirty_kinds_of_bad_row_are_named_one_by_one(tmp_path: Path) -> None:
    assert len(BAD) >= 30
    rows = [GOOD[0], *(cells for cells, _ in BAD), *GOOD[1:]]
    stock, mistakes = put_over(tmp_path, rows)
    # 2 is the first line under the names of the columns, and the first good row.
    expected = [Mistake("own.csv", line, *words) for line, (_, words) in enumerate(BAD, start=3)]
    assert list(mistakes) == expected
    assert stock.pipe("good pipe, cheap").bore == STOCK.pipe(PIPE).bore
    assert stock.tank(TANK).price == 39900
    assert len(stock.pipes) == len(STOCK.pipes) + 2
    assert {name: len(table) for name, table in stock.tables().items() if name != "pipes"} == {
        name: len(table) for name, table in STOCK.tables().items() if name != "pipes"
    }


def test_a_mistake_reads_in_four_parts(tmp_path: Path) -> None:
    _, mistakes = put_over(tmp_path, [{"name": "mine", "like": TANK, "max_psi": "a lot"}])
    assert [str(mistake) for mistake in mistakes] == [
        "own.csv, line 2, max_psi\n    found   'a lot'\n    wanted  a number, 0 or more\n"
        "    do      write it in digits, such as 1.610"
    ]


def test_same_as_ours_but(tmp_path: Path) -> None:
    stock, mistakes = put_over(tmp_path, [{"name": "thick pipe", "like": PIPE, "rating_psi": "250", "priced": "46145"}])
    assert mistakes == ()
    pipe, ours = stock.pipe("thick pipe"), STOCK.pipe(PIPE)
    assert pipe.rating == pytest.approx(250.0 * PSI)
    assert (pipe.bore, pipe.ports, pipe.coils, pipe.mass) == (ours.bore, ours.ports, ours.coils, ours.mass)
    assert pipe.name == "thick pipe"
    assert pipe.origin == f"own.csv, line 2, like {PIPE}"
    assert pipe.prices.priced.isoformat() == "2026-05-03"
    assert PIPE in stock.pipes
    assert "thick pipe" not in STOCK.pipes


def test_the_name_of_one_of_ours_changes_that_one_and_keeps_its_place(tmp_path: Path) -> None:
    stock, mistakes = put_over(tmp_path, [{"name": VALVE, "counter_cents": "4100", "opening_psi": "0.7"}])
    assert mistakes == ()
    assert stock.foot_valve(VALVE).opening_pressure == pytest.approx(0.7 * PSI)
    assert stock.foot_valve(VALVE).price == 4100
    assert list(stock.foot_valves) == list(STOCK.foot_valves)


def test_a_row_may_stand_alone(tmp_path: Path) -> None:
    row = {
        "table": "tanks",
        "name": "shop tank",
        "volume_gal": "30",
        "acceptance_gal": "17",
        "max_psi": "125",
        "connection": "1",
        "weight_lb": "38",
        **PRICED,
    }
    stock, mistakes = put_over(tmp_path, [row])
    assert mistakes == ()
    assert stock.tank("shop tank").price == 2500
    assert list(stock.tanks)[-1] == "shop tank"


def test_a_lone_dash_empties_a_cell(tmp_path: Path) -> None:
    rows = [{"name": "bare hose", "like": "suction hose, 1 in", "series": "-", "vacuum_inhg": "-"}]
    stock, mistakes = put_over(tmp_path, rows)
    assert mistakes == ()
    assert stock.pipe("bare hose").vacuum_rating != stock.pipe("bare hose").vacuum_rating


def test_one_sheet_goes_over_another(tmp_path: Path) -> None:
    once, _ = put_over(tmp_path, [{"name": "mine", "like": CLAMP, "counter_cents": "999"}])
    second = write(tmp_path, [{"name": "mine too", "like": "mine", "bin": "7"}], "more.csv")
    twice, mistakes = overlay(once, second)
    assert mistakes == ()
    assert (twice.part("mine too").price, twice.part("mine too").prices.bin) == (999, "7")


def test_every_table_may_be_overlaid_and_no_other(tmp_path: Path) -> None:
    rows = [{"name": f"my {table}", "like": next(iter(STOCK.tables()[table])), "bin": "mine"} for table in OVERLAID]
    stock, mistakes = put_over(tmp_path, rows)
    assert mistakes == ()
    assert all(stock.tables()[table][f"my {table}"].prices.bin == "mine" for table in OVERLAID)
    _, refused = put_over(tmp_path, [{"name": "elbow", "table": "fittings"}])
    assert [(mistake.key, mistake.wanted) for mistake in refused] == [("table", f"one of {TABLES}")]


def test_an_unknown_column_is_named_once_and_passed_over(tmp_path: Path) -> None:
    rows = [{"name": "mine", "like": TANK, "colour": "blue", "counter cent": "5"}] * 2
    stock, mistakes = put_over(tmp_path, rows[:1])
    assert [str(mistake).splitlines() for mistake in mistakes] == [
        [
            "own.csv, line 1, colour",
            "    found   an unknown column, passed over",
            "    wanted  a column of our tables",
            "    do      take it out, or mend it",
        ],
        [
            "own.csv, line 1, counter_cent",
            "    found   an unknown column, passed over",
            "    wanted  a column of our tables",
            "    do      did you mean 'counter_cents' or 'trade_cents'?",
        ],
    ]
    assert "mine" in stock.tanks


HEADLESS = [
    ("colour,size\nblue,1\n", "the columns colour, size", "a column called name in the first row"),
    ("name,like,NAME\nx,y,z\n", "two columns of that name", "one"),
    ("", "no rows", "the names of columns, and a row a part"),
    ("\n\n# nothing\n,,\n", "no rows", "the names of columns, and a row a part"),
]


@pytest.mark.parametrize("text, found, wanted", HEADLESS)
def test_a_sheet_without_its_names_is_left_alone(tmp_path: Path, text: str, found: str, wanted: str) -> None:
    file = tmp_path / "own.csv"
    file.write_text(text, encoding="utf-8")
    stock, mistakes = overlay(STOCK, file)
    assert [(mistake.found, mistake.wanted) for mistake in mistakes] == [(found, wanted)]
    assert stock.tables() == STOCK.tables()


@pytest.mark.parametrize(
    "text",
    [
        f'\ufeffname,like,bin\r\nmine,"{TANK}",é\r\n',
        f"name;like;bin\nmine;{TANK};é\n",
        f"Name\tLike\tBin\nmine\t{TANK}\té\n",
        f'# from the office\n\n NAME , like,bin\n mine\xa0,"{TANK}", é \n\n,,\n',
        f'name,like,bin\nmine,"{TANK}",é\n# the end',
    ],
    ids=["mark and carriage returns", "semicolons", "tabs", "spaces and remarks", "no last newline"],
)
@pytest.mark.parametrize("encoding", ["utf-8", "cp1252", "utf-16"])
def test_a_sheet_is_read_however_it_was_saved(tmp_path: Path, text: str, encoding: str) -> None:
    if encoding != "utf-8":
        text = text.removeprefix("\ufeff")
    file = tmp_path / "own.csv"
    file.write_bytes(text.encode(encoding))
    stock, mistakes = overlay(STOCK, file)
    assert mistakes == ()
    assert stock.tank("mine").prices.bin == "é"


def test_a_text_with_a_line_in_it_keeps_the_count_of_lines(tmp_path: Path) -> None:
    file = tmp_path / "own.csv"
    file.write_text(f'name,like,bin\nmine,"{TANK}","up\nand left"\nbad,zzz,\n', encoding="utf-8")
    stock, mistakes = overlay(STOCK, file)
    assert stock.tank("mine").prices.bin == "up\nand left"
    assert [mistake.line for mistake in mistakes] == [4]


def test_an_open_quote_is_named_and_the_lines_it_does_not_swallow_are_taken(tmp_path: Path) -> None:
    file = tmp_path / "own.csv"
    rows = [
        "name,like,bin",
        f'mine,"{TANK}",1',
        f'bad,"{TANK},2',
        f'lost,"{TANK}",3',
        f'a,"{TANK}" ,3',
        f'b,"{TANK}",4',
    ]
    file.write_text("\n".join([*rows, 'open,"until the end']), encoding="utf-8")
    stock, mistakes = overlay(STOCK, file)
    assert {"mine", "b"} < set(stock.tanks)
    assert {mistake.found for mistake in mistakes} == {"a double quote that is not closed, or stands inside a cell"}
    assert [(mistake.line, mistake.remedy) for mistake in mistakes] == [
        (3, "mend it; lines 3 to 4 are not read"),
        (5, "mend it; line 5 is not read"),
        (7, "mend it; line 7 is not read"),
    ]


def test_a_text_with_a_bare_comma_is_named(tmp_path: Path) -> None:
    file = tmp_path / "own.csv"
    file.write_text(f"name,like\nmine,{TANK}\n", encoding="utf-8")
    _, mistakes = overlay(STOCK, file)
    assert [str(mistake) for mistake in mistakes] == [
        "own.csv, line 2\n    found   '62 gal' beyond the last column\n    wanted  2 cells\n"
        "    do      put a text with commas between double quotes"
    ]


@pytest.mark.parametrize(
    "data, found",
    [
        (b"name\0like", "bytes that are no text"),
        (b"\x81\x8d\x8f\x90", "bytes that are no text"),
        (b"\xff\xfea", "bytes that are no text"),
        (b"\xd0\xcf\x11\xe0 an old book", "a spreadsheet of the old kind"),
        (b"PK and then nothing", "a spreadsheet that cannot be opened"),
        (b"n" * 20_000_001, "more than 20 MB"),
    ],
    ids=["zero", "no encoding", "half a letter", "old book", "no book", "large"],
)
def test_what_is_no_sheet_is_named_and_nothing_is_taken(tmp_path: Path, data: bytes, found: str) -> None:
    file = tmp_path / "own.csv"
    file.write_bytes(data)
    stock, mistakes = overlay(STOCK, file)
    assert [(mistake.line, mistake.found) for mistake in mistakes] == [(0, found)]
    assert stock is STOCK


def test_a_file_that_is_not_there_is_a_mistake_like_any_other(tmp_path: Path) -> None:
    for path, found in ((tmp_path / "none.csv", "no such file or directory"), (tmp_path, "is a directory")):
        stock, mistakes = overlay(STOCK, path)
        assert [(mistake.found, mistake.wanted) for mistake in mistakes] == [
            (found, "a CSV or XLSX file that can be opened")
        ]
        assert stock is STOCK


SPACE = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
LINKS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml"
# The second style shows a date.
STYLES = (
    "<fonts><font/></fonts><fills><fill><patternFill/></fill></fills><borders><border/></borders><cellStyleXfs><xf/></cellStyleXfs>"
    '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>'
)


def book(folder: Path, sheet: str, shared: str | None = None) -> Path:
    """A workbook whose second file is its first sheet, as spreadsheets may write them."""
    file = folder / "own.xlsx"
    parts = {
        "workbook.xml": f'<workbook {SPACE} xmlns:r="{LINKS}"><sheets>'
        '<sheet name="a" sheetId="1" state="hidden" r:id="rId7"/></sheets></workbook>',
        "_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}/relationships">'
        f'<Relationship Id="rId1" Type="{LINKS}/worksheet" Target="worksheets/sheet1.xml"/>'
        f'<Relationship Id="rId7" Type="{LINKS}/worksheet" Target="/xl/worksheets/sheet2.xml"/>'
        f'<Relationship Id="rId8" Type="{LINKS}/styles" Target="styles.xml"/></Relationships>',
        "worksheets/sheet1.xml": f"<worksheet {SPACE}><sheetData/></worksheet>",
        "worksheets/sheet2.xml": f"<worksheet {SPACE}><sheetData>{sheet}</sheetData></worksheet>",
        "styles.xml": f"<styleSheet {SPACE}>{STYLES}</styleSheet>",
    }
    if shared is not None:
        parts["sharedStrings.xml"] = f"<sst {SPACE}>{shared}</sst>"
    kinds = {"workbook.xml": "sheet.main", "styles.xml": "styles", "sharedStrings.xml": "sharedStrings"}
    overrides = "".join(
        f'<Override PartName="/xl/{name}" ContentType="{KIND}.{kinds.get(name, "worksheet")}+xml"/>'
        for name in parts
        if not name.startswith("_")
    )
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as out:
        out.writestr("[Content_Types].xml", f'<Types xmlns="{PACKAGE}/content-types">{overrides}</Types>')
        for name, content in parts.items():
            out.writestr(f"xl/{name}", content)
    return file


ROWS = (
    '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c>'
    '<c r="D1" t="inlineStr"><is><t>max_psi</t></is></c>'
    '<c r="E1" t="str"><v>priced</v></c><c r="F1" t="str"><v>counter_cents</v></c></row>'
    '<row r="4"><c r="A4" t="s"><v>2</v></c><c r="B4" t="s"><v>3</v></c><c r="D4"><v>125.50000000000001</v></c>'
    '<c r="E4"><v>46145</v></c><c r="F4"><v>39900</v></c></row>'
    '<row r="5"><c r="A5" t="str"><v>bad</v></c><c r="B5" t="s"><v>3</v></c><c r="D5" t="e"><v>#N/A</v></c></row>'
)
SHARED = f"<si><t>name</t></si><si><r><t>li</t></r><r><t>ke</t></r></si><si><t>mine</t></si><si><t>{TANK}</t></si>"


def test_a_spreadsheet_is_read_as_it_stands(tmp_path: Path) -> None:
    stock, mistakes = overlay(STOCK, book(tmp_path, ROWS, SHARED))
    tank = stock.tank("mine")
    assert tank.max_pressure == pytest.approx(125.5 * PSI)
    assert tank.prices.priced.isoformat() == "2026-05-03"
    assert tank.price == 39900
    assert mistakes == (
        Mistake("own.xlsx", 5, "max_psi", "'#N/A'", "a number, 0 or more", "write it in digits, such as 1.610"),
    )


def test_a_cell_is_what_was_typed_however_it_is_shown(tmp_path: Path) -> None:
    row = (
        '<c r="A3" s="1"><v>46024</v></c><c r="B3" s="1"><v>0.25</v></c><c r="C3" t="b"><v>1</v></c>'
        '<c r="D3"><f>2*3</f><v>6</v></c><c r="E3"><f>2*3</f></c><c r="F3"><v>0.1</v></c><c r="G3" s="1"/>'
    )
    last = '<row r="1048576"><c r="A1048576"><v>1</v></c></row>'
    rows, mistakes = rows_of(book(tmp_path, f'<row r="3">{row}</row>{last}'))
    assert mistakes == []
    assert rows == [SheetRow(3, ("46024", "0.25", "1", "6", "", "0.1")), SheetRow(1048576, ("1",))]


def test_without_openpyxl_it_says_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    with pytest.raises(AskError, match=re.escape("pip install 'lakewright[xlsx]', or save the sheet as CSV UTF-8")):
        overlay(STOCK, book(tmp_path, ROWS, SHARED))


@pytest.mark.parametrize(
    "sheet, shared",
    [
        ('<row r="1"><c r="A1" t="s"><v>9</v></c></row>', SHARED),
        ('<row r="one"><c r="A1"><v>1</v></c></row>', None),
        ('<row r="1"><c r="A1"><v>one</v></c></row>', None),
        ("<row>", None),
        ('<!DOCTYPE a [<!ENTITY b "c">]><row r="1"><c r="A1" t="str"><v>name</v></c></row>', None),
    ],
    ids=["no such text", "no such row", "no number", "cut short", "entities"],
)
def test_a_spreadsheet_that_is_broken_is_named(tmp_path: Path, sheet: str, shared: str | None) -> None:
    stock, mistakes = overlay(STOCK, book(tmp_path, sheet, shared))
    assert [str(mistake) for mistake in mistakes] == [
        "own.xlsx\n    found   a spreadsheet that cannot be opened\n    wanted  CSV or XLSX\n"
        "    do      save it as CSV UTF-8"
    ]
    assert stock is STOCK


def test_a_spreadsheet_that_swells_is_not_opened(tmp_path: Path) -> None:
    file = book(tmp_path, " " * 20_000_001)
    assert file.stat().st_size < 100_000
    _, mistakes = overlay(STOCK, file)
    assert [mistake.found for mistake in mistakes] == ["a spreadsheet that cannot be opened"]


def test_a_cell_far_to_the_right_costs_nothing(tmp_path: Path) -> None:
    far = ROWS.replace('<c r="F1"', '<c r="XFD1" t="str"><v>far</v></c><c r="F1"')
    stock, mistakes = overlay(STOCK, book(tmp_path, far, SHARED))
    assert "mine" in stock.tanks
    assert [mistake.key for mistake in mistakes] == ["max_psi"]


def test_what_the_shop_adds_joins_like_ours(tmp_path: Path) -> None:
    from lakewright.stock.ports import meets

    stock, mistakes = put_over(
        tmp_path,
        [
            {"name": "their pipe", "like": PIPE},
            {"name": "their insert", "like": "male adapter, SIDR insert, nylon, 1-1/2 in", "bore_in": "1.30"},
            {"name": "their rope", "like": "haul rope, polyester, 1/2 in", "counter_cents": "65"},
        ],
    )
    assert mistakes == ()
    assert meets(stock.part("their insert").ports[0], stock.pipe("their pipe").ports[0])
    assert stock.part("their insert").bore == pytest.approx(1.30 * INCH)
    assert stock.part("their rope").prices.length == FOOT
