"""The packet: what a job looks like on paper."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from lakewright.api.read import read
from lakewright.api.report import report_on
from lakewright.api.sheets import SHEETS
from lakewright.documents.parts_list import parts_csv
from lakewright.documents.pdf import pages
from lakewright.documents.section import section
from lakewright.documents.sheet import SECTION_SIZE, sheet
from lakewright.documents.site import Day, Site
from lakewright.documents.svg import svg
from lakewright.errors import AskError
from lakewright.job.disk import put_in
from lakewright.job.models import Job
from lakewright.job.quantity import value_of
from lakewright.state.facts import Facts
from lakewright.state.profile import bed_profile, ground_profile
from lakewright.window import window_of


def packet(path: Path, folder: Path, also: Sequence[str] = ()) -> tuple[Path, ...]:
    """Write the sheet, the section and the list of parts of a job file, named after it, into a folder.

    Parameters
    ----------
    path : a job file
    folder : made where there is none
    also : names of further sheets, of SHEETS

    Raises
    ------
    JobError where the file cannot be used, with every mistake found in it
    AskError where a sheet is not known or cannot be drawn, what prints it is not installed, or the folder cannot be
        written; nothing is written then
    """
    for name in also:
        if name not in SHEETS:
            raise AskError(f"--also {name}: no sheet is called that; there is {', '.join(SHEETS)}")
    job, stock, assembly = read(path)
    found = report_on(job, assembly, stock=stock)
    site = site_of(job, assembly.facts)
    told = tuple(name for name, standing in assembly.standings.items() if standing == "told")
    drawn = section(site, found.findings, *SECTION_SIZE)
    written = {
        folder / f"{path.stem}-sheet.pdf": pages([sheet(found, site, told)], found.title),
        folder / f"{path.stem}-section.svg": svg(drawn.scene).encode("utf-8"),
    }
    if found.priced is not None:
        written[folder / f"{path.stem}-parts.csv"] = parts_csv(found.priced.bill, found.units).encode("utf-8")
    for name in also:
        files = SHEETS[name](job, stock, assembly, found)
        written |= {folder / f"{path.stem}-{end}": content for end, content in files.items()}
    put_in(folder, written)
    return tuple(written)


def site_of(job: Job, facts: Facts) -> Site:
    """The plain numbers that a drawing needs, of a job and the facts of a design for it."""
    stand, window = facts.stand, window_of(facts)
    levels = facts.days.level + facts.faults.level_offset
    heights = zip(facts.day_names, levels.tolist(), facts.days.ice.tolist(), strict=True)
    flood, waves = float(facts.site.flood[0]), float(facts.site.waves[0])
    return Site(
        title=job.job.title or "Job",
        units=job.job.units,
        kind=job.site.kind or "lake",
        soundings=tuple(zip(*bed_profile(job), strict=True)),
        ground=tuple(zip(*ground_profile(job), strict=True)),
        at=value_of(job.stand.at),
        depth=float(stand.depth[0]),
        form=job.stand.form or "upright",
        attitude=job.stand.inlet.attitude or "up",
        legs=job.stand.legs or 4,
        reach=value_of(job.stand.reach),
        frame=float(stand.frame[0]),
        riser=float(stand.riser[0]),
        inlet_rise=float(stand.inlet_rise[0]),
        sink=float(stand.sink[0]),
        bed_length=float(facts.suction.bed_length[0]),
        weights=value_of(job.suction.weights.spacing),
        pump_distance=value_of(job.pump.distance),
        pump_height=float(facts.pump.height[0]),
        pump_kind=facts.pump_kind,
        window=(window.bottom, window.top),
        delivery_length=float(facts.delivery.length[0]),
        tee_height=float(facts.delivery.height[0]),
        tap_height=value_of(job.delivery.tap_height),
        days=tuple(Day(name, level, ice) for name, level, ice in heights),
        low=float(levels.min()),
        flood=flood,
        waves=waves,
    )
