"""The corpus of every door: sound files come in, and nothing that was once found to break a door does so again."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import pytest

from lakewright.errors import LakewrightError
from tests.fuzz.doors import DOORS, Door

KEPT = [(door, file) for door in DOORS for file in door.corpus()]


@pytest.mark.law
@pytest.mark.parametrize("door, file", KEPT, ids=[f"{door.name}/{file.name}" for door, file in KEPT])
def test_what_is_kept_comes_in_or_is_refused(door: Door, file: Path, tmp_path: Path) -> None:
    refusals = () if file.name.startswith("sound_") else LakewrightError
    with suppress(refusals):
        door.enter(file.read_bytes(), tmp_path)
