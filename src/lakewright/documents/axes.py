"""The scales of a section: heights at the left, distances beneath, the scale named."""

from __future__ import annotations

import math

from lakewright.documents import ink
from lakewright.documents.drawing import Drawing
from lakewright.documents.scale import label, step, unit_length
from lakewright.documents.scene import Path, Point, Text, centred, ending_at


def scales(on: Drawing) -> None:
    view, plot = on.view, on.view.plot
    unit, name = unit_length(on.site.units)
    every = step(view.mm_up * unit, 6.5)
    ticks: list[tuple[Point, ...]] = [((plot.left, plot.top), (plot.left, plot.bottom))]
    first = math.ceil((view.y0 - plot.bottom) / (view.mm_up * unit) / every)
    last = math.floor((view.y0 - plot.top) / (view.mm_up * unit) / every)
    for n in range(first, last + 1):
        y = view.y0 - n * every * view.mm_up * unit
        if plot.top + 4.2 < y < plot.bottom - 1.0:
            ticks.append(((plot.left - 1.2, y), (plot.left, y)))
            sign = "+" if n > 0 else "\u2212" if n < 0 else ""
            on.say(ending_at(plot.left - 1.8, y + 0.85, sign + label(n * every, every), "height scale",
                                colour=ink.SOFT))  # fmt: skip
    on.say(ending_at(plot.left - 1.8, plot.top + 2.2, name, "height scale", colour=ink.SOFT))
    on.scene.add(Path(tuple(ticks), "height scale", ink.SOFT, ink.FINE))
    _distances(on, unit, name)


def _distances(on: Drawing, unit: float, name: str) -> None:
    view, plot = on.view, on.view.plot
    y = plot.bottom
    end = on.line[-1][0] if on.after_break else plot.right
    every = step(view.mm_along * unit, 14.0)
    ticks: list[tuple[Point, ...]] = [((plot.left, y), (end, y))]
    first = math.ceil((plot.left - view.x0) / (view.mm_along * unit) / every)
    last = math.floor((end - view.x0) / (view.mm_along * unit) / every)
    for n in range(first, last + 1):
        x = view.x0 + n * every * view.mm_along * unit
        ticks.append(((x, y), (x, y + 1.2)))
        words = label(n * every, every)
        half = 0.5 * ink.width(words, ink.SMALL)
        if x - half > plot.left - 1.0 and x + half < plot.right:
            on.say(centred(x, y + 4.0, words, "distance scale", colour=ink.SOFT))
    on.scene.add(Path(tuple(ticks), "distance scale", ink.SOFT, ink.FINE))
    # The words under the scale: what is counted, the scale, and what the drawing takes for granted.
    base = y + 7.6
    said = Text(plot.left, base, f"{name} from the water\u2019s edge: out to the left, up the bank to the right",
                "distance scale", colour=ink.SOFT)  # fmt: skip
    on.say(said)
    scale = ending_at(plot.right, base, f"scale {on.scale_words}", "scale", ink.FLAG, weight=ink.BOLD)
    on.say(scale)
    if on.view.lifted:
        on.notes.append("house, pump and the line between them not to scale, the house not at its height")
    elif not on.view.broken:
        on.notes.append("house and pump not to scale")
    else:
        on.notes.append("house, pump and the line between them not to scale")
    notes = ink.wrapped("; ".join(on.notes), plot.width, ink.SMALL)
    on.say(Text(plot.left, base + 3.3, notes[0] if len(notes) == 1 else f"{notes[0]} \u2026", "note",
                   colour=ink.SOFT))  # fmt: skip
