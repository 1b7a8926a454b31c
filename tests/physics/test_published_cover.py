"""Every function of the physics that the walk calls stands against print somewhere."""

from __future__ import annotations

import ast
from pathlib import Path

import lakewright
from tests.physics.formulas import public_functions

WALK = Path(lakewright.__file__).parent / "state"

# ours: what only packs, picks and unpacks points computes nothing that could be printed.
MOVES_POINTS = {"rows_of", "stack", "stack_tables", "tables_of", "unknown_curve", "unknown_table"}

# Nothing printed was found for these: closed forms, other libraries and laws hold them, in the files beside.
HELD_OTHERWISE = {
    *("anchored_factor", "column_stop_time", "evacuation_time", "near_heads", "stopped_line", "stopping_rise"),
    *("dug_share", "grain_of", "most_drawn", "narrowing_coefficient"),
    *("input_power", "speed_ratio_for"),
}
LAWS = ("test_laws*.py", "test_oracles.py", "test_ejector_pump.py")


def called(path: Path) -> set[str]:
    """Names called in one file, with or without their module before them."""
    nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    # A table of tests may name its functions as keys.
    keys = (key for node in nodes if isinstance(node, ast.Dict) for key in node.keys)
    calls = (*(node.func for node in nodes if isinstance(node, ast.Call)), *keys)
    return {
        call.attr if isinstance(call, ast.Attribute) else call.id
        for call in calls
        if isinstance(call, ast.Attribute | ast.Name)
    }


def called_in_marked_tests() -> set[str]:
    """Names called by the files of published tests: by a marked test, or by what it uses beside it."""
    return set().union(*(called(path) for path in Path(__file__).parent.glob("test_published_*.py")))


def test_every_function_of_the_walk_stands_against_print() -> None:
    physics = public_functions().keys() - MOVES_POINTS - HELD_OTHERWISE
    walk = set().union(*(called(path) for path in WALK.glob("*.py"))) & physics
    assert len(walk) > 15, "the search for calls is broken"
    assert walk - called_in_marked_tests() == set()
    assert physics - called_in_marked_tests() == set()


def test_what_no_print_holds_is_held_by_laws() -> None:
    files = (path for pattern in LAWS for path in Path(__file__).parent.glob(pattern))
    assert set().union(*(called(path) for path in files)) >= HELD_OTHERWISE
    assert not HELD_OTHERWISE & called_in_marked_tests()
