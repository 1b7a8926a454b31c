"""One sheet: everything that matters is on it, on the paper, in words we stand by, the same bytes every time."""

from __future__ import annotations

import importlib
import re
from itertools import combinations
from pathlib import Path
from types import ModuleType

import pytest

from lakewright.api.check import check
from lakewright.api.packet import packet
from lakewright.api.read import read
from lakewright.api.site import site_of
from lakewright.documents import pdf
from lakewright.documents.paper import PAPERS, fingerprint
from lakewright.documents.scene import Flag, Scene, Text
from lakewright.documents.sheet import sheet
from lakewright.errors import AskError
from lakewright.report import Report
from lakewright.state.quote import summary
from tests.job.example import EXAMPLE
from tests.promises import NEVER_SAID

EXAMPLES = [file for file in sorted(EXAMPLE.parent.glob("*.toml")) if "[job]" in file.read_text(encoding="utf-8")]


def made(path: Path) -> tuple[Report, Scene]:
    job, _, assembly = read(path)
    report = check(path)
    return report, sheet(report, site_of(job, assembly.facts), ("pump.height",))


def words_of(scene: Scene) -> str:
    """All words of a sheet: a paragraph's lines run on."""
    texts = [shape for shape in scene.flat() if isinstance(shape, Text)]
    return " ".join(text.words for text in texts)


@pytest.fixture(params=EXAMPLES, ids=lambda path: path.stem)
def example(request: pytest.FixtureRequest) -> tuple[Report, Scene]:
    path: Path = request.param
    return made(path)


def test_texts_never_meet_and_never_leave_the_paper(example: tuple[Report, Scene]) -> None:
    report, page = example
    assert (page.width, page.height) == PAPERS[report.units]
    inner = page.frame.grown(-5.0)
    boxes = [(shape.box, shape.words) for shape in page.texts()]
    boxes += [(shape.box, shape.name) for shape in page.shapes if isinstance(shape, Flag)]
    assert [words for box, words in boxes if not inner.holds(box)] == []
    assert [(a[1], b[1]) for a, b in combinations(boxes, 2) if a[0].meets(b[0], slack=0.05)] == []


def test_the_one_line_comes_first_and_every_caution_and_failure_is_there(example: tuple[Report, Scene]) -> None:
    report, page = example
    words = words_of(page).replace("\u2212", "-").replace("\u00a0", " ")
    assert report.first_line in words
    for caution in report.cautions:
        assert caution in words
    for way in report.ways_out:
        assert way in words
    # Where no suction pump will do, that alone decides, and the rest is said to wait.
    decides = [f for f in report.findings if not report.ways_out or f.name == "pump_stands_in_its_window"]
    assert ("The other checks wait" in words) is bool(report.ways_out)
    for finding in decides:
        name = finding.name.replace("_", " ")
        # What is asked of a controller or a store goes without saying where a switch does the work.
        assert (name[1:] in words) is not finding.goes_without_saying
        if finding.status == "fails":
            assert finding.remedy in words
    assert fingerprint(report) in words
    assert report.version in words


@pytest.mark.message
def test_words_we_do_not_print_are_absent(example: tuple[Report, Scene]) -> None:
    assert NEVER_SAID.findall(words_of(example[1])) == []


def test_the_smallest_text_has_seven_points(example: tuple[Report, Scene]) -> None:
    assert min(shape.size for shape in example[1].flat() if isinstance(shape, Text)) >= 7.0


def test_the_fingerprint_changes_with_what_is_said() -> None:
    prints = {fingerprint(check(path)) for path in EXAMPLES}
    assert len(prints) == len(EXAMPLES)
    assert all(re.fullmatch(r"[0-9a-f]{12}", text) for text in prints)


@pytest.mark.message
def test_what_the_record_gives_stands_apart_from_what_is_assumed() -> None:
    report, page = made(EXAMPLE)
    record = [assumed for assumed in report.assumed if assumed.from_record]
    words = words_of(page)
    assert f"{len(record)} from the water\u2019s record, {len(report.assumed) - len(record)} assumed" in words.replace(
        "'", "\u2019"
    )
    first, second = words.index("From the water"), words.index(" Assumed ")
    assert first < words.index("mussels") < second < words.index("frame height")


def test_a_price_stands_on_the_sheet() -> None:
    job, _, assembly = read(EXAMPLE)
    found = check(EXAMPLE)
    assert found.priced is not None
    page = words_of(sheet(found, site_of(job, assembly.facts)))
    assert [much for _, much in summary(found.priced.quote) if much not in page] == []


def test_the_same_job_gives_the_same_bytes(tmp_path: Path) -> None:
    pytest.importorskip("typst")
    first, second = (packet(EXAMPLE, tmp_path / name) for name in ("one", "two"))
    assert [path.name for path in first] == [
        f"year_round_cabin-{end}" for end in ("packet.pdf", "quote.pdf", "pick.pdf", "card.pdf", "parts.csv")
    ]
    for one, other in zip(first, second, strict=True):
        assert one.read_bytes() == other.read_bytes()
    # ours: what still goes by mail from a cabin.
    assert all(path.stat().st_size < 400_000 for path in first)


def test_strange_words_print_as_typed() -> None:
    pytest.importorskip("typst")
    text = '#set page(fill: red) "$x$" \\ *_`<b>& \u05e9\u05dc\u05d5\u05dd \x00 =1+1'
    scene = Scene(100.0, 20.0, text)
    scene.add(Text(5.0, 10.0, text, "words"))
    assert pdf.pages([scene], text).startswith(b"%PDF-")
    assert r"\"$x$\" \\ *_`<b>&" in pdf.source([scene], text)


@pytest.mark.message
def test_without_typst_it_says_what_to_install_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = importlib.import_module

    def missing(name: str, package: str | None = None) -> ModuleType:
        if name == "typst":
            raise ImportError(name)
        return real(name, package)

    monkeypatch.setattr(pdf, "import_module", missing)
    with pytest.raises(AskError, match=re.escape("pip install 'lakewright[packet]'")):
        packet(EXAMPLE, tmp_path / "out")
    assert not (tmp_path / "out").exists()
