"""Slips made on purpose, one at a time, in a copy of the tree: does a test see each?

To try them: python -m tests.slips          all of `slips.toml`, some minutes
             python -m tests.slips pipe     those with the word in their file or their words
To write the page anew, trying nothing: python -m tests.slips --page
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from time import monotonic

ROOT = Path(__file__).resolve().parents[1]
LIST = Path(__file__).with_name("slips.toml")
PAGE = ROOT / "docs" / "reference" / "slips.md"
PACKAGE = Path("src", "lakewright")
BEGIN, END = "<!-- slips -->\n", "<!-- /slips -->\n"
KEPT_OUT = (".git", ".venv", "__pycache__", "site", "packets", ".*_cache", ".hypothesis", ".benchmarks")

# Of pytest's exit codes 1 is a failed test and 2 a module that does not load. The rest are mistakes in the list.
SAW, SAW_NOTHING = (1, 2), 0


@dataclass(frozen=True)
class Slip:
    """One slip: in which file, what stands there, what a tired person writes, which tests are asked, how it went.

    first : "caught" or "escaped" when it was first made; added : whether the tests were written because it escaped
    """

    file: str
    what: str
    old: str
    new: str
    tests: tuple[str, ...]
    first: str
    added: bool = False

    @property
    def package(self) -> str:
        return self.file.partition("/")[0]

    def slipped(self, text: str) -> str:
        """The file's text with the slip in it."""
        if text.count(self.old) != 1:
            raise LookupError(f"{self.file}: found {text.count(self.old)} times, wanted once: {self.old!r}")
        return text.replace(self.old, self.new)


def slips() -> list[Slip]:
    """The rows of `slips.toml`."""
    rows = tomllib.loads(LIST.read_text(encoding="utf-8"))["slip"]
    return [Slip(**{**row, "tests": tuple(row["tests"])}) for row in rows]


def copied(to: Path) -> Path:
    """A copy of the tree in which one may slip."""
    return Path(shutil.copytree(ROOT, to / "tree", ignore=shutil.ignore_patterns(*KEPT_OUT)))


def asked(tree: Path, tests: Iterable[str]) -> int:
    """What pytest answers of some tests in a tree."""
    paths = os.pathsep.join((str(tree / "src"), str(tree)))
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    done = subprocess.run(command, cwd=tree, env={**os.environ, "PYTHONPATH": paths}, capture_output=True, text=True)
    if done.returncode not in (SAW_NOTHING, *SAW):
        raise RuntimeError(f"pytest answers {done.returncode}\n{done.stdout[-2000:]}{done.stderr[-2000:]}")
    return done.returncode


def is_seen(tree: Path, slip: Slip) -> bool:
    """Whether the tests named for a slip see it. The tree is as before afterwards."""
    file = tree / PACKAGE / slip.file
    sound = file.read_text(encoding="utf-8")
    try:
        _write(file, slip.slipped(sound))
        return asked(tree, slip.tests) in SAW
    finally:
        _write(file, sound)


def _write(file: Path, text: str) -> None:
    """Write a file and move its time on by more than bytecode can miss."""
    moved = file.stat().st_mtime + 10.0
    file.write_text(text, encoding="utf-8")
    os.utime(file, (moved, moved))


def replayed(some: Iterable[Slip]) -> Iterator[tuple[Slip, bool, float]]:
    """Each slip, whether it was seen, and how long that took [s]."""
    with tempfile.TemporaryDirectory() as folder:
        tree = copied(Path(folder))
        for slip in some:
            began = monotonic()
            yield slip, is_seen(tree, slip), monotonic() - began


def table() -> str:
    """The slips by package, and each, in Markdown."""
    every = slips()
    lines = ["| package | made | caught | escaped |", "|---|---|---|---|"]
    for package in [*dict.fromkeys(slip.package for slip in every), ""]:
        some = [slip for slip in every if package in (slip.package, "")]
        caught = sum(slip.first == "caught" for slip in some)
        lines.append(f"| {package or '**all**'} | {len(some)} | {caught} | {len(some) - caught} |")
    lines += ["", "| file | slip | when first made | seen by |", "|---|---|---|---|"]
    for slip in every:
        mark = " (added)" if slip.added else ""
        seen = ", ".join(f"`{_short(test)}`{mark}" for test in slip.tests)
        lines.append(f"| `{slip.file}` | {slip.what} | {slip.first} | {seen} |")
    return f"{BEGIN}{chr(10).join(lines)}\n{END}"


def _short(test: str) -> str:
    """A test as the page calls it: a function by its name, a module's own examples as such."""
    file, _, function = test.partition("::")
    return function.partition("[")[0] or f"examples of {Path(file).name}"


def main(words: list[str]) -> int:
    if words == ["--page"]:
        before, _, rest = PAGE.read_text(encoding="utf-8").partition(BEGIN)
        PAGE.write_text(before + table() + rest.partition(END)[2], encoding="utf-8")
        return 0
    some = [slip for slip in slips() if all(word in f"{slip.file} {slip.what}" for word in words)]
    if asked(ROOT, sorted({test for slip in some for test in slip.tests})) != SAW_NOTHING:
        print("a test fails where nothing has slipped: mend that first")
        return 1
    escaped = 0
    for slip, seen, time in replayed(some):
        escaped += not seen
        print(f"{'caught ' if seen else 'ESCAPED'}  {time:5.1f} s  {slip.file}: {slip.what}", flush=True)
    print(f"{len(some)} made, {len(some) - escaped} caught, {escaped} escaped")
    return min(escaped, 1)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
