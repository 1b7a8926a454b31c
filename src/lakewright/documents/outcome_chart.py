"""The chart of a sweep: a bar a scenario, its jobs by how they come out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lakewright.documents import ink
from lakewright.documents.scene import Box, Scene, Text, ending_at, rectangle

BAR, STEP, SIDE, NAMES, LONG, FIGURES = 4.6, 7.2, 8.0, 62.0, 120.0, 12.0
"""ours: height of a bar and of its row, edge of the sheet, room for names, longest bar, room for figures [mm]."""

KEY = 3.4
"""ours: a piece of the key [mm]."""

LOOKS = {
    "holds": (ink.GREEN, 1.0),
    "tight": (ink.OCHRE, 0.75),
    "unknown": (ink.SHEET, 0.5),
    "fails": (ink.RED, 1.0),
    "not judged": (ink.INK, 0.25),
}
"""Fill of a piece and its height as a share of the bar's, in the order they stand: the heights tell them in grey."""


def outcome_chart(title: str, counts: Sequence[tuple[str, Mapping[str, int]]]) -> Scene:
    """The chart.

    Parameters
    ----------
    title : over it
    counts : each scenario, and how many of its jobs come out which way
    """
    most = max((sum(each.values()) for _, each in counts), default=0)
    width = SIDE + NAMES + LONG + FIGURES + SIDE
    top = SIDE + 12.0
    scene = Scene(width, top + STEP * len(counts) + 10.0 + SIDE)
    scene.add(rectangle(Box(0.0, 0.0, scene.width, scene.height), "sheet", ink.SHEET))
    scene.add(
        Text(SIDE, SIDE + 3.0, _fitted(title, width - 2.0 * SIDE, ink.FLAG, ink.BOLD), "title", ink.FLAG, ink.BOLD)
    )
    for number, (name, each) in enumerate(counts):
        middle = top + STEP * number + 0.5 * BAR
        scene.add(ending_at(SIDE + NAMES - 2.0, middle + 0.9, _fitted(name, NAMES - 3.0, ink.SMALL), "name"))
        left = SIDE + NAMES
        for status, (fill, high) in LOOKS.items():
            many = each.get(status, 0)
            if many:
                right = left + LONG * many / most
                piece = Box(left, middle - 0.5 * high * BAR, right, middle + 0.5 * high * BAR)
                scene.add(rectangle(piece, status, fill, ink.INK, ink.FINE))
                left = right
        scene.add(Text(left + 1.5, middle + 0.9, str(each.get("fails", 0)), "figure", ink.SMALL, colour=ink.RED))
    _key(scene, top + STEP * len(counts) + 6.0)
    return scene


def _key(scene: Scene, y: float) -> None:
    """What the pieces mean, and the figure after a bar."""
    x = SIDE + NAMES
    for status, (fill, high) in LOOKS.items():
        scene.add(
            rectangle(Box(x, y - 0.5 * high * 3.4, x + 3.4, y + 0.5 * high * 3.4), status, fill, ink.INK, ink.FINE)
        )
        scene.add(Text(x + 4.6, y + 0.9, status, "key", ink.SMALL))
        x += 8.0 + ink.width(status, ink.SMALL)
    scene.add(Text(x, y + 0.9, "figure: how many fail", "key", ink.SMALL, colour=ink.RED))


def _fitted(words: str, wide: float, size: float, weight: str = ink.REGULAR) -> str:
    """Words cut to a width."""
    if ink.width(words, size, weight) <= wide:
        return words
    while words and ink.width(f"{words}\u2026", size, weight) > wide:
        words = words[:-1]
    return f"{words}\u2026"
