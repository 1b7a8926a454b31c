"""The list of slips made on purpose stays true to the code, and its page to it; one is tried again."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.slips import PACKAGE, PAGE, ROOT, Slip, replayed, slips, table


@pytest.mark.parametrize("slip", slips(), ids=lambda slip: f"{slip.file}, {slip.what}")
def test_a_slip_can_still_be_made(slip: Slip) -> None:
    sound = (ROOT / PACKAGE / slip.file).read_text(encoding="utf-8")
    assert slip.slipped(sound) != sound
    assert slip.first in ("caught", "escaped")
    assert all((ROOT / Path(test.partition("::")[0])).exists() for test in slip.tests)


def test_the_page_is_current() -> None:
    assert table() in PAGE.read_text(encoding="utf-8"), "run: python -m tests.slips --page"


# All of them take minutes: python -m tests.slips.
def test_one_slip_is_seen_and_mended_behind_it() -> None:
    money = next(slip for slip in slips() if slip.file == "state/money.py")
    ((_, seen, _),) = replayed([money])
    assert seen
