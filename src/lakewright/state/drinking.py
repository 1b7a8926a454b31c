"""What stands between the lake and a glass: each barrier at its worst water, and all of them together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import disinfection, filter, ultraviolet, water
from lakewright.physics.types import Array
from lakewright.state.facts import Facts

Mask = NDArray[np.bool_]

ROOM = np.array([water.ICE_POINT + 20.0])
"""ours: a filter's sheet is made for water of 20 C [K]."""

SOLIDS = np.array([2e-3])
"""memory: solids of lake water, 0.5 to 2 mg/L for each NTU [kg/m3]; the most, so that no run is promised too long."""

ALL = np.ones(1)


@dataclass(frozen=True, eq=False, repr=False)
class Drinking:
    """The water, the leave to drink it, and each barrier. Standing cases; what no day changes has one value."""

    wanted: Mask
    drunk: Mask  # by people or by animals
    answer: Array  # of the authority: 2 yes, 1 asked, 0 not asked, -1 no
    people: Array  # whom it serves; a crowd where others than one household use it
    bloomless: Array  # 1 where no algae have bloomed, -1 where they have
    disinfects: Mask  # where a lamp or chlorine is there
    turbidity: Array  # NTU
    flow: Array  # m3/s
    filter_flow: Array  # m3/s, that the least of the other steps is made for
    has_lamp: Mask
    held: Array  # 1 where a valve holds the flow
    lamp_flow: Array  # m3/s
    transmittance: Array  # share
    lamp_transmittance: Array  # share
    has_chlorine: Mask
    time: Array  # s, of contact
    time_needed: Array  # s, that leaves all germs held back
    has_filters: Mask
    room: Array  # Pa, that clean filters leave for dirt, at the most flow
    dirt_is_told: Mask
    run: Array  # s, until the filters are due for changing


@dataclass(frozen=True, eq=False, repr=False)
class Barriers:
    """Log reductions on the worst day. Targets: Giardia, Cryptosporidium, viruses."""

    wanted: Mask
    held_back: Array
    least: Array  # of the rules
    most: Array


def drinking(facts: Facts) -> Drinking:
    """The water at its worst and each barrier in it."""
    given = facts.drinking
    wanted = 0.0 * given.wanted
    drunk = np.maximum(given.wanted, given.herd)
    time = disinfection.contact_time(given.contact_volume, given.baffling, given.flow)
    run = filter.run_volume(given.dirt, given.turbidity, SOLIDS, ALL)
    return Drinking(
        wanted=given.wanted != 0.0,
        drunk=drunk != 0.0,
        answer=given.answer + wanted,
        people=_served(facts) + wanted,
        bloomless=1.0 - 2.0 * given.bloom + 0.0 * drunk,
        disinfects=(given.wanted != 0.0) & ((given.lamp != 0.0) | (given.chlorine != 0.0)),
        turbidity=given.turbidity + wanted + 0.0 * (given.lamp + given.chlorine),
        flow=given.flow + wanted,
        filter_flow=given.filter_flow,
        has_lamp=(given.wanted != 0.0) & (given.lamp != 0.0),
        held=given.held + wanted,
        lamp_flow=given.lamp_flow + 0.0 * given.lamp,
        transmittance=given.transmittance + wanted,
        lamp_transmittance=given.lamp_transmittance + 0.0 * given.lamp,
        has_chlorine=(given.wanted != 0.0) & (given.chlorine != 0.0),
        time=time + wanted + 0.0 * given.chlorine,
        time_needed=_time_needed(facts),
        has_filters=given.viscous + given.turbulent != 0.0,
        room=facts.delivery.filters_dirty - _clean_loss(facts),
        dirt_is_told=~np.isinf(given.dirt),
        run=_over(run, given.per_day),
    )


def barriers(facts: Facts) -> Barriers:
    """What filters, lamp and chlorine hold back together on the worst day."""
    limits, given = facts.limits, facts.drinking
    each = zip(by_filters(facts), by_lamp(facts), by_chlorine(facts), strict=True)
    held_back = [np.min(filters + lamp + chlorine, axis=-1, keepdims=True) for filters, lamp, chlorine in each]
    return Barriers(
        wanted=given.wanted != 0.0,
        held_back=np.concatenate(np.broadcast_arrays(*held_back), axis=-1) + 0.0 * given.wanted,
        least=np.array([limits.target_giardia, limits.target_cryptosporidium_least, limits.target_virus]),
        most=np.array([limits.target_giardia, limits.target_cryptosporidium, limits.target_virus]),
    )


def _served(facts: Facts) -> Array:
    """People who count: a supply that others than one household use is taken as one too many."""
    given = facts.drinking
    crowd = np.maximum(given.people, facts.limits.people_most + 1.0)
    return np.where(given.public == 0.0, given.people, crowd + 0.0 * given.public)


def _over(amount: Array, rate: Array) -> Array:
    """How long an amount lasts: for ever where nothing is drawn."""
    drawn = rate != 0.0
    return np.where(drawn, amount / np.where(drawn, rate, 1.0), np.inf)


def _clean_loss(facts: Facts) -> Array:
    """Loss of all clean filters at the most flow, day by day [Pa]."""
    ratio = water.dynamic_viscosity(facts.days.temperature) / water.dynamic_viscosity(ROOM)
    return filter.clean_loss(facts.drinking.flow, facts.drinking.viscous, facts.drinking.turbulent, ratio)


def by_filters(facts: Facts) -> tuple[Array, Array, Array]:
    """Log reductions by the filters: Giardia, Cryptosporidium, viruses."""
    given = facts.drinking
    return given.filter_giardia, given.filter_cryptosporidium, given.filter_virus


def by_lamp(facts: Facts) -> tuple[Array, Array, Array]:
    """Log reductions by the lamp: none outside its rating, in cloudy water or with no fine filter before it."""
    given, limits = facts.drinking, facts.limits
    # Blank where any of it is not known, and nothing where any of it lacks.
    inside = np.ones(1)
    for enough in _lamp_needs(facts).values():
        inside = inside * enough
    dose = given.lamp_dose

    def counted(logs: Array) -> Array:
        small = np.minimum(logs, limits.lamp_log_most)
        return np.where(given.lamp == 0.0, 0.0, small * inside + 0.0 * given.lamp)

    return (
        counted(ultraviolet.giardia_by_light(dose)),
        counted(ultraviolet.cryptosporidium_by_light(dose)),
        counted(ultraviolet.viruses_by_light(dose)),
    )


def lamp_lacks(facts: Facts) -> tuple[str, ...]:
    """What a lamp lacks to count: dose, flow, light, filter, clear."""
    return tuple(name for name, enough in _lamp_needs(facts).items() if bool((enough == 0.0).any()))


def _lamp_needs(facts: Facts) -> dict[str, Array]:
    """Each 1 where it is as a lamp must have it, 0 where not, nan where nobody knows."""
    given, limits = facts.drinking, facts.limits
    return {
        "dose": _reaches(given.lamp_dose, limits.lamp_dose_least),
        "flow": _reaches(given.lamp_flow, given.flow),
        "light": _reaches(given.transmittance, given.lamp_transmittance),
        "filter": _reaches(limits.prefilter_finest, given.prefilter),
        "clear": _is_clear(facts),
    }


def by_chlorine(facts: Facts) -> tuple[Array, Array, Array]:
    """Log reductions by chlorine, day by day: none of Cryptosporidium, and none in cloudy water."""
    given, temperature = facts.drinking, _working_temperature(facts)
    contact = given.residual * disinfection.contact_time(given.contact_volume, given.baffling, given.flow)

    def counted(logs: Array) -> Array:
        return np.where(given.chlorine == 0.0, 0.0, logs * _is_clear(facts) + 0.0 * given.chlorine)

    return (
        counted(disinfection.giardia_by_chlorine(contact, temperature, given.ph, given.residual)),
        np.zeros(1),
        counted(disinfection.viruses_by_chlorine(contact, temperature)),
    )


def _time_needed(facts: Facts) -> Array:
    """Contact time that makes up what filters and lamp leave of Giardia and of viruses, day by day [s]."""
    given, limits, temperature = facts.drinking, facts.limits, _working_temperature(facts)
    giardia, _, viruses = (filters + lamp for filters, lamp in zip(by_filters(facts), by_lamp(facts), strict=True))
    left = np.maximum(limits.target_giardia - giardia, 0.0)
    contact = np.maximum(
        disinfection.giardia_contact(temperature, given.ph, given.residual, left),
        disinfection.virus_contact(temperature, np.maximum(limits.target_virus - viruses, 0.0)),
    )
    return np.where(given.chlorine == 0.0, 0.0, _over(contact, given.residual))


def _working_temperature(facts: Facts) -> Array:
    """Of the water in which chlorine works, day by day [K]."""
    return np.minimum(facts.days.temperature, facts.drinking.coldest)


def _is_clear(facts: Facts) -> Array:
    """1 where light and chlorine count, 0 where the water is too cloudy for them."""
    return _reaches(facts.limits.turbidity_most, facts.drinking.turbidity)


def _reaches(value: Array | float, least: Array | float) -> Array:
    """1 where a value is at least another, a lost last bit apart, else 0; nan where either is."""
    slack = 1.0 + disinfection.HAIR
    return np.where(np.isnan(value) | np.isnan(least), np.nan, np.where(np.multiply(value, slack) >= least, 1.0, 0.0))
