"""A window on a shop with one player on the bench, driven as a technician would."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.screens import language
from app.screens.bench import sheet_section
from app.screens.bench.pages import register
from app.screens.desk import Desk, Paper, ShopFacts, StaffNow
from app.screens.drafts import Drafts
from app.screens.page import Page
from app.screens.threads import Doors
from app.screens.window import MainWindow
from app.trade.wording import plain
from app.work.office.shop_lists import save_transport_type, transport_types
from tests.work.bench.conftest import bench, bench_template  # noqa: F401  # fixtures
from tests.work.conftest import PINS, cheap_pins, shop_template  # noqa: F401  # fixtures

TEN = (
    "laser_current",
    "hf_eye",
    "focus_offset",
    "radial_offset",
    "radial_drive",
    "arm_start_current",
    "seek_time",
    "c1_inner",
    "rail_dc",
    "leadin_time",
)


class Blank(Page):
    """Stands for a page of another room."""

    def __init__(self, desk: Desk, key: Any = None) -> None:
        super().__init__(desk)
        self.key = key


@dataclass
class Workbench:
    """The window, the shop's bench, and short ways to press, type and wait."""

    window: MainWindow
    desk: Desk
    bench: Any
    drafts_file: Path
    papers: list[Paper] = field(default_factory=list)

    @property
    def page(self) -> Any:
        """The page in sight."""
        return self.window.page

    @property
    def sheet(self) -> Any:
        """The job sheet as the book has it now."""
        return self.bench.sheet

    def settle(self) -> None:
        """Until every piece of work has come back."""
        calm = 0
        for _ in range(2000):
            QApplication.processEvents()
            calm = calm + 1 if not self.desk.doors.waiting else 0
            if calm > 3:
                return
            if self.desk.doors.waiting:
                QTest.qWait(2)
        raise AssertionError("work is still on its way")

    def open(self, kind: str, key: Any = None) -> Any:
        """Open a page and wait until it shows."""
        self.window.open(kind, key)
        self.settle()
        return self.page

    def job(self) -> Any:
        """Open the job's sheet."""
        return self.open("job", self.bench.job)

    def press(self, key: Qt.Key, modifiers: Any = Qt.KeyboardModifier.NoModifier) -> None:
        """Press a key where the focus is, and wait for what it brings."""
        QTest.keyClick(self.focus, key, modifiers)
        self.settle()

    def ctrl(self, key: Qt.Key, *, shift: bool = False) -> None:
        """Press a key with Ctrl, as a menu's shortcut."""
        held = Qt.KeyboardModifier.ControlModifier
        if shift:
            held |= Qt.KeyboardModifier.ShiftModifier
        self.press(key, held)

    def type(self, text: str) -> None:
        """Type where the focus is."""
        QTest.keyClicks(self.focus, text)
        self.settle()

    def enter(self, text: str = "") -> None:
        """Type, then Enter, at once as a quick hand does."""
        QTest.keyClicks(self.focus, text)
        QTest.keyClick(self.focus, Qt.Key.Key_Return)

    def type_into(self, widget: QWidget, text: str) -> None:
        """Go to a widget and type."""
        widget.setFocus()
        self.type(text)

    def save(self) -> None:
        """Ctrl+Enter."""
        self.ctrl(Qt.Key.Key_Return)

    def click(self, button: Any) -> None:
        """Press a button with the mouse."""
        assert button.isVisible()
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)
        self.settle()

    @property
    def focus(self) -> QWidget:
        """What has the focus."""
        focus = QApplication.focusWidget()
        assert focus is not None
        return focus

    def work_as(self, name: str) -> None:
        """Somebody else works now."""
        self.desk.set_staff(StaffNow(getattr(self.bench.shop, name), name.title()))

    def pin(self, name: str) -> str:
        """The PIN of somebody."""
        return PINS[name]


@pytest.fixture
def sheet_of_ten(bench: Any) -> Any:  # noqa: F811
    """The transport type asks for ten readings, in this order."""
    line = next(line for line in transport_types(bench.book) if line.id == bench.type)
    save_transport_type(bench.book, bench.tobbe, replace(line, sheet=TEN))
    return bench


@pytest.fixture
def workbench(
    bench: Any,  # noqa: F811
    tmp_path: Path,
    qtbot: Any,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[Workbench]:
    """Tobbe Ruskamp stands at the bench; other rooms are blank pages."""
    language.use(plain(bench.book.zone))
    monkeypatch.setattr(sheet_section, "_folded", {})
    doors = Doors()
    drafts = Drafts(tmp_path / "drafts.json", delay_ms=0)
    desk = Desk(
        bench.book,
        doors=doors,
        drafts=drafts,
        clock=bench.shop.clock,
        shop=ShopFacts("Lanternfield Workshop", bench.book.zone, "EUR"),
    )
    desk.set_staff(StaffNow(bench.tobbe, "Tobbe Ruskamp"))
    window = MainWindow(desk, settings=tmp_path / "window.ini")
    qtbot.addWidget(window)
    register(window)
    for kind, place in (("counter", "counter"), ("office", "office")):
        window.register(kind, place, Blank, root=True)
    for kind in ("hand_back", "customer", "paper", "invoice", "card"):
        window.register(kind, "counter", Blank)
    made = Workbench(window, desk, bench, tmp_path / "drafts.json")
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
