"""The book as plain files and back, and as a backup and back."""

from __future__ import annotations

from pathlib import Path

from lakewright.book.copies import back_up, restore
from lakewright.book.file import BookFile
from lakewright.book.plain_files import export, take_in


def export_to(book: BookFile, folder: Path) -> int:
    """Write the book as plain files into a new folder. Returns how many.

    Raises
    ------
    AskError where it is there already, or cannot be written
    """
    with book.reading() as rows:
        return export(rows, folder)


def import_from(book: BookFile, folder: Path) -> int:
    """Read plain files into a book that has nothing yet. Returns how many papers.

    Raises
    ------
    AskError where it has, or a file cannot be used; nothing is taken in then
    """
    with book.writing() as rows:
        return take_in(rows, folder)


def back_up_to(book: BookFile, to: Path) -> None:
    """Copy the book as it is at one moment into a new file, while others go on writing.

    Raises
    ------
    AskError where it is there already, or cannot be written
    """
    back_up(book, to)


def bring_back(book: BookFile, source: Path) -> Path:
    """Bring the book back from a copy. Returns where what it was has gone.

    Raises
    ------
    AskError where the copy is none, or not sound; the book is then as it was
    """
    tries = (book.path.with_name(f"{book.path.stem}-before-{number}{book.path.suffix}") for number in range(1, 10_000))
    aside = next(path for path in tries if not path.exists())
    restore(book, source, aside)
    return aside
