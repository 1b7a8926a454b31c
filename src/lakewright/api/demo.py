"""The main job on an example."""

from __future__ import annotations

import tomllib
from pathlib import Path

from lakewright.api.check import check
from lakewright.errors import AskError
from lakewright.report import Report

EXAMPLE = "year_round_cabin.toml"


def example_path(name: str = EXAMPLE) -> Path:
    """Where an example of the source tree lies.

    Raises
    ------
    AskError where the package was installed without its examples
    """
    path = _folder() / name
    if not path.is_file():
        raise AskError(f"the example {name} is not here; run from the source tree, or check a job file of your own")
    return path


def examples() -> dict[str, str]:
    """Titles of the examples by the names of their files; none where the package was installed without them."""
    texts = {file.name: tomllib.loads(file.read_text(encoding="utf-8")) for file in sorted(_folder().glob("*.toml"))}
    # What stands beside the jobs, as scenarios do, is no job.
    return {name: str(text["job"]["title"]) for name, text in texts.items() if "title" in text.get("job", {})}


def _folder() -> Path:
    return Path(__file__).resolve().parents[3] / "examples"


def demo() -> tuple[Path, Report]:
    """Check the example of a year-round cabin."""
    path = example_path()
    return path, check(path)
