"""The survey sheet: one page to be filled in with a pencil, in the order one walks a site."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lakewright.documents.flow import ROOM, SLOT, Flow, Said
from lakewright.documents.said import Sayer, Words, bold, fixed, fixed_rows

WALK: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    ("door", (("title", "job.title"), ("customer", "job.customer"), ("date", "job.date"), ("by", "job.prepared_by"))),
    (
        "wanted",
        (
            ("people", "need.people"), ("baths", "need.baths"), ("irrigation", "need.irrigation.area"),
            ("drinking", "need.drinking"), ("public", "need.public"), ("when", "job.wanted"),
        ),
    ),
    (
        "house",
        (
            ("tap", "delivery.tap_height"), ("tee", "delivery.height"), ("filters", ""), ("supply", "power.supply"),
            ("voltage", "power.voltage"), ("breaker", "power.breaker"), ("cable", "power.distance"),
            ("there", ""), ("does", ""), ("changed", ""),
        ),
    ),
    (
        "pump",
        (
            ("height", "pump.height"), ("edge", "pump.distance"), ("delivery", "delivery.length"), ("trench", ""),
            ("digger", "access.digger"), ("way", "access.by"), ("carry", "access.carry"),
        ),
    ),
    (
        "shore",
        (
            ("today", "site.levels.today"), ("low", "site.levels.low"), ("flood", "site.levels.flood"),
            ("waves", "site.levels.waves"), ("who", "site.levels.who"), ("dam", "site.dam"),
            ("drawdown", "site.dam_drawdown"), ("shove", "site.ice.shove"),
        ),
    ),
    (
        "water",
        (
            ("name", "site.water"), ("coordinates", "site.position.coordinates"), ("elevation", "site.elevation"),
            ("bed", "site.bed.kind"), ("soft", "site.bed.soft"), ("weed", "site.weed"), ("mussels", "site.mussels"),
            ("boats", "site.boats"), ("fetch", "site.wind.fetch"), ("secchi", "site.clarity.secchi"),
            ("bloom", "site.clarity.bloom"), ("ice", "site.ice.thickness"),
        ),
    ),
    (
        "after",
        (
            ("winter", "need.season"), ("winter_by", "need.winter_by"), ("permit", "site.rules.permit"),
            ("answer", "site.rules.drinking"), ("call", "site.rules.call"), ("lines", "site.position.note"),
        ),
    ),
)  # fmt: skip
"""Stations of the walk and what is asked at each, with the field of the job file it fills, where there is one."""

MOST = 10
"""ours: soundings a line has room for on the sheet."""


def survey_sheet(say: Sayer) -> Flow:
    """The survey sheet, with what the job says already where there is one.

    `say` may speak of `job`.
    """
    flow = Flow(fixed("survey.name"))
    flow.heading(fixed("survey.head"), fixed("survey.line"))
    flow.quiet(fixed("survey.how"))
    columns, breaks = len(flow.rows), []
    for station, asks in WALK:
        if station != WALK[0][0]:
            breaks.append(len(flow.rows))
        flow.part(fixed(f"survey.{station}"))
        flow.table(("1fr", "1fr"), "ll", (), list(_rows(say, station, asks)))
    flow.in_columns(columns, breaks)
    _soundings(flow, say)
    flow.part(fixed("survey.sketch"))
    flow.grid()
    flow.bullets(fixed_rows("survey", "caution_"))
    flow.fit_page()
    return flow


def _rows(say: Sayer, station: str, asks: Sequence[tuple[str, str]]) -> Iterator[Sequence[Said | str]]:
    for name, path in asks:
        yield fixed(f"survey.{station}_{name}"), _known(say, path) or ROOM


def _known(say: Sayer, path: str) -> Words | None:
    """What the job says there, as it was typed."""
    full = f"job.{path}"
    if not path or "job" not in say.sources or not say.has(full):
        return None
    value = say.value(full)
    if hasattr(value, "text"):
        return None if value.open else bold(say(f"{full}.text"))
    return bold(say(full))


def _soundings(flow: Flow, say: Sayer) -> None:
    """Distances and depths, out from the water's edge."""
    flow.part(fixed("survey.soundings"))
    known = say.value("job.site.soundings")[:MOST] if "job" in say.sources else ()
    rows: list[Sequence[Said | str]] = []
    for field in ("distance", "depth"):
        cells: list[Said | str] = [fixed(f"survey.{field}")]
        cells += [bold(say(f"job.site.soundings.{n}.{field}.text")) for n in range(len(known))]
        rows.append((*cells, *[SLOT] * (MOST - len(known))))
    flow.table(("26mm", *["1fr"] * MOST), "l" * (MOST + 1), (), rows)
