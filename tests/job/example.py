"""The example job, for the tests of the door."""

from __future__ import annotations

from pathlib import Path

EXAMPLE = Path(__file__).parents[2] / "examples" / "year_round_cabin.toml"


def example_text() -> str:
    return EXAMPLE.read_bytes().decode("utf-8")
