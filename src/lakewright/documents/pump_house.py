"""What the pump house's own papers need beside the report: plain figures of the pump, its line and its tank."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class PumpHouse:
    """Figures of a pump house in SI; None where nobody knows.

    fill [m3]: poured into a dry line; prime_time [s]: until a pump that draws the air out holds pressure;
    cut_in, cut_out, precharge, cut_off, relief [Pa gauge]; voltage [V]; depth, low, pump_height [m]: of water at the
    stand on the usual level, of the lowest level and of the pump; flow [m3/s]: asked
    """

    draws_air: bool
    flooded: bool
    foot_valve: bool
    fill: float | None
    prime_time: float | None
    cut_in: float | None
    cut_out: float | None
    precharge: float | None
    cut_off: float | None
    relief: float | None
    voltage: float | None
    depth: float | None
    low: float | None
    pump_height: float | None
    flow: float | None
