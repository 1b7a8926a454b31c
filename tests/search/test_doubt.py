"""How sure: against published indices, closed forms, and one real job whose only unknown is the level."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from lakewright.api.doubt import doubted
from lakewright.api.read import read
from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS
from lakewright.errors import AskError, JobError
from lakewright.lines import doubt_lines
from lakewright.physics.types import Array
from lakewright.search.doubt import doubt, worths
from lakewright.search.indices import indices, worst_margin
from lakewright.search.truths import offs, shares, statuses
from lakewright.state.unknowns import Unknown, read_record, sampled, unknowns_of
from lakewright.state.walk import walk_flow
from tests.published import assert_printed, published
from tests.search.doubt_sites import (
    advice_lines,
    calibration,
    decided_rightly,
    measurements_to_be_right,
    said_sites,
    to_measure,
)

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"


def normal(name: str, spread: float, accuracy: float = math.nan) -> Unknown:
    return Unknown(name, (), (), 0.0, spread, "length", accuracy=accuracy, do=f"measure {name}")


def even(name: str, low: float, high: float) -> Unknown:
    return replace(normal(name, 1.0), low=low, high=high)


# Of sin x + 7 sin2 y + 0.1 z4 sin x, each between minus and plus pi.
@published("ishigami-1990", "indices of the function, a = 7, b = 0.1")
@pytest.mark.parametrize("which, first, total", [(0, "0.314", "0.558"), (1, "0.442", "0.442"), (2, "0.000", "0.244")])
def test_indices_of_a_known_function(which: int, first: str, total: str) -> None:
    def function(at: Array) -> Array:
        x, y, z = at.T
        return np.sin(x) + 7.0 * np.sin(y) ** 2 + 0.1 * z**4 * np.sin(x)

    unknowns = [even(name, -math.pi, math.pi) for name in "xyz"]
    found = indices(function, unknowns, rows=1 << 18, resamples=0)[which]
    assert_printed(found.first, first)
    assert_printed(found.total, total)
    rough = indices(function, unknowns)[which]
    for value, ends in ((first, rough.first_ends), (total, rough.total_ends)):
        assert ends[0] - 0.02 <= float(value) <= ends[1] + 0.02
        assert ends[1] - ends[0] < 0.2


def test_a_number_that_is_missing_has_no_indices() -> None:
    with pytest.raises(ValueError, match="leave out what is missing"):
        indices(lambda at: np.where(at[:, 0] > 0.0, np.nan, at[:, 0]), [normal("x", 1.0)], rows=64)


def test_chance_and_worth_of_a_sum_of_normals() -> None:
    """Surplus 0.3 + 1.0 x + 0.6 y + 0.2 z must not fall under 0: chance and worth have closed forms."""
    weights, surplus = np.array([1.0, 0.6, 0.2]), 0.3
    unknowns = [normal("x", 1.0, 0.5), normal("y", 1.0, 0.1), normal("z", 1.0, 0.1)]
    off = offs(unknowns, shares(1 << 16, 3, seed=3))
    holds = off @ weights + surplus >= 0.0
    whole = float(np.hypot.reduce(weights))
    assert np.mean(holds) == pytest.approx(norm.cdf(surplus / whole), abs=1e-3)
    found = {worth.unknown.name: worth for worth in worths(unknowns, off, holds, seed=3)}
    for n, unknown in enumerate(unknowns):
        # The reading tells so much of the weight; the rest stays in doubt.
        told = weights[n] / math.sqrt(1.0 + unknown.accuracy**2)
        rest = math.sqrt(whole**2 - told**2)

        def right(z: float, told: float = told, rest: float = rest) -> float:
            return norm.pdf(z) * max(norm.cdf((surplus + told * z) / rest), norm.cdf(-(surplus + told * z) / rest))

        turn = -surplus / told
        after = quad(right, -9.0, turn)[0] + quad(right, turn, 9.0)[0]
        gain = after - norm.cdf(surplus / whole)
        assert found[unknown.name].surer == pytest.approx(gain, abs=max(4.0 * found[unknown.name].error, 2e-3))


def test_what_changes_nothing_is_worth_nothing() -> None:
    unknowns = [normal("x", 1.0, 0.1), normal("idle", 1.0, 0.1)]
    off = offs(unknowns, shares(1 << 14, 2, seed=1))
    found = {worth.unknown.name: worth for worth in worths(unknowns, off, off[:, 0] > 0.2, seed=1)}
    assert abs(found["idle"].surer) <= 4.0 * found["idle"].error
    assert found["idle"].clears < 0.01
    assert found["x"].surer > 0.3
    assert found["x"].clears > 0.8


@pytest.mark.parametrize("seed", range(3))
def test_with_the_level_alone_unknown_the_chance_is_that_of_the_level(seed: int) -> None:
    """The first must fails where a bisection finds it, and the chance is the level's own distribution there."""
    facts = read(EXAMPLE)[2].facts
    level = replace(normal("level", 0.6), shift=("days.level",))

    def fails(off: float) -> bool:
        state = walk_flow(sampled(facts, [level], np.array([[off]])))
        musts = (check for check in FLOW_CHECKS if check.force == "must")
        return any((c.function(getattr(state, c.block), facts.limits).status == FAILS).any() for c in musts)

    def edge(good: float, bad: float) -> float:
        assert fails(bad)
        assert not fails(good)
        for _ in range(40):
            middle = 0.5 * (good + bad)
            good, bad = (good, middle) if fails(middle) else (middle, bad)
        return good

    low, high = edge(0.0, -6.0), edge(0.0, 6.0)
    chance = norm.cdf(high / 0.6) - norm.cdf(low / 0.6)
    off = offs([level], shares(1 << 14, 1, seed))
    status = statuses(facts, [level], off, walk_flow, FLOW_CHECKS)
    musts = [n for n, check in enumerate(FLOW_CHECKS) if check.force == "must"]
    assert np.mean((status[:, musts] != FAILS).all(axis=1)) == pytest.approx(chance, abs=5e-4)


def test_a_truth_alone_is_its_row_to_the_last_bit() -> None:
    assembly = read(EXAMPLE)[2]
    unknowns = unknowns_of(assembly)
    off = offs(unknowns, shares(256, len(unknowns), seed=5))
    together = worst_margin(assembly.facts, unknowns, off)
    for row in (0, 17, 255):
        assert worst_margin(assembly.facts, unknowns, off[row : row + 1])[0] == together[row]


def test_nothing_unknown_leaves_no_doubt() -> None:
    facts = read(EXAMPLE)[2].facts
    found = doubt(facts, (), truths=64)
    assert found.job.chance == 1.0
    assert found.worth == ()


def test_of_jobs_said_so_sure_so_many_hold() -> None:
    """Truths drawn from what is said of each site; a few of the sites that the script goes through."""
    found = calibration(said_sites(160, seed=11), truths=128)
    said = np.array([chance for chance, _ in found])
    held = np.array([holds for _, holds in found])
    assert 0.2 < np.mean(said) < 0.95, "sites that are all sure, or all lost, show nothing"
    assert abs(np.mean(held) - np.mean(said)) < 3.0 * math.sqrt(float(np.mean(said * (1.0 - said))) / len(said))
    middle = (said > 0.25) & (said < 0.75)
    assert middle.sum() > 20
    assert abs(np.mean(held[middle]) - np.mean(said[middle])) < 3.0 * math.sqrt(0.25 / middle.sum())


def test_measured_as_advised_or_not_all_readings_end_in_one_decision() -> None:
    """The readings are the same in both orders; a few of the sites that the script goes through."""
    sites = said_sites(12, seed=4)
    ways = [[decided_rightly(site, advised, 128, n) for n, site in enumerate(sites)] for advised in (True, False)]
    for advised, usual in zip(*ways, strict=True):
        assert len(advised) == len(usual) > 3
        assert (advised[0], advised[-1]) == (usual[0], usual[-1])
    assert "12 doubtful sites" in next(advice_lines(*ways))


def test_a_decision_is_right_when_it_stays_so() -> None:
    found = [measurements_to_be_right(each) for each in ([True] * 3, [False, True, True], [True, False, True], [False])]
    assert found == [0, 1, 2, 1]


def test_what_was_measured_as_well_before_is_not_measured_again() -> None:
    site = said_sites(1, seed=2)[0]
    left = [site.unknowns[n] for n in to_measure(site.unknowns)]
    assert left
    assert all(each.accuracy < each.deviation() for each in left)


def test_a_job_gives_its_own_doubt(tmp_path: Path) -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    height, length = 'height   = { value = "7.7 ft", measured = 2026-05-03 }', 'length   = { value = "160 ft", measured'
    assert height in text
    assert length in text
    text = text.replace(height, 'height   = "7..9 ft"').replace(length, 'length   = { value = "160 +- 8 ft", measured')
    file = tmp_path / "own.toml"
    file.write_text(text, encoding="utf-8")
    found = {each.name: each for each in unknowns_of(read(file)[2])}
    pump, line = found["height of the pump"], found["length of the delivery line"]
    assert [pump.low, pump.high] == pytest.approx([-0.3048, 0.3048])
    assert (line.bias, line.spread) == pytest.approx((0.0, 0.05))
    assert pump.quantile(np.array([0.0, 0.5, 1.0])) == pytest.approx([-0.3048, 0.0, 0.3048])


def test_told_is_wider_than_measured_and_the_shops_record_is_believed(tmp_path: Path) -> None:
    assembly = read(EXAMPLE)[2]
    told = replace(assembly, standings={**assembly.standings, "pump.height": "told"})
    before, after = (
        next(each for each in unknowns_of(one) if each.name == "height of the pump") for one in (assembly, told)
    )
    assert after.spread > 4.0 * before.spread
    assert after.bias == pytest.approx(2 * 0.3048)
    book = tmp_path / "said.csv"
    rows = [("8 ft", f"{8 + more} ft") for more in (1, 2, 3, 2, 2)]
    book.write_text(
        "unknown,said,found\n" + "".join(f"height of the pump,{said},{found}\n" for said, found in rows),
        encoding="utf-8",
    )
    record = read_record(book)
    mine = next(each for each in unknowns_of(told, record) if each.name == "height of the pump")
    assert (mine.bias, mine.spread) == pytest.approx((2 * 0.3048, math.sqrt(0.5) * 0.3048))


def test_a_scaled_unknown_is_recorded_in_its_own_units(tmp_path: Path) -> None:
    """Depths of 20 ft found a tenth less: the record is of shares, whatever it is written in."""
    book = tmp_path / "said.csv"
    pairs = ("20 ft,18 ft", "10 m,9 m", "20 ft,19 ft", "20 ft,17 ft", "20 ft,18 ft")
    book.write_text(
        "unknown,said,found\n" + "".join(f"depth at the stand,{pair}\n" for pair in pairs), encoding="utf-8"
    )
    bias, spread = read_record(book)["depth at the stand"]
    assert (bias, spread) == pytest.approx((-0.1, math.sqrt(0.005 / 4.0)))


@pytest.mark.parametrize(
    "text, words",
    [
        ("", "line 1: found nothing; wanted the columns unknown, said, found"),
        ("unknown,said,found\nheight of the moon,1 ft,2 ft\n", 'line 2: found the unknown "height of the moon"'),
        ("unknown,said,found\nheight of the pump,8,9 ft\n", 'line 2: found "8", a number without a unit'),
        ("unknown,said,found\nflow wanted,0 gpm,9 gpm\n", "line 2: found 0 said"),
        ("unknown,said,found\n,1 ft,2 ft\n", 'line 2: found the unknown ""'),
        (f"unknown,said,found\nflow wanted,{'9' * 140_000},1\n", "line 2: found field larger than field limit"),
    ],
)
def test_a_record_that_cannot_be_used_is_said_to_be(tmp_path: Path, text: str, words: str) -> None:
    book = tmp_path / "said.csv"
    book.write_text(text, encoding="utf-8")
    with pytest.raises(AskError, match=r"said\.csv") as error:
        read_record(book)
    assert words in str(error.value)


def test_a_record_that_is_no_text_is_said_to_be_none(tmp_path: Path) -> None:
    book = tmp_path / "said.csv"
    book.write_bytes(b"unknown,said,found\nflow wanted,5 gpm,\xff\n")
    with pytest.raises(JobError, match="line 2") as error:
        read_record(book)
    assert "found   the byte 0xff" in str(error.value)
    with pytest.raises(JobError, match="no such file"):
        read_record(tmp_path / "none.csv")


def test_what_is_printed_says_what_to_measure_and_what_waits() -> None:
    few = 1 << 10
    stream = "\n".join(doubt_lines(doubted(EXAMPLE.with_name("stream_irrigation.toml"), truths=few)))
    assert "of 100 hold" in stream
    assert "read cut-in and cut-out on a good gauge" in stream
    waiting = "\n".join(doubt_lines(doubted(EXAMPLE.with_name("year_round_cabin_open.toml"), truths=few)))
    assert "Nobody can say how many of 100 hold" in waiting
    assert "%" not in "".join(line for line in stream.splitlines() if "of 100" in line)
