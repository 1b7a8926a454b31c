"""What must hold of waves, of what they do to a stand and a line, and of what holds these, whatever the numbers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
import scipy.integrate
import scipy.optimize

from lakewright.physics import bed_line, current, footing, force, members, scour, waves, wind
from lakewright.physics.members import Members, Sea, coefficients_of, peak_loads
from lakewright.physics.types import GRAVITY, Array
from tests.physics.stands import OUTSIDE, PVC, WATER, disc, plain, row, together, worked_stand
from tests.physics.stands import waves as sea_of

pytestmark = pytest.mark.law


def drawn(low: float, high: float, seed: int, count: int = 500) -> Array:
    return np.random.default_rng(seed).uniform(low, high, count)


# Wind and growth.


def test_longer_means_are_weaker_and_undo_themselves() -> None:
    seconds = np.geomspace(1.0, 36000.0, 3000)
    ratio = wind.gust_ratio(seconds)
    # The two printed pieces meet within a thousandth at an hour.
    assert np.all(np.diff(ratio) < 1e-3)
    given, other = drawn(1.0, 7200.0, 1), drawn(1.0, 7200.0, 2)
    back = wind.averaged_wind(wind.averaged_wind(drawn(1.0, 40.0, 3), given, other), other, given)
    np.testing.assert_allclose(back, drawn(1.0, 40.0, 3), rtol=1e-13)


def test_a_gust_is_never_used() -> None:
    """The wind is the one whose averaging time is its waves' crossing time, and under any shorter one."""
    gust, fetch = drawn(5.0, 50.0, 1), np.geomspace(2e3, 3e4, 500)
    lasting = wind.sustained_wind(gust, np.full(500, 3.0), fetch)
    crossing = wind.crossing_time(fetch, lasting)
    np.testing.assert_allclose(lasting, wind.averaged_wind(gust, np.full(500, 3.0), crossing), rtol=2e-4)
    assert np.all(lasting < wind.averaged_wind(gust, np.full(500, 3.0), np.full(500, 60.0)))


def test_fetch_and_time_are_one_law() -> None:
    blow, fetch = drawn(3.0, 30.0, 1), np.geomspace(50.0, 5e4, 500)
    np.testing.assert_allclose(wind.fetch_crossed(wind.crossing_time(fetch, blow), blow), fetch, rtol=1e-12)


@pytest.mark.parametrize("law", [wind.depth_limited_waves, wind.finite_depth_waves])
def test_more_wind_fetch_or_depth_never_makes_smaller_waves(law) -> None:  # type: ignore[no-untyped-def]
    blow, fetch, depth = drawn(3.0, 25.0, 1), np.geomspace(50.0, 2e4, 500), drawn(1.0, 20.0, 2)
    before = law(blow, fetch, depth)
    for more in ((1.05, 1.0, 1.0), (1.0, 1.05, 1.0), (1.0, 1.0, 1.05)):
        after = law(blow * more[0], fetch * more[1], depth * more[2])
        assert np.all(after[0] >= before[0])
        assert np.all(after[1] >= before[1])


@pytest.mark.parametrize("law", [wind.depth_limited_waves, wind.finite_depth_waves])
def test_no_wind_or_no_fetch_no_waves(law) -> None:  # type: ignore[no-untyped-def]
    for blow, fetch in ((0.0, 3000.0), (20.0, 0.0)):
        assert [each[0] for each in law(np.array([blow]), np.array([fetch]), np.array([4.0]))] == [0.0, 0.0]
    assert np.isnan(law(np.array([np.nan]), np.array([3000.0]), np.array([4.0]))[0][0])


# Waves.


def test_dispersion_closes_at_every_depth() -> None:
    y = np.geomspace(1e-5, 1e3, 20000)
    x = waves.wave_number(2.0 * np.pi / np.sqrt(y * GRAVITY), np.ones_like(y))
    np.testing.assert_allclose(x * np.tanh(x), y, rtol=1e-14)


def test_dispersion_matches_a_root_finder() -> None:
    period, depth = np.geomspace(0.5, 20.0, 200), np.geomspace(30.0, 0.2, 200)
    theirs = [
        scipy.optimize.brentq(
            lambda k, t=t, d=d: GRAVITY * k * np.tanh(k * d) - (2.0 * np.pi / t) ** 2, 1e-6, 1e3, xtol=1e-15, rtol=1e-14
        )
        for t, d in zip(period, depth, strict=True)
    ]
    np.testing.assert_allclose(waves.wave_number(period, depth), theirs, rtol=1e-11)


def test_water_moves_as_cosh_and_sinh_say_and_dies_away_in_depth() -> None:
    period, depth, share = drawn(1.0, 8.0, 1), drawn(0.5, 20.0, 2), drawn(0.0, 1.0, 3)
    number = waves.wave_number(period, depth)
    level, upright = waves.orbital_velocity(np.ones(500), period, number, depth, share * depth)
    swing = np.pi / period / np.sinh(number * depth)
    np.testing.assert_allclose(level, swing * np.cosh(number * share * depth), rtol=1e-12)
    np.testing.assert_allclose(upright, swing * np.sinh(number * share * depth), rtol=1e-9, atol=1e-15)
    bed, still = waves.orbital_velocity(np.ones(500), period, number, depth, np.zeros(500))
    assert np.all(bed <= level)
    assert np.all(still == 0.0)
    deep = np.array([1e4])
    assert (
        waves.orbital_velocity(np.ones(1), np.ones(1), waves.wave_number(np.ones(1), deep), deep, deep * 0.0)[0] == 0.0
    )


def test_no_wave_moves_nothing_and_no_water_is_unknown() -> None:
    nothing = np.zeros(1)
    number = waves.wave_number(nothing, np.array([4.0]))
    assert waves.orbital_velocity(nothing, nothing, number, np.array([4.0]), nothing) == (0.0, 0.0)
    assert waves.spectral_wave(nothing, nothing, np.array([4.0])) == (0.0, 0.0)
    assert waves.spectral_wave(np.ones(1), np.array([0.5]), np.array([1000.0]))[0] == 0.0
    assert np.isnan(waves.wave_number(np.array([3.0, 3.0]), np.array([0.0, -1.0]))).all()


def test_wake_travels_with_the_boat() -> None:
    boat = drawn(1.0, 12.0, 1)
    period = waves.wake_period(boat)
    length = 2.0 * np.pi / waves.wave_number(period, np.full(500, 1e3))
    np.testing.assert_allclose(length / period, boat * np.sqrt(2.0 / 3.0), rtol=1e-12)


def test_spectrum_holds_the_energy_and_matches_an_integral() -> None:
    """Against adaptive quadrature in many times the points; and one wave keeps velocity and acceleration."""

    def density(f: float) -> float:
        width = 0.07 if f <= 1.0 else 0.09
        return f**-5.0 * np.exp(-1.25 * f**-4.0) * 3.3 ** np.exp(-0.5 * ((f - 1.0) / width) ** 2)

    def moved(f: float, peak: float, depth: float) -> float:
        k = waves.wave_number(np.array([peak / f]), np.array([depth]))[0]
        return density(f) * (2.0 * np.pi * f / peak / np.sinh(k * depth)) ** 2

    def over(function, *more: float) -> float:  # type: ignore[no-untyped-def]
        return float(
            sum(scipy.integrate.quad(function, a, b, more, limit=200)[0] for a, b in ((0.3, 1), (1, 2), (2, 8)))
        )

    for height, peak, depth in ((0.7, 2.6, 4.0), (0.5, 3.0, 10.0), (0.3, 2.0, 1.0)):
        exact = height / 4.0 * np.sqrt(over(moved, peak, depth) / over(density))
        given = np.array([height]), np.array([peak]), np.array([depth])
        found = waves.spectral_bed_motion(*given)
        assert found[0][0] == pytest.approx(exact, rel=2e-3)
        wave_height, period = waves.spectral_wave(*given)
        number = waves.wave_number(period, given[2])
        level, _ = waves.orbital_velocity(wave_height, period, number, given[2], np.zeros(1))
        assert level[0] == pytest.approx(2.0 * waves.DESIGN_RATIO * found[0][0], rel=1e-12)
        assert level[0] * 2.0 * np.pi / period[0] == pytest.approx(2.0 * waves.DESIGN_RATIO * found[1][0], rel=1e-12)


def test_spectrum_near_the_fitted_curve() -> None:
    """Soulsby and Smallman's fit, from memory, within 5 % where it was made."""
    for peak in (2.2, 2.6, 3.0, 4.0):
        tn, tz = np.sqrt(4.0 / GRAVITY), peak / 1.281
        t = tn / tz
        fit = 0.25 / (1.0 + (6500.0 + (0.56 + 15.54 * t) ** 6) ** (1.0 / 6.0) * t * t) ** 3 / tn
        found = waves.spectral_bed_motion(np.ones(1), np.array([peak]), np.array([4.0]))[0][0]
        if waves.wave_number(np.array([peak]), np.array([4.0]))[0] * 4.0 < 2.8:
            assert found == pytest.approx(fit, rel=0.05)


# Current.


def test_current_has_the_mean_it_was_given() -> None:
    depth, roughness = 2.0, 3e-4
    z = np.geomspace(roughness, depth, 20001)
    speed = current.logarithmic_current(np.array([1.5]), z, np.array([depth]), np.array([roughness]))
    # The profile as printed leaves out the sliver under the roughness length.
    assert scipy.integrate.trapezoid(speed, z) / depth == pytest.approx(1.5, rel=3e-4)
    assert np.all(np.diff(speed) > 0.0)
    assert np.all(
        current.logarithmic_current(np.array([1.5]), 0.0 * z, np.array([depth]), np.array([roughness])) == 0.0
    )


def test_power_of_a_seventh_has_the_mean_it_was_given() -> None:
    z = np.linspace(0.0, 2.0, 20001)
    speed = current.seventh_power_current(np.ones(1), z, np.array([2.0]))
    assert scipy.integrate.trapezoid(speed, z) / 2.0 == pytest.approx(1.0, rel=3e-3)


def test_a_bed_moves_by_its_grain_or_not_at_all() -> None:
    sizes = [scour.grain_of(bed) for bed in ("silt", "sand", "gravel", "rock")]
    assert sizes == sorted(sizes)
    assert np.isinf(sizes[-1])
    period, depth = np.array([3.0]), np.array([2.0])
    for speed in (scour.stirring_velocity(np.array(sizes), period), scour.scouring_speed(np.array(sizes), depth)):
        assert np.all(np.diff(speed[1:]) > 0.0)
        assert np.isinf(speed[-1])
    shares = scour.dug_share(np.linspace(0.0, 1.0, 101), np.array([0.6]))
    assert shares[0] == shares[30] == 0.0
    assert shares[45] == pytest.approx(0.5)
    assert shares[60] == shares[-1] == 1.0
    grains = np.geomspace(3e-5, 0.1, 2001)
    jump = scour.stirring_velocity(grains, period)
    assert np.max(np.diff(np.log(jump))) < 0.3, "fine and coarse grains meet within a third at half a millimetre"
    assert np.isnan(scour.scouring_speed(np.array([np.nan]), depth)[0])


@pytest.mark.parametrize("table", [current.roughness_length_of, footing.friction_of])
def test_beds_of_the_job_file_are_known(table) -> None:  # type: ignore[no-untyped-def]
    for bed in ("rock", "boulders", "gravel", "sand", "silt", "mud", "clay", "weed", "concrete"):
        assert 0.0 < table(bed) < 1.0
    assert np.isnan(table("unknown"))


# Forces.


def test_coefficients_have_no_jumps() -> None:
    cycles = np.linspace(0.5, 200.0, 400001)
    for each in (force.free_drag_coefficient(cycles), *force.bed_coefficients(cycles)):
        # The steepest is inertia alone, 32.5 over the square of the cycle number.
        assert np.max(np.abs(np.diff(each)) / np.diff(cycles)) < 32.5 / 0.5**2
    level, upward = force.bed_coefficients(cycles)
    assert np.all(np.diff(level * cycles**2) > 0.0)
    assert np.all(np.diff(upward * cycles**2) > 0.0)


def test_peak_of_a_wave_matches_a_search() -> None:
    theta = np.linspace(0.0, 2.0 * np.pi, 100001)
    for drag, inertia in ((1.0, 0.0), (1.0, 0.7), (1.0, 1.999), (1.0, 2.001), (0.0, 1.0), (0.4, 3.0)):
        searched = np.max(drag * np.cos(theta) * np.abs(np.cos(theta)) + inertia * np.sin(theta))
        assert force.wave_peak(np.array([drag]), np.array([inertia]))[0] == pytest.approx(searched, rel=1e-8)


def random_stands(count: int) -> Iterator[Members]:
    """Stands of all kinds of members, inclined ones too."""
    random = np.random.default_rng(8)
    for number in range(count):
        many = int(random.integers(1, 12))
        width = random.uniform(0.02, 0.1, many)
        ends = [np.column_stack([random.uniform(-0.5, 0.5, (many, 2)), random.uniform(0.02, 0.8, many)]) for _ in "ab"]
        section = 0.25 * np.pi * width * width
        yield Members(
            owner=np.full(many, number),
            start=ends[0],
            end=ends[1],
            width=width,
            section=section,
            hollow=random.uniform(0.0, 0.7, many) * section,
            material_density=random.uniform(950.0, 7850.0, many),
            drag=random.choice([1.2, 1.4, 2.0], many),
            inertia=np.full(many, 2.0),
            axial_inertia=random.choice([0.0, 1.5], many),
            on_bed=random.uniform(0.0, 1.0, many) > 0.6,
        )


def random_sea(stands: int, cases: int) -> Sea:
    random = np.random.default_rng(9)

    def between(low: float, high: float) -> Array:
        return random.uniform(low, high, (stands, cases))

    calm = np.where(np.arange(cases) % 4 == 0, 0.0, 1.0)
    slack = np.where(np.arange(cases) % 3 == 0, 0.0, 1.0)
    return Sea(
        wave_height=calm * between(0.1, 1.0),
        period=calm * between(1.5, 4.0),
        depth=between(1.2, 6.0),
        mean_speed=slack * between(0.0, 1.5),
        roughness_length=between(1e-5, 1e-3),
        density=between(997.0, 1000.0),
        heading=between(0.0, 6.2),
    )


def test_loads_match_a_search_over_every_degree() -> None:
    """Against a second writing: vectors in space, every member cut fine, every degree of the wave."""
    stands, sea = list(random_stands(12)), random_sea(12, 6)
    table = together(*stands)
    by = coefficients_of(table, sea)
    found = peak_loads(table, sea, by)
    begin = np.concatenate([[0], np.cumsum([each.owner.size for each in stands])])
    for number, stand in enumerate(stands):
        for case in range(6):
            here = Sea(*(each[number : number + 1, case : case + 1] for each in vars(sea).values()))
            rows = slice(begin[number], begin[number + 1])
            searched = searched_loads(stand, here, by.drag[rows, case], by.inertia[rows, case], by.lift[rows, case])
            for name, largest in zip(("force", "moment", "uplift"), searched, strict=True):
                got = getattr(found, name)[number, case]
                # Three places along a member and a parabola over five degrees, against hundreds of both.
                assert got == pytest.approx(largest, rel=6e-3, abs=2e-3), (number, case, name)


def searched_loads(stand: Members, sea: Sea, drag: Array, inertia: Array, lift: Array) -> tuple[float, float, float]:
    height, period, depth, mean, roughness, density, heading = (float(each[0, 0]) for each in vars(sea).values())
    theta = np.deg2rad(np.arange(360.0))[:, None]
    toward, upright = np.array([np.cos(heading), np.sin(heading), 0.0]), np.array([0.0, 0.0, 1.0])
    total, turned, raised = (np.zeros(360) for _ in range(3))
    omega = 2.0 * np.pi / period if period else 0.0
    cuts = 60
    for i in range(stand.owner.size):
        axis = stand.end[i] - stand.start[i]
        piece = float(np.sqrt(axis @ axis)) / cuts
        axis = axis / (piece * cuts)
        z = stand.start[i, 2] + (np.arange(cuts) + 0.5) * piece * axis[2]
        given = [np.full(cuts, each) for each in (height, period, depth)]
        number = waves.wave_number(given[1], given[2])
        U, W = waves.orbital_velocity(given[0], given[1], number, given[2], 0.0 * z if stand.on_bed[i] else z)
        steady = current.logarithmic_current(*(np.full(cuts, mean), z, given[2], np.full(cuts, roughness)))
        velocity = (steady + np.cos(theta) * U)[..., None] * toward + (np.sin(theta) * W)[..., None] * upright
        rate = omega * ((np.sin(theta) * U)[..., None] * toward - (np.cos(theta) * W)[..., None] * upright)
        across, pull = (each - (each @ axis)[..., None] * axis for each in (velocity, rate))
        size = np.sqrt((across * across).sum(-1))
        push = 0.5 * density * drag[i] * stand.width[i] * size[..., None] * across
        push = push + density * stand.section[i] * inertia[i] * pull
        push = push + density * stand.section[i] * stand.axial_inertia[i] * (rate @ axis)[..., None] * axis
        push = push + 0.5 * density * lift[i] * stand.width[i] * (size * size)[..., None] * upright
        total += (push @ toward).sum(-1) * piece
        turned += ((push @ toward) * z).sum(-1) * piece
        raised += push[..., 2].sum(-1) * piece
    return np.abs(total).max(), np.abs(turned).max(), max(raised.max(), 0.0)


def test_stand_alone_is_its_row_to_the_last_bit() -> None:
    stands, sea = list(random_stands(20)), random_sea(20, 5)
    table = together(*stands)
    water = np.full(table.owner.size, WATER)
    found = peak_loads(table, sea, coefficients_of(table, sea))
    weights = table.of_stands(table.submerged_weight(water, water))
    for number, stand in enumerate(stands):
        only, full = together(stand), np.full(stand.owner.size, WATER)
        assert only.of_stands(only.submerged_weight(full, full))[0] == weights[number]
        for case in range(5):
            here = Sea(*(each[number : number + 1, case : case + 1].copy() for each in vars(sea).values()))
            alone = peak_loads(only, here, coefficients_of(only, here))
            for name in ("force", "moment", "uplift"):
                assert getattr(alone, name)[0, 0] == getattr(found, name)[number, case], (number, case, name)


def test_what_is_the_same_everywhere_is_given_once() -> None:
    stand, sea = together(worked_stand(), worked_stand(riser=0.3)), sea_of(1.0, 2.5, 4.0)
    wide = replace(sea, wave_height=row(0.5, 1.0, 1.2), heading=row(0.0, 0.3, 0.6))
    spread = Sea(*(np.broadcast_to(each, (2, 3)).copy() for each in vars(wide).values()))
    one, other = (peak_loads(stand, each, coefficients_of(stand, each)) for each in (wide, spread))
    for name in ("force", "moment", "uplift"):
        assert getattr(one, name).shape == (2, 3)
        assert getattr(one, name).tobytes() == getattr(other, name).tobytes()


def test_calm_water_does_nothing() -> None:
    stand, sea = worked_stand(), sea_of(0.0, 0.0, 4.0)
    found = peak_loads(stand, sea, coefficients_of(stand, sea))
    assert [each[0, 0] for each in vars(found).values()] == [0.0, 0.0, 0.0]


def test_unknown_seas_stay_unknown() -> None:
    stand = worked_stand()
    for name in ("wave_height", "period", "depth", "mean_speed", "density"):
        sea = replace(sea_of(1.0, 2.5, 4.0), **{name: row(np.nan)})
        assert np.isnan(peak_loads(stand, sea, coefficients_of(stand, sea)).force[0, 0]), name


def test_turning_stand_and_sea_together_changes_nothing() -> None:
    stand, sea = worked_stand(), sea_of(1.0, 2.5, 4.0)
    turn = 0.7
    spin = np.array([[np.cos(turn), -np.sin(turn), 0.0], [np.sin(turn), np.cos(turn), 0.0], [0.0, 0.0, 1.0]])
    turned = replace(stand, start=stand.start @ spin.T, end=stand.end @ spin.T)
    for by in (plain, coefficients_of):
        one = peak_loads(stand, sea, by(stand, sea))
        there = replace(sea, heading=row(turn))
        other = peak_loads(turned, there, by(turned, there))
        assert other.force[0, 0] == pytest.approx(one.force[0, 0], rel=1e-12)
        assert other.uplift[0, 0] == pytest.approx(one.uplift[0, 0], rel=1e-12)


def test_member_along_the_flow_is_not_pushed() -> None:
    rod = Members(
        *(np.array([0]), np.array([[0.0, 0.0, 0.1]]), np.array([[0.5, 0.0, 0.1]]), np.array([OUTSIDE])),
        *(np.array([disc(OUTSIDE)]), np.zeros(1), np.array([PVC]), np.array([1.2]), np.array([2.0]), np.zeros(1)),
        np.array([False]),
    )
    stream = replace(sea_of(0.0, 0.0, 2.0), mean_speed=row(1.5))
    assert peak_loads(rod, stream, coefficients_of(rod, stream)).force[0, 0] == 0.0
    across = replace(stream, heading=row(0.5 * np.pi))
    assert peak_loads(rod, across, coefficients_of(rod, across)).force[0, 0] > 10.0


def test_parabola_finds_the_peak() -> None:
    """Over it by no more than its promise and under it by a ten-thousandth, led by drag or by inertia."""
    for drag, inertia in ((1.0, 0.0), (1.0, 1.0), (1.0, 2.0), (0.3, 2.0), (0.0, 1.0)):
        theta = 2.0 * np.pi / members.PHASES * np.arange(members.PHASES) + 0.02
        sampled = np.abs(drag * np.cos(theta) * np.abs(np.cos(theta)) + inertia * np.sin(theta))
        exact = force.wave_peak(np.array([drag]), np.array([inertia]))[0]
        assert -1e-4 <= members._peak(sampled[:, None])[0] / exact - 1.0 <= 1e-3


# Footing.


def test_polygon_is_measured_from_its_tips() -> None:
    for legs in (3, 4, 5, 6):
        turn = 2.0 * np.pi / legs
        tips = [np.array([np.cos(i * turn), np.sin(i * turn)]) for i in range(2)]
        middle = 0.5 * (tips[0] + tips[1])
        assert footing.tipping_arm(np.ones(1), np.array([float(legs)]))[0] == pytest.approx(
            np.hypot(*middle), rel=1e-14
        )


def test_ballast_closes_its_balance() -> None:
    """With its own drag, moment and lift per kilogram, against the balance itself and against a root finder."""
    push, lift, mu, weight = drawn(0.0, 40.0, 1), drawn(0.0, 15.0, 2), drawn(0.15, 0.6, 3), drawn(-20.0, 30.0, 4)
    own_push, own_lift, kept = (
        drawn(0.0, 1.5, 5),
        drawn(0.0, 0.5, 6),
        footing.kept_share(np.array([7850.0]), np.array([1e3])),
    )
    gain = 1.5 * footing.sliding_need(own_push, own_lift, mu)
    mass = footing.ballast_mass(1.5 * footing.sliding_need(push, lift, mu), weight, gain, kept + 0.0 * gain)
    held = weight + GRAVITY * kept * mass
    asked = 1.5 * footing.sliding_need(push + own_push * mass, lift + own_lift * mass, mu)
    wanted = np.isfinite(mass) & (mass > 0.0)
    np.testing.assert_allclose(held[wanted], asked[wanted], rtol=1e-9)
    assert np.all(held[mass == 0.0] >= asked[mass == 0.0])
    assert np.any(np.isinf(mass))
    assert np.all(GRAVITY * kept - gain[np.isinf(mass)] <= 0.0)
    for i in np.flatnonzero(wanted)[:40]:

        def short(m: float, i: int = i) -> float:
            own = push[i] + own_push[i] * m, lift[i] + own_lift[i] * m
            return float(1.5 * (own[0] / mu[i] + own[1]) - weight[i] - GRAVITY * kept[0] * m)

        root = scipy.optimize.brentq(short, 0.0, 1e6, xtol=1e-12, rtol=1e-14)
        assert mass[i] == pytest.approx(root, rel=1e-9)


def test_ballast_that_asks_more_than_it_gives_never_helps() -> None:
    """Its counter-example: more ballast slides no sooner only while mu times what it weighs passes what it drags."""
    mass = footing.ballast_mass(np.array([30.0]), np.array([10.0]), np.array([9.0]), np.array([0.87]))
    assert mass[0] == np.inf
    assert footing.ballast_mass(np.array([9.0]), np.array([10.0]), np.array([9.0]), np.array([0.87]))[0] == 0.0


def test_steel_angle_turns_against_its_stand_in_a_stream() -> None:
    """38 x 38 x 4.8 mm of 2.68 kg/m across the flow, on sand, without a factor: from 0.7 m/s it drags itself along."""
    speed = np.linspace(0.3, 1.5, 1201)
    one = np.ones_like(speed)
    push = force.drag_force(force.FLAT_DRAG * one, 0.038 / 2.68 * one, speed, WATER * one)
    kept = footing.kept_share(np.array([7850.0]), np.array([WATER]))
    mass = footing.ballast_mass(50.0 * one, 0.0 * one, footing.sliding_need(push, 0.0 * one, 0.35 * one), kept * one)
    turns = speed[np.argmax(np.isinf(mass))]
    assert 0.0 < turns < 1.0
    np.testing.assert_allclose(turns, np.sqrt(0.35 * GRAVITY * kept[0] * 2.68 / (0.5 * WATER * 2.0 * 0.038)), atol=2e-3)


def test_no_friction_cannot_be_weighed_down() -> None:
    need = footing.sliding_need(np.ones(3), np.zeros(3), np.array([0.0, -0.1, np.nan]))
    assert need[:2].tolist() == [np.inf, np.inf]
    assert np.isnan(need[2])
    hopeless = footing.ballast_mass(need, np.full(3, 10.0), need, np.full(3, 0.87))
    assert hopeless[:2].tolist() == [np.inf, np.inf]
    assert np.isnan(hopeless[2])
    steep = footing.slope_friction(np.array([0.35]), np.arctan(np.array([0.35])))
    assert steep[0] == pytest.approx(0.0, abs=1e-15)


def test_mud_holds_where_it_stops() -> None:
    load, area, strength = drawn(5.0, 100.0, 1), drawn(1e-3, 3e-2, 2), drawn(50.0, 2000.0, 3)
    gain, mud, firm = drawn(0.0, 2000.0, 4), drawn(1000.0, 6000.0, 5), np.full(500, 1e9)
    deep = footing.sinking_depth(load, area, strength, gain, mud, firm)
    held = footing.SURFACE_BEARING * (strength + gain * deep) * area + mud * area * deep
    np.testing.assert_allclose(held[deep > 0.0], load[deep > 0.0], rtol=1e-9)
    assert np.all(held[deep == 0.0] >= load[deep == 0.0])
    assert np.all(footing.sinking_depth(load, 2.0 * area, strength, gain, mud, firm) <= deep)
    assert footing.sinking_depth(*(np.array([each]) for each in (9.0, 0.01, 0.0, 0.0, 0.0, 0.4)))[0] == 0.4


# The line.


def test_line_weight_need_falls_outward_of_the_breakers() -> None:
    for height, period in ((1.3, 2.55), (0.97, 2.9), (0.3, 4.0), (0.2, 1.2), (1.5, 3.0)):
        depth = np.linspace(height / 0.78, 30.0, 4000)
        one = np.ones_like(depth)
        need = bed_line.line_weight_need(height * one, period * one, depth, OUTSIDE * one, 0.35 * one, WATER * one)
        # Where the steepest waves break it rises a little first, with the height that stands there.
        assert np.all(np.diff(need)[need[1:] < 0.99 * need[0]] <= 0.0)
        assert np.max(need) <= 1.01 * need[0]


def test_burial_depth_matches_a_root_finder() -> None:
    for height, period, weight in ((1.3, 2.55, 9.0), (0.97, 2.9, 4.2), (0.3, 4.0, 12.0)):
        given = height, period, OUTSIDE, 0.35, weight, WATER

        def short(depth: float, given=given) -> float:  # type: ignore[no-untyped-def]
            h, t, outside, mu, held, rho = given
            return float(bed_line.line_weight_need(*map(np.atleast_1d, (h, t, depth, outside, mu, rho)))[0] - held)

        root = scipy.optimize.brentq(short, height / 0.78, 40.0, xtol=1e-12)
        assert bed_line.burial_depth(*map(np.atleast_1d, given))[0] == pytest.approx(root, abs=1e-8)


def test_floating_line_is_buried_everywhere_and_calm_water_needs_nothing() -> None:
    given = [np.array([each]) for each in (1.0, 2.5, OUTSIDE, 0.35, -1.0, WATER)]
    assert bed_line.burial_depth(*given)[0] == np.inf
    assert bed_line.burial_depth(np.zeros(1), np.zeros(1), *given[2:4], np.array([5.0]), given[5])[0] == 0.0


def test_weights_make_the_line_as_heavy_as_asked() -> None:
    ratio, spacing, outside, ballast = (
        drawn(1.05, 1.5, 1),
        drawn(0.5, 4.0, 2),
        drawn(0.03, 0.1, 3),
        drawn(2300.0, 7850.0, 4),
    )
    displaced = disc(1.0) * outside**2 * WATER
    line = drawn(0.3, 0.95, 5) * displaced
    mass = bed_line.sinking_mass(ratio, spacing, outside, line, ballast, np.full(500, WATER))
    heavy = line * spacing + mass
    np.testing.assert_allclose(heavy / (displaced * spacing + mass * WATER / ballast), ratio, rtol=1e-12)
