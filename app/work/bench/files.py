"""Photos and files of a job: put in by what they are, said what they show, and read back."""

from __future__ import annotations

import mimetypes
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.book import attachments
from app.book.disk import open_plain
from app.book.door import Book
from app.book.tables import Attachment
from app.trade.bench.hidden_data import NotWhole, without_hidden_data
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job
from app.work.shop_book import Done

# What counts as a picture, by what Pillow finds inside, whatever the file is called.
PICTURES = {
    "JPEG": "image/jpeg",
    "PNG": "image/png",
    "WEBP": "image/webp",
    "GIF": "image/gif",
    "BMP": "image/bmp",
}
PLAIN = "application/octet-stream"
LONGEST_CAPTION = 500
# A photo of these kinds keeps place and time where this program cannot take them out.
_CLOSED_BRANDS = frozenset({b"heic", b"heix", b"hevc", b"heif", b"mif1", b"msf1", b"avif", b"avis"})
_TIFF = (b"II*\0", b"MM\0*")


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file's own name and its very bytes."""

    name: str
    media_type: str
    content: bytes


def attach_file(book: Book, who: int, job_id: int, path: Path, *, note: str = "") -> Done[int]:
    """Keep a photo or file with the job: it is safely on disk before its row. What a photo tells of its place,
    time and camera is not kept. Raises Refusal."""
    media_type, content = _as_kept(path)
    stored = attachments.store(book.files, path if content is None else content)
    with book.change(who, Sentence("attached a file")) as change:
        job = open_job(change, job_id)
        row = change.add(
            Attachment(
                job_id=job.id,
                sha256=stored.sha256,
                name=attachments.kept_name(path.name),
                media_type=media_type,
                size=stored.size,
                note=_one_line(note),
                at=change.now,
                by=change.by,
            )
        )
    return Done(row.id, change.changes)


def caption_file(book: Book, who: int, file_id: int, caption: str) -> Done[int]:
    """Say what a photo or file shows; empty takes the words away. History keeps the former ones."""
    with book.change(who, Sentence("wrote under a file")) as change:
        row: Any = change.get(Attachment, file_id)
        open_job(change, row.job_id)
        row.note = _one_line(caption)
    return Done(file_id, change.changes)


def kept_file(book: Book, file_id: int) -> KeptFile:
    """A file of a job as it was put in. Raises Refusal when it is missing or damaged."""
    with book.ask() as session:
        row = session.get_one(Attachment, file_id)
        name, media_type, sha256 = row.name, row.media_type, row.sha256
    return KeptFile(name, media_type, attachments.read(book.files, sha256))


def _as_kept(path: Path) -> tuple[str, bytes | None]:
    """What it is by its content, and the bytes to keep; None: as they lie on the disk."""
    try:
        with open_plain(path) as file:
            head = file.read(12)
            if head[:4] in _TIFF or (head[4:8] == b"ftyp" and head[8:12] in _CLOSED_BRANDS):
                raise Refusal(
                    Sentence(
                        "This kind of picture can tell where and when it was taken, and it is not known how to take that out."
                    ),
                    Sentence("Save it as JPEG or PNG, then add that."),
                )
            file.seek(0)
            kind = _picture_kind(file)
            if kind is None:
                guessed, _ = mimetypes.guess_type(path.name)
                return PLAIN if guessed is None or guessed.startswith("image/") else guessed, None
            file.seek(0)
            content = file.read(attachments.LIMIT + 1)
    except OSError:
        return PLAIN, None  # putting it beside the book says why
    if len(content) > attachments.LIMIT:
        return kind, None  # the same
    try:
        return kind, without_hidden_data(content, kind)
    except NotWhole as error:
        raise Refusal(
            Sentence("The picture is damaged: it ends too soon or does not hold together."),
            Sentence("Open it elsewhere and save it anew, then add that."),
        ) from error


def _picture_kind(file: object) -> str | None:
    """The type of a picture by its content, None where it is none of those that are shown."""
    import warnings

    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            # Nothing is decoded here, and what is too large to be shown is not shown.
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            image = Image.open(file, formats=[*PICTURES])  # type: ignore[arg-type]
    except (UnidentifiedImageError, Image.DecompressionBombError, SyntaxError, ValueError, OSError):
        return None
    # A JPEG with a second picture behind it has a name of its own; the second one is left away.
    return PICTURES.get(image.format or "", PICTURES["JPEG"])


def _one_line(text: str) -> str:
    return " ".join(text.split())[:LONGEST_CAPTION]
