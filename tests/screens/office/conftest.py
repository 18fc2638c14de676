"""A window on a shop with the pages of the Office, driven by real keys; other rooms are blank pages."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.screens import language
from app.screens.desk import Desk, Errand, Paper, ShopFacts, StaffNow
from app.screens.drafts import Drafts
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Group
from app.screens.kit.flags import FlagLine
from app.screens.kit.label import Label
from app.screens.office.pages import register
from app.screens.page import Page
from app.screens.threads import Doors
from app.screens.window import MainWindow
from app.trade.wording import plain
from tests.work.conftest import cheap_pins, shop, shop_template  # noqa: F401  # fixtures
from tests.work.office.conftest import LARCH, Bench, bench, worked  # noqa: F401  # fixtures


class Blank(Page):
    """Stands for a page of another room."""

    def __init__(self, desk: Desk, key: Any = None) -> None:
        super().__init__(desk)
        self.key = key


@dataclass
class Office:
    """The window, and short ways to press, type, look and wait."""

    window: MainWindow
    desk: Desk
    shop: Any
    papers: list[Paper] = field(default_factory=list)
    errands: list[Errand] = field(default_factory=list)

    @property
    def book(self) -> Any:
        return self.shop.book

    @property
    def page(self) -> Any:
        """The page in sight."""
        return self.window.page

    @property
    def focus(self) -> QWidget:
        """What has the focus."""
        found = QApplication.focusWidget()
        assert found is not None
        return found

    def works(self, who: str, *marks: str) -> None:
        """Somebody of the shop takes over: ``ine``, ``mirr``, ..."""
        names = {"ine": "Ine Varloes", "mirr": "Mirr Quistan", "sanna": "Sanna Wickerel"}
        self.desk.set_staff(StaffNow(getattr(self.shop, who), names[who], frozenset(marks)))

    def settle(self) -> None:
        """Until every piece of work has come back and was shown."""
        for _ in range(2000):
            QApplication.processEvents()
            if not self.desk.doors.waiting:
                QApplication.processEvents()
                if not self.desk.doors.waiting:
                    return
            QTest.qWait(1)
        raise AssertionError("work is still on its way")

    def open(self, kind: str, key: Any = None) -> Any:
        """Open a page and wait until it shows."""
        self.window.open(kind, key)
        self.settle()
        return self.page

    def press(self, keys: str) -> None:
        """Press a key or chord where the focus is, e.g. ``Return`` or ``Ctrl+Return``; wait for what it brings."""
        QTest.keySequence(self.focus, QKeySequence(keys))
        self.settle()

    def type(self, text: str) -> None:
        """Type where the focus is."""
        QTest.keyClicks(self.focus, text)
        self.settle()

    def type_into(self, widget: Any, text: str) -> None:
        """Go to a field, empty it and type."""
        edit = getattr(widget, "edit", None) or getattr(widget, "area", None) or widget
        edit.setFocus(Qt.FocusReason.TabFocusReason)
        QTest.keySequence(edit, QKeySequence(QKeySequence.StandardKey.SelectAll))
        QTest.keyClick(edit, Qt.Key.Key_Backspace)
        self.type(text)

    def push(self, button: Button) -> None:
        """Go to a button and press Enter."""
        assert button.isVisible(), button.words()
        button.setFocus(Qt.FocusReason.TabFocusReason)
        self.press("Return")

    def sees(self, widget: QWidget | None = None) -> str:
        """Every word in sight, parted by bars."""
        inside = widget or self.page
        said = [label.text() for label in inside.findChildren(Label) if label.isVisible() and label.text()]
        said += [line.flag.sentence for line in inside.findChildren(FlagLine) if line.isVisible()]
        return " | ".join(said)


def lines(table: Any) -> list[Any]:
    """The plain words of every row of a table; a group is its word and count in one string."""
    model = table.rows_model()
    found: list[Any] = []
    for _, row in model.known():
        if isinstance(row, Group):
            found.append(f"{row.word}: {row.second}".removesuffix(": "))
        else:
            found.append([cell.plain if cell is not None else "" for cell in row.cells])
    return found


def link(page: QWidget, words: str) -> Button:
    """A button in sight, by its words."""
    return next(b for b in page.findChildren(Button) if b.words() == words and b.isVisible())


def sums(page: Any) -> dict[str, int]:
    """The sums of an invoice in sight: words and amounts."""
    return {line.words: line.amount.minor for line in page.lines.sums.lines}


@contextmanager
def seated(shop: Any, tmp_path: Path, qtbot: Any, monkeypatch: pytest.MonkeyPatch) -> Iterator[Office]:  # noqa: F811
    """A window with the Office's pages on the book of a shop; nobody works in it yet."""
    language.use(plain(shop.book.zone))
    doors = Doors()
    drafts = Drafts(tmp_path / "drafts.json", delay_ms=0)
    facts = ShopFacts("Lanternfield Workshop", shop.book.zone, "EUR")
    desk = Desk(shop.book, doors=doors, drafts=drafts, clock=shop.clock, shop=facts)
    window = MainWindow(desk, settings=tmp_path / "window.ini")
    qtbot.addWidget(window)
    register(window)
    for kind, place in (("counter", "counter"), ("bench", "bench")):
        window.register(kind, place, Blank, root=True)
    for kind in ("job", "unit", "transport", "paper", "customer"):
        window.register(kind, "bench", Blank)
    made = Office(window, desk, shop)
    monkeypatch.setattr(desk, "show_paper", made.papers.append)
    desk.serve_errands(made.errands.append)
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
def office(shop: Any, tmp_path: Path, qtbot: Any, monkeypatch: pytest.MonkeyPatch) -> Iterator[Office]:  # noqa: F811
    """Ine Varloes, the owner, sits in the Office."""
    with seated(shop, tmp_path, qtbot, monkeypatch) as made:
        made.works("ine", "owner")
        yield made
