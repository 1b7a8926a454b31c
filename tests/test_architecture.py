"""ARCHITECTURE.md shows the tree as it is: every module, with the first words of its docstring.

To write it anew: python -m tests.test_architecture
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "ARCHITECTURE.md"
PACKAGE = ROOT / "src" / "lakewright"
BEGIN, END = "<!-- tree -->\n", "<!-- /tree -->"
COLUMN = 24


def first_words(file: Path) -> str:
    """A module's docstring up to its first stop or colon."""
    docstring = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or ""
    return re.split(r"(?<=\?)\s|[.:;](?:\s|$)", " ".join(docstring.split("\n\n")[0].split()))[0]


def entry(depth: int, name: str, words: str) -> str:
    return f"{'  ' * depth}{name}".ljust(COLUMN) + f" {words}"


def tree(folder: Path = PACKAGE, depth: int = 1) -> Iterator[str]:
    """Folders first, then modules, then tables, each by name."""
    for inner in sorted(path for path in folder.iterdir() if (path / "__init__.py").exists()):
        yield entry(depth, f"{inner.name}/", first_words(inner / "__init__.py"))
        yield from tree(inner, depth + 1)
    for file in sorted(folder.glob("*.py")):
        if file.name != "__init__.py":
            yield entry(depth, file.name, first_words(file))
    tables = [*folder.glob("*.toml"), *folder.glob("*/*.csv")]
    yield from (entry(depth, str(table.relative_to(folder)), "") for table in sorted(tables))


def drawn() -> str:
    lines = "\n".join(line.rstrip() for line in ["src/lakewright/", *tree()])
    return f"{BEGIN}```text\n{lines}\n```\n{END}"


def test_the_tree_is_current() -> None:
    assert drawn() in PAGE.read_text(encoding="utf-8"), "run: python -m tests.test_architecture"


if __name__ == "__main__":
    before, _, rest = PAGE.read_text(encoding="utf-8").partition(BEGIN)
    PAGE.write_text(before + drawn() + rest.partition(END)[2], encoding="utf-8")
