"""The intake stand on the path of the water, from the inlet to where the line takes hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from lakewright.job.models import Job
from lakewright.state.assemble import Assembly
from lakewright.state.gather import OPEN
from lakewright.state.holding import has_no_foot_valve
from lakewright.state.path import End, Laying, Piece, why_none
from lakewright.state.placed import At, Placed, Stand, ports_placed
from lakewright.state.stand import foot_valve_of, stand_of
from lakewright.state.stand_built import FORMS_ON_LEGS
from lakewright.state.stand_head import TO_THE_LINE
from lakewright.stock.rows import Pipe

STATION = "stand"


def stands_on_legs(job: Job) -> bool:
    """Whether a stand of this form stands on legs; one of no form said does."""
    return job.stand.form in (*FORMS_ON_LEGS, None, OPEN)


def lay_stand(laying: Laying, job: Job, assembly: Assembly) -> End | None:
    """Lay the stand, and give the end from which the line starts; what lies on the bed is beside the path."""
    inlet, stock = job.stand.inlet, laying.stock
    if not has_no_foot_valve(job) and foot_valve_of(job, stock, assembly) is None:
        laying.gaps.append(f"[stand.inlet] stock {why_none(inlet.stock, 'a foot valve')}")
    if inlet.screen != "none" and assembly.parts.get("[stand.inlet] screen", "") not in stock.screens:
        laying.gaps.append(f"[stand.inlet] screen {why_none(inlet.screen, 'a screen')}")
    stand = stand_of(job, stock, assembly)
    laying.gaps += stand.gaps
    laying.notes += stand.notes
    ways = ways_through(stand)
    numbers = {part: len(laying.pieces) + n for n, part in enumerate(_in_order(stand, ways))}
    for part in numbers:
        laying.place(_piece(stand.placed[part], ways.get(part)))
    laying.meetings += [(_end(numbers, one), _end(numbers, other)) for one, other in stand.joins]
    line_taken = "[suction] stock" in assembly.parts and stand.line_end is not None
    laying.openings += [(_end(numbers, at), to) for at, to in stand.openings if not (line_taken and to == TO_THE_LINE)]
    return None if stand.line_end is None else _end(numbers, stand.line_end)


def _in_order(stand: Stand, ways: dict[int, tuple[int, int]]) -> list[int]:
    """The parts on the path by number: screen, valve, those that water passes, then the rest of the frame."""
    heads = [n for n, each in enumerate(stand.placed) if each.role in ("head", "sheltered")]
    rest = [n for n, each in enumerate(stand.placed) if each.role not in ("head", "sheltered", "ballast", "pad")]
    return [*reversed(heads), *ways, *(n for n in rest if n not in ways)]


def _end(numbers: dict[int, int], at: At) -> End:
    return End(numbers[at.part], at.mouth)


def _piece(placed: Placed, through: tuple[int, int] | None) -> Piece:
    row = placed.part
    if isinstance(row, Pipe):
        sold = min(coil for coil in row.coils if coil >= placed.length)
        return Piece(STATION, replace(row, ports=ports_placed(row)), placed.length, sold, through)
    return Piece(STATION, row, through=through)


def ways_through(stand: Stand) -> dict[int, tuple[int, int]]:
    """By which mouths running water enters and leaves each part of a stand between its inlet and the line."""
    if stand.line_end is None:
        return {}
    met = {one: other for pair in stand.joins for one, other in (pair, pair[::-1])}
    lake = {at for at, to in stand.openings if to != TO_THE_LINE}
    ways: dict[int, tuple[int, int]] = {}

    def leads_to_the_lake(part: int, leaves: int) -> bool:
        """Whether what leaves a part by a mouth comes from the inlet; notes the way it takes, from the inlet on."""
        for mouth in _others(stand, part, leaves):
            at = At(part, mouth)
            before = met.get(at)
            valve = before is not None and stand.placed[before.part].kind == "foot valve"
            if at in lake or valve or (before is not None and leads_to_the_lake(before.part, before.mouth)):
                ways[part] = (mouth, leaves)
                return True
        return False

    leads_to_the_lake(stand.line_end.part, stand.line_end.mouth)
    return ways


def _others(stand: Stand, part: int, mouth: int) -> Iterator[int]:
    return (other for other in range(len(stand.placed[part].mouths)) if other != mouth)
