"""Room on a drawing: what is asked of a whole grid at once is what is asked of each of its places alone."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.documents.layout import Grid, Room, Taken
from lakewright.documents.scene import Box

pytestmark = pytest.mark.law

AREA = Box(3.0, 2.0, 103.0, 62.0)


def crowded(seed: int, many: int) -> Room:
    """A room with boxes and lines strewn over it; some lines level, some upright, some no more than a point."""
    random = np.random.default_rng(seed)

    def point() -> tuple[float, float]:
        return float(random.uniform(0.0, 106.0)), float(random.uniform(0.0, 64.0))

    room = Room(AREA)
    for n in range(many):
        (x, y), (dx, dy), (a, b) = point(), point(), point()
        box = Box(x, y, x + 0.1 * dx, y + 0.1 * dy)
        (room.words if n % 2 else room.bodies).append(box)
        end = ((a, b), (a, y), (x, b), (x, y))[n % 4]
        if n % 3:
            room.leaders.append(((x, y), end))
        else:
            room.along([(x, y), end, point()], float(random.integers(1, 60)), 2.0)
    return room


def singly(grid: Grid, taken: Taken, gap: float) -> np.ndarray:
    """What each place costs, asked of it alone."""
    return taken.costs(grid.boxes(), AREA, gap).reshape(len(grid.top), len(grid.left))


@pytest.mark.parametrize("many", [0, 1, 2, 3, 5, 9, 14])
@pytest.mark.parametrize("seed", range(12))
def test_a_grid_costs_what_its_places_cost_one_by_one(seed: int, many: int) -> None:
    taken = crowded(seed, many).taken()
    grid = Grid.over(AREA, 11.0 + seed, 4.0 + 0.3 * seed, 2.5, 1.5)
    for gap in (0.0, 1.2):
        assert np.array_equal(grid.costs(taken, gap), singly(grid, taken, gap))


def test_a_crowded_room_has_both_free_and_taken_places() -> None:
    grid = Grid.over(AREA, 12.0, 5.0, 2.5, 1.5)
    costs = grid.costs(crowded(3, 5).taken(), 1.2)
    assert np.isinf(costs).any()
    assert np.isfinite(costs).any()
    assert (costs[np.isfinite(costs)] > 0.0).any()


def test_a_box_too_large_for_its_room_has_no_place() -> None:
    grid = Grid.over(AREA, 12.0, 100.0, 2.5, 1.5)
    assert grid.costs(crowded(1, 4).taken(), 1.2).size == 0
    assert len(grid.boxes()) == 0


def test_the_cheapest_place_is_the_cheapest_of_all() -> None:
    for seed in range(8):
        taken = crowded(seed, 6).taken()
        grid = Grid.over(AREA, 12.0, 5.0, 2.5, 1.5)
        boxes, costs = grid.boxes(), grid.costs(taken, 1.2).ravel()
        leaders = np.column_stack([boxes[:, :2], np.full((len(boxes), 2), 40.0)])
        whole = costs + taken.leader_costs(leaders, 0.5)
        found = taken.cheapest(costs, leaders, 0.5)
        if np.isfinite(whole).any():
            assert found is not None
            assert found[1] == whole.min()
            assert whole[found[0]] == whole.min()
        else:
            assert found is None
