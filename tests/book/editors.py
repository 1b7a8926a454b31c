"""Editors who save one job at a time, all at once: each edit that was acknowledged is in the job exactly once.

To do it with N editors of M edits: python -m tests.book.editors N M
"""

from __future__ import annotations

import multiprocessing
import random
import sys
import tempfile
from collections import Counter
from contextlib import closing
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from time import perf_counter, sleep

from lakewright.book import papers
from lakewright.book.file import BookFile
from lakewright.book.papers import Edit
from lakewright.errors import StaleError

NAME = "Heron Point cabin"
DAY = "2026-05-03"


@dataclass(frozen=True)
class Told:
    """What one editor was told: of each edit the revision it became, and how often it was refused as stale."""

    editor: int
    revisions: tuple[int, ...]
    refused: int


@dataclass(frozen=True)
class Edited:
    """What came of it."""

    editors: int
    edits: int
    acknowledged: int
    refused: int
    revisions: int
    lost: int
    twice: int
    astray: int  # revisions that hold anything but the one before and one edit
    seconds: float

    def __str__(self) -> str:
        return (
            f"{self.editors} editors x {self.edits} edits: {self.acknowledged:,} acknowledged in"
            f" {self.revisions:,} revisions, {self.refused:,} refused as stale and done again;"
            f" lost {self.lost}, twice {self.twice}, astray {self.astray}; {self.seconds:.0f} s"
        )


def line_of(editor: int, edit: int) -> str:
    return f"# edit {edit} of editor {editor}"


def edits(path: Path, editor: int, times: int) -> Told:
    """Make so many edits: read the last revision, think a little, save; where it has moved on, read it again."""
    chance, became, refused = random.Random(editor), [], 0
    with closing(BookFile(path)) as book:
        for edit in range(1, times + 1):
            while True:
                with book.reading() as rows:
                    last = papers.latest(rows, "job", NAME)
                sleep(chance.uniform(0.0, 0.004))
                text = f"{last.text}{line_of(editor, edit)}\n"
                try:
                    with book.writing() as rows:
                        kept = papers.save(rows, "job", NAME, last.revision, Edit(text, f"editor {editor}", DAY))
                except StaleError:
                    refused += 1
                    continue
                became.append(kept.revision)
                break
    return Told(editor, tuple(became), refused)


def edited(editors: int, times: int) -> Edited:
    """Let so many editors make so many edits each, and look for every one."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.sqlite"
        with closing(BookFile(path)) as book, book.writing() as rows:
            papers.add(rows, "job", NAME, Edit("# the job\n", "nobody", DAY))
        start = perf_counter()
        with multiprocessing.get_context("spawn").Pool(editors) as pool:
            told = pool.starmap(edits, [(path, editor, times) for editor in range(1, editors + 1)], chunksize=1)
        seconds = perf_counter() - start
        with closing(BookFile(path)) as book, book.reading() as rows:
            assert rows.execute("pragma integrity_check").fetchall() == [("ok",)]
            kept = papers.revisions(rows, "job", NAME)[::-1]
    texts = [each.text for each in kept]
    lines = Counter(texts[-1].splitlines())
    wanted = {line_of(each.editor, edit): at for each in told for edit, at in enumerate(each.revisions, 1)}
    added = [after.removeprefix(before) for before, after in pairwise(texts)]
    return Edited(
        editors=editors,
        edits=times,
        acknowledged=len(wanted),
        refused=sum(each.refused for each in told),
        revisions=len(kept),
        lost=sum(lines[line] == 0 or added[at - 2] != f"{line}\n" for line, at in wanted.items()),
        twice=sum(count > 1 for count in lines.values()),
        astray=sum(line.removesuffix("\n") not in wanted for line in added),
        seconds=seconds,
    )


if __name__ == "__main__":
    print(edited(*(map(int, sys.argv[1:3]) if len(sys.argv) > 2 else (8, 200))))
