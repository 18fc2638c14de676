"""The family of letters: what stands around their text, also when a name is absurdly long."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from app.papers.facts import Customer, PaperSize
from tests.papers.conftest import PAPERS, SHEETS
from tests.papers.reading import collisions, letters, texts, without_spaces
from tests.papers.story import INVOICE, SHEET
from tests.papers.story_after import REMINDER, UNCOLLECTED_NOTICE
from tests.papers.story_report import REPORT

LONG = (
    "Ägidius-Maximilian <b>a & b</b> " + "Grundstücksverkehrsgenehmigungszuständigkeit " * 6 + "End of name"
)
ADDRESS = ("Hinterhaus " + "Seitenflügel " * 20 + "Ende der Straße", "43117 Mossgate")


@pytest.mark.parametrize("size", list(PaperSize))
@pytest.mark.parametrize(
    "facts", [INVOICE, REMINDER, UNCOLLECTED_NOTICE], ids=["invoice", "reminder", "notice"]
)
def test_a_name_longer_than_the_window_is_cut_there_and_stands_in_full_below(
    facts: Any, size: PaperSize, press: Any
) -> None:
    customer = Customer(LONG, "C 0418", ADDRESS)
    pdf = press(replace(facts, customer=customer, sheet=replace(SHEET, size=size)))
    assert collisions(pdf) == []
    field = [one for one in letters(pdf) if one.left < 104 and 60 < one.top < 97]
    assert max(one.bottom for one in field) < (97.5 if size is PaperSize.A4 else 89)
    assert "43117Mossgate" in "".join(one.text for one in field)  # the post goes by the last lines
    words = "The address in full: " + ", ".join((LONG, *ADDRESS))
    assert without_spaces(words) in without_spaces(texts(pdf)[0])


def test_an_ordinary_address_is_said_once(press: Any) -> None:
    assert "The address in full" not in texts(press(INVOICE))[0]


def test_the_telephone_number_of_the_shop_is_never_broken(press: Any) -> None:
    name = "Lanternfield Workshop"
    shop = replace(
        SHEET.shop, name=name, address=("3 Mossgate Quay, second yard on the left", "43117 Mossgate")
    )
    placed = letters(press(replace(REPORT, sheet=replace(SHEET, shop=shop))))
    line = "".join(one.text for one in placed if one.left < 120 and one.top < 24)
    assert "+441632960017" in line
    rows = {round(one.top, 1) for one in placed if one.left < 120 and one.top < 24 and one.text in "+96"}
    assert len(rows) == 1


@pytest.mark.parametrize("name", SHEETS)
def test_what_the_shop_says_of_itself_runs_into_nothing_at_its_longest(name: str, press: Any) -> None:
    """As long as the settings let it be: 60 letters of a name, three lines of 60, numbers of 30."""
    facts = PAPERS[name]
    for word in ("W", "Werkstatt "):
        most, line, number = ((word * 80)[:length] for length in (80, 60, 30))
        shop = replace(
            SHEET.shop,
            name=line,
            trade_line=most,
            address=(line, line, line),
            email=f"{word.strip() * 4}@example.org",
            tax_number=number,
            register_number=number,
        )
        pdf = press(replace(facts, sheet=replace(facts.sheet, shop=shop)))
        assert [at for at in range(len(texts(pdf))) if collisions(pdf, at)] == []
