"""The figures checks are judged against: published, practice or ours, each with where it comes from."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from functools import cache
from importlib import resources

from lakewright import units


@dataclass(frozen=True)
class Limits:
    """Every limit and every comfortable surplus, SI. One table each in `limits.toml`, where kinds and sources stand."""

    window_top_comfort: float
    window_bottom_comfort: float
    lift_ceiling: float
    lift_easy: float
    cover_comfort: float
    bed_comfort: float
    ice_gap: float
    ice_comfort: float
    screen_comfort: float
    npsh_ratio: float
    npsh_plus: float
    npsh_comfort: float
    suction_velocity: float
    suction_velocity_comfort: float
    collapse_least: float
    collapse_comfort: float
    pressure_comfort: float
    spring_least: float
    spring_comfort: float
    slope_comfort: float
    joints_most: float
    joints_comfort: float
    pocket_most: float
    pocket_comfort: float
    buried_comfort: float
    holders_least: float
    holders_comfort: float
    shutters_least: float
    room_comfort: float
    fall_comfort: float
    need_comfort: float
    cut_out_least: float
    cut_out_comfort: float
    run_comfort: float
    opening_comfort: float
    starts_comfort: float
    delivery_velocity_easy: float
    delivery_velocity: float
    shut_off_comfort: float
    switch_comfort: float
    slide_least: float
    slide_comfort: float
    tip_least: float
    tip_comfort: float
    float_least: float
    float_comfort: float
    scour_lean_most: float
    scour_lean_comfort: float
    sink_least: float
    sink_comfort: float
    snag_pull: float
    snag_comfort: float
    lift_easy_mass: float
    lift_most: float
    line_weight_easy: float
    line_held_comfort: float
    left_most: float
    left_comfort: float
    trench_comfort: float
    slack_comfort: float
    haul_easy: float
    haul_most: float
    close_comfort: float
    open_comfort: float
    breaker_comfort: float
    trough_comfort: float
    boat_draft: float
    boat_comfort: float
    stir_easy: float
    stir_most: float
    answer_comfort: float
    people_most: float
    people_comfort: float
    turbidity_easy: float
    turbidity_most: float
    rated_flow_comfort: float
    filter_room_comfort: float
    filter_run_least: float
    filter_run_comfort: float
    transmittance_comfort: float
    lamp_dose_least: float
    lamp_log_most: float
    prefilter_finest: float
    contact_comfort: float
    target_giardia: float
    target_cryptosporidium: float
    target_cryptosporidium_least: float
    target_virus: float
    target_comfort: float
    cut_off_comfort: float
    cut_off_room: float
    guards_least: float
    chatter_comfort: float
    relief_comfort: float
    motor_comfort: float
    voltage_least: float
    voltage_most: float
    voltage_comfort: float
    drop_easy: float
    drop_most: float
    dip_easy: float
    dip_most: float
    long_cable: float
    source_running: float
    source_surge: float
    source_comfort: float
    prime_drawn: float
    prime_drawn_comfort: float
    prime_poured: float
    prime_poured_comfort: float
    ejector_share: float
    ejector_share_comfort: float
    prime_kept_comfort: float
    surge_length: float
    surge_climb: float
    column_comfort: float
    heating_least: float
    heating_comfort: float
    sure_enough: float
    control_least: float
    control_comfort: float
    held_comfort: float
    speed_comfort: float
    cooling_comfort: float
    store_comfort: float
    store_days: float
    store_days_comfort: float
    stops_least: float
    stops_comfort: float
    booster_comfort: float


@dataclass(frozen=True)
class LimitRow:
    """One table of `limits.toml`: the figure as written, how it is shown, where it comes from."""

    name: str
    text: str
    dimension: str
    kind: str
    source: str
    why: str
    value: float


@cache
def limit_rows() -> dict[str, LimitRow]:
    """The rows of `limits.toml` by name, in file order."""
    text = resources.files("lakewright.job").joinpath("limits.toml").read_text(encoding="utf-8")
    rows = {}
    for name, row in tomllib.loads(text).items():
        value = units.read(row["value"], row["dimension"])
        rows[name] = LimitRow(name, row["value"], row["dimension"], row["kind"], row["source"], row["why"], value)
    return rows


@cache
def standard_limits() -> Limits:
    """The limits a job is judged by when it overrides none."""
    rows = limit_rows()
    return Limits(**{field.name: rows[field.name].value for field in fields(Limits)})


def limits_with(overrides: Mapping[str, float]) -> Limits:
    """The standard limits with a job's own in their place.

    >>> limits_with({"npsh_ratio": 1.3}).npsh_ratio
    1.3
    """
    return replace(standard_limits(), **overrides)
