"""Checking from the window: papers are filed, the index is built anew."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pytest
from PIL import Image
from sqlalchemy import text

from app.book import attachments
from app.book.tables import Attachment
from app.trade.sentence import Sentence
from app.trade.settings import SPECIMEN
from app.work.bench.cards import CardEntry, save_card
from app.work.bench.files import kept_file
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from app.work.upkeep.check import build_index_anew, check_book
from tests.work.asked import unfiled_papers
from tests.work.bench.test_cards import TEXT
from tests.work.counter.test_taking_in import LARCH


def test_a_paper_whose_filing_was_cut_short_is_filed_from_its_facts(shop: Any) -> None:
    ticket = receive_unit(shop.book, shop.mirr, LARCH).value.ticket_id
    assert unfiled_papers(shop.book) == (ticket,)
    (found,) = check_book(shop.book, mend=False).found
    assert found.key == "“{title}” of job {number} is issued but not filed."
    seen: list[Sentence] = []
    assert check_book(shop.book, watch=seen.append).found == ()
    assert unfiled_papers(shop.book) == ()
    assert len(seen) == len(check_book(shop.book).parts)


def test_papers_of_a_specimen_wait_until_somebody_looks_at_them(shop: Any) -> None:
    change_settings(shop.book, shop.ine, {SPECIMEN: True})
    ticket = receive_unit(shop.book, shop.mirr, LARCH).value.ticket_id
    report = check_book(shop.book)
    assert report.found == ()
    (aside,) = report.asides
    assert aside.values["count"] == 1
    assert unfiled_papers(shop.book) == (ticket,)
    paper_pdf(shop.book, ticket)
    assert unfiled_papers(shop.book) == ()
    assert check_book(shop.book).asides == ()


def test_a_search_index_that_does_not_fit_is_found_and_built_anew(shop: Any) -> None:
    receive_unit(shop.book, shop.mirr, LARCH)
    check_book(shop.book)
    with shop.book.engine.begin() as connection:
        connection.execute(text("UPDATE find_words SET words = 'wrong'"))
    assert len(check_book(shop.book).found) == 1
    assert build_index_anew(shop.book).value == 3  # customer, player, job
    assert check_book(shop.book).found == ()


@pytest.fixture
def early(shop: Any) -> Any:
    """Puts a photo into the book as it was done before place and time were taken out."""

    def put(content: bytes, name: str = "flex.jpg", **belongs: int) -> int:
        stored = attachments.store(shop.book.files, content)
        with shop.book.change(shop.mirr, Sentence("attached a file")) as change:
            row = Attachment(
                **belongs,
                sha256=stored.sha256,
                name=name,
                media_type="image/jpeg",
                size=stored.size,
                at=change.now,
                by=shop.mirr,
            )
            change.add(row)
            change.session.flush()
            return row.id

    return put


def photo(camera: str = "") -> bytes:
    exif, out = Image.Exif(), BytesIO()
    exif[0x010F], exif[0x0112] = camera, 6  # its maker, and the way to turn it, which stays
    Image.new("RGB", (64, 48), (120, 90, 60)).save(out, format="JPEG", **({"exif": exif} if camera else {}))
    return out.getvalue()


def test_a_photo_kept_before_place_and_time_were_taken_out_is_named_and_put_right(
    shop: Any, early: Any
) -> None:
    job = receive_unit(shop.book, shop.mirr, LARCH).value.job_id
    check_book(shop.book)  # files the ticket
    first, twin = (early(photo("Camera maker of no name"), job_id=job) for _ in range(2))
    early(photo(), "clean.jpg", job_id=job)
    found = check_book(shop.book, mend=False).found
    assert [(one.key, one.values["name"]) for one in found] == [
        ("The photo {name} of job {number} still tells where or when it was taken.", "flex.jpg")
    ] * 2
    with shop.book.ask() as session:
        told = attachments.place_of(shop.book.files, session.get_one(Attachment, first).sha256)
    assert told.exists()
    report = check_book(shop.book)
    assert (report.found, [one.values["count"] for one in report.asides]) == ((), [2])
    for key in (first, twin):
        kept = kept_file(shop.book, key)
        assert b"Camera maker" not in kept.content
        with Image.open(BytesIO(kept.content)) as now, Image.open(BytesIO(photo())) as plain:
            assert now.tobytes() == plain.tobytes()  # oracle: Pillow
            assert now.getexif().get(0x0112) == 6
    assert not told.exists()  # the bytes that told it are gone
    assert check_book(shop.book, mend=False).found == ()


def test_a_picture_on_a_card_is_named_as_such(shop: Any, early: Any) -> None:
    card = save_card(
        shop.book,
        shop.tobbe,
        CardEntry(title="Arm of the Larch 2", unit_maker="QUELLMAR", unit_model="Larch 2", sections=TEXT),
    ).value
    early(photo("Camera maker of no name"), card_id=card)
    (found,) = check_book(shop.book, mend=False).found
    assert found.key == "The picture {name} on a card still tells where or when it was taken."


def test_of_a_photo_that_is_gone_or_broken_nothing_more_is_said(shop: Any, early: Any) -> None:
    job = receive_unit(shop.book, shop.mirr, LARCH).value.job_id
    check_book(shop.book)
    early(photo("Camera maker of no name")[:60], "broken.jpg", job_id=job)
    gone = early(photo("Another maker of no name"), "gone.jpg", job_id=job)
    with shop.book.ask() as session:
        attachments.place_of(shop.book.files, session.get_one(Attachment, gone).sha256).unlink()
    (found,) = check_book(shop.book).found
    assert found.key == "The file {name} of job {number} is missing or damaged."
