"""Checking from the window: papers are filed, the index is built anew."""

from __future__ import annotations

from typing import Any

from sqlalchemy import text

from app.trade.sentence import Sentence
from app.trade.settings import SPECIMEN
from app.work.counter.taking_in import receive_unit
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf, unfiled_papers
from app.work.upkeep.check import build_index_anew, check_book
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
