"""A paper is printed once as it is filed; whatever is printed again carries the stamp."""

from __future__ import annotations

from app.work.counter.taking_in import receive_unit
from app.work.papers.issuing import paper_pdf
from app.work.papers.printing import note_printed, paper_to_print, prints_of
from tests.papers.reading import whole
from tests.work.counter.test_taking_in import LARCH


def test_the_first_print_is_the_paper_itself_and_the_next_a_copy(shop):
    ticket = receive_unit(shop.book, shop.mirr, LARCH).value.ticket_id
    first = paper_to_print(shop.book, ticket)
    assert (first.pdf, first.copied) == (paper_pdf(shop.book, ticket).pdf, False)
    done = note_printed(shop.book, shop.mirr, ticket, copied=False)
    assert "paper_prints" in done.changes.kinds
    again = paper_to_print(shop.book, ticket)
    assert again.copied
    assert "copy" in whole(again.pdf)
    note_printed(shop.book, None, ticket, copied=True)
    now = shop.clock()
    assert [(p.by, p.copied, p.at) for p in prints_of(shop.book, ticket)] == [
        ("Mirr Quistan", False, now),
        ("", True, now),
    ]
