"""The packet on paper: every figure has a place, all that must be said is said, nobody's words can break a page."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

pytest.importorskip("typst")
pytest.importorskip("pypdf")

from lakewright.api.options import More, OptionRow, Options
from lakewright.api.packet import packet, told_of
from lakewright.api.paper import PAPER
from lakewright.api.survey import survey
from lakewright.checks.registry import CHECKS
from lakewright.documents.bind import bound, strip_of
from lakewright.documents.flow import Flow
from lakewright.documents.said import Sayer, Words, filled, fixed, fixed_texts
from lakewright.documents.working_sheet import formulas
from lakewright.errors import AskError
from lakewright.job.write import set_values
from lakewright.state.facts import every_fact
from lakewright.units.kinds import KINDS
from lakewright.working import fact_kinds
from tests.documents.packets import EXAMPLES, TEXT_SHEETS, alone, figures, flows, names_of, read, same, told
from tests.job.example import EXAMPLE
from tests.promises import NEVER_SAID

SHEETS = [(path, name) for path in EXAMPLES for name in names_of(path)]
each_sheet = pytest.mark.parametrize("path, name", SHEETS, ids=lambda each: getattr(each, "stem", each))


@pytest.mark.law
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_job_has_the_sheets_that_are_looked_at_here(path: Path) -> None:
    assert tuple(flows(path)) == names_of(path)


@pytest.mark.law
@each_sheet
def test_every_figure_is_said_from_a_path_or_stands_in_a_fixed_text(path: Path, name: str) -> None:
    made = alone(path, name)
    found = read(made.content)
    pages = len(found.pages)
    numbers = [f"{number} {pages}" for number in range(1, pages + 1)]
    foot = [words.text for words in made.foot] * pages
    printed = figures([*(words.text for words in made.printed), *made.drawn, *foot, *numbers])
    assert figures(found.pages) == printed
    texts = fixed_texts()
    for words in made.printed:
        kind, _, rest = words.path.partition(".")
        assert kind != "fixed" or same(words.text) in same(texts[rest]), words
        assert kind in {"fixed", "check", "status", "count", "drawing", *told(path).say.sources}, words


@pytest.mark.law
@each_sheet
def test_every_caution_stands_on_every_sheet(path: Path, name: str) -> None:
    said = same(" ".join(words.text for words in flows(path)[name].printed))
    assert [caution for caution in told(path).report.cautions if same(caution) not in said] == []


@pytest.mark.law
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_finding_stands_on_the_working(path: Path) -> None:
    text = same(read(alone(path, "working").content).text)
    for finding in told(path).report.findings:
        assert finding.name.replace("_", " ")[1:] in text
        if finding.status != "not asked":
            assert same(finding.message)[:40] in text
        if finding.status == "fails":
            assert same(finding.remedy)[:40] in text


@pytest.mark.message
@each_sheet
def test_no_sheet_promises_and_none_says_how_sure_in_a_hundred(path: Path, name: str) -> None:
    said = " ".join(words.text for words in flows(path)[name].printed)
    assert NEVER_SAID.findall(said) == []
    assert re.findall(r"\bof 100\b|\bsurer?\b|\bchance\b|\bcertain", said) == []


def test_no_fixed_text_and_no_formula_promises() -> None:
    assert [text for text in (*fixed_texts().values(), *formulas().values()) if NEVER_SAID.search(text)] == []


@pytest.mark.law
@each_sheet
def test_the_smallest_type_has_seven_points(path: Path, name: str) -> None:
    made = bound([flows(path)[name]], strip_of(told(path).report), told(path).paper)
    assert min(read(made.content).sizes) >= 6.99


@pytest.mark.law
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_status_is_told_by_its_word_and_its_shape(path: Path) -> None:
    for row in flows(path)["working"].rows:
        shapes, words = re.findall(r"mark-(\w[\w-]*)", row), re.findall(r"status-(\w[\w-]*)\(", row)
        assert shapes == words


@pytest.mark.law
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_must_be_one_page_is_one(path: Path, tmp_path: Path) -> None:
    for name in {"card", "start"} & set(names_of(path)):
        assert len(read(alone(path, name).content).pages) == 1
    for file in (path, None):
        assert len(read(survey(file, tmp_path).read_bytes()).pages) == 1


@pytest.mark.law
def test_the_pick_ticket_leaves_nothing_out() -> None:
    report = told(EXAMPLE).report
    assert report.priced is not None
    picks = told(EXAMPLE).say.value("picks")
    lines = report.priced.bill.lines
    binned = [line for line in lines if line.unit != "m" and not line.have and not line.local]
    counts: Counter[str] = Counter()
    for line in binned:
        counts[line.what] += int(line.quantity)
    assert {pick.what: pick.count for pick in picks} == counts
    text = same(" ".join(words.text for words in flows(EXAMPLE)["pick"].printed))
    assert [line.what for line in lines if same(line.what) not in text] == []


STRANGE = (
    '#set page(fill: red) $x^2$ *b* _i_ `c` <l> @r // no /* no */ \\u{41} "q" [a] {b} ~ -- =1+1'
    " \u00e9\u0142\u0411\u03a9",
    "=cmd|' /C calc'!A0 +1 -1 @x",
    "\u05e9\u05dc\u05d5\u05dd 12 \u202e34 ft",
    "l" * 300,
)


@pytest.mark.law
@pytest.mark.parametrize("words", STRANGE, ids=("markup", "formula", "right to left", "long"))
def test_what_a_person_typed_prints_as_typed_and_breaks_no_page(words: str, tmp_path: Path) -> None:
    text = set_values(EXAMPLE.read_text(encoding="utf-8"), dict.fromkeys(("job.title", "job.customer"), words))
    file = tmp_path / "strange.toml"
    file.write_text(text.replace('"off the map, to the west"', repr_toml(words)), encoding="utf-8")
    ready = told_of(file, search=False)
    for name in TEXT_SHEETS:
        sheet = PAPER[name](ready)
        assert isinstance(sheet, Flow)
        found = read(bound([sheet], strip_of(ready.report), ready.paper).content)
        assert {(round(wide), round(high)) for wide, high in found.paper} == {(612, 792)}
        if words == STRANGE[0]:
            bare = re.sub(r"\s", "", words)
            assert bare in re.sub(r"\s", "", found.text), name
        if name == "card":
            assert len(found.pages) == 1


def repr_toml(words: str) -> str:
    """Words as TOML writes a string."""
    kept = words.replace("\\", "\\\\").replace('"', '\\"')
    assert tomllib.loads(f'a = "{kept}"') == {"a": words}
    return f'"{kept}"'


@pytest.mark.law
@pytest.mark.parametrize("paper, size", [("letter", (612, 792)), ("a4", (595, 842))])
@pytest.mark.parametrize("units, unit", [("US", "psi"), ("SI", "kPa")])
def test_paper_and_units_may_be_chosen(paper: str, size: tuple[int, int], units: str, unit: str) -> None:
    ready = told(EXAMPLE, paper, units)
    found = read(bound([PAPER["card"](ready)], strip_of(ready.report), ready.paper).content)
    assert {(round(wide), round(high)) for wide, high in found.paper} == {size}
    assert f" {unit}" in found.text
    drawn = PAPER["season"](ready)
    assert {
        (round(high), round(wide)) for wide, high in read(bound([drawn], strip_of(ready.report), paper).content).paper
    } == {size}


@pytest.mark.message
def test_a_quote_lists_what_else_would_hold_and_what_comfort_costs() -> None:
    rows = (OptionRow(("spot a;", "pump b"), "$1,100.00", "9.0 h"), OptionRow(("pump c",), "$1,000.00", "8.0 h"))
    options = Options(rows, More("$100.00", "stand does not slide", (("pump", "c", "b"),)), None)
    ready = told(EXAMPLE)
    ready = replace(ready, say=replace(ready.say, sources={**ready.say.sources, "options": options}))
    found = same(read(bound([PAPER["quote"](ready)], strip_of(ready.report), ready.paper).content).text)
    assert "The one drawn here: spot a; pump b 9.0 h $1,100.00 pump c 8.0 h $1,000.00" in found
    assert "costs $100.00 more than the cheapest that passes. That one is tight where this has room" in found
    assert "pump: b instead of c" in found


@pytest.mark.law
def test_the_packet_binds_them_with_contents_and_numbers(tmp_path: Path) -> None:
    first, *_ = packet(EXAMPLE, tmp_path, ["season"])
    found = read(first.read_bytes())
    pages = len(found.pages)
    for number, page in enumerate(found.pages, start=1):
        assert f"page {number} of {pages}" in same(page)
    contents = same(found.pages[0])
    for name in ("quote", "pick ticket", "pump-house card", "season sheet"):
        place = re.search(rf"{name}[ .]*(\d+)", contents)
        assert place is not None
        assert name in same(found.pages[int(place.group(1)) - 1])


@pytest.mark.message
def test_what_is_not_there_is_said_and_nothing_written(tmp_path: Path) -> None:
    none = EXAMPLE.parent / "no_suction_pump.toml"
    with pytest.raises(AskError, match="no sheet is called that; there is quote, pick, card"):
        packet(EXAMPLE, tmp_path / "out", ["stool"])
    with pytest.raises(AskError, match="--paper a3: no paper is called that; there is letter, a4"):
        packet(EXAMPLE, tmp_path / "out", paper="a3")
    with pytest.raises(AskError, match="no shore sheet: no suction pump will do here"):
        packet(none, tmp_path / "out", ["shore"])
    assert not (tmp_path / "out").exists()
    names = [file.name for file in packet(none, tmp_path / "out")]
    assert names == ["no_suction_pump-packet.pdf", "no_suction_pump-quote.pdf"]


@pytest.mark.law
def test_tables_of_words_name_what_there_is() -> None:
    assert set(formulas()) == {check.name for check in CHECKS}
    assert set(fact_kinds()) <= set(every_fact())
    assert set(fact_kinds().values()) <= {*KINDS, "yes", "no_figure"}


@pytest.mark.message
def test_a_figure_without_a_kind_is_refused() -> None:
    say = Sayer("US", {"a": {"b": 1.5, "c": [1, 2]}})
    with pytest.raises(TypeError, match=re.escape("a.b is not words")):
        say("a.b")
    with pytest.raises(KeyError):
        say("a.c.2")
    assert say("a.b", "depth") == Words("4.9\u00a0ft", "a.b")
    with pytest.raises(ValueError, match=re.escape("quote.dated has 1 gaps for 0 words")):
        filled("quote.dated")
    assert fixed("quote.name").text == "quote"
