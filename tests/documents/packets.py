"""Packets of the examples, made once, and what stands in their PDFs as an independent reader finds it."""

from __future__ import annotations

import io
import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pypdf

from lakewright.api.packet import sheets_of, told_of
from lakewright.api.paper import Told
from lakewright.documents.bind import Bound, Page, bound, strip_of
from lakewright.documents.flow import Flow
from tests.job.example import EXAMPLE

EXAMPLES = [file for file in sorted(EXAMPLE.parent.glob("*.toml")) if "[job]" in file.read_text(encoding="utf-8")]
"""The job files among the examples."""
TEXT_SHEETS = ("quote", "pick", "card", "shore", "start", "working")
WITHOUT_A_PUMP = ("quote", "working")
"""The sheets of text of a job for which no suction pump will do."""


def names_of(path: Path) -> tuple[str, ...]:
    """The sheets of text that an example has."""
    return WITHOUT_A_PUMP if path.stem == "no_suction_pump" else TEXT_SHEETS


@cache
def told(path: Path, paper: str = "", units: str = "") -> Told:
    """A job made ready for paper, without looking for what else would hold."""
    return told_of(path, paper, units, search=False)


@cache
def flows(path: Path) -> dict[str, Flow]:
    """The sheets of text of an example, by name; those it cannot have left out."""
    made: dict[str, Page] = sheets_of(told(path), (), True, only=TEXT_SHEETS)
    return {name: sheet for name, sheet in made.items() if isinstance(sheet, Flow)}


@dataclass(frozen=True)
class Read:
    """A PDF read: its pages' words, their sizes in points, and the sizes of the paper in points."""

    pages: tuple[str, ...]
    sizes: tuple[float, ...]
    paper: tuple[tuple[float, float], ...]

    @property
    def text(self) -> str:
        """All words, each white space one space."""
        return " ".join(" ".join(self.pages).split())


@cache
def read(content: bytes) -> Read:
    """What stands in a PDF."""
    sizes: list[float] = []

    def seen(text: str, _matrix: list[float], text_matrix: list[float], _font: object, size: float) -> None:
        if text.strip():
            sizes.append(abs(size * text_matrix[3]))

    reader = pypdf.PdfReader(io.BytesIO(content))
    pages = tuple(page.extract_text(visitor_text=seen) for page in reader.pages)
    paper = tuple((float(page.mediabox.width), float(page.mediabox.height)) for page in reader.pages)
    return Read(pages, tuple(sizes), paper)


def alone(path: Path, name: str) -> Bound:
    """One sheet of text of an example, without the formulas, whose figures stand in a table of their own."""
    flow = flows(path)[name]
    rows = [re.sub(r"#formula\(\$ .* \$\)", "", row) for row in flow.rows]
    bare = Flow(flow.name, flow.scale, rows, flow.printed, flow.drawn)
    return bound([bare], strip_of(told(path).report), told(path).paper)


def figures(texts: Iterable[str]) -> Counter[str]:
    """Runs of digits, and how often each."""
    return Counter(run for text in texts for run in re.findall(r"\d+", text))


def same(text: str) -> str:
    """Words as they compare: true minus, spaces of every kind and quotes made plain."""
    for one, other in (("\u2212", "-"), ("\u00a0", " "), ("\u2068", ""), ("\u2069", "")):
        text = text.replace(one, other)
    return " ".join(text.split())
