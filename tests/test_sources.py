"""The bibliography is whole, and whatever cites it cites an entry that exists."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

import lakewright
from lakewright.sources import STANDINGS, Source, load_sources
from tests.published import FROM_MEMORY, half_digit, places_table, published

PACKAGE = Path(lakewright.__file__).parent

ASKED_BY_CHECKS = [
    "abramowitz-1964",
    "bc-irrigation-lift",
    "boyle",
    "clamond-2009",
    "colebrook-1939",
    "dfo-1995",
    "fritsch-1980",
    "hi-9.6.1",
    "hi-9.8",
    "hi-data",
    "iapws-if97",
    "iapws-sr6",
    "maker-curve",
    "nmfs-1996",
    "nwcg-lift",
    "ours",
    "stormwater-ice",
    "tanaka-2001",
    "ten-starts",
    "tp-410",
    "trade-lift",
    "trade-practice",
    "ufc-4-832",
    "us-atmosphere-1976",
    "velocity-practice",
]


@pytest.mark.parametrize("name, source", load_sources().items())
def test_entry_is_whole(name: str, source: Source) -> None:
    assert source.id == name
    assert re.fullmatch(r"[a-z0-9]+([-.][a-z0-9]+)*", name)
    assert source.standing in STANDINGS
    assert source.title
    assert source.note.endswith((".", ")"))
    if source.standing in ("read", "restated", "remembered"):
        assert source.publisher, f"{name} was published by nobody"


def test_entries_are_in_order() -> None:
    assert list(load_sources()) == sorted(load_sources())


@pytest.mark.parametrize("name", ASKED_BY_CHECKS)
def test_source_of_a_check_is_there(name: str) -> None:
    assert name in load_sources()


def test_bibliography_is_read_once() -> None:
    assert load_sources() is load_sources()


def cited() -> Iterator[tuple[str, str]]:
    """Where, and which id: `source = "..."` of the tables, `source="..."` of the code."""
    for path in sorted(PACKAGE.rglob("*.toml")):
        if path.name == "sources.toml":
            continue
        for line, text in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
            if (found := re.match(r'\s*source\s*=\s*"([^"]+)"', text)) is not None:
                yield f"{path.relative_to(PACKAGE)}, line {line}", found[1]
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.keyword) and node.arg == "source" and isinstance(node.value, ast.Constant):
                yield f"{path.relative_to(PACKAGE)}, line {node.value.lineno}", str(node.value.value)


def test_every_citation_has_its_entry() -> None:
    citations = list(cited())
    assert citations, "nothing cites anything: the search for citations is broken"
    assert [f"{where}: {name}" for where, name in citations if name not in load_sources()] == []


def test_file_holds_nothing_else() -> None:
    with (PACKAGE / "sources.toml").open("rb") as file:
        assert {key for entry in tomllib.load(file).values() for key in entry} == {
            "title",
            "publisher",
            "edition",
            "standing",
            "note",
        }


def test_source_reads_as_one_line() -> None:
    assert str(load_sources()["ours"]) == "Chosen here"
    assert str(load_sources()["hi-9.8"]) == "ANSI/HI 9.8, pump intake design, Hydraulic Institute, 1998"


def test_mark_refuses_a_source_nobody_listed() -> None:
    with pytest.raises(LookupError, match=r"^nowhere is no entry of sources\.toml$"):
        published("nowhere", "table 1")


def test_mark_keeps_source_and_place() -> None:
    assert published("tp-410", "example 7.5").mark.kwargs == {"source": "tp-410", "place": "example 7.5"}


@pytest.mark.parametrize(
    "printed, half", [("3536.58941", 5e-6), ("23.2", 0.05), ("44", 0.5), ("7.75e-4", 5e-7), ("1e3", 500.0)]
)
def test_tolerance_is_half_the_last_digit(printed: str, half: float) -> None:
    assert half_digit(printed) == pytest.approx(half, rel=1e-12)


def test_place_counts_five_at_most() -> None:
    values = [("ufc-4-832", "table")] * 7 + [("tp-410", "example 1")] * 2 + [("tanaka-2001", f"table, {FROM_MEMORY}")]
    lines, places = places_table([*values, ("a page I saw", "table")])
    assert places == 3
    assert lines[1].split()[-4:] == ["listed", "1", "0", "table"]
    assert lines[-1] == "1 more not counted: their source is not in sources.toml"
    assert lines[-2] == "3 places (1 of them from memory), 10 values, 8 counted at 5 a place at most"
    assert [line.split()[:4] for line in lines[2:5]] == [
        ["tanaka-2001", "restated", "1", "1"],
        ["tp-410", "restated", "2", "2"],
        ["ufc-4-832", "read", "7", "5"],
    ]
