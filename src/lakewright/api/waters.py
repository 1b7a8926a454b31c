"""The waters on record, and what each still lacks."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lakewright.errors import AskError, Mistake
from lakewright.job.models import Job
from lakewright.job.read_water import WaterError, find_water, namesakes, read_water, water_files
from lakewright.job.water import Water, lacks, unsigned


@dataclass(frozen=True)
class WaterCard:
    """One water of a folder."""

    name: str  # that of its file where the file cannot be read
    file: Path
    kind: str
    dam: str
    lacks: tuple[str, ...]  # what is still to be asked
    unsigned: tuple[str, ...]  # facts without a date or a name behind them
    mistakes: tuple[Mistake, ...]  # why a job cannot use it


def waters(folder: Path) -> list[WaterCard]:
    """Each water of a folder, in the order of their files.

    Raises
    ------
    AskError where there is no such folder
    """
    if not folder.is_dir():
        raise AskError(f"{folder} is no folder; make it and put a file for each water in it, or name another")
    twice = namesakes(folder)
    return [_card(file, twice.get(file)) for file in water_files(folder)]


def water_of(job: Job, job_file: Path) -> Water | None:
    """The record of a job's water; None where the job names none, or one that is on no record.

    Raises
    ------
    WaterError where the record cannot be used
    """
    return find_water(job.site.water or "", water_folders(job_file), job.job.units)


def water_folders(job_file: Path) -> tuple[Path, ...]:
    """Where a job's water is looked for: beside the job, and nowhere else, lest a namesake be taken for it."""
    return (job_file.parent / "waters",)


def _card(file: Path, twice: Mistake | None) -> WaterCard:
    try:
        water = read_water(file)
    except WaterError as error:
        return WaterCard(file.stem, file, "", "", (), (), error.mistakes)
    kind, dam = (fact.value if fact else "" for fact in (water.kind, water.dam))
    return WaterCard(water.name, file, kind, dam, lacks(water), unsigned(water), (twice,) if twice else ())
