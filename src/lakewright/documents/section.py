"""The section of the site, from open water to tap, to scale, with pennants where findings belong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lakewright.documents.axes import scales
from lakewright.documents.built import delivery, heights, house, pump, suction, window
from lakewright.documents.drawing import Drawing
from lakewright.documents.earth import earth
from lakewright.documents.flags import fly
from lakewright.documents.intake import stand
from lakewright.documents.scene import Point, Scene
from lakewright.documents.site import Site
from lakewright.documents.water import handle_places, level_lines, level_names, water
from lakewright.report import Finding


@dataclass(frozen=True)
class Section:
    """A drawn section.

    anchors : where each part is on paper
    scale : the scale in words, exaggeration and all
    unplaced : names of findings that found no room on the drawing
    surface : where a hand takes the water by, on each of the days
    """

    scene: Scene
    anchors: dict[str, Point]
    scale: str
    unplaced: tuple[str, ...]
    surface: tuple[Point, ...]


def section(
    site: Site,
    findings: Sequence[Finding],
    width: float = 255.0,
    height: float = 120.0,
    knob: tuple[float, float] = (0.0, 0.0),
) -> Section:
    """Draw a site on so many millimetres of paper, back to front.

    `knob` is the width and height of what a hand takes the water by: room is kept for it on every day's level.
    """
    on = Drawing(site, width, height)
    water(on)
    earth(on)
    level_lines(on)
    scales(on)
    level_names(on)
    surface = handle_places(on, *knob)
    suction(on)
    delivery(on)
    house(on)
    pump(on)
    window(on)
    heights(on)
    stand(on)
    _more_anchors(on)
    flags, unplaced = fly(findings, on.anchors, site.units, on.room)
    on.scene.add(*flags)
    return Section(on.scene, on.anchors, on.scale_words, unplaced, surface)


def _more_anchors(on: Drawing) -> None:
    """Parts that have no shape of their own stand where one would look for them."""
    anchors = on.anchors
    anchors.setdefault("ice", anchors["water"])
    anchors.setdefault("window", anchors["pump"])
    anchors |= {
        "weights": anchors["suction line"],
        "pump house": anchors["pump"],
        "relief": anchors["gauge"],
        "flow control": anchors["branch"],
        "line": anchors["suction line"],
        "delivery": anchors["delivery line"],
        "site": anchors["shore"],
    }
