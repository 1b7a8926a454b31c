"""Rough handling of every door for a given time: `python -m tests.fuzz SECONDS [DOOR]`.

Prints by door how many were tried, let in, refused, and what was found; what was found is kept in a folder named
`found` where this is run, to be put in the corpus once it is mended. A file that a door answers as no file before is
kept as a start for others, so that each run works its way further in.
"""

from __future__ import annotations

import hashlib
import random
import re
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
import warnings
from collections import Counter
from pathlib import Path
from types import FrameType

from lakewright.errors import LakewrightError
from tests.fuzz.doors import DOORS, Door, Found
from tests.fuzz.mutation import mutated

LONGEST = 20.0
"""ours: seconds of this program's own time, after which a door is taken to hang."""

MOST_MEMORY = 4_000_000_000
"""ours: bytes; a job takes some 150 million."""

MOST_STARTS = 400
"""ours: files kept as starts beside the sound ones."""


class Hangs(BaseException):
    """A door that does not come to an end. No `except Exception` on the way takes it for its own."""


def _hangs(_: int, __: FrameType | None) -> None:
    raise Hangs


def kind_of(error: BaseException) -> str:
    """What an error is, apart from its figures and names: those of one kind have one cause, as a rule."""
    if isinstance(error, LakewrightError):
        return re.sub(r"""['"].*?['"]|[\d.]+""", "_", str(error).split("\n    do")[0])[:160]
    frames = [frame for frame in traceback.extract_tb(error.__traceback__) if "lakewright" in frame.filename]
    place = f"{Path(frames[-1].filename).name}:{frames[-1].lineno}" if frames else ""
    if isinstance(error, Found):
        place = re.sub(r"[0-9.]+", "_", str(error))[:120]
    return f"{type(error).__name__} {place}"


class Run:
    """What was done at one door."""

    def __init__(self, door: Door, seed: int) -> None:
        self.door, self.dice = door, random.Random(f"{door.name} {seed}")
        self.starts, self.more = door.seeds(), list[bytes]()
        self.seen: set[str] = set()
        self.tried, self.let_in = 0, 0
        self.found: Counter[str] = Counter()

    def once(self, folder: Path, keep: Path) -> None:
        """Try one more."""
        starts = self.more if self.more and self.dice.random() < 0.5 else self.starts
        data = mutated(self.dice.choice(starts), self.dice.choice(self.starts), self.dice)
        self.tried += 1
        kind = entered(self.door, data, folder)
        if kind == "":
            self.let_in += 1
            return
        if kind.startswith("!"):
            if not self.found[kind]:
                keep.mkdir(exist_ok=True)
                (keep / f"{self.door.name}-{hashlib.sha256(data).hexdigest()[:8]}").write_bytes(data)
                print(f"{self.door.name}: {kind[1:]}", file=sys.stderr, flush=True)
            self.found[kind] += 1
        elif kind not in self.seen and len(self.more) < MOST_STARTS and len(data) < 50_000:
            self.more.append(data)
        self.seen.add(kind)


def entered(door: Door, data: bytes, folder: Path) -> str:
    """Nothing where it was let in, the kind of its refusal, or with a ! before it what was found."""
    signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
    try:
        door.enter(data, folder)
    except LakewrightError as error:
        return kind_of(error)
    except (Exception, Hangs) as error:
        return f"!{kind_of(error)}"
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
    return ""


def main(seconds: float, name: str = "", seed: int = 0) -> int:
    """Handle the doors roughly, turn by turn. Returns how many kinds were found."""
    signal.signal(signal.SIGVTALRM, _hangs)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    warnings.simplefilter("error")
    runs = [Run(door, seed) for door in DOORS if name in ("", door.name)]
    if not runs:
        sys.exit(f"{name}: no door is called that; there is {', '.join(door.name for door in DOORS)}")
    end, turn = time.monotonic() + seconds, 0
    with tempfile.TemporaryDirectory() as scratch:
        while time.monotonic() < end:
            run = runs[turn % len(runs)]
            turn += 1
            folder = Path(scratch) / run.door.name
            folder.mkdir(exist_ok=True)
            until = min(end, time.monotonic() + 2.0)  # ours: every door gets as much time, and not as many files
            while time.monotonic() < until:
                run.once(folder, Path("found"))
            if run.door.name != "book":
                shutil.rmtree(folder)
    print(f"{'door':10} {'tried':>8} {'let in':>8} {'kinds of refusal':>17} {'found':>6}")
    for run in runs:
        refusals = sum(not kind.startswith("!") for kind in run.seen)
        print(f"{run.door.name:10} {run.tried:8,} {run.let_in:8,} {refusals:17,} {len(run.found):6}")
    print(f"{'all':10} {sum(run.tried for run in runs):8,} in {seconds:.0f} s")
    for run in runs:
        for kind, times in run.found.most_common():
            print(f"  {run.door.name}: {kind[1:]} ({times} times)")
    return sum(len(run.found) for run in runs)


if __name__ == "__main__":
    asked = sys.argv[1:]
    sys.exit(bool(main(float(asked[0]), asked[1] if len(asked) > 1 else "", int(asked[2]) if len(asked) > 2 else 0)))
