"""Curves and tables of points against print."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics.curve import shape_keeping, straight_lines
from lakewright.physics.jet import jet_table
from tests.published import assert_printed, published

# The data of Fritsch and Carlson, as the manual's example reads them.
X = [7.99, 8.09, 8.19, 8.70, 9.20, 10.00, 12.00, 15.00, 20.00]
Y = [0.00000e0, 0.27643e-4, 0.43750e-1, 0.16918e0, 0.46943e0, 0.94374e0, 0.99864e0, 0.99992e0, 0.99999e0]


@published("monotone-example", "results of the example")
@pytest.mark.parametrize(
    "x, printed",
    [
        (7.99, "0.0000"),
        (9.191, "0.4640"),
        (10.392, "0.9645"),
        (11.593, "0.9965"),
        (12.794, "0.9992"),
        (13.995, "0.9998"),
        (15.196, "0.9999"),
        (16.397, "1.0000"),
    ],
)
def test_shape_keeping_matches_library_manual(x: float, printed: str) -> None:
    assert_printed(shape_keeping(X, Y).at(np.array([x]))[0], printed)


@published("bilinear-example", "worked example")
@pytest.mark.parametrize("values, printed", [((149, 163), "156.14"), ((169, 187), "178.18")])
def test_straight_lines_match_worked_steps(values: tuple[float, float], printed: str) -> None:
    assert_printed(straight_lines([400, 500], values).at(np.array([451.0]))[0], printed)


@published("bilinear-example", "worked example")
def test_table_matches_worked_result() -> None:
    table = jet_table([400, 500], [60, 80], [[149, 169], [163, 187]])
    assert_printed(table.at(np.array([451.0]), np.array([75.0]))[0][0], "172.67")
