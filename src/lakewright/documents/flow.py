"""A sheet that is text: paragraphs, steps, tables and drawings one under another, set by typst in our own few styles.

Whatever it prints is `Words`: nothing else can be put on it. What it has printed stands in `printed`, in order.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache
from importlib import resources

from lakewright.documents import ink
from lakewright.documents.flags import COLOURS, mark
from lakewright.documents.pdf import place_all, typst_string
from lakewright.documents.said import Words
from lakewright.documents.scene import Scene, Text

Said = Words | Sequence[Words]
"""Words, or several runs of them."""

STATUSES = ("fails", "tight", "holds", "unknown", "not asked")
BOX, ROOM, SLOT = "#box-mark", "#room", "#slot"
"""Cells of a table that hold a box to tick, room to write in, or such room with a line at its side."""
RIGHT_TO_LEFT = ("R", "AL", "RLE", "RLO", "RLI", "LRE", "LRO", "LRI", "FSI", "PDF", "PDI")
"""Directions of letters that run, or make others run, from the right."""


@dataclass
class Flow:
    """A sheet under way.

    name: what it is called; rows: typst, a piece a line; printed: all its words; drawn: words of its drawings
    """

    name: Words
    scale: str = "none"
    rows: list[str] = field(default_factory=list)
    printed: list[Words] = field(default_factory=list)
    drawn: list[str] = field(default_factory=list)

    def heading(self, title: Said, line: Said, aside: Said = ()) -> None:
        """The head of the sheet: what it is, small, and its one line, large."""
        self.rows.append(f"#text(fill: pale, {self._joined(title)})")
        if aside:
            self.rows.append(f"#place(top + right, text(size: least, fill: pale, {self._joined(aside)}))")
        self.rows.append(f"#lead({self._joined(line)})\n#strong-rule")

    def part(self, title: Said) -> None:
        """The heading of a part."""
        self.rows.append(f"#part({self._joined(title)})")

    def label(self, words: Words) -> None:
        """The heading of a list within a part."""
        self.rows.append(f"#label-of({self._joined(words)})")

    def para(self, said: Said) -> None:
        """A paragraph."""
        self.rows.append(f"#para({self._joined(said)})")

    def quiet(self, said: Said) -> None:
        """A paragraph in the smallest type and the softer ink."""
        self.rows.append(f"#quiet({self._joined(said)})")

    def bullets(self, rows: Iterable[Said]) -> None:
        """Sentences with a dash each."""
        for row in rows:
            self._marked('soft("\u2013")', "3.4mm", row)

    def steps(self, rows: Iterable[Said], boxes: bool = False, first: int = 1) -> None:
        """Steps with their numbers, or with boxes to tick."""
        for number, row in enumerate(rows, start=first):
            if boxes:
                self._marked("box-mark", "5.2mm", row)
            else:
                count = Words(f"{number}.", "count.step", "bold")
                self._marked(self._joined(count), "5.6mm", row)

    def finding(self, word: str, said: Said) -> None:
        """A sentence with the shape of a status before it."""
        self._marked(f"mark-{word.replace(' ', '-')}", "4.4mm", said)

    def table(
        self,
        widths: Sequence[str],
        aligns: str,
        heads: Sequence[Said],
        rows: Iterable[Sequence[Said | str]],
        whole: bool = False,
    ) -> None:
        """A table with a fine rule under each row.

        widths: of the columns, in typst; aligns: a letter each, l, r or c; heads: nothing where it needs none; a cell
        that is a plain string is one of our marks, `BOX` or an empty one; whole: whether it stays on one page
        """
        words = {"l": "left", "r": "right", "c": "center"}
        columns = ", ".join(widths)
        sides = ", ".join(f"{words[letter]} + top" for letter in aligns)
        tops = "".join(f"{self._joined(head)}, " for head in heads)
        body = "".join(f"({''.join(f'{self._cell(cell)}, ' for cell in row)}), " for row in rows)
        self.rows.append(f"#ruled(({columns},), ({sides},), ({tops}), ({body}), {str(not whole).lower()})")

    def framed(self, rows: Iterable[Said]) -> None:
        """Sentences that must not be missed, in a frame."""
        inner = " + ".join(f"para({self._joined(row)})" for row in rows)
        self.rows.append(f"#framed({inner})")

    def blanks(self, rows: Iterable[Said], wide: str = "46mm") -> None:
        """Names with a line to write on each."""
        self.table(("auto", "1fr"), "ll", (), [(row, f"#field({wide})") for row in rows])

    def fields(self, rows: Iterable[Sequence[Said]], gap: str = "6mm") -> None:
        """Lines to sign or write on, side by side, each with its name beneath."""
        for row in rows:
            cells = ", ".join(f"[#line(length: 100%, stroke: 0.2mm + dark) #v(-1.2mm) #small({self._joined(name)})]"
                              for name in row)  # fmt: skip
            self.rows.append(
                f"#block(above: 9mm, below: 1mm, breakable: false,"
                f" grid(columns: (1fr,) * {len(row)}, column-gutter: {gap}, {cells}))"
            )

    def drawing(self, scene: Scene) -> None:
        """A drawing at its own size, across the page."""
        self.drawn += [shape.words for shape in scene.flat() if isinstance(shape, Text)]
        self.rows.append(f"#block(above: 2mm, below: 1mm, {place_all(scene)})")

    def in_columns(self, first: int, breaks: Sequence[int] = ()) -> None:
        """Set what was put down since a place in `rows` in two columns of about one height.

        `breaks` are the places at which the second may begin; anywhere where there are none.
        """
        rows = self.rows[first:]
        heights = [_lines(row) for row in rows]
        places = [place - first for place in breaks] or range(1, len(rows) + 1)
        at = min(places, key=lambda place: max(sum(heights[:place]), sum(heights[place:])), default=len(rows))
        one, other = ("\n".join(part) for part in (rows[:at], rows[at:]))
        self.rows[first:] = [f"#side-by-side[\n{one}\n][\n{other}\n]"]

    def rule(self) -> None:
        """A fine rule across."""
        self.rows.append("#rule")

    def grid(self) -> None:
        """A field of squares to sketch on."""
        self.rows.append("#squares")

    def formula(self, mathematics: str) -> None:
        """A formula, given as mathematics in typst; never a person's words."""
        self.rows.append(f"#formula($ {mathematics} $)")

    def keep(self, first: int) -> None:
        """Keep what was put down since a place in `rows` on one page."""
        inner = "\n".join(self.rows[first:])
        self.rows[first:] = [f"#block(above: 1.2em, below: 0.8em, width: 100%, breakable: false)[\n{inner}\n]"]

    def fit_page(self) -> None:
        """Set the sheet in the largest of our types in which it stays on one page."""
        inner = "\n".join(self.rows)
        sizes = ", ".join(f"{size}pt" for size in SIZES)
        self.rows = [f"#fitted(({sizes}), [\n{inner}\n])"]

    def new_page(self) -> None:
        """What follows begins a page."""
        self.rows.append("#pagebreak()")

    def _marked(self, mark_code: str, wide: str, said: Said) -> None:
        self.rows.append(f"#marked({mark_code}, {wide}, {self._joined(said)})")

    def _cell(self, cell: Said | str) -> str:
        if isinstance(cell, str):
            return f"[{cell}]"
        return self._joined(cell)

    def _joined(self, said: Said) -> str:
        """Runs of words as one piece of typst, a space between those that do not hang together."""
        runs = [said] if isinstance(said, Words) else list(said)
        self.printed += runs
        pieces: list[str] = []
        for number, run in enumerate(runs):
            if number and _stand_apart(runs[number - 1].text, run.text):
                pieces.append('" "')
            pieces.append(_run(run))
        return "(" + " + ".join(pieces) + ")" if pieces else "[]"


CODE = re.compile(r'"(?:[^"\\\\]|\\\\.)*"')
COLUMN = 58
"""ours: letters that a line of half a page holds, about."""


def _lines(row: str) -> float:
    """About how many lines a piece of typst takes in a column; a heading has room about it."""
    letters = sum(len(found) - 2 for found in CODE.findall(row))
    return -(-letters // COLUMN) + (1.2 if row.startswith("#part") else 0.3)


def _stand_apart(one: str, other: str) -> bool:
    """Whether a space belongs between two runs of words."""
    return bool(one and other) and one[-1] not in " (\u00a0" and other[0] not in " ,.;:)\u00a0"


def _run(run: Words) -> str:
    look = run.look or "plain"
    return f"{look}({typst_string(isolated(ink.plain_within(run.text)))})"


def isolated(text: str) -> str:
    """Words that run from the right are kept from turning their neighbours.

    >>> isolated("12 ft")
    '12 ft'
    """
    import unicodedata

    directions = {unicodedata.bidirectional(letter) for letter in text}
    if not directions & set(RIGHT_TO_LEFT):
        return text
    bare = "".join(letter for letter in text if unicodedata.bidirectional(letter) not in RIGHT_TO_LEFT[2:])
    return f"\u2068{bare}\u2069"


@cache
def styles() -> str:
    """The styles, with inks and sizes, as typst."""
    names = {"dark": ink.INK, "pale": ink.SOFT, "hair": ink.HAIR}
    sizes = {"least": ink.SMALL, "body": BODY, "line-size": LINE, "title": ink.TITLE,
             "small-strip": ink.BODY, "math-size": MATH}  # fmt: skip
    rows = [f"#let {name} = rgb({typst_string(colour)})" for name, colour in names.items()]
    rows += [f"#let {name} = {size}pt" for name, size in sizes.items()]
    rows.append(f"#let family = {typst_string(ink.FONT)}")
    for word in STATUSES:
        name, colour = word.replace(" ", "-"), COLOURS.get(word, ink.GREY)
        shape = Scene(3.2, 2.9)
        shape.add(*mark(word, 1.6, 1.55, 2.6, colour))
        rows.append(f"#let mark-{name} = {place_all(shape)}")
        rows.append(f'#let status-{name}(words) = text(weight: "bold", fill: rgb({typst_string(colour)}), words)')
    text = resources.files("lakewright.documents").joinpath("flow.typ").read_text(encoding="utf-8")
    return "\n".join([*rows, text])


SIZES = (12.0, 11.5, 11.0, 10.5, 10.0, 9.5, 9.0, 8.6, 8.2, 7.8, 7.4, ink.SMALL)
"""ours: sizes of type tried on a sheet that must stay on one page [points]."""
MATH = 10.2
"""ours: of a formula, so that its indices, 0.7 of it, are no smaller than the smallest type."""
BODY, LINE = 8.6, 12.0
"""Sizes of type on sheets of text [points]. ours: read at a table, not off a wall."""
