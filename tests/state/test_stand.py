"""Stands as built: everything joins in space, is cut to length, and stands where it was asked to."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from lakewright.api.read import read
from lakewright.job.read import read_job_text
from lakewright.state.assemble import facts_of
from lakewright.state.bill import bill_of
from lakewright.state.cut_list import MOST_MASS, cut_list, knocked_down, making_of
from lakewright.state.placed import At, Placed, Stand, footprint_of, parts_of
from lakewright.state.runs import MOST_NIPPLES, MOST_OVER, NO_SHORTER, run_of
from lakewright.state.stand import stand_of
from lakewright.state.stand_ballast import ballast_pieces
from lakewright.state.stand_built import built
from lakewright.state.stand_head import METAL, TO_THE_LINE, Head
from lakewright.state.stand_parts import ways_through
from lakewright.stock.joints import engagement
from lakewright.stock.measure import FOOT, INCH
from lakewright.stock.ports import Port, meets
from lakewright.stock.rows import Part, Pipe
from tests.state.random_jobs import drawn_text
from tests.state.random_stands import FORMS, SIZES, STOCK, asked, stand

EXAMPLES = Path(__file__).parents[2] / "examples"
SEEDS = range(300)
HUNDREDTH = 0.01 * INCH


def is_pipe(placed: Placed) -> bool:
    return placed.kind in ("nipple", "pipe", "blind nipple")


def under(found: Stand) -> set[int]:
    """The parts that water passes or stands in under suction, found by following the joins from the line."""
    met = {one: other for pair in found.joins for one, other in (pair, pair[::-1])}
    assert found.line_end is not None
    seen, ahead = set(), [found.line_end.part]
    while ahead:
        part = ahead.pop()
        if part in seen or found.placed[part].kind == "blind nipple":
            continue
        seen.add(part)
        ends = [met.get(At(part, mouth)) for mouth in range(len(found.placed[part].mouths))]
        ahead += [end.part for end in ends if end is not None]
    return seen


# --- law: 300 stands --------------------------------------------------------------------------------------------


@pytest.mark.law
@pytest.mark.parametrize("seed", SEEDS)
def test_every_mouth_meets_one_made_for_it_in_one_point_or_is_open_by_intent(seed: int) -> None:
    found = stand(seed)
    assert found.gaps == ()
    every = [At(n, m) for n, placed in enumerate(found.placed) for m in range(len(placed.mouths))]
    taken = Counter(at for pair in found.joins for at in pair) + Counter(at for at, _ in found.openings)
    assert taken == Counter(every)
    assert found.unmet == ()
    for one, other in found.joins:
        first, second = (found.placed[at.part].mouths[at.mouth] for at in (one, other))
        assert meets(first.port, second.port)
        assert math.dist(first.at, second.at) < 1e-9
        assert math.dist(first.facing, [-each for each in second.facing]) < 1e-12
    words = [to for _, to in found.openings]
    assert words.count(TO_THE_LINE) == 1
    assert set(words) <= {TO_THE_LINE, "the lake", "the lake, under the screen"}


@pytest.mark.law
@pytest.mark.parametrize("seed", SEEDS)
def test_cut_and_make_up_come_to_centre_to_centre(seed: int) -> None:
    found = stand(seed)
    pieces = cut_list(found, STOCK)
    assert sum(piece.count for piece in pieces) == sum(is_pipe(placed) for placed in found.placed)
    for piece in pieces:
        # The lengths of the fittings and the threads as the stock has them, not as the drawing does.
        make_up = STOCK.make_up[f"thread {piece.size} NPT"]
        ends = []
        for kind in piece.between:
            name = f"{kind}, PVC schedule 80, {piece.size} in"
            if kind in ("tee", "cross", "elbow"):
                ends.append(STOCK.part(name).length)
            else:
                ends.append(0.5 * STOCK.part(name).length if kind == "coupling" else 0.0)
        assert piece.centre_to_centre == pytest.approx(sum(ends) + piece.length - 2.0 * make_up, abs=HUNDREDTH)
        assert piece.make_up == (make_up, make_up)
        if not piece.cut:
            assert piece.length == pytest.approx(STOCK.part(piece.what).length, abs=1e-9)


@pytest.mark.law
@pytest.mark.parametrize("seed", SEEDS)
def test_nothing_under_suction_is_drilled_and_every_dry_leg_is(seed: int) -> None:
    found = stand(seed)
    wet = under(found)
    for number, placed in enumerate(found.placed):
        threaded = bool(placed.mouths)
        assert not threaded or placed.kind == "blind nipple" or placed.wet is (number in wet)
        if number in wet:
            assert placed.holes == 0
            assert placed.wet
        else:
            assert placed.held == 0.0
    if not found.tips:
        return
    drilled = Counter(placed.role for placed in found.placed if placed.holes)
    sides = sum(placed.role == "side" for placed in found.placed)
    assert drilled == (Counter() if found.wet else Counter(leg=len(found.tips), spine=sides))
    blanks = sum(placed.kind == "blind nipple" for placed in found.placed)
    assert blanks == (0 if found.wet else 1)
    caps = sum(placed.kind == "cap" for placed in found.placed)
    assert caps == len(found.tips) - (1 if found.wet else 0)


@pytest.mark.law
@pytest.mark.parametrize("seed", SEEDS)
def test_a_stand_stands_where_it_was_asked_to(seed: int) -> None:
    wanted, found = asked(seed), stand(seed)
    thickness = max((p.segments[0][1][2] for p in found.placed if p.role == "pad"), default=0.0)
    if not found.tips:
        assert found.axis_height == 0.0
        return
    assert found.axis_height - thickness == pytest.approx(0.5 * found.placed[0].outside)
    assert len(found.tips) == wanted.legs
    tee = STOCK.part(f"tee, PVC schedule 80, {wanted.size} in").length
    least = 2.0 * tee + 0.1  # two fittings and a close nipple, and the same again sideways
    for tip in found.tips:
        reach = math.hypot(*tip[:2])
        assert abs(reach - wanted.reach) <= MOST_OVER or wanted.reach < 1.5 * least
    if wanted.lowest:
        assert found.riser < 0.3
    else:
        assert found.inlet_height >= wanted.riser - NO_SHORTER - 1e-9
    # Nothing but pads, ballast and what is sunk lies under the bed.
    for placed in found.placed:
        for segment in placed.segments:
            assert min(segment[0][2], segment[1][2]) >= -1e-9


@pytest.mark.law
@pytest.mark.parametrize("seed", SEEDS)
def test_the_line_takes_hold_near_the_bed_over_a_plastic_thread(seed: int) -> None:
    found = stand(seed)
    assert found.line_end is not None
    last = found.placed[found.line_end.part]
    facing = last.mouths[found.line_end.mouth].facing
    assert facing[0] > 0.99  # toward the shore
    if found.tips:
        assert last.mouths[0].at[2] - found.axis_height < 0.16
    assert isinstance(last.part, Part)
    assert last.part.material in METAL or "HDPE" in last.part.series or "compression" in last.part.series
    # The plastic goes into the metal, never the metal into the plastic.
    for one, other in found.joins:
        rows = [found.placed[at.part] for at in (one, other)]
        metal = [isinstance(row.part, Part) and row.part.material == "brass" for row in rows]
        if sum(metal) == 1:
            inside = (one, other)[0 if metal[0] else 1]
            assert found.placed[inside.part].mouths[inside.mouth].port.kind == "thread in"


@pytest.mark.law
@pytest.mark.parametrize("seed", SEEDS)
def test_water_finds_its_way_from_inlet_to_line(seed: int) -> None:
    found = stand(seed)
    ways = ways_through(found)
    wet = under(found)
    assert found.line_end is not None
    assert ways[found.line_end.part][1] == found.line_end.mouth
    assert set(ways) <= wet
    kinds = Counter(found.placed[part].kind for part in ways)
    assert kinds["cap"] == kinds["plug"] == kinds["blind nipple"] == 0
    met = {one: other for pair in found.joins for one, other in (pair, pair[::-1])}
    for before, after in itertools.pairwise(ways):
        assert met[At(before, ways[before][1])] == At(after, ways[after][0])


@pytest.mark.law
@pytest.mark.parametrize("seed", range(0, 300, 3))
def test_it_comes_apart_into_pieces_one_can_carry(seed: int) -> None:
    found = stand(seed)
    bundles = knocked_down(found)
    assert sorted(n for bundle in bundles for n in bundle.parts) == list(range(len(found.placed)))
    assert math.fsum(bundle.dry for bundle in bundles) == pytest.approx(math.fsum(p.mass for p in found.placed))
    for bundle in bundles:
        assert bundle.dry < MOST_MASS
        assert bundle.wet >= bundle.dry
        roles = {found.placed[n].role for n in bundle.parts}
        assert roles == {"ballast"} or "ballast" not in roles
    held = math.fsum(bundle.wet - bundle.dry for bundle in bundles)
    assert held == pytest.approx(1000.0 * found.water_held)


# --- law: shapes --------------------------------------------------------------------------------------------------


@pytest.mark.law
@pytest.mark.parametrize("legs", range(3, 13))
def test_the_footprint_of_a_ring_of_legs_is_that_of_its_chord(legs: int) -> None:
    for turn in (0.0, 0.3, 1.1):
        angles = [turn + 2.0 * math.pi * n / legs for n in range(legs)]
        tips = tuple((0.4 * math.cos(a), 0.4 * math.sin(a), 0.02) for a in angles)
        assert footprint_of(tips) == pytest.approx(0.4 * math.cos(math.pi / legs))
        # A leg more that stays inside the hull changes nothing, and the order does not matter.
        assert footprint_of((*tips[::-1], (0.1, 0.05, 0.0))) == pytest.approx(footprint_of(tips))


@pytest.mark.law
def test_a_footprint_that_leaves_the_axis_out_is_below_nothing() -> None:
    assert footprint_of(((0.2, -0.3, 0.0), (0.2, 0.3, 0.0), (0.6, 0.0, 0.0))) == pytest.approx(-0.2)
    assert footprint_of(()) == footprint_of(((0.0, 0.4, 0.0), (0.0, -0.4, 0.0))) == 0.0


@pytest.mark.law
@pytest.mark.parametrize("legs", [3, 4, 5, 6])
@pytest.mark.parametrize("size", SIZES)
def test_legs_stand_round_in_a_ring_as_nearly_as_nipples_allow(legs: int, size: str) -> None:
    for reach in (0.45, 0.6, 0.9):
        found = stand("ring", form="upright", legs=legs, size=size, reach=reach, wet=False)
        assert found.footprint == pytest.approx(reach * math.cos(math.pi / legs), abs=MOST_OVER)


@pytest.mark.law
@pytest.mark.parametrize("legs", [4, 6])
@pytest.mark.parametrize("wet", [True, False])
def test_a_frame_of_even_legs_is_its_own_mirror_image(legs: int, wet: bool) -> None:
    found = stand("mirror", form="upright", legs=legs, wet=wet, ballast_mass=12.0)

    def marks(x: float, y: float) -> list[tuple[float, ...]]:
        return sorted((round(x * tip[0], 6) + 0.0, round(y * tip[1], 6) + 0.0) for tip in found.tips)

    assert marks(1.0, 1.0) == marks(1.0, -1.0) == marks(-1.0, 1.0) == marks(-1.0, -1.0)
    pieces = [p for p in found.placed if p.role == "ballast"]
    assert len(pieces) % legs == 0
    sums = [math.fsum(p.mass * p.middle[axis] for p in pieces) for axis in (0, 1)]
    assert sums == pytest.approx([0.0, 0.0], abs=1e-9)


@pytest.mark.law
def test_a_longer_riser_lifts_the_inlet_and_never_lightens_the_stand() -> None:
    for form, size in itertools.product(FORMS[:3], SIZES):
        for wet in (True, False):
            row = [
                stand("riser", form=form, size=size, wet=wet, lowest=False, riser=inches * INCH, head=_head(size, form))
                for inches in range(6, 49)
            ]
            heights = [each.inlet_height for each in row]
            assert heights == sorted(heights)
            assert heights[-1] - heights[0] > 0.7
            for inches, each in enumerate(row, start=6):
                over = each.inlet_height - inches * INCH
                assert form == "low" or over <= MOST_OVER + 1e-6 or each.inlet_height == heights[0]
            assert [each.water_held for each in row] == sorted(each.water_held for each in row)


def _head(size: str, form: str) -> Head:
    valve = STOCK.foot_valve(f"foot valve, spring, {size} in")
    return Head(valve, STOCK.screen("cylinder screen, 4 x 12 in"), "up" if form == "upright" else "side")


@pytest.mark.law
def test_legs_lengthen_with_the_reach_and_widen_the_footprint() -> None:
    for legs in (3, 4, 5, 6):
        row = [stand("reach", form="upright", legs=legs, size="1-1/4", reach=0.01 * n) for n in range(30, 100, 6)]
        prints = [each.footprint for each in row]
        assert all(later >= earlier - INCH for earlier, later in itertools.pairwise(prints))
        assert prints[-1] > prints[0] + 0.2


@pytest.mark.law
def test_wet_legs_hold_water_that_dry_ones_do_not() -> None:
    for legs in (3, 4, 5, 6):
        wet, dry = (stand("held", form="upright", legs=legs, wet=each, size="1-1/2") for each in (True, False))
        legs_only = [sum(p.held for p in each.placed if p.role in ("leg", "side", "spine")) for each in (wet, dry)]
        assert legs_only[1] == 0.0
        bore = 0.25 * math.pi * STOCK.pipe("PVC, schedule 80, 1-1/2 in").bore ** 2
        reach = sum(math.hypot(*tip[:2]) for tip in wet.tips)
        assert 0.8 * bore * reach < legs_only[0] < 2.0 * bore * reach


@pytest.mark.law
def test_a_low_stand_is_as_low_as_its_screen_lets_it_be_and_looks_away_from_the_shore() -> None:
    for size, wet in itertools.product(SIZES, (True, False)):
        found = stand("low", form="low", lowest=True, size=size, wet=wet, head=_head(size, "low"), pads=0.0)
        screen = next(p for p in found.placed if p.kind == "screen")
        start, end = screen.segments[0]
        assert end[0] < start[0] < 0.0
        assert start[2] == end[2] == found.inlet_height
        assert found.inlet_height - 0.5 * screen.outside > 0.0  # clear of the bed
        side = stand("low", form="side", lowest=False, riser=0.3, size=size, wet=wet, head=_head(size, "low"), pads=0.0)
        assert found.inlet_height < side.inlet_height


@pytest.mark.law
def test_a_valve_that_points_down_hangs_clear_of_the_riser_with_its_lower_end_where_asked() -> None:
    head = replace(_head("1-1/4", "upright"), attitude="down")
    found = stand("down", form="upright", size="1-1/4", wet=True, head=head, riser=0.5, lowest=False, pads=0.0)
    screen = next(p for p in found.placed if p.kind == "screen")
    assert screen.segments[0][1][2] == pytest.approx(found.inlet_height)
    assert 0.5 - NO_SHORTER <= found.inlet_height <= 0.5 + MOST_OVER
    assert found.inlet_rise == screen.length
    for row in STOCK.screens.values():
        found = stand(
            "clear", form="upright", size="1", wet=True, head=replace(head, screen=row), riser=0.4, lowest=False
        )
        across = next(p for p in found.placed if p.kind == "screen").segments[0][0][0]
        assert -across > 0.5 * row.diameter + 0.5 * found.placed[0].outside


@pytest.mark.law
def test_what_hangs_keeps_its_depth() -> None:
    box = stand("hung", form="hung", depth=2.4, riser=0.5)
    assert box.inlet_height == pytest.approx(0.5)
    floating = stand("float", form="floating", depth=5.0)
    top = floating.inlet_height + floating.inlet_rise
    assert 2.0 * FOOT <= 5.0 - top <= 3.0 * FOOT
    for form, kind in (("hung", "bracket"), ("floating", "float"), ("box", "stilling pipe")):
        found = stand("beside", form=form)
        assert [STOCK.part(name).kind for name, _ in found.beside] == [kind]
        assert all(placed.wet or placed.kind == "screen" for placed in found.placed)


# --- law: runs, ballast, parts ----------------------------------------------------------------------------------


@pytest.mark.law
def test_runs_are_of_standard_nipples_and_the_fewest() -> None:
    for size in SIZES:
        make_up = engagement(STOCK, Port(size, "NPT", "thread out"))
        longest = STOCK.part(f"nipple, PVC schedule 80, {size} x 12 in").length
        for tenths in range(10, 1100, 7):
            distance = 0.001 * tenths
            run = run_of(STOCK, size, distance, at_least=True)
            near = run_of(STOCK, size, distance)
            assert run is not None
            assert near is not None
            assert run.distance >= distance - NO_SHORTER
            assert abs(near.distance - distance) <= MOST_OVER or distance < near.distance < 0.02
            assert near.distance <= run.distance + 1e-9
            if run.nipples:
                assert len(run.nipples) <= MOST_NIPPLES
                assert run.distance == pytest.approx(_laid(run.nipples, make_up, size))
                fewer = len(run.nipples) - 1
                coupling = STOCK.part(f"coupling, PVC schedule 80, {size} in").length
                assert fewer * (longest - 2.0 * make_up) + (fewer - 1) * coupling < distance
            else:
                assert run.cut == pytest.approx(distance + 2.0 * make_up)


def _laid(nipples: tuple[Part, ...], make_up: float, size: str) -> float:
    coupling = STOCK.part(f"coupling, PVC schedule 80, {size} in").length
    return sum(n.length - 2.0 * make_up for n in nipples) + coupling * (len(nipples) - 1)


@pytest.mark.law
def test_without_nipples_of_a_length_a_piece_is_cut_and_threaded() -> None:
    known = STOCK.parts.lines.items()
    lines = {
        name: line for name, line in known if not name.startswith("nipple, PVC") or name.endswith(("close", "12 in"))
    }
    bare = replace(STOCK, parts=type(STOCK.parts)(STOCK.parts.read, STOCK.parts.name_of, lines=lines))
    run = run_of(bare, "1-1/2", 0.165)
    assert run is not None
    assert run.nipples == ()
    assert isinstance(run.pipe, Pipe)
    assert run.distance == pytest.approx(0.165)
    found = built(asked("cut", form="upright", size="1-1/2", reach=0.28, legs=4, wet=False), bare)
    pieces = [piece for piece in cut_list(found, bare) if piece.cut]
    assert pieces
    make_up = bare.make_up["thread 1-1/2 NPT"]
    for piece in pieces:
        got = piece.length + sum(piece.centre_to_mouth) - 2.0 * make_up
        assert piece.centre_to_centre == pytest.approx(got, abs=HUNDREDTH)


@pytest.mark.law
def test_ballast_comes_in_whole_pieces_as_many_on_each_leg() -> None:
    for legs, mass in itertools.product((3, 4, 5, 6), (1.0, 5.5, 9.1, 20.0)):
        for words in ("steel angle", "flat bar of steel", "round bar", "sandbags", "concrete", "capped pipe", None):
            found = ballast_pieces(STOCK, words, mass, legs)
            assert found is not None
            piece, count = found
            assert count % legs == 0
            assert count * piece.mass >= mass - 1e-9
            assert (count - legs) * piece.mass < mass
    named = ballast_pieces(STOCK, "ballast, cast iron plate, 10 lb", 10.0, 4)
    assert named is not None
    assert named[0].name == "ballast, cast iron plate, 10 lb"
    assert ballast_pieces(STOCK, "an old engine", 10.0, 4) is None


@pytest.mark.law
@pytest.mark.parametrize("seed", range(0, 300, 7))
def test_ballast_lies_low_on_the_legs_toward_the_tips(seed: int) -> None:
    found = stand(seed)
    for placed in found.placed:
        if placed.role == "ballast":
            assert all(end[2] == found.axis_height for end in placed.segments[0])
            nearest = min(math.hypot(*end[:2]) for end in placed.segments[0])
            assert nearest > 0.2 * math.hypot(*found.tips[0][:2]) or placed.length > 0.3


@pytest.mark.law
@pytest.mark.parametrize("seed", range(0, 300, 3))
def test_parts_read_back_are_those_placed(seed: int) -> None:
    found = stand(seed)
    counts = parts_of(found)
    masses = [
        (STOCK.pipes[name].mass if name in STOCK.pipes else _row(name).mass) * count  # type: ignore[attr-defined]
        for name, count in counts.items()
        if name not in {each for each, _ in found.beside}
    ]
    assert math.fsum(masses) == pytest.approx(math.fsum(placed.mass for placed in found.placed), rel=1e-12)


def _row(name: str) -> object:
    return next(table[name] for table in STOCK.tables().values() if name in table)


@pytest.mark.law
def test_the_bill_takes_its_stand_from_here() -> None:
    for seed in range(40):
        ballast = '[stand.ballast]\nwhat = "steel angle"\nmass = "10 kg"\n' if seed % 2 else ""
        job = read_job_text(drawn_text(f"stand {seed}", more=ballast))
        assembly = facts_of(job, STOCK)
        found = stand_of(job, STOCK, assembly)
        lines = [line for line in bill_of(job, STOCK, assembly).by_station["stand"] if line.stock]
        billed = Counter({line.stock: line.quantity for line in lines})
        for name, count in parts_of(found).items():
            assert billed[name] >= count - 1e-9, name
        extra = {name.split(",")[0] for name in billed} - {name.split(",")[0] for name in parts_of(found)}
        assert extra <= {"haul rope", "float", "clamp", "stiffener"}


# --- law: facts ---------------------------------------------------------------------------------------------------

FRAMED = ('form  = "upright"\n', 'form  = "upright"\nframe = "1-1/2"\n')


@pytest.mark.law
def test_a_frame_that_is_given_gives_the_heights_as_built() -> None:
    text = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8")
    plain = facts_of(read_job_text(text), STOCK)
    job = read_job_text(text.replace(*FRAMED))
    assembly = facts_of(job, STOCK)
    found, facts = stand_of(job, STOCK, assembly), assembly.facts.stand
    assert facts.frame[0] == found.axis_height == pytest.approx(1.2 * INCH)
    assert facts.riser[0] == found.riser
    assert facts.frame[0] + facts.riser[0] == pytest.approx(found.inlet_height)
    assert 24.0 * INCH <= found.inlet_height <= 26.0 * INCH
    assert facts.inlet_rise[0] == found.inlet_rise == pytest.approx(12.0 * INCH)
    assert "stand.frame" not in {each.key for each in assembly.assumed}
    # So does one that leaves the riser to usage.
    usual = read_job_text(text.replace(*FRAMED).replace('riser = "24 in"\n', "").replace('"build"', '"quote"'))
    assembly = facts_of(usual, STOCK)
    heights = assembly.facts.stand.frame[0] + assembly.facts.stand.riser[0]
    assert stand_of(usual, STOCK, assembly).inlet_height == pytest.approx(float(heights))
    # Without it the default stands, and is said.
    assert plain.facts.stand.frame[0] == pytest.approx(2.0 * INCH)
    assert "stand.frame" in {each.key for each in plain.assumed}


@pytest.mark.law
def test_pads_lift_the_frame() -> None:
    text = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8").replace(*FRAMED)
    bare = facts_of(read_job_text(text), STOCK)
    padded = facts_of(read_job_text(text.replace("legs  = 4", 'legs  = 4\npads = "12 in"')), STOCK)
    assert padded.facts.stand.frame[0] - bare.facts.stand.frame[0] == pytest.approx(0.5 * INCH)


# --- message ------------------------------------------------------------------------------------------------------


@pytest.mark.message
def test_what_cannot_be_had_or_was_not_said_is_said() -> None:
    lacking = stand("none", form="upright", size="4", head=Head(None, None, "up"), pipe=None)
    assert lacking.placed == ()
    assert "no tee of 4 in is in stock" in lacking.gaps
    assert math.isnan(lacking.axis_height)
    job = read_job_text(
        drawn_text("said", form="upright", attitude="up", valve="foot valve, hinged, 1-1/2 in", legs=2)
        .replace('wet = "dry"\n', "").replace('wet = "wet"\n', "")
    )  # fmt: skip
    notes = stand_of(job, STOCK, facts_of(job, STOCK)).notes
    assert "foot valve, hinged, 1-1/2 in does not seat when its entrance points up" in notes
    assert "[stand] wet is not given: the legs are built as part of the suction path" in notes
    assert any(note.startswith("a frame has 3 to 6 legs: 2 ") for note in notes)


# --- golden: our own past output ------------------------------------------------------------------------------------


@pytest.mark.golden
def test_the_cut_list_of_the_cabin() -> None:
    job, stock, assembly = read(EXAMPLES / "year_round_cabin.toml")
    making = making_of(stand_of(job, stock, assembly), stock)
    rows = [
        (piece.count, piece.role, *(round(x / INCH, 2) for x in (piece.centre_to_centre, piece.length)), piece.holes)
        for piece in making.pieces
    ]
    assert rows == [
        (2, "spine", 12.52, 10.0, 2),
        (4, "leg", 12.58, 12.0, 2),
        (1, "centre", 4.27, 1.75, 0),
        (1, "riser", 13.65, 12.0, 0),
        (1, "riser", 5.71, 6.0, 0),
        (1, "line end", 2.33, 1.75, 0),
    ]
    assert (making.threads, making.tape_turns, making.clamps, making.holes, making.caps) == (20, 60, 2, 12, 4)
