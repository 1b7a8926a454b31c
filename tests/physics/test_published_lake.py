"""Light and layers of a lake against print."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics import lake
from tests.published import assert_printed, published


def one(value: float) -> np.ndarray:
    return np.array([value])


@published("laperriere-alaska", "abstract: 1 % depths of the cloudiest and the clearest of 11 lakes, by attenuation")
@pytest.mark.parametrize(
    # Tolerance of the second: its attenuation is printed to two digits, 0.0695 to 0.0705.
    "attenuation, printed, tolerance",
    [(0.411, "11", None), (0.070, "67", 1.3)],
)
def test_where_one_per_cent_of_the_light_is_left(attenuation: float, printed: str, tolerance: float | None) -> None:
    assert_printed(lake.light_depth(one(attenuation), one(lake.FADED))[0], printed, tolerance)


@published("laperriere-alaska", "abstract: light at the disk, mean of nine lakes and of two that scatter it")
@pytest.mark.parametrize("ratio, printed", [(2.6, "16"), (4.0, "30")])
def test_light_at_the_disk(ratio: float, printed: str) -> None:
    """By the printed 1 % depth over the disk's: what is left at the disk. Tolerance: the ratios have two digits."""
    attenuation = np.log(100.0) / ratio
    share = 100.0 * np.exp(-attenuation)
    assert_printed(share, printed, tolerance=2.0)
    assert_printed(lake.light_depth(one(attenuation), one(share / 100.0))[0], "1.00")


@published("secchi-pages", "k = 1.45 / d")
def test_attenuation_by_a_disk() -> None:
    assert_printed(lake.light_attenuation(one(1.0))[0], "1.45")


@pytest.mark.law
def test_most_lakes_are_dark_at_thirty_to_forty_feet() -> None:
    """common practice, no source: in most lakes light fades out by 30 to 40 ft, which is a disk of 10 to 13 ft."""
    depth = lake.light_depth(lake.light_attenuation(np.array([9.5, 12.5]) * 0.3048), one(lake.FADED)) / 0.3048
    assert depth.round().tolist() == [30.0, 40.0]


@pytest.mark.law
def test_a_longer_lake_and_more_wind_mix_deeper_and_lighter_water_less_deep() -> None:
    base = lake.warm_layer(one(0.15), one(1.5), one(1000.0))
    # Worked beside the law: twice the root of 0.15 x 1000 / (9.80665 x 1.5).
    assert base[0] == pytest.approx(6.387, abs=5e-4)
    assert lake.warm_layer(one(0.15), one(1.5), one(500.0))[0] == pytest.approx(4.516, abs=5e-4)
    assert lake.warm_layer(lake.wind_stress(one(12.0)), one(1.5), one(1000.0)) > base
    assert lake.warm_layer(one(0.15), one(2.5), one(1000.0)) < base
    assert np.isnan(lake.warm_layer(one(0.15), one(0.0), one(1000.0))[0])
