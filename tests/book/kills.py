"""Programs killed while they keep revisions: none that was acknowledged is lost, none is torn.

To do it N times: python -m tests.book.kills N
"""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import tempfile
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from time import sleep

from lakewright.book import papers
from lakewright.book.file import BookFile
from tests.book.saver import NAME, is_whole, text_of

FRESH = 25
"""A fresh book after so many kills, so that some fall while a book is made."""

LONGEST = 0.25
"""Seconds after its start before which a program is killed, at any moment with one chance."""

ROOT = Path(__file__).resolve().parents[2]


@dataclass
class Tally:
    """What came of it."""

    kills: int = 0
    books: int = 0
    before: int = 0  # revisions there when a program was started, over all kills
    acknowledged: int = 0
    after: int = 0  # revisions there after the last kill of each book
    unacknowledged: int = 0  # kept whole, though the program was killed before it could say so
    lost: int = 0
    torn: int = 0
    unmade: int = 0  # kills before the book had its first revision

    def __str__(self) -> str:
        return "\n".join(
            [
                f"{self.kills} kills, {self.books} books, {self.unmade} of the kills before a book's first revision",
                f"revisions: {self.acknowledged:,} acknowledged, {self.unacknowledged} kept whole without having been,"
                f" {self.after:,} in the books after the last kills",
                f"lost {self.lost}, torn {self.torn}",
            ]
        )


def killed(path: Path, seconds: float) -> list[int]:
    """The revisions a program acknowledged before it was killed, so long after it was let go."""
    command = [sys.executable, "-m", "tests.book.saver", str(path)]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True, cwd=ROOT) as program:
        assert program.stdin is not None
        assert program.stdout is not None
        assert program.stdout.readline() == "ready\n"
        program.stdin.write("go\n")
        program.stdin.flush()
        sleep(seconds)
        program.send_signal(signal.SIGKILL)
        # A last line without an end was not said whole.
        return [int(line) for line in program.stdout.readlines() if line.endswith("\n")]


def found(path: Path) -> list[str]:
    """The texts in a book, the first revision first, once sqlite has found nothing wrong with it."""
    with closing(BookFile(path)) as book, book.reading() as rows:
        assert rows.execute("pragma integrity_check").fetchall() == [("ok",)]
        assert rows.execute("pragma foreign_key_check").fetchall() == []
        if not papers.number_of(rows, "job", NAME):
            return []
        kept = papers.revisions(rows, "job", NAME)[::-1]
    assert [each.revision for each in kept] == list(range(1, len(kept) + 1))
    return [each.text for each in kept]


def kills(times: int, seed: int = 1) -> Tally:
    """Kill a program so many times, and count what is in its book after each."""
    chance, tally = random.Random(seed), Tally()
    with tempfile.TemporaryDirectory() as folder:
        path, there = Path(folder) / "none", 0
        for number in range(times):
            if number % FRESH == 0:
                path, there = Path(folder) / f"book{number}.sqlite", 0
                tally.books += 1
            acknowledged = killed(path, chance.uniform(0.0, LONGEST))
            texts = found(path)
            last = acknowledged[-1] if acknowledged else there
            tally.kills += 1
            tally.before += there
            tally.acknowledged += len(acknowledged)
            tally.unacknowledged += max(len(texts) - last, 0)
            tally.lost += max(last - len(texts), 0) + sum(
                text != text_of(n) for n, text in enumerate(texts[there:], there + 1) if n <= last
            )
            tally.torn += sum(not is_whole(text) for text in texts)
            tally.after += len(texts) - there
            tally.unmade += not texts
            there = len(texts)
    return tally


if __name__ == "__main__":
    print(kills(int(sys.argv[1]) if len(sys.argv) > 1 else 500))
