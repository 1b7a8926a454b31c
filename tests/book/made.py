"""A book with something of everything in it, and a way to ask it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from lakewright.book import papers
from lakewright.book.file import BookFile
from lakewright.book.papers import Edit
from lakewright.book.records import Found, Invoice, Order, Quoted, Standing, Visit, Way, put

DAY, WHO = "2026-05-03", "Ann"

ODD_NAMES = ("../../etc/passwd", "CON", "a/b\\c", "=1+1", "Étang de l'Ouest", "بحيرة", "x" * 120, "nul.toml", "...a")
"""Names a path must not be led by."""

ODD_TEXTS = (
    "",
    "\ufeff[job]\r\ntitle = 'x'\r\n",
    "no TOML at all",
    "a\rb\u2028c\n",
    "=cmd()\n\t'\n",
    "# end without a line",
)
"""Texts that come back byte by byte."""


@contextmanager
def opened(path: Path) -> Iterator[BookFile]:
    with closing(BookFile(path)) as book:
        yield book


def edit(text: str, day: str = DAY, note: str = "") -> Edit:
    return Edit(text, WHO, day, note)


def fill(book: BookFile) -> None:
    """Papers of each kind, odd names and texts among them, and a record of each kind."""
    with book.writing() as rows:
        for kind in papers.KINDS:
            papers.add(rows, kind, "Heron Point", edit(f"name = 'a {kind}'\n", note="=2+2\r\n'so'"))
        for number, name in enumerate(ODD_NAMES):
            papers.add(rows, "job", name, edit(ODD_TEXTS[number % len(ODD_TEXTS)]))
        for number, text in enumerate(ODD_TEXTS, start=2):
            papers.save(rows, "job", "CON", papers.latest(rows, "job", "CON").revision, edit(f"{text}{number}"))
        signed = {"day": DAY, "author": WHO}
        put(rows, Standing(job="heron_point", stage="asked", note="-1, by telephone", **signed))
        put(rows, Standing(job="Heron Point", stage="looked at", **signed))
        put(rows, Found(job="Heron Point", what="depth at the stand", said="14 ft", found="13 ft", **signed))
        put(rows, Order(job="Heron Point", part="@hose", count=30.48, unit="m", whom="+shop, the", **signed))
        put(rows, Quoted(job="Heron Point", revision=1, total=-5, whole=0, pick='{"a": "b"}', **signed))
        put(rows, Visit(job="Heron Point", work="haul-out", minutes=1.0 / 3.0, people=2, parts="a\nb", **signed))
        put(rows, Invoice(visit=1, **signed))
        put(rows, Way(start="shop", finish="Long Arm Lake", minutes=35.0, **signed))
