"""What tests of screens stand on: our style and inks, English, and a desk without a book."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.screens import language
from app.screens.desk import Desk, FindHit, ShopFacts, StaffNow
from app.screens.drafts import Drafts
from app.screens.kit import measure, palette
from app.screens.qt_words import speak
from app.screens.shop_window import ShopWindow
from app.screens.threads import Doors
from app.screens.window import MainWindow
from app.trade.wording import plain
from tests.work.bench.conftest import Bench, bench, bench_template
from tests.work.conftest import cheap_pins, shop, shop_template

# A small open book, and one with a player on the bench, for pages that need one.
__all__ = ["bench", "bench_template", "cheap_pins", "shop", "shop_template"]


@pytest.fixture(autouse=True)
def dressed(qapp: QApplication) -> Iterator[None]:
    """Light inks and text at 100 %, whatever the test before has chosen."""
    dress(qapp)
    language.use(plain(UTC))
    yield
    if palette.wanted() != palette.Scheme.LIGHT or measure.text_size() != 100:
        dress(qapp)


def dress(app: QApplication) -> None:
    """Our style, light, at 100 %."""
    palette.apply(app, "light")
    measure.set_text_size(app, 100)


HITS = (
    FindHit("Jobs", "2131", "Quellmar Larch 2, Benedikt Arnsvik", ("sheet", 2131)),
    FindHit("Customers", "Benedikt Arnsvik", "01632 960 142", ("customer", 7)),
    FindHit("Jobs", "2113", "Kestovar Kelp 1, Jun Okeland", ("sheet", 2113)),
)
PEOPLE = (StaffNow(1, "Mirr Quistan"), StaffNow(2, "Tobbe Ruskamp"))


@pytest.fixture
def desk(tmp_path: Path, clock: Callable[[], Any]) -> Iterator[Desk]:
    """A desk whose find box knows three things; its doors and drafts are closed at the end."""
    doors = Doors()
    drafts = Drafts(tmp_path / "drafts.json", delay_ms=0)
    made = Desk(
        None,
        doors=doors,
        drafts=drafts,
        clock=clock,
        shop=ShopFacts("Lanternfield Workshop", UTC),
        find=lambda text: tuple(hit for hit in HITS if text.casefold() in hit.title.casefold()),
    )
    made.set_staff(PEOPLE[0])
    yield made
    doors.close()
    drafts.close()


@dataclass
class Whole:
    """The window with all its rooms on the book of the ``bench``."""

    shop: ShopWindow
    bench: Bench

    @property
    def window(self) -> MainWindow:
        """The window itself."""
        return self.shop.window

    @property
    def page(self) -> Any:
        """The page in sight."""
        return self.window.page

    def settle(self) -> None:
        """Until every piece of work has come back and was shown."""
        for _ in range(2000):
            QApplication.processEvents()
            if not self.shop.doors.waiting:
                QApplication.processEvents()
                if not self.shop.doors.waiting:
                    return
            QTest.qWait(1)
        raise AssertionError("work is still on its way")

    def open(self, kind: str, key: Any = None) -> Any:
        """Open a page and wait until it shows."""
        self.window.open(kind, key)
        self.settle()
        return self.page


@pytest.fixture
def whole(qapp: QApplication, bench: Bench, tmp_path: Path) -> Iterator[Whole]:
    """The window on that book, shown."""
    made = Whole(ShopWindow(qapp, bench.book, tmp_path / "own"), bench)
    made.shop.show()
    made.settle()
    yield made
    let_go(made.shop)


def let_go(shop: ShopWindow) -> None:
    """Close a window and its book as the program does."""
    shop.window.closing.clear()
    shop.window.close()
    shop.close()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    speak(QApplication.instance(), "en_GB")  # type: ignore[arg-type]
