"""The word list explains words that screen and papers use, and no others."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
ROW = re.compile(r"(?m)^\| (?!word \|)(?!-)(.+?) \| (.+?) \|$")
WORDS = [
    word.strip()
    for cell, _ in ROW.findall((ROOT / "docs" / "concepts" / "words.md").read_text(encoding="utf-8"))
    for word in cell.split(",")
]


@cache
def shown() -> str:
    """All that can come on a screen or a paper: the program's texts, its tables of wording, the page's templates."""
    files = [
        file
        for kind in ("*.py", "*.toml", "*.html")
        for file in (ROOT / "src" / "lakewright").rglob(kind)
        if "physics" not in file.parts
    ]
    words = " ".join(file.read_text(encoding="utf-8").casefold() for file in files)
    return re.sub(r"[\s_]+", " ", words)


@pytest.mark.message
@pytest.mark.parametrize("word", WORDS)
def test_each_word_is_used(word: str) -> None:
    assert re.search(rf"\b{re.escape(word.casefold())}s?\b", shown())


@pytest.mark.message
def test_each_word_stands_once() -> None:
    assert len(WORDS) > 35
    assert len(WORDS) == len(set(WORDS))
