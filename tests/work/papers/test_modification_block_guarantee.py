"""What the invoice of a modified player says of its guarantee is a clause from the settings."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select

from app.book.tables import Invoice
from app.trade.office.guarantee import Covers
from app.trade.settings.owed import GUARANTEE_MODIFIED, GUARANTEE_MODIFIED_WORDS, NOT_COVERED
from app.trade.settings.terms import GUARANTEE_WORDS
from app.work.bench.modifications import assess_modification
from app.work.office.settings import change_settings
from tests.work.papers.test_modification_block_on_invoice import FOUND, OURS, agree, invoiced, modify


def covered(bench: Any) -> Covers | None:
    with bench.book.ask() as session:
        return session.scalar(select(Invoice.guarantee_covers))


def test_it_is_covered_as_the_shop_comes(bench: Any) -> None:
    agree(bench, modify(bench, OURS))
    text = invoiced(bench).replace("\n", " ")
    assert "Until 8 Sept 2026 on the work and parts listed above" in text
    assert "The guarantee covers this player with the change outside the maker’s design" in text
    assert covered(bench) is Covers.MODIFIED_TOO


def test_a_shop_may_leave_it_out(bench: Any) -> None:
    change_settings(bench.book, bench.shop.ine, {GUARANTEE_MODIFIED: NOT_COVERED})
    agree(bench, modify(bench, OURS))
    text = invoiced(bench).replace("\n", " ")
    assert "acts on are not covered: that was agreed with the change." in text
    assert covered(bench) is Covers.NOT_MODIFIED


def test_it_may_say_both_in_its_own_words(bench: Any) -> None:
    words = {
        GUARANTEE_WORDS: "To {until}, from {handed_back}, {guarantee_days} days.",
        GUARANTEE_MODIFIED_WORDS: "R314 <b>too</b>.",
    }
    change_settings(bench.book, bench.shop.ine, words)
    agree(bench, modify(bench, OURS))
    assert "To 8 Sept 2026, from 12 Mar 2026, 180 days. R314 <b>too</b>." in invoiced(bench).replace(
        "\u00a0", " "
    ).replace("\n", " ")


def test_a_change_that_somebody_else_made_has_no_clause(bench: Any) -> None:
    assess_modification(bench.book, bench.tobbe, modify(bench, FOUND), "It plays well with it.")
    assert "outside the maker’s design that is named here" not in invoiced(bench)
    assert covered(bench) is Covers.WORK
