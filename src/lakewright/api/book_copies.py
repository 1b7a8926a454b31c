"""The book as plain files and back, and as a backup and back."""

from __future__ import annotations

import io
import lzma
import struct
import zipfile
import zlib
from pathlib import Path, PurePosixPath

from lakewright.api.book_checks import scratch
from lakewright.book.copies import back_up, restore
from lakewright.book.file import BookFile
from lakewright.book.plain_files import export, files_of, take_in
from lakewright.errors import AskError

MOST_FILES, MOST_UNPACKED = 50_000, 200_000_000
"""ours: files, and bytes of all of them unpacked; a thousand jobs over twenty years take a tenth of either."""

BITTEN = (zipfile.BadZipFile, zipfile.LargeZipFile, NotImplementedError, EOFError, ValueError, RuntimeError,
          zlib.error, lzma.LZMAError, struct.error)  # fmt: skip
"""What the library of packs raises where one cannot be read."""

ENCRYPTED = 0x1
LINK = 0o120000
"""What the head of a file in a pack says of it: a bit of its flags, and the kind in its mode."""


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


def plain_files(book: BookFile) -> dict[str, bytes]:
    """The book as plain files by their paths, as `export_to` writes them."""
    with book.reading() as rows:
        return dict(files_of(rows))


def copied(book: BookFile) -> bytes:
    """The book as it is at one moment, as a file: what `back_up_to` writes.

    Raises
    ------
    AskError where there is no room for it
    """
    with scratch() as folder:
        back_up(book, folder / "book.sqlite")
        return (folder / "book.sqlite").read_bytes()


def import_packed(book: BookFile, pack: bytes) -> int:
    """Read plain files, packed as a ZIP, into a book that has nothing yet. Returns how many papers.

    Nothing of the pack is written but beneath a folder of its own for a while: no path that leads out of it, no link,
    nothing that unpacks to more than `MOST_UNPACKED`.

    Raises
    ------
    AskError where the pack is none, or leads astray, or `import_from` cannot use what is in it; nothing is
    taken in then
    """
    with scratch() as folder:
        _unpack(pack, folder)
        inner = [each for each in folder.iterdir() if each.is_dir()]
        is_wrapped = not (folder / "book.toml").is_file() and len(inner) == 1
        try:
            return import_from(book, inner[0] if is_wrapped else folder)
        except AskError as error:
            # Where it lay for a while is nobody's to know.
            raise AskError(str(error).replace(f"{folder}/", "").replace(str(folder), "the pack")) from None


def _unpack(pack: bytes, folder: Path) -> None:
    room = MOST_UNPACKED
    try:
        with zipfile.ZipFile(io.BytesIO(pack)) as found:
            if len(found.infolist()) > MOST_FILES:
                raise AskError(f"the pack holds more than {MOST_FILES:,} files; export the book again")
            for info in found.infolist():
                _refuse_astray(info)
                if info.is_dir():
                    continue
                with found.open(info) as stream:
                    raw = stream.read(room + 1)
                room -= len(raw)
                if room < 0:
                    raise AskError(
                        f"the pack unpacks to more than {MOST_UNPACKED // 1_000_000} MB; export the book again"
                    )
                path = folder / info.filename
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(raw)
    except BITTEN as error:
        raise AskError(f"this is no pack that can be read: {error}; pack what export wrote as a ZIP") from None
    except OSError as error:
        raise AskError(f"the pack cannot be unpacked: {error.strerror or error}; export the book again") from None


def _refuse_astray(info: zipfile.ZipInfo) -> None:
    """Refuse a file of a pack that leads elsewhere, is a link, or is locked."""
    path = PurePosixPath(info.filename)
    leads = path.is_absolute() or ".." in path.parts or "\\" in info.filename or ":" in info.filename
    if leads or not info.filename.isprintable() or len(info.filename) > 300:
        raise AskError(
            f"found the path {info.filename[:60]!r} in the pack; wanted one inside it; export the book again"
        )
    if (info.external_attr >> 16) & 0o170000 == LINK:
        raise AskError(f"{info.filename} is a link; put the file itself there")
    if info.flag_bits & ENCRYPTED:
        raise AskError(f"{info.filename} is locked with a word; pack it without")
