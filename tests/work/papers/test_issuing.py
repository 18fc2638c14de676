"""Papers: frozen when issued, filed once, shown as filed."""

from __future__ import annotations

import hashlib

import pytest

from app.book import attachments
from app.book.tables import Paper
from app.papers.press import read_facts
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.shop import SHOP_NAME
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from app.work.papers.issuing import file_paper, newest_paper, paper_pdf, preview_paper
from app.work.papers.kinds import NAMES, TITLES, Kind
from tests.work.asked import papers_of_job, unfiled_papers
from tests.work.counter.test_taking_in import LARCH


@pytest.fixture
def ticket(shop) -> int:
    return receive_unit(shop.book, shop.mirr, LARCH).value.ticket_id


def test_a_paper_is_issued_first_and_filed_after(shop, ticket):
    assert unfiled_papers(shop.book) == (ticket,)
    (line,) = papers_of_job(shop.book, 1)
    assert (line.title, line.kind, line.issued_by, line.filed) == (
        "Intake ticket 1001",
        "intake ticket",
        "Mirr Quistan",
        False,
    )
    done = file_paper(shop.book, ticket, shop.mirr)
    assert unfiled_papers(shop.book) == ()
    assert papers_of_job(shop.book, 1)[0].filed
    content = attachments.read(shop.book.files, done.value)
    assert hashlib.sha256(content).hexdigest() == done.value
    assert "papers" in done.changes.kinds


def test_what_is_shown_is_the_very_file_and_filing_again_changes_nothing(shop, ticket):
    shown = paper_pdf(shop.book, ticket)
    assert shown.pdf == attachments.read(shop.book.files, file_paper(shop.book, ticket).value)
    assert (shown.title, shown.name) == ("Intake ticket 1001", "Intake ticket 1001.pdf")
    assert not file_paper(shop.book, ticket).changes


def test_settings_changed_after_issue_do_not_reach_the_paper(shop, ticket):
    change_settings(shop.book, shop.ine, {SHOP_NAME: "Another Workshop"})
    with shop.book.ask() as session:
        assert session.get_one(Paper, ticket).facts["sheet"]["shop"]["name"] == ""
    before = paper_pdf(shop.book, ticket).pdf
    assert paper_pdf(shop.book, ticket).pdf == before


def test_a_filed_paper_that_was_lost_is_made_again_byte_for_byte(shop, ticket):
    first = paper_pdf(shop.book, ticket)
    attachments.place_of(shop.book.files, file_paper(shop.book, ticket).value).unlink()
    assert paper_pdf(shop.book, ticket).pdf == first.pdf


def test_a_filed_paper_that_cannot_be_made_the_same_is_said_to_be_missing(shop, ticket, monkeypatch):
    sha256 = file_paper(shop.book, ticket).value
    attachments.place_of(shop.book.files, sha256).unlink()
    monkeypatch.setattr("app.work.papers.issuing.printed", lambda facts, wording: b"%PDF of another program")
    with pytest.raises(Refusal, match="missing or damaged"):
        paper_pdf(shop.book, ticket)


def test_a_copy_is_the_same_paper_with_a_stamp(shop, ticket):
    copy = paper_pdf(shop.book, ticket, copy=True)
    assert copy.pdf.startswith(b"%PDF")
    assert copy.pdf != paper_pdf(shop.book, ticket).pdf


def test_what_was_erased_is_not_printed_again(shop, ticket):
    with shop.book.change(shop.ine, Sentence("erased")) as change:
        change.get(Paper, ticket).facts = {}
    with pytest.raises(Refusal, match="erased"):
        paper_pdf(shop.book, ticket)


def test_a_preview_is_a_draft_and_issues_nothing(shop, ticket):
    import json

    with shop.book.ask() as session:
        facts = read_facts(Kind.INTAKE_TICKET, json.dumps(session.get_one(Paper, ticket).facts))
    assert preview_paper(facts) != paper_pdf(shop.book, ticket).pdf
    assert len(papers_of_job(shop.book, 1)) == 1


def test_the_newest_of_a_kind_is_found(shop, ticket):
    assert newest_paper(shop.book, 1, Kind.INTAKE_TICKET) == ticket
    assert newest_paper(shop.book, 1, Kind.BENCH_TAG) is None


def test_every_kind_has_a_name_and_a_title():
    assert set(NAMES) == set(TITLES) == set(Kind)
