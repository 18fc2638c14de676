"""The content of photos and files of a job."""

from __future__ import annotations

from dataclasses import dataclass

from app.book import attachments
from app.book.door import Book
from app.book.tables import Attachment


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file's own name and its very bytes."""

    name: str
    media_type: str
    content: bytes


def kept_file(book: Book, file_id: int) -> KeptFile:
    """A file of a job as it was put in. Raises Refusal when it is missing or damaged."""
    with book.ask() as session:
        row = session.get_one(Attachment, file_id)
        name, media_type, sha256 = row.name, row.media_type, row.sha256
    return KeptFile(name, media_type, attachments.read(book.files, sha256))
