"""The lists of the counter as papers, by the key and by the menu."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Qt

from app.screens import printed_list
from app.screens.kit.pdf_view import page_size_of
from app.work.counter.jobs_list import Show
from tests.papers.reading import texts, whole

CTRL_SHIFT = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier


def test_the_jobs_in_the_shop_are_printed_with_their_groups_and_what_was_asked(counter, take_in, shop):
    take_in(serial="1", promised_on=date(2026, 3, 13))
    number = take_in(serial="2", promised_on=date(2026, 3, 16)).number
    shop.clock.advance(days=4)
    counter.open("counter")
    counter.press(Qt.Key.Key_P, CTRL_SHIFT)
    (paper,) = counter.papers
    said = whole(paper.pdf)
    for words in ("Jobs", "All in the shop", "2 rows", str(number), "Late caution: 1 job", "page 1 of 1"):
        assert words in said
    assert "Stage, and waiting for" in said
    assert (paper.title, paper.kind, paper.name) == ("Jobs", "list", "Jobs 2026-03-16.pdf")
    size = page_size_of(paper.pdf).definitionSize()
    assert size.width() > size.height()


def test_the_menu_prints_it_too_and_ctrl_p_is_the_paper_of_this_page(counter, take_in):
    take_in()
    page = counter.open("counter")
    counter.window.menus.run("print_list")
    counter.settle()
    page.show_choice.set_value(Show.EVERY)
    page.promise.set_value("today")
    counter.settle()
    page.table.setFocus()
    counter.window.menus.run("print")
    counter.settle()
    assert len(counter.papers) == 2
    assert "Every job · promised for today" in whole(counter.papers[1].pdf)


def test_a_list_longer_than_a_paper_holds_says_how_many_more(counter, take_in, monkeypatch):
    monkeypatch.setattr(printed_list, "MOST", 2)
    for serial in "12345":
        take_in(serial=serial)
    counter.open("counter")
    counter.press(Qt.Key.Key_P, CTRL_SHIFT)
    said = whole(counter.papers[0].pdf)
    assert "2 rows" in said
    assert "3 more rows are not printed here" in said


def test_customers_are_printed_as_they_were_looked_for(counter, take_in):
    take_in()
    page = counter.open("customers")
    counter.press(Qt.Key.Key_P, CTRL_SHIFT)
    assert "Those who were here last stand first." in texts(counter.papers[0].pdf)[0]
    page.search.set_text("arns")
    counter.settle()
    counter.press(Qt.Key.Key_P, CTRL_SHIFT)
    said = whole(counter.papers[1].pdf)
    assert "matching “arns”" in said
    assert "Benedikt Arnsvik" in said
    page.search.set_text("zzzz")
    counter.settle()
    counter.window.menus.run("print_list")
    counter.settle()
    assert "nothing stands in it" in whole(counter.papers[2].pdf)
