"""A program that keeps revisions until it is ended: each is told on stdout once it is acknowledged.

Every text is so long that it fills many pages of the book, and begins with its own digest.
"""

from __future__ import annotations

import hashlib
import random
import sys
from contextlib import closing
from pathlib import Path

from lakewright.book import papers
from lakewright.book.file import BookFile
from lakewright.book.papers import Edit

NAME = "Heron Point cabin"
LINES = 120


def text_of(seed: int) -> str:
    """A text of a seed, of the length of a job file, which says of itself whether it is whole."""
    chance = random.Random(seed)
    body = "".join(f"# {chance.random():.17f} {chance.random():.17f}\n" for _ in range(LINES + chance.randrange(LINES)))
    return f"# {hashlib.sha256(body.encode()).hexdigest()}\n{body}"


def is_whole(text: str) -> bool:
    """Whether a text is what its head says."""
    head, _, body = text.partition("\n")
    return head == f"# {hashlib.sha256(body.encode()).hexdigest()}"


def saves(path: Path) -> None:
    """Keep one revision after another, for ever."""
    print("ready", flush=True)
    sys.stdin.readline()
    with closing(BookFile(path)) as book:
        while True:
            with book.writing() as rows:
                if not papers.number_of(rows, "job", NAME):
                    kept = papers.add(rows, "job", NAME, Edit(text_of(1), "saver", "2026-05-03"))
                else:
                    last = papers.latest(rows, "job", NAME).revision
                    edit = Edit(text_of(last + 1), "saver", "2026-05-03")
                    kept = papers.save(rows, "job", NAME, last, edit)
            print(kept.revision, flush=True)


if __name__ == "__main__":
    saves(Path(sys.argv[1]))
