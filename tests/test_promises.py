"""No message, sheet or page says the words that would promise: all that the package can print is searched."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import lakewright
from lakewright.api.check import check
from lakewright.api.read import read
from lakewright.api.site import site_of
from lakewright.checks.registry import CHECKS
from lakewright.documents.scene import Text
from lakewright.documents.sheet import sheet
from lakewright.report_lines import report_lines
from tests.documents.packets import EXAMPLES, flows
from tests.promises import NEVER_SAID

pytestmark = pytest.mark.message

PACKAGE = Path(lakewright.__file__).parent
ROOT = Path(__file__).resolve().parents[1]

TEXTS = ("toml", "csv", "html", "js", "json", "css", "typ")
"""Files whose every line may be printed."""

NAMES = ("Health and Safety Executive",)
"""Publishers are called what they are called."""


def docstrings(tree: ast.AST) -> set[int]:
    """Where in a module documentation stands: it is for those who read the code."""
    found = set()
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        if isinstance(body, list) and body:
            for each in body:
                # A string by itself is documentation, of what holds it or of what stands before it.
                if isinstance(each, ast.Expr) and isinstance(each.value, ast.Constant):
                    found.add(id(each.value))
    return found


def strings(file: Path) -> Iterator[tuple[int, str]]:
    """Line and text of every string of a module that may be printed."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    passed = docstrings(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in passed:
            yield node.lineno, node.value


def said(text: str) -> list[str]:
    """The words of a text that nothing may say."""
    for name in NAMES:
        text = text.replace(name, "")
    return [found.group() for found in NEVER_SAID.finditer(text)]


def test_no_string_of_the_code_promises() -> None:
    files = sorted(PACKAGE.rglob("*.py"))
    found = [f"{file.name}, line {line}: {text}" for file in files for line, text in strings(file) if said(text)]
    assert found == []
    assert sum(1 for file in files for _ in strings(file)) > 5000


def test_no_table_or_page_of_the_package_promises() -> None:
    files = [file for kind in TEXTS for file in sorted(PACKAGE.rglob(f"*.{kind}"))]
    assert len(files) > 30
    lines = ((file, line) for file in files for line in file.read_text(encoding="utf-8").splitlines())
    assert [f"{file.name}: {line}" for file, line in lines if said(line)] == []


@pytest.mark.parametrize("file", sorted((ROOT / "examples").rglob("*.toml")), ids=lambda file: file.stem)
def test_no_example_promises(file: Path) -> None:
    assert said(file.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_neither_screen_nor_sheet_of_an_example_promises(file: Path) -> None:
    report = check(file)
    assert said("\n".join(report_lines(report))) == []
    job, _, assembly = read(file)
    drawn = sheet(report, site_of(job, assembly.facts))
    assert said(" ".join(shape.words for shape in drawn.flat() if isinstance(shape, Text))) == []


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_no_sheet_of_a_packet_promises(file: Path) -> None:
    words = [words.text for flow in flows(file).values() for words in flow.printed]
    assert len(words) > 100
    assert said(" ".join(words)) == []


def test_what_a_check_asks_and_what_it_advises_promises_nothing() -> None:
    for each in CHECKS:
        assert (
            said(" ".join((each.question, each.remedy, each.label, each.short_words, each.name.replace("_", " "))))
            == []
        )


@pytest.mark.parametrize(
    "words", ["This water is Safe.", "approved by nobody", "fully compliant", "guaranteed", "unsafe"]
)
def test_the_search_notices(words: str) -> None:
    assert len(said(words)) == 1


def test_the_search_leaves_other_words_alone() -> None:
    assert said("a safeguard proves no case; the Health and Safety Executive says so") == []
