"""Who may stand on whom, where the import contracts in pyproject.toml cannot say it."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "src" / "lakewright"
PLAIN = ROOT / "benchmarks" / "plain.py"
DOORS = ("cli", "web", "__main__.py")
CLOCKS = {"now", "today", "utcnow", "time", "localtime", "gmtime"}


def imported(file: Path) -> Iterator[str]:
    """Every module a file imports, wherever in it the import stands."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file.name}, line {node.lineno}: write the whole name of what is imported"
            yield node.module or ""


def calls(file: Path) -> Iterator[tuple[int, str]]:
    """Line and name of every plain call, and of every call of an attribute as `module.name`."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        if isinstance(node.func, ast.Name):
            yield node.lineno, node.func.id
        elif isinstance(node.func, ast.Attribute) and isinstance(node.func.value, (ast.Name, ast.Attribute)):
            yield node.lineno, f"{ast.unparse(node.func.value)}.{node.func.attr}"


def files_behind_the_doors() -> list[Path]:
    return [file for file in sorted(PACKAGE.rglob("*.py")) if file.relative_to(PACKAGE).parts[0] not in DOORS]


@pytest.mark.parametrize("file", sorted((PACKAGE / "physics").glob("*.py")), ids=lambda file: file.name)
def test_physics_imports_numpy_and_itself_only(file: Path) -> None:
    foreign = [
        name
        for name in imported(file)
        if not (
            name.split(".")[0] == "numpy"
            or name.startswith("lakewright.physics")
            or name.split(".")[0] in sys.stdlib_module_names
        )
    ]
    assert foreign == []


def test_the_second_writing_imports_nothing_of_ours() -> None:
    ours = [name for name in imported(PLAIN) if name.split(".")[0] in ("lakewright", "benchmarks", "tests")]
    assert ours == []


def test_checks_never_import_job_or_stock() -> None:
    reached = [
        f"{file.name}: {name}"
        for file in sorted((PACKAGE / "checks").glob("*.py"))
        for name in imported(file)
        if name.startswith(("lakewright.job", "lakewright.stock"))
    ]
    assert reached == []


def test_nothing_behind_the_doors_prints() -> None:
    printing = [
        f"{file.relative_to(PACKAGE)}, line {line}: {name}"
        for file in files_behind_the_doors()
        for line, name in calls(file)
        if name in ("print", "input") or name.startswith(("sys.stdout.", "sys.stderr."))
    ]
    assert printing == []


def test_nothing_behind_the_doors_reads_the_clock() -> None:
    # A lapse of time may be measured; what day it is comes from the job.
    reading = [
        f"{file.relative_to(PACKAGE)}, line {line}: {name}"
        for file in files_behind_the_doors()
        for line, name in calls(file)
        if name.rpartition(".")[2] in CLOCKS and name.split(".")[0] in ("datetime", "date", "time")
    ]
    assert reading == []


def test_every_table_lies_inside_the_package() -> None:
    tables = sorted(file.suffix for file in PACKAGE.rglob("*") if file.suffix in (".toml", ".csv"))
    assert ".toml" in tables
    assert ".csv" in tables
    ignored = (ROOT / ".gitignore").read_text(encoding="utf-8").splitlines()
    assert not [line for line in ignored if line.endswith((".toml", ".csv"))]
