"""Joints: the shortest chain of fittings between two ports, against all chains there are."""

from __future__ import annotations

import dataclasses
import itertools
import math
import random
import time
from collections.abc import Iterator

import fluids.fittings
import pytest

from lakewright.stock.joints import JOINS, Joint, joint, loss_on, oriented, takers
from lakewright.stock.load import load_stock
from lakewright.stock.measure import INCH
from lakewright.stock.ports import Port, meets
from lakewright.stock.rows import Part

pytestmark = pytest.mark.law

STOCK = load_stock()
FITTINGS = [part for part in STOCK.parts.values() if part.kind in JOINS]
PORTS = sorted(
    {port for part in STOCK.parts.values() for port in part.ports}
    | {
        port
        for table in (STOCK.pipes, STOCK.pumps, STOCK.jets, STOCK.tanks)
        for row in table.values()
        for port in row.ports
    }
)


def chains(upstream: Port, downstream: Port) -> Iterator[tuple[Part, ...]]:
    """Every chain of none to two fittings, whichever way round each goes, by looking at all pairs of them."""
    if meets(upstream, downstream):
        yield ()
    both_ways = [(part, *way) for part in FITTINGS for way in (part.ports, part.ports[::-1])]
    firsts = [(part, out) for part, taking, out in both_ways if meets(upstream, taking)]
    lasts = [(part, taking) for part, taking, out in both_ways if meets(out, downstream)]
    for part, out in firsts:
        if meets(out, downstream):
            yield (part,)
    for (one, out), (other, taking) in itertools.product(firsts, lasts):
        if meets(out, taking):
            yield one, other


def cost(parts: tuple[Part, ...], preferred: tuple[str, ...]) -> tuple[int, int, int, list[str]]:
    strange = sum(bool(preferred) and part.material not in preferred for part in parts)
    return len(parts), strange, sum(part.price for part in parts), [part.name for part in parts]


@pytest.mark.parametrize("seed", range(60))
def test_the_chain_is_the_first_of_all_chains(seed: int) -> None:
    rng = random.Random(f"joint {seed}")
    one, other = rng.choice(PORTS), rng.choice(PORTS)
    for preferred in ((), ("brass", "PVC"), ("brass",)):
        found, all_chains = joint(STOCK, one, other, preferred), list(chains(one, other))
        if not all_chains:
            assert found is None, (one, other)
        else:
            assert found is not None, (one, other)
            assert cost(found.parts, preferred) == min(cost(parts, preferred) for parts in all_chains)


def test_a_sample_of_pairs_joins_and_a_sample_does_not() -> None:
    rng = random.Random("pairs")
    found = [joint(STOCK, rng.choice(PORTS), rng.choice(PORTS)) for _ in range(400)]
    joined = sum(each is not None for each in found)
    assert 0.1 < joined / len(found) < 0.9


@pytest.mark.parametrize(
    "one, other, names",
    [
        # ports that meet need nothing
        ("thread in 1-1/4 NPT", "thread out 1-1/4 NPT", ()),
        ("barb 1-1/4 SIDR", "plain end 1-1/4 SIDR", ()),
        # one fitting
        ("thread in 1-1/4 NPT", "plain end 1-1/4 SIDR", ("male adapter, SIDR insert, nylon, 1-1/4 in",)),
        ("plain end 1-1/2 SIDR", "plain end 1-1/2 SIDR", ("coupling, SIDR insert, nylon, 1-1/2 in",)),
        ("thread in 1 NPT", "thread in 1-1/4 NPT", ("reducing nipple, brass, 1-1/4 x 1 in",)),
        ("plain end 2 hose bore", "thread in 2 NPT", ("male adapter, hose shank, brass, 2 in",)),
        # two
        (
            "thread out 2 NPT",
            "thread out 1 NPT",
            ("reducing coupling, PVC schedule 80, 2 x 1-1/2 in", "bushing, PVC schedule 80, 1-1/2 x 1 in"),
        ),
        (
            "thread in 2 NPT",
            "thread in 3/4 NPT",
            ("bushing, PVC schedule 80, 2 x 3/4 in", "nipple, PVC schedule 80, 3/4 x close"),
        ),
        # no chain: it would take three, a garden hose, pipe far off in size
        ("thread out 3 NPT", "thread out 1/2 NPT", None),
        ("thread out 3/4 GHT", "thread in 3/4 NPT", None),
        ("plain end 1/2 CTS", "plain end 3 SIDR", None),
    ],
)
def test_chains_a_shop_knows(one: str, other: str, names: tuple[str, ...] | None) -> None:
    found = joint(STOCK, port_of(one), port_of(other))
    assert (None if found is None else tuple(part.name for part in found.parts)) == names


def port_of(text: str) -> Port:
    kind = next(kind for kind in ("thread in", "thread out", "plain end", "barb") if text.startswith(kind))
    size, _, series = text.removeprefix(kind).strip().partition(" ")
    return Port(size, series, kind)


def test_nothing_but_fittings_made_to_join_joins() -> None:
    taken = {part.kind for port in PORTS for part, _ in takers(STOCK, port)}
    assert taken == set(JOINS)
    assert not taken & {"tee", "cross", "union", "ball valve", "spring check", "cap", "plug", "elbow"}


def test_pipe_ends_of_different_families_meet_only_through_a_thread() -> None:
    insert, shank = Port("1-1/2", "SIDR", "plain end"), Port("1-1/2", "hose bore", "plain end")
    found = joint(STOCK, insert, shank)
    assert found is not None
    assert oriented(found.parts, insert) == [(0, 1), (1, 0)]
    assert [part.ports[1].kind.split()[0] for part in found.parts] == ["thread", "thread"]
    assert [part.ports[0].kind for part in found.parts] == ["barb", "hose"]
    for series in ("IPS HDPE", "CTS"):
        for part, _ in takers(STOCK, Port("1-1/2", series, "plain end")):
            assert not {port.kind for port in part.ports} & {"barb", "hose"}


def test_a_chain_laid_the_other_way_is_as_long_and_costs_the_same() -> None:
    rng = random.Random("back")
    for _ in range(200):
        one, other = rng.choice(PORTS), rng.choice(PORTS)
        there, back = joint(STOCK, one, other), joint(STOCK, other, one)
        assert (there is None) is (back is None)
        if there is not None and back is not None:
            assert (len(there.parts), there.price) == (len(back.parts), back.price)


def test_mass_price_bore_and_length_are_those_of_the_parts() -> None:
    tap, tee = Port("3/4", "NPT", "thread in"), Port("2", "NPT", "thread in")
    found = joint(STOCK, tee, tap, ("brass",))
    assert found is not None
    assert [part.name for part in found.parts] == ["bushing, brass, 2 x 3/4 in", "nipple, brass, 3/4 x close"]
    bushing, nipple = found.parts
    assert found.mass == pytest.approx(bushing.mass + nipple.mass)
    assert found.price == bushing.price + nipple.price
    assert found.bore == min(bushing.bore, nipple.bore)
    # Make-up comes off where the bushing goes into the tee, the nipple into the bushing, and into the tap.
    small, large = STOCK.make_up["thread 3/4 NPT"], STOCK.make_up["thread 2 NPT"]
    assert found.length == pytest.approx(bushing.length + nipple.length - large - 2.0 * small)


def test_ports_that_meet_stand_one_in_the_other() -> None:
    found = joint(STOCK, Port("1", "NPT", "thread in"), Port("1", "NPT", "thread out"))
    assert found == Joint((), -STOCK.make_up["thread 1 NPT"], math.inf, 0.0, 0)


@pytest.mark.parametrize("bore", [0.02, 0.035, 0.052])
def test_losses_move_from_bore_to_bore_as_a_library_moves_them(bore: float) -> None:
    bushing = STOCK.part("bushing, brass, 2 x 1-1/4 in")
    steel = STOCK.pipe("galvanized steel, schedule 40, 1-1/4 in").bore
    assert loss_on(bushing, STOCK, bore) == pytest.approx(fluids.fittings.change_K_basis(bushing.fixed, steel, bore))
    tee = STOCK.part("priming tee, brass, 1-1/4 x 1-1/4 x 3/4 in")
    straight = 20.0 * STOCK.ft("1-1/4")
    assert loss_on(tee, STOCK, bore) == pytest.approx(fluids.fittings.change_K_basis(straight, steel, bore))


def test_the_way_into_a_branch_loses_more_than_straight_on() -> None:
    for name in ("tee, brass, 1-1/4 in", "cross, brass, 2 in", "priming tee, brass, 1-1/4 x 1-1/4 x 3/4 in"):
        tee = STOCK.part(name)
        assert loss_on(tee, STOCK, 0.03, branch=True) > loss_on(tee, STOCK, 0.03)


def test_a_joint_loses_what_its_parts_do() -> None:
    found = joint(STOCK, Port("1-1/2", "SIDR", "plain end"), Port("1-1/4", "NPT", "thread in"), ("brass",))
    assert found is not None
    assert found.loss_coefficient(STOCK, 1.61 * INCH) == pytest.approx(
        math.fsum(loss_on(part, STOCK, 1.61 * INCH) for part in found.parts)
    )


def test_another_stock_has_its_own_joints() -> None:
    other = dataclasses.replace(STOCK, parts=STOCK.parts.overlaid({}))
    assert other != STOCK
    pump, line = Port("1-1/4", "NPT", "thread in"), Port("1-1/4", "SIDR", "plain end")
    assert joint(other, pump, line) == joint(STOCK, pump, line)


def test_thousands_of_questions_take_no_time() -> None:
    rng = random.Random("many")
    asked = [(rng.choice(PORTS), rng.choice(PORTS)) for _ in range(5000)]
    for one, other in asked:
        joint(STOCK, one, other)
    start = time.perf_counter()
    for one, other in asked:
        joint(STOCK, one, other)
    assert time.perf_counter() - start < 0.5
