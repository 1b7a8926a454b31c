"""The rows of the benchmark run; how fast they are is no matter of tests."""

from __future__ import annotations

import pytest

from benchmarks import run

pytestmark = pytest.mark.law


@pytest.mark.parametrize("row", [run.plain, run.flat])
def test_a_row_of_drawn_designs_runs(row: run.Callable[[], run.Row], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "DESIGNS", 13)
    (time,) = row().values()
    assert time > 0.0


@pytest.mark.parametrize("distinct", [False, True])
def test_a_row_of_a_search_runs(distinct: bool) -> None:
    problem = run._problem(spots=26, places=24, tanks=3)
    found = run._search(run._distinct(problem) if distinct else problem)
    assert 0 < found["circuits"] <= found["candidates"]
