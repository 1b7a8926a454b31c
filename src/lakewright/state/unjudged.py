"""What a job says that no check of this version listens to: kept, and said aloud, so that none thinks it judged."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from lakewright.job.models import Job
from lakewright.job.table import Table

# The fields of each table that something reads.
JUDGED_BY_TABLE = {
    "site": (
        "water kind elevation dam boats soundings ground days current weed frost_depth dam_drawdown soundings_file"
    ),
    "site.levels": "low lowest_seen flood waves today record record_zero schedule",
    "site.bed": "kind soft",
    "site.wind": "fetch speed averaging depth",
    "site.ice": "thickness freezing_index shove",
    "site.frost": "first last spread",
    "site.rules": "screen region drinking asked answer",
    "site.clarity": "secchi turbidity uv_transmittance bloom bloom_months",
    "need": (
        "people public per_day baths kitchens fixtures flow hose season stock irrigation branches fire drinking "
        "close_by open_from"
    ),
    "stand": "at riser form legs reach frame wet ballast pads pins tether",
    "stand.inlet": (
        "kind stock attitude screen loss_coefficient opening_pressure bore screen_area screen_opening "
        "screen_open_fraction"
    ),
    "suction": (
        "stock bore length along roughness roughness_fouled fittings loss_coefficient joints_above_water buried_from "
        "slope route weights staked_to sunlit vacuum_rating pressure_rating trench_depth"
    ),
    "holding": "arrangement foot_valve_opens",
    "pump": (
        "kind stock distance height places curve npsh shaft_power lift_table power voltage shut_off "
        "faults ejector self_priming air_rate prime_lift casing_volume"
    ),
    "delivery": (
        "stock bore length height roughness roughness_fouled fittings loss_coefficient tank tank_volume "
        "tank_pressure_rating precharge cut_in cut_out flow_control tap_height filters_clean filters_dirty relief "
        "sunlit pressure_rating buried trench_depth heater_volume control"
    ),
    "delivery.controller": "stock start holds band least_flow delay least_speed efficiency trickle",
    "delivery.store": "stock volume low fill_time float overflow",
    "delivery.store.booster": "stock height curve",
    "protection": "dry_run cut_off float_at switch_at relief_flow frost",
    "power": "supply voltage breaker distance wire source_power motor_current code_letter gfci",
    "price": (
        "level labour_rate crew hours travel boat boat_half_day digger digger_half_day permits call_back contingency "
        "markup margin tax tax_on deposit valid_days currency"
    ),
    "treatment": "steps flow_control",
    "treatment.uv": "stock dose flow transmittance",
    "treatment.chlorine": "residual volume baffling tank ph temperature",
    "access": "by carry digger work_by own_boat own_digger",
}
JUDGED = frozenset(f"{table}.{field}" for table, fields in JUDGED_BY_TABLE.items() for field in fields.split())
"""Fields that facts are made of, or that a search reads. A test holds the two together."""

WORDS = frozenset(
    {
        "job",
        "have",
        "limits",
        "readings",
        "site.position",
        "site.levels.who",
        "site.rules.call",
        "need.winter_by",
        "site.frost.years",
        "site.frost.station",
    }
)
"""Tables and fields that are there to be kept and printed, not judged."""
KNOWN = JUDGED | WORDS


def unjudged(job: Job) -> tuple[str, ...]:
    """Fields the job gives and nothing reads yet, as written in the job file.

    >>> from lakewright.job.read import read_job_text
    >>> unjudged(read_job_text('[access]\\ncrew = 2\\nby = "road"'))
    ('[access] crew',)
    """
    return tuple(_shown(path) for path in _given(job, "") if not _listened_to(path))


def _listened_to(path: str) -> bool:
    parts = path.split(".")
    return any(".".join(parts[: n + 1]) in KNOWN for n in range(len(parts)))


def _given(table: Table, path: str) -> Iterator[str]:
    for name in type(table).model_fields:
        if name not in table.model_fields_set:
            continue
        here, value = f"{path}.{name}".lstrip("."), getattr(table, name)
        if isinstance(value, Table):
            yield from _given(value, here)
        elif _says_something(value):
            yield here


def _says_something(value: Any) -> bool:
    return value not in (None, [], {}, "unknown", "none")


def _shown(path: str) -> str:
    table, _, field = path.rpartition(".")
    return f"[{table}] {field}"
