"""One word, one thing: every name of the physics and of the facts stands in the nomenclature."""

from __future__ import annotations

import inspect
import re
from pathlib import Path

import pytest

from lakewright.state.facts import fact_names
from tests.physics.formulas import formulas, public_functions, public_methods

REFERENCE = Path(__file__).parents[1] / "docs" / "reference"


def rows(page: str, columns: int) -> list[list[str]]:
    """The rows of all tables of that many columns, without heads and rules."""
    lines = [
        [cell.strip() for cell in line.strip().strip("|").split("|")]
        for line in (REFERENCE / page).read_text(encoding="utf-8").splitlines()
        if line.startswith("|")
    ]
    return [line for line in lines if len(line) == columns and line[0] != "name" and not set(line[0]) <= {"-"}]


def nomenclature() -> dict[str, list[str]]:
    return {name.strip("`"): rest for name, *rest in rows("nomenclature.md", 4)}


def facts() -> list[str]:
    """Dotted names of the facts in formulas.md, where `.riser` after `stand.frame` means `stand.riser`."""
    names = []
    for cell, _unit, _meaning in rows("formulas.md", 3):
        table = ""
        for name in cell.split(", "):
            if "." not in name:
                names.append(name)
                continue
            table, _, field = name.rpartition(".") if not name.startswith(".") else (table, ".", name[1:])
            names.append(f"{table}.{field}")
    return names


def parameters() -> set[str]:
    everything = {**public_functions(), **public_methods()}.values()
    return {name for function in everything for name in inspect.signature(function).parameters} - {"self"}


def test_tables_are_found() -> None:
    assert len(facts()) >= 50
    assert "stand.riser" in facts()
    assert len(parameters()) > 25
    assert len(nomenclature()) > 90


@pytest.mark.parametrize("name", sorted(parameters()))
def test_parameter_has_a_row(name: str) -> None:
    assert name in nomenclature()


def walked() -> set[str]:
    """Dotted names of the facts as the walk holds them."""
    return {*fact_names("centrifugal"), *fact_names("jet")}


@pytest.mark.parametrize("name", sorted({*facts(), *walked()}))
def test_fact_has_a_row(name: str) -> None:
    assert name in nomenclature()


def test_every_row_is_whole_and_stands_once() -> None:
    names = [row[0] for row in rows("nomenclature.md", 4)]
    assert sorted({name for name in names if names.count(name) > 1}) == []
    for name, symbol, unit, sentence in rows("nomenclature.md", 4):
        assert symbol, name
        assert unit, name
        assert sentence.endswith("."), name


def test_no_row_is_left_over() -> None:
    assert set(nomenclature()) - set(facts()) - walked() - parameters() == set()


def test_units_are_those_of_the_docstrings() -> None:
    """The first [unit] of each parameter of a formula is the unit of its row."""
    entry = re.compile(r"^(?P<names>[a-z_0-9]+(?:, [a-z_0-9]+)*) : (?:three of )?\[(?P<unit>[^]]+)\]", re.MULTILINE)
    apart = [
        f"{name} of {formula}: [{found['unit']}], in the nomenclature {nomenclature()[name][1]}"
        for formula, function in formulas().items()
        for found in entry.finditer(inspect.getdoc(function) or "")
        for name in found["names"].split(", ")
        if nomenclature()[name][1] != found["unit"]
    ]
    assert apart == []
