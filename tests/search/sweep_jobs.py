"""Many invented jobs for a sweep, some of them broken, and the sweep of them three ways.

Run as `python -m tests.search.sweep_jobs 2000`: on one core, on two, and on a cluster of two workers one of which is
killed on the way; what each prints and writes is compared.
"""

from __future__ import annotations

import multiprocessing
import os
import random
import signal
import sys
import tempfile
import time
from pathlib import Path
from shutil import copytree
from typing import Any

from lakewright.api.sweep import Sweep, sweep, write_sweep
from lakewright.job.write import set_values
from lakewright.sweep_lines import sweep_lines

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SCENARIOS = EXAMPLES / "sweep" / "scenarios.toml"

VARIED = {
    "year_round_cabin": {
        "pump.height": (3.0, 16.0, "ft"),
        "stand.riser": (12.0, 40.0, "in"),
        "suction.along": (2.0, 8.0, "%"),
        "need.flow": (4.0, 12.0, "gpm"),
        "site.levels.low": (-4.0, -0.5, "ft"),
    },
    "stream_irrigation": {
        "pump.height": (1.0, 5.0, "m"),
        "need.flow": (0.4, 1.6, "L/s"),
        "delivery.cut_in": (100.0, 220.0, "kPa"),
    },
    "stock_tank": {
        "pump.height": (0.5, 4.0, "m"),
        "need.flow": (0.2, 0.8, "L/s"),
    },
}
"""Values drawn anew for each job, between these; ours."""

BROKEN = (
    lambda text: text.replace("[pump]", "[pumpp]"),
    lambda text: text.replace("=", ":", 3),
    lambda text: text[: len(text) // 3] + '"',
    lambda text: set_values(text, {"pump.stock": "no such pump"}),
    lambda _: "",
)
"""One in fifty is broken, by turns so."""


def write_jobs(folder: Path, count: int, seed: int = 0) -> None:
    """Write so many job files into a folder, with the waters beside them."""
    folder.mkdir(parents=True, exist_ok=True)
    copytree(EXAMPLES / "waters", folder / "waters", dirs_exist_ok=True)
    texts = {name: (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") for name in VARIED}
    for number in range(count):
        draw = random.Random(f"sweep {seed} {number}")
        name = draw.choice(list(VARIED))
        values = {path: f"{draw.uniform(low, high):.2f} {unit}" for path, (low, high, unit) in VARIED[name].items()}
        text = set_values(texts[name], {"job.title": f"{name.replace('_', ' ')} {number}", **values})
        if number % 50 == 49:
            text = BROKEN[number // 50 % len(BROKEN)](text)
        (folder / f"job_{number:05}.toml").write_text(text, encoding="utf-8")


def printed(found: Sweep) -> str:
    """What a sweep prints."""
    return "\n".join(sweep_lines(found))


def _scheduler(port: int) -> None:
    import asyncio

    from distributed import Scheduler

    async def serve() -> None:
        async with Scheduler(host="127.0.0.1", port=port, dashboard=False, dashboard_address=":0") as scheduler:
            await scheduler.finished()

    asyncio.run(serve())


def _worker(port: int) -> None:
    import asyncio

    import dask
    from distributed import Worker

    dask.config.set({"distributed.worker.daemon": False})

    async def serve() -> None:
        async with Worker(f"tcp://127.0.0.1:{port}", nthreads=1, dashboard=False) as worker:
            await worker.finished()

    asyncio.run(serve())


class Cluster:
    """A scheduler and two workers of this machine, each a process that may be killed."""

    def __init__(self, port: int) -> None:
        self.address, self.port = f"tcp://127.0.0.1:{port}", port

    def __enter__(self) -> Cluster:
        context = multiprocessing.get_context("spawn")
        self.scheduler = context.Process(target=_scheduler, args=(self.port,), daemon=True)
        self.workers = [context.Process(target=_worker, args=(self.port,), daemon=True) for _ in range(2)]
        for each in (self.scheduler, *self.workers):
            each.start()
            time.sleep(1.0)
        return self

    def kill_one(self) -> None:
        """End one worker without a word."""
        pid = self.workers[0].pid
        assert pid is not None
        os.kill(pid, signal.SIGKILL)

    def __exit__(self, *_: Any) -> None:
        for each in (*self.workers, self.scheduler):
            each.kill()
            each.join()


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as place:
        base = Path(place)
        write_jobs(base / "jobs", count)
        results: dict[str, tuple[str, dict[str, bytes]]] = {}

        def run(name: str, cores: int = 1, cluster: str = "", progress: Any = None) -> None:
            start = time.perf_counter()
            found = sweep(base / "jobs", SCENARIOS, base / name / "record.jsonl", None, cores, cluster, progress)
            seconds = time.perf_counter() - start
            files = write_sweep(found, base / name)
            results[name] = printed(found), {file.name: file.read_bytes() for file in files}
            print(f"{name:28} {seconds:7.1f} s", flush=True)

        run("one process")
        run("two cores", cores=2)
        with Cluster(18786) as cluster:
            killed = []

            def tell(done: int, every: int) -> None:
                if done > every // 3 and not killed:
                    cluster.kill_one()
                    killed.append(done)

            run("cluster, one worker killed", cluster=cluster.address, progress=tell)
            print(f"a worker was killed after {killed[0]} of {count} jobs")
        words, files = results["one process"]
        print(words)
        for name, (other, theirs) in results.items():
            same = {file: theirs[file] == content for file, content in files.items()}
            print(f"{name}: prints the same {other == words}, writes the same {same}")


if __name__ == "__main__":
    main(int(sys.argv[1]))
