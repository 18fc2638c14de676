"""The shop that tests of work and screens stand in: a fresh book with four people, a fixed clock, cheap PINs."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from app.book.door import Book

OPENED = datetime(2026, 3, 2, 7, 0, tzinfo=UTC)  # when the people were written into the book
PINS = {"ine": "470915", "sanna": "8264", "tobbe": "3917", "mirr": "5508"}


@dataclass
class Shop:
    """An open book and the ids of its people. Ine is the owner, Sanna may test electrical safety."""

    book: Book
    clock: Any  # FixedClock of tests/conftest.py: 12 March 2026, 09:30 UTC, until advanced
    path: Path
    ine: int
    sanna: int
    tobbe: int
    mirr: int

    def pin(self, name: str) -> str:
        """The PIN of ``ine``, ``sanna``, ``tobbe`` or ``mirr``."""
        return PINS[name]


@pytest.fixture(scope="session")
def cheap_pins() -> Iterator[None]:
    """argon2 at its least, so that a PIN costs nothing in tests."""
    from app.work.people import pins

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pins, "TIME_COST", 1)
        patch.setattr(pins, "MEMORY_KIB", 8)
        yield


@pytest.fixture(scope="session")
def shop_template(
    tmp_path_factory: pytest.TempPathFactory, cheap_pins: None, kept_statements: None
) -> tuple[Path, dict[str, int]]:
    """A closed book with the four people in it, made once; copy it, do not open it."""
    from app.trade.bench.stages import Mark
    from app.work.people.pins import set_pin
    from app.work.people.staff import add_staff, give_mark
    from app.work.shop_book import close_book, open_shop

    path = tmp_path_factory.mktemp("shop") / "book.sqlite"
    book = open_shop(path, clock=lambda: OPENED, make=True)
    people: dict[str, int] = {}
    for key, name in (
        ("ine", "Ine Varloes"),
        ("sanna", "Sanna Wickerel"),
        ("tobbe", "Tobbe Ruskamp"),
        ("mirr", "Mirr Quistan"),
    ):
        people[key] = add_staff(book, people.get("ine"), name).value
    ine = people["ine"]
    give_mark(book, None, ine, Mark.OWNER, proof="trade register", dated=date(2019, 4, 1))
    give_mark(
        book,
        ine,
        people["sanna"],
        Mark.COMPETENT,
        proof="course certificate",
        proof_from="Mossgate evening school",
        dated=date(2025, 3, 3),
        ends=date(2028, 3, 3),
    )
    for key, pin in PINS.items():
        set_pin(book, people[key], people[key], pin)
    close_book(book)
    return path, people


@pytest.fixture
def shop(shop_template: tuple[Path, dict[str, int]], tmp_path: Path, clock: Any) -> Iterator[Shop]:
    """A fresh copy of that book, open for work."""
    from app.work.shop_book import close_book, open_shop

    path = tmp_path / "book.sqlite"
    shutil.copyfile(shop_template[0], path)
    book = open_shop(path, clock=clock)
    yield Shop(book, clock, path, **shop_template[1])
    close_book(book)
