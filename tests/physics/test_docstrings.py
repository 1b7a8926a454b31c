"""Every formula says its units, its ranges, what it returns, where it is from, and shows one number."""

from __future__ import annotations

import inspect
import re

import pytest

from tests.physics.formulas import formulas, public_functions, public_methods

SECTION = re.compile(r"^(Parameters|Returns)\n-+\n(.*?)(?=^\S[^\n]*\n-+\n|^Source:|\Z)", re.MULTILINE | re.DOTALL)
ENTRY = re.compile(r"^(?P<names>[a-z_0-9]+(?:, [a-z_0-9]+)*) : (?P<rest>.*)$", re.MULTILINE)


def docstring(name: str) -> str:
    return inspect.getdoc(formulas()[name]) or ""


def complaints(name: str) -> list[str]:
    """What this formula's docstring lacks."""
    text = docstring(name)
    sections = dict(SECTION.findall(text))
    said = {
        one: entry["rest"]
        for entry in ENTRY.finditer(sections.get("Parameters", ""))
        for one in entry["names"].split(", ")
    }
    found = []
    for parameter in inspect.signature(formulas()[name]).parameters:
        if parameter not in said:
            found.append(f"parameter {parameter} is not described")
        elif not re.match(r"(three of )?\[[^]]+\]", said[parameter]) and not re.match(r"as `\w+`", said[parameter]):
            found.append(f"parameter {parameter} has no [unit]")
    if "[" not in sections.get("Returns", ""):
        found.append("Returns has no [unit]")
    if not re.search(r"^Source: \S", text, re.MULTILINE):
        found.append("no Source:")
    if ">>> " not in text:
        found.append("no example")
    if not text.partition("\n")[0].endswith("."):
        found.append("the first line is not a sentence")
    return found


@pytest.mark.parametrize("name", sorted(formulas()))
def test_docstring_is_whole(name: str) -> None:
    assert complaints(name) == []


def test_docstring_check_notices(monkeypatch: pytest.MonkeyPatch) -> None:
    def bare(speed, bore):  # type: ignore[no-untyped-def]
        """Something

        Parameters
        ----------
        speed : m/s
        """

    monkeypatch.setattr("tests.physics.test_docstrings.formulas", lambda: {"bare": bare})
    assert complaints("bare") == [
        "parameter speed has no [unit]",
        "parameter bore is not described",
        "Returns has no [unit]",
        "no Source:",
        "no example",
        "the first line is not a sentence",
    ]


@pytest.mark.parametrize("name, function", sorted({**public_functions(), **public_methods()}.items()))
def test_everything_public_has_a_sentence(name: str, function: object) -> None:
    first = (inspect.getdoc(function) or "").partition("\n\n")[0].replace("\n", " ")
    assert re.match(r"[A-Z`].*[.:]", first), f"{name} says nothing"
