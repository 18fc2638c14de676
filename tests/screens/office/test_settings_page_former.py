"""What settings were before: told below the page, and brought back through their fields."""

from __future__ import annotations

from decimal import Decimal

from app.trade.settings import FLAG_COIL_UP, GUARANTEE_WORDS, NO_ANSWER_DAYS
from app.work.office.settings import change_settings, shop_settings
from tests.screens.office.test_settings_page import field


def test_a_former_threshold_stands_below_with_who_and_when_and_comes_back_through_its_field(office):
    office.works("ine", "owner")
    change_settings(office.book, office.shop.ine, {FLAG_COIL_UP: Decimal("1.05")})
    page = office.open("settings", "bench")
    office.type_into(field(page, FLAG_COIL_UP), "1.08")
    office.press("Ctrl+Return")
    texts = page.former_texts
    texts.set_opened(True)
    newest, oldest = texts.words.split("\n\n")
    label = FLAG_COIL_UP.label.key
    assert newest.startswith("Until ")
    assert f", Ine Varloes:\n{label}: 1.05" in newest
    assert f"{label}: 1.1" in oldest  # the program's own number
    office.push(texts.buttons[0])
    assert field(page, FLAG_COIL_UP).text() == "1.05"
    assert shop_settings(office.book)[FLAG_COIL_UP] == Decimal("1.08")  # until it is saved
    office.press("Ctrl+Return")
    assert shop_settings(office.book)[FLAG_COIL_UP] == Decimal("1.05")
    assert len(texts.buttons) == 3


def test_only_the_owner_brings_back_what_is_the_owners(office):
    change_settings(office.book, office.shop.ine, {NO_ANSWER_DAYS: 3, GUARANTEE_WORDS: "Ask us."})
    office.works("mirr")
    page = office.open("settings", "counter")
    page.former_texts.set_opened(True)
    free = {
        word: button.isEnabled()
        for button in page.former_texts.buttons
        for word in (GUARANTEE_WORDS.label.key, NO_ANSWER_DAYS.label.key)
        if word in office.sees(button.parentWidget())
    }
    assert free == {NO_ANSWER_DAYS.label.key: True, GUARANTEE_WORDS.label.key: False}
