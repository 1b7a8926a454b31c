"""Small parts: every kind is there, what is said of one agrees with the next, and pipes find their ends."""

from __future__ import annotations

import itertools
import math

import pytest

from lakewright.stock.kinds import FIGURES, KINDS
from lakewright.stock.load import load_stock
from lakewright.stock.measure import FOOT, INCH, POUND, PSI
from lakewright.stock.ports import _MEETS, PIPE_ENDS, PORT_KINDS, SERIES, Port, meets
from lakewright.stock.rows import Part, Pipe
from lakewright.stock.table import NOMINAL

pytestmark = pytest.mark.law

STOCK = load_stock()
PARTS = tuple(STOCK.parts.values())
# What ends in 1/4 in carries a gauge, and no water runs through it.
NARROWING = tuple(
    part for part in PARTS if part.kind in ("bushing", "reducing coupling") and not part.size.endswith(" x 1/4")
)
WET = tuple(part for part in PARTS if part.ports)
TURNS = ("elbow", "elbow 45", "tee", "cross", "priming tee")

# What a water path is made of, by the kinds of our tables.
NAMED = {
    "nipples": "nipple",
    "blind nipples": "blind nipple",
    "reducing nipples": "reducing nipple",
    "elbows": "elbow",
    "tees": "tee",
    "crosses": "cross",
    "caps": "cap",
    "reducers": "reducing coupling",
    "bushings": "bushing",
    "couplings": "coupling",
    "unions": "union",
    "priming tee": "priming tee",
    "priming plug": "priming plug",
    "ball valves": "ball valve",
    "gate valves": "gate valve",
    "spring checks": "spring check",
    "swing checks": "swing check",
    "strainers": "strainer",
    "male adapters": "male adapter",
    "female adapters": "female adapter",
    "stiffeners": "stiffener",
    "clamps": "clamp",
    "compound gauges": "compound gauge",
    "pressure gauges": "pressure gauge",
    "pressure switch": "pressure switch",
    "low-pressure cut-off": "low-pressure cut-off",
    "flow control": "flow control",
    "relief": "relief valve",
    "drains": "drain",
    "hose bibs": "hose bib",
    "sample taps": "sample tap",
    "sediment filters": "sediment filter",
    "absolute filter": "absolute filter",
    "chlorine feeder": "chlorine feeder",
    "contact tank": "contact tank",
    "ultraviolet": "ultraviolet",
    "pressure-flow controllers": "pressure-flow controller",
    "variable-speed controllers": "variable-speed controller",
    "float switch": "float switch",
    "storage tanks": "storage tank",
    "cable": "cable",
    "mud pads": "mud pad",
    "ballast": "ballast",
    "straps": "strap",
    "stakes": "stake",
    "dock bracket": "bracket",
    "stilling pipe": "stilling pipe",
    "haul rope": "haul rope",
    "float": "float",
    "thread tape": "thread tape",
    "thread paste": "thread paste",
    "O-rings": "O-ring",
}


def test_every_kind_of_part_is_there() -> None:
    kinds = {part.kind for part in PARTS}
    assert [word for word, kind in NAMED.items() if kind not in kinds] == []
    assert kinds == set(KINDS)


def test_the_other_tables_hold_the_rest_of_the_path() -> None:
    families = {(pipe.family, pipe.compound) for pipe in STOCK.pipes.values()}
    assert {family for family, _ in families} == set(PIPE_ENDS)
    assert {("polyethylene", "PE4710"), ("polyethylene", "PE3608")} < families
    assert {valve.spring for valve in STOCK.foot_valves.values()} == {True, False}
    for table in (STOCK.screens, STOCK.tanks, STOCK.pumps, STOCK.jets):
        assert len(table) >= 6


def test_nipples_come_close_and_long_in_three_materials() -> None:
    for material in ("PVC schedule 80", "brass", "galvanized"):
        for size in ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3"):
            for length in ("close", "4 in", "6 in", "12 in"):
                assert STOCK.part(f"nipple, {material}, {size} x {length}").kind == "nipple"


@pytest.mark.parametrize("part", WET, ids=lambda part: part.name)
def test_a_part_that_holds_water_hangs_together(part: Part) -> None:
    assert len(part.make_up) == len(part.ports)
    for port, make_up in zip(part.ports, part.make_up, strict=True):
        assert port.kind in PORT_KINDS
        assert port.size in NOMINAL
        assert port.series in SERIES[port.kind]
        assert make_up > 0.0
    assert part.rating >= 50.0 * PSI
    widest = max(NOMINAL[port.size] for port in part.ports)
    assert 0.0 < part.bore <= 1.46 * widest * INCH  # a 1/4 in thread stands on 0.364 in of bore
    # Only what parts in three has a way into a branch, and it loses more there than straight on.
    assert math.isnan(part.branch_times_ft) or (len(part.ports) > 2 and part.branch_times_ft > part.times_ft)
    if len(part.ports) > 2 and NOMINAL[part.ports[2].size] > 0.5:
        assert not math.isnan(part.branch_times_ft)
    assert part.origin


def test_what_joins_two_ends_leaves_room_between_them() -> None:
    for part in WET:
        if len(part.ports) == 2 and part.kind not in TURNS:
            inside = [port.kind != "thread out" for port in part.ports]
            taken = [m for m, within in zip(part.make_up, inside, strict=True) if within or part.kind == "nipple"]
            if part.kind in ("nipple", "coupling", "union", "ball valve", "gate valve", "spring check"):
                assert part.length > sum(taken), part.name
            assert part.length > max(part.make_up) * 0.99, part.name


def test_losses_are_those_of_the_table_of_fittings() -> None:
    at = STOCK.ft("1-1/4")
    for kind, row in (
        ("elbow", "elbow"),
        ("elbow 45", "elbow 45"),
        ("tee", "tee run"),
        ("ball valve", "ball valve"),
        ("gate valve", "gate valve"),
        ("swing check", "swing check"),
        ("union", "union"),
    ):
        for part in PARTS:
            if part.kind == kind and "insert" not in part.series and "compression" not in part.series:
                known = STOCK.fitting(row).loss_coefficient(at)
                beads = 0.08 if part.series == "HDPE fused" and kind != "union" else 0.0
                assert part.loss_coefficient(at) == pytest.approx(known + beads), part.name
    insert = STOCK.part("coupling, SIDR insert, nylon, 1-1/4 in")
    assert insert.loss_coefficient(at) == pytest.approx(STOCK.fitting("insert").loss_coefficient(at), abs=0.001)
    tee = STOCK.part("tee, brass, 1-1/4 in")
    assert tee.branch_loss_coefficient(at) == pytest.approx(STOCK.fitting("tee branch").loss_coefficient(at))


def test_a_bushing_loses_more_the_more_it_narrows() -> None:
    one, two = (STOCK.part(f"bushing, brass, 1-1/2 x {size} in").fixed for size in ("1-1/4", "1"))
    # 0.5 (1 - b^2), worked out by hand from the bores of schedule 40.
    assert (one, two) == pytest.approx((0.133, 0.288), abs=0.0006)


def test_a_nipple_weighs_what_its_pipe_does() -> None:
    series = {"PVC": "PVC, schedule 80", "galvanized steel": "galvanized steel, schedule 40"}
    for part in PARTS:
        if part.kind in ("nipple", "blind nipple") and part.material in series:
            pipe = STOCK.pipe(f"{series[part.material]}, {part.size} in")
            tube = pipe.outside**2 - pipe.bore**2
            solid = pipe.outside**2 / tube if part.kind == "blind nipple" else 1.0
            # To four places of a pound, as written.
            assert part.mass == pytest.approx(pipe.mass * part.length * solid, abs=0.000051 * POUND), part.name


def test_what_weighs_a_stand_down_weighs_what_its_stuff_does() -> None:
    # kg/m3: steel and iron from memory of handbooks, 145 lb/ft3 of concrete, grains of quartz, dry sand in plastic.
    stuff = {"steel": 7850.0, "cast iron": 7208.0, "concrete": 2323.0, "sand": 2650.0, "PVC and sand": 1510.0}
    for part in PARTS:
        if part.kind == "ballast":
            assert part.mass / part.figures["volume"] == pytest.approx(stuff[part.material], rel=0.005), part.name
            # Seen from the side it shows about what a cylinder of its length would; what lies flat shows less.
            across = math.sqrt(4.0 * part.figures["volume"] / (math.pi * part.length))
            assert 0.4 * across <= part.figures["width"] <= 3.0 * across, part.name
        if part.kind == "stake":
            rod = 0.25 * math.pi * part.figures["thickness"] ** 2 * part.length
            assert part.mass / rod == pytest.approx(7850.0, rel=0.001), part.name


def test_threaded_plastic_carries_half_of_its_pipe() -> None:
    for part in PARTS:
        if part.series == "PVC socket":
            plain = STOCK.pipe(f"PVC, schedule 40, {part.size} in").rating
            threaded = any(port.kind.startswith("thread") for port in part.ports)
            assert part.rating / plain == pytest.approx(0.5 if threaded else 1.0, abs=0.01), part.name


@pytest.mark.parametrize("pipe", [p for p in STOCK.pipes.values() if p.size != "4"], ids=lambda pipe: pipe.name)
def test_every_pipe_finds_an_end_that_brings_it_to_a_thread(pipe: Pipe) -> None:
    end = pipe.ports[0]
    thread = Port(pipe.size, "NPT", "thread out")
    if end == thread:
        return
    adapters = [
        part for part in PARTS if part.kind == "male adapter" and meets(part.ports[0], end) and part.ports[1] == thread
    ]
    assert adapters
    # Adapters for PVC are made to schedule 40, which is wider inside.
    assert pipe.series == "schedule 80" or all(part.bore <= 1.05 * pipe.bore for part in adapters)


def test_an_end_belongs_to_one_family() -> None:
    pipes = {family: Port("1-1/2", series, kind) for family, (series, kind) in PIPE_ENDS.items() if kind == "plain end"}
    adapters = {part.ports[0] for part in PARTS if part.kind == "male adapter" and part.ports[0].size == "1-1/2"}
    taken = {family: sorted(str(a) for a in adapters if meets(a, end)) for family, end in pipes.items()}
    assert taken == {
        "polyethylene": ["barb 1-1/2 SIDR"],
        "HDPE": ["compression 1-1/2 IPS HDPE", "fuse 1-1/2 IPS HDPE"],
        "CTS tubing": ["compression 1-1/2 CTS"],
        "PVC": ["socket 1-1/2 IPS PVC"],
        "copper": ["socket 1-1/2 CTS copper"],
        "suction hose": ["hose 1-1/2 hose bore"],
        "lay-flat": ["hose 1-1/2 lay-flat bore"],
    }


def test_ports_meet_the_same_way_round() -> None:
    ports = [Port(size, series, kind) for kind in PORT_KINDS for series in SERIES[kind] for size in ("1", "2")]
    assert set(_MEETS) | {"plain end"} == set(PORT_KINDS)
    for one in ports:
        for other in ports:
            assert meets(one, other) is meets(other, one)
            if meets(one, other):
                assert (one.size, one.series) == (other.size, other.series)
    male, female = Port("1", "NPT", "thread out"), Port("1", "NPT", "thread in")
    assert meets(male, female)
    assert not meets(male, male)
    assert not meets(male, Port("1-1/4", "NPT", "thread in"))
    assert not meets(Port("3/4", "GHT", "thread out"), Port("3/4", "NPT", "thread in"))


def test_every_pump_tank_and_valve_takes_a_nipple() -> None:
    nipples = {part.ports[0] for part in PARTS if part.kind == "nipple"}
    for table in (STOCK.pumps, STOCK.jets, STOCK.tanks, STOCK.foot_valves):
        for row in table.values():
            for port in row.ports:
                assert any(meets(port, nipple) for nipple in nipples), (row.name, port)


def test_a_clamp_closes_on_every_pipe_that_takes_a_barb_or_a_shank() -> None:
    clamps = [part for part in PARTS if part.kind == "clamp"]
    for pipe in STOCK.pipes.values():
        if pipe.family in ("polyethylene", "suction hose", "lay-flat"):
            own = [clamp.figures for clamp in clamps if clamp.size == pipe.size]
            assert any(f["least_diameter"] <= pipe.outside <= f["most_diameter"] for f in own), pipe.name


def test_figures_are_those_of_the_kind_and_make_sense() -> None:
    for part in PARTS:
        assert set(part.figures) == set(KINDS[part.kind]), part.name
        assert set(part.figures) <= set(FIGURES)
        figures = part.figures
        if "cut_in" in figures:
            assert figures["cut_out"] - figures["cut_in"] == pytest.approx(20.0 * PSI), part.name
        if "trips_below" in figures:
            assert figures["cut_in"] - figures["trips_below"] == pytest.approx(10.0 * PSI), part.name
        if "set_pressure" in figures:
            assert figures["set_pressure"] < part.rating
        if part.kind == "ballast":
            assert part.mass > 1000.0 * figures["volume"]
        if part.kind in ("sediment filter", "absolute filter"):
            # Media and ports each take a share of the loss, and neither gives any back.
            low, high = (figures[f"{end}_drop"] / figures[f"{end}_flow"] for end in ("low", "high"))
            turbulent = (high - low) / (figures["high_flow"] - figures["low_flow"])
            assert turbulent > 0.0
            assert low > turbulent * figures["low_flow"], part.name


def test_thicker_cable_resists_less_and_carries_more() -> None:
    cables = [part for part in PARTS if part.kind == "cable"]
    assert [cable.size for cable in cables] == ["14", "12", "10", "8", "6", "4"]
    for thinner, thicker in itertools.pairwise(cables):
        assert thicker.figures["resistance"] < thinner.figures["resistance"]
        for heat in (60, 75, 90):
            assert thicker.figures[f"ampacity_{heat}"] > thinner.figures[f"ampacity_{heat}"]
        assert thicker.mass > thinner.mass
        assert thicker.prices.length == FOOT


def test_a_bare_strainer_is_wider_than_any_fish_screen() -> None:
    widest = max(screen.opening for screen in STOCK.screens.values())
    for valve in STOCK.foot_valves.values():
        assert valve.strainer_opening > widest
        pipe = 0.25 * math.pi * valve.bore**2
        assert 3.0 <= valve.strainer_area / pipe <= 4.01


@pytest.mark.parametrize("part", NARROWING, ids=lambda part: part.name)
def test_a_reducer_loses_what_a_sudden_narrowing_does(part: Part) -> None:
    """Half of what the bore's area lacks of the larger one's, on the velocity in the smaller."""
    larger = part.size.partition(" x ")[0]
    wide = next(
        each.bore
        for each in STOCK.parts_of("coupling")
        if (each.size, each.series, each.material) == (larger, part.series, part.material)
    )
    # Three decimals are written down.
    assert part.fixed == pytest.approx(0.5 * (1.0 - (part.bore / wide) ** 2), abs=1e-3)
