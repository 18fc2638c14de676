"""What tests of screens stand on: our style and inks, English, and a desk without a book."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtWidgets import QApplication

from app.screens import language
from app.screens.desk import Desk, FindHit, ShopFacts, StaffNow
from app.screens.drafts import Drafts
from app.screens.kit import measure, palette
from app.screens.threads import Doors
from app.trade.wording import plain
from tests.work.conftest import cheap_pins, shop, shop_template

__all__ = ["cheap_pins", "shop", "shop_template"]  # a small open book, for pages that need one


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
