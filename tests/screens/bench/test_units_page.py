"""Players and transports as lists that are typed into."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.screens.bench.search_page import SearchPage
from app.screens.bench.transports_page import TransportsPage
from app.screens.bench.units_page import UnitsPage
from app.screens.desk import Desk, Paper
from app.screens.jobs_found_page import JobsFoundPage
from app.screens.kit.cells import Row
from app.screens.kit.rows import RowsModel
from app.trade.bench.kinds import Arrangement
from app.work.bench.transport_list import TransportLine, Where
from app.work.bench.transports import take_out
from app.work.bench.unit_list import UnitLine
from tests.papers.reading import whole

SEEN = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
UNIT = UnitLine(7, "Quellmar", "Larch 2", "0420 158", "Benedikt Arnsvik", 3, SEEN, None, 0)
TRANSPORT = TransportLine(
    9, "Velk A1", Arrangement.SWING_ARM, "55 871", 7, "Quellmar Larch 2", "0420 158", False, "", SEEN, False
)


@pytest.fixture(params=[UnitsPage, TransportsPage])
def page(request: pytest.FixtureRequest, qtbot: QtBot, desk: Desk, bench: Any) -> Iterator[SearchPage]:
    desk.book = bench.book
    made = request.param(desk)
    qtbot.addWidget(made)
    made.resize(1200, 600)
    made.show()
    made.reload()
    qtbot.waitUntil(lambda: made.model.rowCount() == 1)
    yield made
    made.put_away()


def plain(row: Row) -> list[str]:
    return [cell.plain if cell is not None else "" for cell in row.cells]


def test_typing_narrows_and_nothing_found_says_so(qtbot: QtBot, page: SearchPage) -> None:
    page.search.set_text("zzzz")
    qtbot.waitUntil(lambda: page.nothing.isVisible())
    page.search.set_text("871" if isinstance(page, TransportsPage) else "larch")
    page.search.set_text("5871" if isinstance(page, TransportsPage) else "larch")
    qtbot.waitUntil(lambda: page.table.isVisible())
    page.grab()


def test_enter_in_the_field_opens_the_first(qtbot: QtBot, page: SearchPage, desk: Desk, bench: Any) -> None:
    opened: list[Any] = []
    desk.serve(lambda kind, key: opened.append((kind, key)), lambda: opened.append("back"))
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    page.arrive()
    qtbot.keyClick(page.search.edit, Qt.Key.Key_Return)
    expected = ("transport", bench.transport) if isinstance(page, TransportsPage) else ("unit", bench.unit)
    assert opened == [expected]
    qtbot.keyClick(page.search.edit, Qt.Key.Key_Down)
    assert page.table.hasFocus()
    page.commands()["leave"]()
    assert opened[-1] == "back"
    page.model.set_rows([])
    page.search.entered.emit()
    assert len(opened) == 2


def test_a_player_says_what_is_inside_and_where_it_is(qtbot: QtBot, desk: Desk) -> None:
    page = UnitsPage(desk)
    qtbot.addWidget(page)
    assert plain(page.row(UNIT)) == [
        "Quellmar Larch 2", "0420 158", "Benedikt Arnsvik", "", "3", "1\u00a0Mar\u00a02026",
    ]  # fmt: skip
    there = plain(page.row(replace(UNIT, here=2131, changed=1, serial="")))
    assert there[1] == "not readable"
    assert there[3:] == ["1 modification", "3", "here now, job 2131"]
    assert plain(page.row(replace(UNIT, changed=2, last_at=None)))[3:] == ["2 modifications", "3", ""]


def test_a_transport_says_where_it_is(qtbot: QtBot, desk: Desk) -> None:
    page = TransportsPage(desk)
    qtbot.addWidget(page)
    where = [
        plain(page.row(line))[2]
        for line in (
            TRANSPORT,
            replace(TRANSPORT, donor=True),
            replace(TRANSPORT, unit_id=None, shelf="C 4", since=None),
            replace(TRANSPORT, unit_id=None),
            replace(TRANSPORT, scrapped=True),
        )
    ]
    assert where == [
        "Quellmar Larch 2 0420 158", "Quellmar Larch 2 donor", "shelf C 4", "in no player", "scrapped",
    ]  # fmt: skip
    assert plain(page.row(replace(TRANSPORT, marking="")))[1] == "no marking"


@pytest.mark.parametrize("kind", [UnitsPage, TransportsPage])
def test_an_empty_book_says_how_it_fills(qtbot: QtBot, desk: Desk, shop: Any, kind: Any) -> None:
    desk.book = shop.book
    page = kind(desk)
    qtbot.addWidget(page)
    page.show()
    page.reload()
    qtbot.waitUntil(lambda: page.nothing.isVisible())
    assert "yet" in page.nothing.text()


def test_those_on_a_shelf_are_found_alone(qtbot: QtBot, desk: Desk, bench: Any) -> None:
    take_out(bench.book, bench.tobbe, bench.job, shelf="C 4")
    desk.book = bench.book
    page = TransportsPage(desk)
    qtbot.addWidget(page)
    page.show()
    page.where.set_value(Where.FREE)
    page.look()
    qtbot.waitUntil(lambda: page.model.rowCount() == 1)
    page.where.set_value(Where.FITTED)
    page.look()
    qtbot.waitUntil(lambda: page.nothing.isVisible())


def test_a_page_of_its_own_has_to_say_what_it_asks(qtbot: QtBot, desk: Desk) -> None:
    page = SearchPage(
        desk,
        "A list",
        below="",
        name="Which",
        hint="",
        nothing="",
        none_yet="",
        columns=(),
        leaving=(),
        opened=lambda _: None,
    )
    qtbot.addWidget(page)
    with pytest.raises(NotImplementedError):
        page.ask()
    with pytest.raises(NotImplementedError):
        page.row(None)


def test_the_list_is_a_paper_with_what_was_looked_for(
    qtbot: QtBot, page: SearchPage, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    papers: list[Paper] = []
    monkeypatch.setattr(desk, "show_paper", papers.append)
    page.commands()["print_list"]()
    qtbot.waitUntil(lambda: len(papers) == 1)
    row = page.model.row_at(0)
    assert isinstance(row, Row)
    said = whole(papers[0].pdf)
    assert papers[0].title == page.title
    assert plain(row)[0] in said
    assert "1 row" in said
    page.search.set_text("zzzz")
    if isinstance(page, TransportsPage):
        page.where.set_value(Where.FREE)
    page.print_list()
    qtbot.waitUntil(lambda: len(papers) == 2)
    said = whole(papers[1].pdf)
    assert "matching “zzzz”" in said
    assert ("on a shelf or in a donor" in said) is isinstance(page, TransportsPage)


def test_a_list_of_jobs_found_is_of_some_kind(qtbot: QtBot, desk: Desk) -> None:
    page = JobsFoundPage(desk, "Jobs", "", RowsModel(()), ())
    qtbot.addWidget(page)
    for part in (page.ask, lambda: page.show_found(()), page.print_list):
        with pytest.raises(NotImplementedError):
            part()
