"""What it costs: ratios in one run against `plain.py`, seconds and memory of each search, start-up in a fresh process.

`python -m benchmarks.run` runs every row, each in a process of its own, so that memory is that row's alone. Figures of
one run compare with each other and with nothing else: the machine is small and noisy.
"""

from __future__ import annotations

import json
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "examples" / "year_round_cabin.toml"
Row = dict[str, Any]


DESIGNS = 480
"""Designs of the flat row, drawn from all that the opened example may choose."""


def _drawn() -> tuple[Any, Any]:
    """The opened example, and designs drawn from it at random."""
    problem = _problem(spots=1, places=1, tanks=10)
    draw = np.random.default_rng(20260509)
    return problem, np.stack([draw.integers(0, size, DESIGNS) for size in problem.sizes], axis=1)


def plain() -> Row:
    """The plain loop on the same designs: scalars, one root at a time, every field but of standing and route."""
    from benchmarks import plain as second
    from lakewright.search.flat import facts_of_designs
    from lakewright.stock.load import load_stock

    problem, designs = _drawn()
    ((_, facts),) = facts_of_designs(problem, designs)
    stock, at = load_stock(), problem.position("pump")
    times = []
    for row in range(0, DESIGNS, 12):
        pump = stock.pumps[problem.parts[at].labels[designs[row, at]]]
        job = _scalars(facts, row, pump)
        standing_pressures = second.standing(job)["pressure"]
        start = time.perf_counter()
        second.evaluate_flow(job, standing_pressures)
        times.append((time.perf_counter() - start) / (5 * 6))
    return {"us a running case": statistics.median(times) * 1e6}


def _scalars(facts: Any, row: int, pump: Any) -> dict[str, dict[str, Any]]:
    """One design of a batch as the plain loop takes it."""

    def value(array: Any) -> float:
        return float(array[row, 0] if array.ndim > 1 else array[0])

    def table(some: Any) -> dict[str, Any]:
        return {name: value(getattr(some, name)) for name in some.__dataclass_fields__}

    points = {
        "flow": list(pump.flow),
        "head": list(pump.head),
        "required_flow": list(pump.npsh_flow),
        "required": list(pump.npsh),
    }
    days, taps = (
        {name: list(getattr(rows, name)) for name in rows.__dataclass_fields__} for rows in (facts.days, facts.taps)
    )
    names = ("site", "stand", "suction", "delivery", "holding", "need", "faults")
    tables = {name: table(getattr(facts, name)) for name in names}
    return {
        **tables,
        "days": days,
        "taps": taps,
        "pump": {"kind": "centrifugal", "height": value(facts.pump.height), **points},
    }


def flat() -> Row:
    """Designs x running cases with nothing shared, every check of the flow, one core."""
    from lakewright.checks.registry import FLOW_CHECKS
    from lakewright.search.circuits import judge_some
    from lakewright.search.flat import facts_of_designs
    from lakewright.search.memory import keep_freed_memory
    from lakewright.state.walk import walk_flow

    keep_freed_memory()
    ((_, facts),) = facts_of_designs(*_drawn())
    walk_flow(facts)
    times = []
    for _ in range(30):
        start = time.perf_counter()
        judge_some(walk_flow(facts), facts.limits, range(len(FLOW_CHECKS)))
        times.append((time.perf_counter() - start) / (DESIGNS * 5 * 6))
    return {"ns a running case": statistics.median(times) * 1e9}


def one_job() -> Row:
    """One job, walked and judged, as the page asks it."""
    from lakewright.checks.registry import judge
    from lakewright.job.read import read_job
    from lakewright.state.assemble import facts_of
    from lakewright.state.walk import walk
    from lakewright.stock.load import load_stock

    facts = facts_of(read_job(EXAMPLE), load_stock()).facts
    times = []
    for _ in range(200):
        start = time.perf_counter()
        judge(walk(facts), facts.limits)
        times.append(time.perf_counter() - start)
    return {"ms": statistics.median(times) * 1e3}


def search() -> Row:
    """10^6 candidates that share 10^5 circuits: solved, counted, ranked."""
    return _search(_problem(spots=4, places=4, tanks=10))


def unshared() -> Row:
    """10^6 candidates, every one its own circuit; the hopeless sorted out first, as `design` does past 400,000."""
    return _search(_distinct(_problem(spots=1, places=1, tanks=1)))


def unshared_exact() -> Row:
    """The same, every circuit solved and every failure counted."""
    return _search(_distinct(_problem(spots=1, places=1, tanks=1)), exact=True)


def growth_small() -> Row:
    """10^5 candidates at 10^5 circuits."""
    return _search(_problem(spots=4, places=4, tanks=1))


def growth_large() -> Row:
    """10^7 candidates at the same 10^5 circuits."""
    return _search(_problem(spots=4, places=4, tanks=100))


def _search(problem: Any, exact: bool = False) -> Row:
    from lakewright.search.circuits import circuits_of, solve
    from lakewright.search.prune import MANY, hopeless
    from lakewright.search.spread import spread

    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    start = time.perf_counter()
    many = circuits_of(problem) > MANY and not exact
    solved = solve(problem, sort_out=hopeless if many else None)
    middle = time.perf_counter()
    tally, kept, _ = spread(problem, solved)
    end = time.perf_counter()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return {
        "candidates": problem.choices,
        "circuits": solved.circuits,
        "seconds": end - start,
        "of which spread and ranked": end - middle,
        "ns a candidate-case": (end - start) / problem.choices / 30 * 1e9,
        "MiB at its peak": peak / 1024.0,
        "MiB before": before / 1024.0,
        "passing": tally.passing,
        "kept": len(kept),
    }


def _distinct(problem: Any) -> Any:
    """The same with lines of different bore alone, and half the pumps: as many circuits as candidates."""
    from lakewright.search.circuits import distinct_rows

    first = np.unique(distinct_rows(problem.part("line")).of_option, return_index=True)[1]
    return problem.take(line=first, pump=slice(15))


def _problem(spots: int, places: int, tanks: int) -> Any:
    """The opened example with every so manieth spot and pump place, and so many tanks.

    A line may be narrower than the pump's port here, so that the circuits are as many as they always were.
    """
    from lakewright.job.read import read_job_text
    from lakewright.search.options import problem_of
    from lakewright.state.assemble import facts_of
    from lakewright.stock.load import load_stock

    job = read_job_text(opened(EXAMPLE.read_text(encoding="utf-8")))
    stock = load_stock()
    problem = problem_of(job, stock, facts_of(job, stock))
    volume = np.linspace(0.06, 0.45, tanks) if tanks > 1 else np.array([0.25])
    tank = replace(
        problem.part("tank"),
        labels=tuple(f"{v:.4f}" for v in volume),
        says=({},) * tanks,
        columns={"delivery.tank_volume": volume[:, None]},
        price=np.rint(8000.0 + 1.6e5 * volume),
        price_per_length=np.zeros(tanks),
    )
    few = problem.take(spot=slice(None, None, spots), pump_place=slice(None, None, places))
    return replace(few, parts=(*few.parts[:-1], tank), pairs=())


def opened(text: str) -> str:
    """The example's text with spot, line, pump, pump place and tank left open."""
    from lakewright.job.write import set_values

    changes = {"stand.at": "open", "suction.stock": "open", "pump.stock": "open", "pump.kind": "centrifugal"}
    return set_values(text, {**changes, "pump.distance": "open", "pump.height": "open", "delivery.tank": "open"})


def doubt() -> Row:
    """65,536 possible truths of the example: every check but the dear in all of them, and what the dear ones cost."""
    from lakewright.api.read import read
    from lakewright.search.doubt import CHEAP_CHECKS, DEAR_CHECKS, DEAR_TRUTHS
    from lakewright.search.truths import TRUTHS, offs, points_of, statuses
    from lakewright.state.unknowns import unknowns_of
    from lakewright.state.walk import walk, walk_but_the_dear

    assembly = read(EXAMPLE)[2]
    unknowns = unknowns_of(assembly)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    start, work = time.perf_counter(), time.process_time()
    off = offs(unknowns, points_of(unknowns, TRUTHS, 0))
    statuses(assembly.facts, unknowns, off, walk_but_the_dear, CHEAP_CHECKS)
    middle, cheap = time.perf_counter(), time.process_time()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    statuses(assembly.facts, unknowns, off[:DEAR_TRUTHS], walk, DEAR_CHECKS)
    end, dear = time.perf_counter(), time.process_time()
    return {
        "truths": TRUTHS,
        "checks": len(CHEAP_CHECKS),
        "seconds": middle - start,
        "of work, on all threads": cheap - work,
        "MiB at its peak": peak / 1024.0,
        "MiB before": before / 1024.0,
        "dear checks": len(DEAR_CHECKS),
        "truths they were asked in": DEAR_TRUTHS,
        "seconds of theirs": end - middle,
        "ms of work a truth of theirs": (dear - cheap) / DEAR_TRUTHS * 1e3,
        "seconds, if asked in all": middle - start + (end - middle) * TRUTHS / DEAR_TRUTHS,
    }


def doubt_whole() -> Row:
    """65,536 possible truths of the example, every check in all of them; minutes, so only where it is named."""
    from lakewright.api.read import read
    from lakewright.checks.registry import CHECKS
    from lakewright.search.truths import TRUTHS, offs, points_of, statuses
    from lakewright.state.unknowns import unknowns_of
    from lakewright.state.walk import walk

    assembly = read(EXAMPLE)[2]
    unknowns = unknowns_of(assembly)
    start, work = time.perf_counter(), time.process_time()
    found = statuses(assembly.facts, unknowns, offs(unknowns, points_of(unknowns, TRUTHS, 0)), walk, CHECKS)
    return {
        "truths": len(found),
        "checks": found.shape[1],
        "seconds": time.perf_counter() - start,
        "of work, on all threads": time.process_time() - work,
        "MiB at its peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0,
    }


def start_up() -> Row:
    """`check` cold and `--help`: median of ten fresh processes, bytecode cached, nothing else kept."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    found = {}
    for name, words in (("check s", ["check", str(EXAMPLE)]), ("--help s", ["--help"])):
        command = [sys.executable, "-m", "lakewright", *words]
        subprocess.run(command, env=environment, capture_output=True, check=False)
        times = []
        for _ in range(10):
            start = time.perf_counter()
            subprocess.run(command, env=environment, capture_output=True, check=False)
            times.append(time.perf_counter() - start)
        found[name] = statistics.median(times)
    return found


def packet() -> Row:
    """Every paper, list and drawing of the year-round cabin, in a process that has imported what it takes."""
    from lakewright.api.packet import packet as write

    with tempfile.TemporaryDirectory() as folder:
        write(EXAMPLE, Path(folder))
        start = time.perf_counter()
        files = write(EXAMPLE, Path(folder), everything=True)
        seconds = time.perf_counter() - start
        size = sum(file.stat().st_size for file in files)
    return {"seconds": seconds, "files": len(files), "MB": size / 1e6}


def page() -> Row:
    """The page of the example in a real browser: first load, and 200 edits of ten fields."""
    from benchmarks.page import page_row

    return page_row()


ROWS: dict[str, Callable[[], Row]] = {
    row.__name__: row
    for row in (
        plain,
        flat,
        one_job,
        search,
        unshared,
        unshared_exact,
        growth_small,
        growth_large,
        doubt,
        packet,
        start_up,
        page,
    )
}


def main() -> None:
    """Run the rows and print them, then the ratios and goals."""
    if len(sys.argv) > 1:
        print(json.dumps({**ROWS, doubt_whole.__name__: doubt_whole}[sys.argv[1]]()))
        return
    found: dict[str, Row] = {}
    for name, row in ROWS.items():
        run = subprocess.run(
            [sys.executable, "-m", "benchmarks.run", name],
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=True,
        )
        found[name] = json.loads(run.stdout.splitlines()[-1])
        print(f"{name:15} {(row.__doc__ or '').splitlines()[0]}")
        for key, value in found[name].items():
            print(
                f"{'':15}   {key:28} {value:>14,.2f}"
                if isinstance(value, float)
                else f"{'':15}   {key:28} {value:>14,}"
            )
    print()
    for line in ratios(found):
        print(line)


def ratios(found: dict[str, Row]) -> list[str]:
    """What the rows say against the goals of the design."""
    a_case = found["plain"]["us a running case"] * 1e3
    shared, own, exact = found["search"], found["unshared"], found["unshared_exact"]
    small, large = found["growth_small"], found["growth_large"]
    big, bigger = f"{shared['MiB at its peak']:.0f} MiB", f"{large['MiB at its peak']:.0f} MiB"
    seen, sure = found["page"], found["doubt"]
    spent = f"{sure['of work, on all threads']:.1f} s of work, {sure['MiB at its peak']:.0f} MiB"
    start, grown = found["start_up"], large["seconds"] / small["seconds"]

    def line(what: str, value: float, unit: str, goal: str) -> str:
        return f"{what:34}{value:10,.2f} {unit:3} goal {goal}"

    return [
        line("flat against plain", a_case / found["flat"]["ns a running case"], "x", "300 x"),
        line("search against plain", a_case / shared["ns a candidate-case"], "x", "2,000 x"),
        line("search, 10^6 on 10^5 circuits", shared["seconds"], "s", f"5 s; {big}, goal 500 MiB"),
        line("every candidate its own circuit", own["seconds"], "s", "15 s, the hopeless sorted out first"),
        line("the same, every failure counted", exact["seconds"], "s", "none set"),
        line("growth, 10^5 to 10^7 candidates", grown, "x", f"8 x; {bigger}, goal 600 MiB"),
        line("doubt, 65,536, all but the dear", sure["seconds"], "s", f"2 s; {spent}"),
        line("the same, every check", sure["seconds, if asked in all"], "s", "2 s, worked out from 1,024"),
        line("the whole packet", found["packet"]["seconds"], "s", "3 s"),
        line("check cold", start["check s"], "s", "0.6 s"),
        line("--help", start["--help s"], "s", "0.15 s"),
        line("edit to redrawn page, 95th of 100", seen["edit 95th percentile ms"], "ms", "100 ms"),
        line("first load of the page", seen["first load s"], "s", "1 s"),
    ]


if __name__ == "__main__":
    main()
