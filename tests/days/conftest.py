"""A small shop with what a day needs: people with PINs, a type with its limits and sheet, a standard, parts."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path

import pytest

from app.trade.bench.kinds import Arrangement
from app.trade.bench.safety_limits import PROPOSED
from app.trade.settings import ADDRESS_LINES, CITY, DIAGNOSIS_FEE, HOURLY_RATE, POSTCODE, SHOP_NAME
from app.trade.settings.bench import SAFETY_STANDARD
from app.trade.settings.shop import COUNTRY, VAT_ID
from app.work.office.settings import change_settings
from app.work.office.shop_lists import (
    InstrumentLine,
    LimitLine,
    TypeLine,
    save_instrument,
    save_limit,
    save_transport_type,
)
from app.work.shop_book import close_book, open_shop
from tests.work.conftest import cheap_pins, shop, shop_template

__all__ = ["cheap_pins", "shop", "shop_template"]

SHEET = (
    "laser_current",
    "hf_eye",
    "focus_offset",
    "radial_drive",
    "arm_start_current",
    "seek_time",
    "c1_inner",
)
DAY = datetime(2026, 11, 23, 10, 0, tzinfo=UTC)


@pytest.fixture(scope="session")
def day_template(
    shop_template: tuple[Path, dict[str, int]], tmp_path_factory: pytest.TempPathFactory
) -> Path:
    """A closed book, made once: Velk A1 with limits, a meter, the shop's settings."""
    template, people = shop_template
    path = tmp_path_factory.mktemp("days") / "book.sqlite"
    shutil.copyfile(template, path)
    book = open_shop(path, clock=lambda: DAY)
    ine = people["ine"]
    change_settings(
        book,
        ine,
        {
            SAFETY_STANDARD: replace(PROPOSED, standard="EN 50678", edition="2020"),
            SHOP_NAME: "Lanternfield Workshop",
            ADDRESS_LINES: ("3 Mossgate Quay",),
            POSTCODE: "00000",
            CITY: "Exampleton",
            COUNTRY: "DE",
            VAT_ID: "DE000000000",
            HOURLY_RATE: 62_000_000,
            DIAGNOSIS_FEE: 45_000_000,
        },
    )
    kind = save_transport_type(
        book, ine, TypeLine(name="Velk A1", arrangement=Arrangement.SWING_ARM, sheet=SHEET)
    ).value
    for quantity, high in (("seek_time", "1.5"), ("arm_start_current", "0.030")):
        save_limit(
            book,
            ine,
            LimitLine(
                quantity=quantity,
                transport_type_id=kind,
                high=Decimal(high),
                source="service document, p. 12",
            ),
        )
    save_instrument(
        book,
        ine,
        InstrumentLine(name="bench meter", calibrated_on=date(2026, 3, 1), due_on=date(2027, 3, 1)),
    )
    close_book(book)
    return path


@pytest.fixture
def day_book(day_template: Path, tmp_path: Path) -> Path:
    """A fresh copy of that book, closed."""
    path = tmp_path / "book.sqlite"
    shutil.copyfile(day_template, path)
    return path
