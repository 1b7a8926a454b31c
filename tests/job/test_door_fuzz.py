"""Whatever text comes to the door, a Job comes in or a JobError goes out: never anything else.

1,500 texts in a plain run; LAKEWRIGHT_LAWS=1 in the environment makes it 10,000.
"""

from __future__ import annotations

import os
import tomllib

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from lakewright.errors import AskError, JobError
from lakewright.job.fields import shapes, walk
from lakewright.job.layout import Layout
from lakewright.job.models import Job
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from tests.job.example import example_text

MANY = 10_000 if os.environ.get("LAKEWRIGHT_LAWS") else 1_500
pytestmark = pytest.mark.law


def share(part: float) -> settings:
    return settings(
        max_examples=round(MANY * part),
        deadline=None,
        derandomize=True,
        database=None,
        suppress_health_check=list(HealthCheck),
    )


EXAMPLE = example_text()
LINES = EXAMPLE.splitlines(keepends=True)
PATHS = sorted(
    {(*path, name) for path, table, _ in walk() for name in shapes(table)} | {(name,) for name in shapes(Job)}
)
SCRAPS = [
    "",
    "=",
    "[",
    "]",
    "{",
    "}",
    '"',
    "'",
    '"""',
    "'''",
    "#",
    ",",
    ".",
    "\n",
    "\r\n",
    "\r",
    "\\",
    "\ufeff",
    "\x00",
    "é",
    "[[site.days]]\n",
    "[site]\n",
    "[site.days]\n",
    "[have.x]\n",
    "[limits.y]\n",
    "[[pump.curve]]\n",
    "a.b.c = 1\n",
    "nan",
    "-inf",
    "1e999",
    "0x7f",
    "9" * 4400,
    "2026-05-03",
    "07:32:00",
    "2026-05-03T07:32:00Z",
    "true",
    "[]",
    "{}",
    '"open"',
    '"12 ft"',
    '"10..14 ft"',
    '"12 +- 1 ft"',
    '"1e308 ft"',
    '"-0 ft"',
    '"\\u0000"',
    "{ value = 1 }",
    '{ value = "open", told = true, note = 1 }',
    "[[[[[[]]]]]]",
    '"' + "x" * 5000 + '"',
]


def comes_in_or_goes_out(text: str) -> None:
    mistakes = None
    try:
        job = read_job_text(text)
    except JobError as wrong:
        mistakes = wrong.mistakes
    if mistakes is None:
        assert isinstance(job, Job)
    else:
        assert mistakes
        for mistake in mistakes:
            assert mistake.found, mistake
            assert mistake.wanted, mistake
            assert mistake.remedy, mistake
            assert 0 <= mistake.line <= text.count("\n") + 1, mistake
            assert len(str(mistake)) < 2_000, mistake


@share(0.15)
@given(st.text(max_size=200))
@example("\ud800")
@example("[a]\nb.c = [{d = 1}, {d = 2}]\n")
def test_any_text(text: str) -> None:
    comes_in_or_goes_out(text)


@share(0.25)
@given(st.lists(st.sampled_from([*SCRAPS, *LINES]), max_size=30))
def test_scraps_of_job_files(scraps: list[str]) -> None:
    comes_in_or_goes_out("".join(scraps))


cuts = st.tuples(st.integers(0, len(EXAMPLE)), st.integers(0, 40), st.sampled_from(SCRAPS) | st.text(max_size=6))


@share(0.35)
@given(st.lists(cuts, min_size=1, max_size=4))
def test_the_example_cut_about(changes: list[tuple[int, int, str]]) -> None:
    text = EXAMPLE
    for at, length, scrap in changes:
        text = text[:at] + scrap + text[at + length :]
    comes_in_or_goes_out(text)


plain = st.recursive(
    st.none().map(lambda _: "true")
    | st.integers().map(str)
    | st.floats().map(lambda number: repr(number))
    | st.dates().map(str)
    | st.sampled_from([scrap for scrap in SCRAPS if scrap[:1] in ('"', "{", "[", "n", "t")]),
    lambda inner: (
        st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]")
        | st.dictionaries(
            st.sampled_from(["value", "told", "note", "name", "distance", "flow"]), inner, max_size=3
        ).map(lambda pairs: "{ " + ", ".join(f"{key} = {value}" for key, value in pairs.items()) + " }")
    ),
    max_leaves=6,
)


@share(0.25)
@given(st.lists(st.tuples(st.sampled_from(PATHS), plain), min_size=1, max_size=8, unique_by=lambda pair: pair[0]))
def test_every_field_given_anything(pairs: list[tuple[tuple[str, ...], str]]) -> None:
    comes_in_or_goes_out("".join(f"{'.'.join(path)} = {value}\n" for path, value in pairs))


def paths_in(data: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    found = [path] if path else []
    inside: list[tuple[str | int, object]] = []
    if isinstance(data, dict):
        inside = list(data.items())
    elif isinstance(data, list):
        inside = list(enumerate(data))
    for key, value in inside:
        found += paths_in(value, (*path, key))
    return found


@share(0.3)
@given(st.lists(cuts, max_size=3))
@example([])
def test_every_key_of_a_valid_text_has_its_line(changes: list[tuple[int, int, str]]) -> None:
    text = EXAMPLE
    for at, length, scrap in changes:
        text = text[:at] + scrap + text[at + length :]
    try:
        data = tomllib.loads(text)
    except (ValueError, RecursionError):
        return
    lines = Layout(text).lines
    rows = text.split("\n")
    for path in paths_in(data):
        assert 1 <= lines[path] <= len(rows), path
        if isinstance(path[-1], str) and path[-1].isidentifier():
            assert path[-1] in rows[lines[path] - 1], path


changes_of_values = st.dictionaries(
    st.sampled_from(
        [
            "job.title",
            "job.date",
            "site.levels.low",
            "site.levels.low.told",
            "site.boats",
            "site.days.1.level",
            "site.days.6.name",
            "site.days.2",
            "site.soundings.7.distance",
            "need.people",
            "need.fixtures.bidet",
            "stand.at",
            "stand.at.note",
            "stand.inlet.bore",
            "suction.fittings.elbows",
            "suction.route.1.height",
            "pump.curve.1.flow",
            "pump.lift_table.lifts",
            'have."old pump".note',
            "limits.lift.reason",
            "price.tax",
            "site",
            "site.days",
            "readings.1.flow",
        ]
    ),
    st.sampled_from(["", "3", "12 ft", "open", "true", "2026-06-01", '["1 ft", "2 ft"]', 'a "b" \\ c\n', "é\u2028"]),
    max_size=4,
)


@share(0.3)
@given(changes_of_values, st.booleans(), st.lists(cuts, max_size=1))
def test_setting_values_moves_nothing_else(
    changes: dict[str, str], windows: bool, before: list[tuple[int, int, str]]
) -> None:
    text = EXAMPLE
    for at, length, scrap in before:
        text = text[:at] + scrap + text[at + length :]
    if windows:
        text = text.replace("\r\n", "\n").replace("\n", "\r\n")
    try:
        changed = set_values(text, changes)
    except AskError:
        return
    if not changes:
        assert changed == text
        return
    tomllib.loads(changed.removeprefix("\ufeff"))
    comments = [line for line in text.splitlines() if line.startswith("#")]
    if not any(value == "" for value in changes.values()):
        assert [line for line in changed.splitlines() if line.startswith("#")] == comments
    comes_in_or_goes_out(changed)
