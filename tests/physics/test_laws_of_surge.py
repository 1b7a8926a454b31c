"""The characteristics against the closed forms where those hold, refinement, and what must never get worse."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad

from lakewright.physics import characteristics, priming, surge
from lakewright.physics.types import GRAVITY, Array

pytestmark = pytest.mark.law

ONE = np.ones(1)
SPEED, LENGTH, VELOCITY, WATER = 320.0 * ONE, 70.0 * ONE, 0.9 * ONE, 999.1 * ONE
BACK = surge.return_time(LENGTH, SPEED)

FOOT, INCH = 0.3048, 0.0254
CUBIC_FOOT_A_MINUTE = FOOT**3 / 60.0


def points(*values: float) -> tuple[Array, ...]:
    """One array a point."""
    return tuple(np.array([value]) for value in values)


def rises(stop_time: Array, friction: float = 0.0, sign: float = -1.0) -> tuple[float, float]:
    """Highest and lowest pressure at the near end [Pa]."""
    found = characteristics.stopped_line(SPEED, LENGTH, sign * VELOCITY, friction * ONE, stop_time)
    high, low = (float((WATER * GRAVITY * head)[0]) for head in found)
    return high, low


@pytest.mark.parametrize("share", [0.0, 0.3, 0.7, 1.0])
def test_a_quick_stop_makes_joukowskys_rise(share: float) -> None:
    high, low = rises(share * BACK)
    sudden = float(surge.sudden_rise(SPEED, VELOCITY, WATER)[0])
    assert high == pytest.approx(sudden, rel=0.01)
    assert low == pytest.approx(-sudden, rel=0.01)


@pytest.mark.parametrize("share", [1.0, 1.5, 2.3, 4.0, 7.9])
def test_a_slow_stop_makes_michauds_rise(share: float) -> None:
    closed = float(surge.stopping_rise(SPEED, LENGTH, VELOCITY, share * BACK, WATER)[0])
    assert rises(share * BACK)[0] == pytest.approx(closed, rel=0.01)
    assert closed == pytest.approx(float((2.0 * WATER * LENGTH * VELOCITY / (share * BACK))[0]), rel=1e-12)


def test_refinement_converges_to_first_order() -> None:
    """Friction alone is not exact on the characteristics: halving the pieces halves what is left."""

    def peak(reaches: int) -> float:
        stop = 0.7 * BACK
        return float(characteristics.near_heads(SPEED, LENGTH, -VELOCITY, 4.0 * ONE, stop, reaches, 4).max())

    peaks = [peak(n) for n in (4, 8, 16, 32, 64)]
    steps = np.abs(np.diff(peaks))
    np.testing.assert_allclose(steps[:-1] / steps[1:], 2.0, rtol=0.1)
    # The pieces that are used leave less than a percent.
    assert peak(characteristics.REACHES) == pytest.approx(peaks[-1] + (peaks[-1] - peaks[-2]), rel=0.01)


def test_no_wave_without_a_stop_and_no_head_without_flow() -> None:
    never = characteristics.stopped_line(SPEED, LENGTH, VELOCITY, 3.0 * ONE, np.array([np.inf]))
    assert [float(each[0]) for each in never] == pytest.approx([3.0 * 0.81] * 2, rel=1e-12)
    still = characteristics.stopped_line(SPEED, LENGTH, 0.0 * ONE, 3.0 * ONE, 0.0 * ONE)
    assert [float(each[0]) for each in still] == [0.0, 0.0]


def test_friction_never_makes_the_first_blow_harder_than_the_sudden_one_and_its_own_head() -> None:
    draw = np.random.default_rng(5)
    speed, length = draw.uniform(200.0, 1400.0, 300), draw.uniform(5.0, 300.0, 300)
    velocity, friction = draw.uniform(-2.5, 2.5, 300), draw.uniform(0.0, 6.0, 300)
    stop = draw.uniform(0.0, 2.0, 300)
    high, low = characteristics.stopped_line(speed, length, velocity, friction, stop)
    most = speed * np.abs(velocity) / GRAVITY + friction * velocity**2
    assert (high <= most * (1.0 + 1e-9)).all()
    assert (low >= -most * (1.0 + 1e-9)).all()


def test_a_stiffer_wall_carries_a_wave_faster_and_none_faster_than_open_water() -> None:
    moduli = np.array([1e8, 1.03e9, 2.76e9, 117e9, 207e9, 1e15])
    wall = (surge.WATER_MODULUS, moduli, 0.05, 0.004, 1.0, 999.1)
    speeds = surge.wave_speed(*wall)  # type: ignore[arg-type]
    assert (np.diff(speeds) > 0.0).all()
    assert speeds[-1] == pytest.approx(np.sqrt(surge.WATER_MODULUS / 999.1), rel=1e-4)


# What another hand computed for both figures: vertical, then level; minutes.
@pytest.mark.parametrize(
    "inches, rise, level, rate, minutes", [(1.380, 12.0, 48.0, 0.1, 8.66), (2.067, 15.0, 25.0, 1.0, 1.36)]
)
def test_evacuation_time_with_a_steady_pump(
    inches: float, rise: float, level: float, rate: float, minutes: float
) -> None:
    area = 0.25 * np.pi * (inches * INCH) ** 2
    volumes = points(area * FOOT * (rise + level), area * FOOT * level, 0.0)
    heights = points(0.0, FOOT * rise, FOOT * rise)
    steady = np.array([1e12])
    found = priming.evacuation_time(volumes, heights, rate * CUBIC_FOOT_A_MINUTE * ONE, steady, 33.9 * FOOT * ONE)
    assert found[0] / 60.0 == pytest.approx(minutes, abs=0.006)


def test_evacuation_time_is_the_integral_of_boyles_law() -> None:
    volume, top, air, dead, rate = 0.02, 5.0, 10.0, 7.5, 3e-4

    def pace(height: float) -> float:
        # V falls evenly with height: -d(P V)/dh over P S.
        pressed = volume / top * (air - height) + volume * (1.0 - height / top)
        return pressed / ((air - height) * rate * (1.0 - height / dead))

    exact = quad(pace, 0.0, top)[0]
    way = (points(volume, 0.0), points(0.0, top))
    assert priming.evacuation_time(*way, rate * ONE, dead * ONE, air * ONE)[0] == pytest.approx(exact, rel=1e-3)


def test_a_line_that_dips_after_a_crest_takes_no_less() -> None:
    volumes = points(0.03, 0.02, 0.01, 0.0)
    rest = (3e-4 * ONE, 7.5 * ONE, 10.0 * ONE)
    dips = priming.evacuation_time(volumes, points(0.0, 4.0, 2.0, 3.0), *rest)
    stays = priming.evacuation_time(volumes, points(0.0, 4.0, 4.0, 4.0), *rest)
    straight = priming.evacuation_time(volumes, points(0.0, 1.0, 2.0, 3.0), *rest)
    assert dips == stays
    assert dips > straight


def test_a_pump_draws_nothing_up_past_its_vacuum() -> None:
    volumes = points(0.03, 0.0)
    for height, ends in ((6.9, True), (7.0, False), (7.1, False)):
        found = priming.evacuation_time(volumes, points(0.0, height), 3e-4 * ONE, 7.0 * ONE, 10.0 * ONE)
        assert np.isfinite(found[0]) == ends


def test_a_thin_ring_gives_as_one_and_a_thick_wall_gives_less_for_itself() -> None:
    thin = surge.anchored_factor(*points(1.0, 1e-9, 0.4))
    assert thin[0] == pytest.approx(1.0 - 0.4**2)
    walls = np.array([0.001, 0.005, 0.02])
    assert np.all(np.diff(surge.anchored_factor(0.05 * np.ones(3), walls, 0.4 * np.ones(3))) > 0.0)


def test_a_column_stops_where_newton_says() -> None:
    """Of 60 m2/s against 40 m: each second the head takes g H from what length times velocity was."""
    steps = 200_000
    left, step = 60.0, 0.2 / steps
    count = 0
    while left > 0.0:
        left, count = left - GRAVITY * 40.0 * step, count + 1
    assert surge.column_stop_time(*points(60.0, 40.0))[0] == pytest.approx(count * step, rel=1e-4)
    assert surge.column_stop_time(*points(60.0, -1.0))[0] == np.inf
