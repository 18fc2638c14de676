"""Finds photos that still tell where and when they were taken: kept before that was taken out of what comes in."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from sqlalchemy import select

from app.book import attachments
from app.book.door import Book
from app.book.tables import Attachment, Job
from app.trade.bench.hidden_data import SEEN_THROUGH, NotWhole, without_hidden_data
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

CleanPhoto = Callable[[int], object]  # keeps one photo without what it tells; app/work hands it in


def photo_findings(book: Book, clean: CleanPhoto | None, cleaned: list[int]) -> tuple[int, list[Sentence]]:
    """How many photos there are, and those that tell more than their picture. With ``clean`` they are put right,
    and listed in ``cleaned``.

    A missing or damaged one is told among the files, and nothing can be said of it here.
    """
    with book.ask() as session:
        photos = session.execute(
            select(Attachment.id, Attachment.sha256, Attachment.media_type, Attachment.name, Job.number)
            .outerjoin(Job, Job.id == Attachment.job_id)
            .where(Attachment.media_type.in_(sorted(SEEN_THROUGH)))
            .order_by(Attachment.id)
        ).all()
    found = []
    for photo in photos:
        if not tells(book, photo.sha256, photo.media_type):
            continue
        if clean is None:
            found.append(_named(photo))
        else:
            clean(photo.id)
            cleaned.append(photo.id)
    return len(photos), found


def cleaned_words(cleaned: list[int]) -> Sentence | None:
    """How many photos were put right."""
    if not cleaned:
        return None
    return Sentence(
        "Photos that told where or when they were taken, and no longer do: {count}. Copies made before still have it.",
        {"count": len(cleaned)},
    )


def tells(book: Book, sha256: str, media_type: str) -> bool:
    """Whether a kept photo says more than its picture."""
    try:
        content = attachments.read(book.files, sha256)
        return without_hidden_data(content, media_type) != content
    except (Refusal, NotWhole):
        return False


def _named(photo: Any) -> Sentence:
    if photo.number is None:
        return Sentence(
            "The picture {name} on a card still tells where or when it was taken.", {"name": photo.name}
        )
    return Sentence(
        "The photo {name} of job {number} still tells where or when it was taken.",
        {"name": photo.name, "number": str(photo.number)},
    )
