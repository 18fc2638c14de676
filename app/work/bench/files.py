"""Photos and files of a job: put in by what they are, said what they show, and read back."""

from __future__ import annotations

import mimetypes
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.book import attachments
from app.book.disk import open_plain
from app.book.door import Book, Change
from app.book.soundness import filed_hashes
from app.book.tables import Attachment, Card
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
        row = change.add(_row(change, path, media_type, stored, note, job_id=job.id))
    return Done(row.id, change.changes)


def _row(
    change: Change, path: Path, media_type: str, stored: attachments.Stored, note: str, **belongs: int
) -> Attachment:
    return Attachment(
        **belongs,
        sha256=stored.sha256,
        name=attachments.kept_name(path.name),
        media_type=media_type,
        size=stored.size,
        note=_one_line(note),
        at=change.now,
        by=change.by,
    )


def attach_picture(book: Book, who: int, card_id: int, path: Path, *, note: str = "") -> Done[int]:
    """Put a picture on a know-how card, as `attach_file` puts one to a job. Raises Refusal, also for what is no
    picture."""
    media_type, content = _as_kept(path)
    if media_type not in PICTURES.values():
        raise Refusal(
            Sentence("Only a picture can stand on a card: JPEG, PNG, WebP, GIF or BMP."),
            Sentence("Other files belong to a job."),
        )
    stored = attachments.store(book.files, path if content is None else content)
    with book.change(who, Sentence("put a picture on a know-how card")) as change:
        card = change.get(Card, card_id)
        row = change.add(_row(change, path, media_type, stored, note, card_id=card.id))
    return Done(row.id, change.changes)


def take_picture_off(book: Book, who: int, file_id: int) -> Done[int]:
    """Take a picture off its card; history keeps it, and it can be put on again."""
    with book.change(who, Sentence("took a picture off a know-how card")) as change:
        row: Any = _of_card(change, file_id)
        row.struck_at, row.struck_by = change.now, change.by
    return Done(file_id, change.changes)


def caption_picture(book: Book, who: int, file_id: int, caption: str) -> Done[int]:
    """Say what a picture on a card shows; empty takes the words away."""
    with book.change(who, Sentence("wrote under a picture")) as change:
        row: Any = _of_card(change, file_id)
        row.note = _one_line(caption)
    return Done(file_id, change.changes)


def _of_card(change: Change, file_id: int) -> Attachment:
    row = change.get(Attachment, file_id)
    if row.card_id is None or row.struck_at is not None:
        raise Refusal(Sentence("This picture is on no card any more."))
    return row


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


def clean_photo(book: Book, file_id: int) -> Done[int]:
    """Keep a photo without what it tells of place, time and camera; the bytes that told it go from beside the book.
    For photos that were put in before all of them were cleaned on their way in. Copies made before still have it."""
    kept = kept_file(book, file_id)
    stored = attachments.store(book.files, without_hidden_data(kept.content, kept.media_type))
    with book.change(None, Sentence("took place and time out of a photo")) as change:
        row: Any = change.get(Attachment, file_id)
        before, row.sha256, row.size = row.sha256, stored.sha256, stored.size
    with book.ask() as session:
        named = set(filed_hashes(session.connection()))
    if before not in named:
        attachments.place_of(book.files, before).unlink(missing_ok=True)
    return Done(file_id, change.changes)


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
