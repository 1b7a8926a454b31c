"""The columns of a file of measurements: their names and units in its head, figures with points or with commas."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from lakewright import units
from lakewright.errors import Mistake, UnitError
from lakewright.stock.sheet import SheetRow, rows_of

DEGREES = "degrees"
"""The dimension of a latitude or a longitude: plain figures, without a unit."""

_COMMA = re.compile(r"[-+\u2212]?\d+,\d+")
_THREE = re.compile(r"[-+\u2212]?\d{1,3},\d{3}")
_PLAIN = re.compile(r"[-+]?\d+(\.\d+)?")
_HEAD = re.compile(r"(?P<name>[^\W\d_]+)[\s_]*[(\[]?\s*(?P<unit>[^\s()\[\]]*)")


@dataclass
class Measurements:
    """A file of measurements: where its columns stand, its rows, and what cannot be used of it.

    columns : by our name, the place of a column in a row and the unit its head names
    commas : whether a comma stands for the decimal point
    """

    file: str
    columns: dict[str, tuple[int, str]] = field(default_factory=dict)
    rows: list[SheetRow] = field(default_factory=list)
    mistakes: list[Mistake] = field(default_factory=list)
    commas: bool = False

    def refuse(self, line: int, key: str, found: str, wanted: str, remedy: str) -> float:
        """Note what cannot be used."""
        self.mistakes.append(Mistake(self.file, line, key, found, wanted, remedy))
        return math.nan

    def text(self, row: SheetRow, name: str) -> str:
        """A cell as it stands; nothing where the row ends before it, or the file has no such column."""
        place = self.columns.get(name, (len(row.cells), ""))[0]
        return row.cells[place] if place < len(row.cells) else ""

    def figure(self, row: SheetRow, name: str, dimension: str) -> float:
        """A cell as a number in SI, or nan with the mistake noted."""
        cell, unit = self.text(row, name), self.columns[name][1]
        if not cell:
            return self.refuse(row.line, name, "nothing", "a figure", "write it, or take the row out")
        said = cell.replace(",", ".") if self.commas else cell
        if dimension == DEGREES:
            plain = said.replace("\u2212", "-")
            if _PLAIN.fullmatch(plain):
                return float(plain)
            return self.refuse(row.line, name, f'"{cell}"', "degrees and their decimals", "write it as 45.12345")
        try:
            return units.read(said if re.search(r"[^\W\d_]|['\"]", said) else f"{said} {unit}", dimension)
        except UnitError as error:
            return self.refuse(row.line, name, f'"{cell}"', error.wanted, error.remedy)


def measurements(path: Path, names: Mapping[str, Sequence[str]]) -> Measurements:
    """The rows of a CSV or XLSX file under a head that names its columns.

    Parameters
    ----------
    path : the file
    names : for each column by our name, the words that may stand for it in a head, small
    """
    rows, problems = rows_of(path)
    found = Measurements(path.name, mistakes=list(problems))
    if not rows:
        if not problems:
            found.refuse(0, "", "no rows", f"a head: {', '.join(names)}, and a row a measurement", "fill the file")
        return found
    head, found.rows = rows[0], rows[1:]
    for place, cell in enumerate(head.cells):
        said = _HEAD.match(cell)
        word = said["name"].lower() if said else ""
        name = next((name for name, words in names.items() if word in words), "")
        if name in found.columns:
            found.refuse(head.line, cell, f"a second column of {name}", "each once", "take out one of the two")
        elif name and said:
            found.columns[name] = (place, said["unit"])
    for row in found.rows:
        if len(row.cells) > len(head.cells) and any(row.cells[len(head.cells) :]):
            many = f"{len(row.cells)} cells under a head of {len(head.cells)}"
            found.refuse(row.line, "", many, "a cell a column", "part the cells by ; where commas are decimal")
    cells = [cell for row in found.rows for cell in row.cells]
    commas = [cell for cell in cells if _COMMA.fullmatch(cell)]
    found.commas = any(not _THREE.fullmatch(cell) for cell in commas) and not any(
        re.fullmatch(r"[-+]?\d+\.\d+", cell) for cell in cells
    )
    return found
