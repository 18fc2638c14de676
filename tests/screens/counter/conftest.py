"""A window on a fresh shop with the pages of the counter, driven as a person would."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.screens import language
from app.screens.counter.pages import register
from app.screens.desk import Desk, Paper, ShopFacts, StaffNow
from app.screens.drafts import Drafts
from app.screens.page import Page
from app.screens.threads import Doors
from app.screens.window import MainWindow
from app.trade.wording import plain
from tests.work.conftest import cheap_pins, shop, shop_template  # noqa: F401  # fixtures
from tests.work.counter.conftest import LARCH, job, take_in, waive  # noqa: F401  # fixtures


class Blank(Page):
    """Stands for a page of another room."""

    def __init__(self, desk: Desk, key: Any = None) -> None:
        super().__init__(desk)
        self.key = key


@dataclass
class Counter:
    """The window, and short ways to press, type and wait."""

    window: MainWindow
    desk: Desk
    shop: Any
    papers: list[Paper] = field(default_factory=list)

    @property
    def page(self) -> Any:
        """The page in sight."""
        return self.window.page

    def settle(self) -> None:
        """Until every piece of work has come back."""
        for _ in range(1000):
            QApplication.processEvents()
            if not self.desk.doors.waiting:
                QApplication.processEvents()
                if not self.desk.doors.waiting:
                    return
            QTest.qWait(2)
        raise AssertionError("work is still on its way")

    def open(self, kind: str, key: Any = None) -> Any:
        """Open a page and wait until it shows."""
        self.window.open(kind, key)
        self.settle()
        return self.page

    def press(self, key: Qt.Key, modifiers: Any = Qt.KeyboardModifier.NoModifier) -> None:
        """Press a key where the focus is, and wait for what it brings."""
        focus = QApplication.focusWidget()
        assert focus is not None
        QTest.keyClick(focus, key, modifiers)
        self.settle()

    def type(self, text: str) -> None:
        """Type where the focus is."""
        focus = QApplication.focusWidget()
        assert focus is not None
        QTest.keyClicks(focus, text)
        self.settle()

    def type_into(self, widget: QWidget, text: str) -> None:
        """Go to a widget and type."""
        widget.setFocus()
        self.type(text)

    def save(self) -> None:
        """Ctrl+Enter."""
        self.press(Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)


@pytest.fixture
def counter(shop: Any, tmp_path: Path, qtbot: Any, monkeypatch: pytest.MonkeyPatch) -> Iterator[Counter]:  # noqa: F811
    """Mirr Quistan stands at the counter; other rooms are blank pages."""
    language.use(plain(shop.book.zone))
    doors = Doors()
    drafts = Drafts(tmp_path / "drafts.json", delay_ms=0)
    desk = Desk(
        shop.book,
        doors=doors,
        drafts=drafts,
        clock=shop.clock,
        shop=ShopFacts("Lanternfield Workshop", shop.book.zone, "EUR"),
    )
    desk.set_staff(StaffNow(shop.mirr, "Mirr Quistan"))
    window = MainWindow(desk, settings=tmp_path / "window.ini")
    qtbot.addWidget(window)
    register(window)
    for kind, place in (("bench", "bench"), ("office", "office")):
        window.register(kind, place, Blank, root=True)
    for kind in ("job", "unit", "transport", "paper", "invoice"):
        window.register(kind, "bench", Blank)
    made = Counter(window, desk, shop)
    monkeypatch.setattr(desk, "show_paper", made.papers.append)
    troubles: list[Any] = []
    doors.unhandled.connect(troubles.append)
    window.resize(1366, 768)
    window.show()
    window.activateWindow()
    yield made
    assert troubles == []
    window.close()
    doors.close()
    drafts.close()


@pytest.fixture
def rows(shop: Any) -> Callable[[Any], list[Any]]:  # noqa: F811
    """All rows of a table: ``rows(Job)``."""
    from sqlalchemy import select

    def found(table: Any) -> list[Any]:
        with shop.book.ask() as session:
            all_rows = list(session.scalars(select(table).order_by(table.id)))
            session.expunge_all()
            return all_rows

    return found
