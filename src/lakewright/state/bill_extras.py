"""What a job needs beside the parts water passes: what closes joints, holds the stand, is used up or kept spare."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

from lakewright.job.models import Job
from lakewright.state.assemble import Assembly
from lakewright.state.control_parts import control_rows
from lakewright.state.gather import OPEN
from lakewright.state.path import Piece, WaterPath
from lakewright.state.placed import Stand
from lakewright.state.power_facts import cable_named
from lakewright.state.stand import stand_of
from lakewright.state.stand_ballast import cheapest
from lakewright.state.stand_parts import stands_on_legs
from lakewright.state.treatment_parts import steps_of
from lakewright.state.works import FORMS_FROM_SHORE
from lakewright.stock.load import Stock
from lakewright.stock.measure import FOOT, POUND
from lakewright.stock.rows import Part, Pipe

CLAMPS_A_BARB = 2
"""common practice, no source: two, screws opposite."""
SPARE_CLAMPS = 2
"""common practice, no source: of each size."""
JOINTS_A_ROLL = 25
"""ours: 520 in of tape at some 20 in a thread of 1-1/4 in, three turns."""
BALLAST_SMALL, BALLAST_LARGE = 12.0 * POUND, 20.0 * POUND
"""common practice, no source: the least for a frame of 1-1/4 in and under, and over it."""
ROPE_OVER_DEPTH = 10.0 * FOOT
"""ours: to lead off the float and make a bight."""
LOCALLY = "buy locally, not shipped"


@dataclass(frozen=True, slots=True)
class Extra:
    """One line beside the path: a row of the stock, or words where it is none.

    count: pieces, or metres of what is sold by length; mass [kg] where there is no row.
    """

    station: str
    row: Part | None
    count: float
    what: str = ""
    mass: float = 0.0
    note: str = ""


def extras_of(job: Job, stock: Stock, assembly: Assembly, path: WaterPath) -> tuple[list[Extra], list[str]]:
    """All that goes with a path, and what of it cannot be had."""
    gaps: list[str] = []
    closers = _closers(stock, path, gaps)
    return [
        *_on_the_bed(job, stock, assembly, gaps),
        *closers,
        *_cable(job, stock, assembly, gaps),
        *_control(job, stock, assembly, gaps),
        *_steps_to_choose(job, stock, float(assembly.facts.need.flow[0])),
        *_used_up(stock, path, closers),
    ], gaps


def _closers(stock: Stock, path: WaterPath, gaps: list[str]) -> list[Extra]:
    """Clamps on every barb and shank, a stiffener in every pipe under a compression nut."""
    counts: Counter[tuple[str, str]] = Counter()
    for meeting in path.meetings:
        ends = sorted(meeting, key=lambda end: path.port(end).kind == "plain end")
        takes, pipe = path.pieces[ends[0].piece], path.pieces[ends[1].piece].row
        kind = path.port(ends[0]).kind
        if not isinstance(pipe, Pipe):
            continue
        if kind in ("barb", "hose"):
            clamp = clamp_for(stock, pipe)
            if clamp is None:
                gaps.append(f"no clamp in stock closes on {pipe.name}")
            else:
                counts[takes.station, clamp.name] += CLAMPS_A_BARB
        elif kind == "compression" and isinstance(takes.row, Part):
            counts[takes.station, f"stiffener, {takes.row.series}, {pipe.size} in"] += 1
    return [Extra(station, stock.part(name), count) for (station, name), count in counts.items()]


def clamp_for(stock: Stock, pipe: Pipe) -> Part | None:
    """The clamp that closes on the outside of a pipe: of its own size, else the cheapest."""
    fit = (
        part
        for part in stock.parts_of("clamp")
        if part.figures["least_diameter"] <= pipe.outside <= part.figures["most_diameter"]
    )
    return min(fit, key=lambda part: (part.size != pipe.size, part.price, part.name), default=None)


def _on_the_bed(job: Job, stock: Stock, assembly: Assembly, gaps: list[str]) -> list[Extra]:
    """Ballast, pads and what else holds a stand, its haul rope and float, and the weights of the line."""
    stand, extras = stand_of(job, stock, assembly), []
    if stands_on_legs(job):
        extras += _ballast(job, stand, assembly)
    pads = [each.part for each in stand.placed if each.role == "pad" and isinstance(each.part, Part)]
    extras += [Extra("stand", pads[0], float(len(pads)))] if pads else []
    for name, count in stand.beside:
        row = stock.part(name)
        extras.append(Extra("stand", row, count, note=LOCALLY if row.kind == "stake" else ""))
    if stand.form not in FORMS_FROM_SHORE:
        extras += _rope(stock, float(assembly.facts.stand.depth[0]), gaps)
    weights = job.suction.weights
    length = float(assembly.facts.suction.bed_length[0])
    if weights.mass is not None and weights.spacing is not None and math.isnan(length):
        gaps.append("the length of the line on the bed is not known: its weights are not billed")
    elif weights.spacing is not None and weights.mass is not None:
        count = math.ceil(length / weights.spacing.value)
        what = weights.what or "line weights"
        extras.append(Extra("suction line", None, float(count), what, count * weights.mass.value, LOCALLY))
    return extras


def _ballast(job: Job, stand: Stand, assembly: Assembly) -> list[Extra]:
    """The pieces of ballast of a stand, or words for what is not of the stock, or not asked yet."""
    pieces = [each.part for each in stand.placed if each.role == "ballast" and isinstance(each.part, Part)]
    if pieces:
        return [Extra("stand", pieces[0], float(len(pieces)), note=LOCALLY)]
    given, small = job.stand.ballast, stand.size in ("3/4", "1", "1-1/4")
    if given.mass is not None:
        return [Extra("stand", None, 1.0, given.what or "ballast", given.mass.value, LOCALLY)]
    solved = next((each.value for each in assembly.assumed if each.key == "stand.ballast"), None)
    if solved is not None:
        return [Extra("stand", None, 1.0, given.what or "ballast", solved, LOCALLY)]
    note = f"{LOCALLY}; the least that practice asks, until waves and current are worked out"
    return [Extra("stand", None, 1.0, given.what or "ballast", BALLAST_SMALL if small else BALLAST_LARGE, note)]


def _rope(stock: Stock, depth: float, gaps: list[str]) -> list[Extra]:
    """A rope from the frame to a float, to haul by."""
    ropes, floats = (
        sorted(stock.parts_of(kind), key=lambda part: (part.price, part.name)) for kind in ("haul rope", "float")
    )
    if math.isnan(depth):
        gaps.append("the depth at the stand is not known: the haul rope is not billed")
        return []
    length = FOOT * math.ceil((depth + ROPE_OVER_DEPTH) / FOOT - 1e-9)
    cut = [Extra("stand", rope, length, note="cut from the reel, to the next foot") for rope in ropes[:1]]
    return cut + [Extra("stand", each, 1.0) for each in floats[:1]]


def _cable(job: Job, stock: Stock, assembly: Assembly, gaps: list[str]) -> list[Extra]:
    """The cable a job names, or the one that was chosen for it."""
    power = job.power
    chosen = next((each.text for each in assembly.assumed if each.key == "power.wire"), None)
    if power.distance is None or (power.wire in (None, OPEN) and chosen is None):
        return []
    row = stock.part(chosen) if chosen is not None else cable_named(stock, power.wire or "")
    if row is None:
        gaps.append(f"no cable in stock is [power] wire, {power.wire!r}")
        return []
    length = FOOT * math.ceil(power.distance.value / FOOT - 1e-9)
    return [Extra("pump", row, length, note="cut from the reel, to the next foot; a licensed electrician joins it")]


def _control(job: Job, stock: Stock, assembly: Assembly, gaps: list[str]) -> list[Extra]:
    """What starts and stops the pump from beside the path, and the store it may fill."""
    rows, lacking = control_rows(job, stock, assembly)
    gaps.extend(lacking)
    return [Extra("tank", row, 1.0) for row in rows]


def _steps_to_choose(job: Job, stock: Stock, flow: float) -> list[Extra]:
    """Steps of the treatment that name nothing in stock."""
    return [
        Extra("treatment", None, 1.0, step.what, note="to be chosen")
        for step in steps_of(job, stock, flow)
        if step.stock not in stock.parts
    ]


def _used_up(stock: Stock, path: WaterPath, closers: list[Extra]) -> list[Extra]:
    """Tape, paste and cement by the number of joints, and what is worth a place in the drawer."""
    kinds = Counter((port.kind.split()[0], port.series) for one, _ in path.meetings for port in (path.port(one),))
    threads = sum(count for (kind, series), count in kinds.items() if (kind, series) == ("thread", "NPT"))
    cemented, soldered = (_cups(path, series) for series in ("IPS PVC", "CTS copper"))
    wanted = {
        "thread tape": math.ceil(threads / JOINTS_A_ROLL),
        "thread paste": min(threads, 1),
        "solvent cement": min(cemented, 1),
    }
    extras = [
        Extra("used up", row, float(count), note=f"{threads if 'thread' in kind else cemented} joints")
        for kind, count in wanted.items()
        if count and (row := cheapest(stock, kind)) is not None
    ]
    if soldered:
        extras.append(Extra("used up", None, 1.0, "solder and flux", note=f"{soldered} joints; {LOCALLY}"))
    return extras + _spares(stock, path.pieces, closers)


def _cups(path: WaterPath, series: str) -> int:
    """How many joints go into a cup of that series."""
    return sum(
        any(path.port(end).kind == "socket" and path.port(end).series == series for end in pair)
        for pair in path.meetings
    )


def _spares(stock: Stock, pieces: tuple[Piece, ...], closers: list[Extra]) -> list[Extra]:
    clamps = {extra.row.name: extra.row for extra in closers if extra.row is not None and extra.row.kind == "clamp"}
    extras = [Extra("used up", row, float(SPARE_CLAMPS), note="spare") for row in clamps.values()]
    parts = [piece.row for piece in pieces if isinstance(piece.row, Part)]
    for size in dict.fromkeys(part.size for part in parts if part.kind == "union"):
        rings = [part for part in stock.parts_of("O-ring") if part.size == size]
        extras += [Extra("used up", ring, 1.0, note="spare") for ring in rings[:1]]
    filters = {part.name: part.kind for part in parts if part.kind in ("sediment filter", "absolute filter")}
    for name, kind in filters.items():
        cartridge = stock.parts.get(name.replace(kind, "filter cartridge"))
        extras += [Extra("used up", cartridge, 1.0, note="spare")] if cartridge is not None else []
    return extras
