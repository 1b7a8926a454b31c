"""The stand as built, as the water meets it: its parts as straight members, and what they stand on, as facts."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from lakewright.job.models import Job
from lakewright.physics import footing, force
from lakewright.physics.types import Array
from lakewright.state.exposure import debris_area, is_soft, stands_on_the_bed
from lakewright.state.facts import MemberFacts, StandFacts
from lakewright.state.gather import Gather, defaults
from lakewright.state.holding import has_no_foot_valve
from lakewright.state.members import Members, members_of
from lakewright.state.placed import Stand
from lakewright.state.stand_ballast import ballast_on, ballast_pieces
from lakewright.state.stand_built import Asked, asked_of, built
from lakewright.stock.load import Stock

LYING = ("leg", "spine", "centre", "side", "line end", "ballast")
"""Parts whose coefficients are those of what lies on the bed."""

FLAT = ("ballast", "pad")
"""Parts with edges. ours: ballast that is round is taken so too."""

BESIDE_A_LEG = 0.5
"""ours: ballast is strapped against a leg, and half its width shows beside it: a leg of 1.9 in cradled by an angle of
2 in is hardly 3 in wide."""

SHELTERED = 1e-6
"""ours: width to the water of what stands in something else's shelter [m]."""

LEG_BEARS = footing.STRIP_BEARING / footing.SURFACE_BEARING
"""A leg that lies on mud bears so much of what a pad of its area does."""

SMALL = ("3/4", "1", "1-1/4")
"""Nominal sizes of the smaller frames of practice [in]."""


@dataclass(frozen=True)
class Planned:
    """A stand on the bed, all of it settled but the ballast."""

    asked: Asked
    stock: Stock
    debris: float  # m2, caught at the head
    floor: float  # kg, the least ballast by practice
    bare: Stand  # as built, without any

    def members(self, mass: float) -> MemberFacts:
        """Its members with so much ballast; unknown where mass or parts are."""
        if not self.bare.placed:
            return unknown_members()
        facts = member_facts(self._weighed(mass), self.debris)
        return facts if not math.isnan(mass) else replace(facts, section=facts.section * math.nan)

    def _weighed(self, mass: float) -> Stand:
        """The stand with ballast on its legs, if any goes there."""
        found = ballast_pieces(self.stock, self.asked.ballast, mass, len(self.bare.tips)) if mass > 0.0 else None
        if found is None:
            return self.bare
        return replace(self.bare, placed=(*self.bare.placed, *ballast_on(self.bare.placed, self.bare.tips, *found)))

    def in_pieces(self, mass: float) -> float:
        """A mass of ballast [kg] rounded up to whole pieces; infinite where so many do not go on the legs."""
        if math.isinf(mass):
            return mass
        found = ballast_pieces(self.stock, self.asked.ballast, mass, self.asked.legs)
        return math.inf if found is None else found[0].mass * found[1]


def planned(job: Job, stock: Stock, facts: StandFacts, names: Mapping[str, str], gather: Gather) -> Planned | None:
    """The stand of a job on the bed; None for an inlet that does not stand there.

    Parameters
    ----------
    job : as read; facts : of its stand
    names : of the parts taken, by key of the job file
    gather : what is taken where the job does not say goes there
    """
    if not stands_on_the_bed(job):
        return None
    inlet = job.stand.inlet
    valve = names.get("[stand.inlet] stock", inlet.stock or "") if not has_no_foot_valve(job) else ""
    entrance = float(facts.frame[0] + facts.riser[0])
    asked = asked_of(
        job,
        valve=stock.foot_valves.get(valve),
        screen=stock.screens.get(names.get("[stand.inlet] screen", "")),
        pipe=stock.pipes.get(names.get("[suction] stock", "")),
        riser=entrance,
        depth=float(facts.depth[0]),
    )
    asked = replace(asked, pads=_pads(job, gather), ballast_mass=0.0)
    floor = defaults()["stand.ballast of a small frame" if asked.size in SMALL else "stand.ballast"].value
    return Planned(asked, stock, debris_area(job), floor, built(asked, stock))


def _pads(job: Job, gather: Gather) -> float:
    if job.stand.pads is not None:
        return job.stand.pads.value
    if gather.grade == "quote" and is_soft(job):
        return gather.default("stand.pads", "[stand] pads", "stand.pads in soft bed")
    return 0.0


def rest_area(stand: Stand) -> float:
    """What rests on the bed [m2], as so many square pads."""
    members = members_of([stand])
    pads = _disc(members.outside[members.are("pad")])
    legs = members.are("leg")
    return max(float(pads.sum()), LEG_BEARS * float((members.length * members.outside)[legs].sum()))


def member_facts(stand: Stand, debris: float) -> MemberFacts:
    """The members of a stand, and of what its head has caught [m2].

    What is sheltered weighs and is not washed. A strainer is full of water, which the waves move with it.
    """
    members = members_of([stand])
    length, solid = members.length, members.solid
    washed, lumps = ~members.are("sheltered"), members.are("sheltered", "ballast")
    material = solid / length
    section = np.where(lumps, material, np.maximum(_disc(members.outside), material))
    hollow = section - material
    room = hollow * length
    ends = np.ascontiguousarray(np.concatenate([members.start, members.end], axis=1).T)
    facts = MemberFacts(
        **dict(zip(("x0", "y0", "z0", "x1", "y1", "z1"), ends, strict=True)),
        width=np.where(washed, members.outside * np.where(members.are("ballast"), BESIDE_A_LEG, 1.0), SHELTERED),
        section=section,
        hollow=hollow,
        material_density=members.density,
        drag=np.where(members.are(*FLAT), force.FLAT_DRAG, force.ROUND_DRAG),
        inertia=np.where(washed, force.ROUND_INERTIA, 0.0),
        axial_inertia=np.where(members.are("head"), force.HEAD_INERTIA, 0.0),
        on_bed=members.are(*LYING).astype(float),
        holds_air=np.minimum(members.held / np.where(room > 0.0, room, np.inf), 1.0),
    )
    return facts if debris == 0.0 else _with_debris(facts, members, debris)


def _disc(diameter: Array) -> Array:
    return 0.25 * np.pi * diameter * diameter


def _with_debris(facts: MemberFacts, members: Members, debris: float) -> MemberFacts:
    """The same with a mat of weed and leaves as wide as it is high, round the head, or the top part."""
    side, head = math.sqrt(debris), members.are("head")
    caught = head if head.any() else members.middle[:, 2] == members.middle[:, 2].max()
    middle = members.middle[caught].mean(axis=0)
    low = max(float(middle[2]) - 0.5 * side, 0.0)
    mat = {
        **{"x0": middle[0], "y0": middle[1], "z0": low, "x1": middle[0], "y1": middle[1], "z1": low + side},
        **{"width": side, "section": 0.0, "hollow": 0.0, "material_density": 1000.0, "drag": force.MAT_DRAG},
        **dict.fromkeys(("inertia", "axial_inertia", "on_bed", "holds_air"), 0.0),
    }
    return MemberFacts(**{name: np.append(value, mat[name]) for name, value in vars(facts).items()})


def unknown_members() -> MemberFacts:
    """One member of which nothing is known."""
    return MemberFacts(**{name: np.array([np.nan]) for name in MemberFacts.__dataclass_fields__})


def no_members() -> MemberFacts:
    """One member for an inlet that does not stand on the bed, so that nothing is missing. ours: a metre of pipe."""
    pipe = {"z1": 1.0, "width": 0.048, "section": 1.83e-3, "hollow": 1.14e-3, "material_density": 1400.0, "drag": 1.2}
    return MemberFacts(**{name: np.array([pipe.get(name, 0.0)]) for name in MemberFacts.__dataclass_fields__})
