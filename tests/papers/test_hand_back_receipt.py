"""The hand-back receipt: ticked as on the screen, signed for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from app.papers.facts import PaperSize, Player, Tick
from app.papers.hand_back_receipt_facts import Collector
from app.trade.sentence import Sentence
from tests.papers.conftest import pdf_of
from tests.papers.reading import letters, picture, texts, whole
from tests.papers.story import RECEIPT, SHEET

Press = Callable[..., bytes]


def test_it_says_what_was_given_back_shown_told_and_paid() -> None:
    text = whole(pdf_of("receipt"))
    for words in (
        "2131", "27 November 2026, 16:40", "Quellmar Larch 2", "transport Velk A1 no. 55 871",
        "Outcome: mended with a modification", "the customer: Benedikt Arnsvik", "remote control",
        "old part: R314, 6.8 Ω, in a bag", "transit lock explained", "Still to do: nothing",
        "Safety test passed 26 Nov 2026.", "Paid 27 Nov 2026: 159.32 EUR, card; nothing open.", "Caution. Modified:",
        "I have received what is ticked above and was told about the modification.", "counter: Mirr Quistan",
        "page 1 of 1",
    ):  # fmt: skip
        assert words in text


def ticked(pdf: bytes, words: str) -> bool:
    """Whether the box before the first letters of ``words`` holds a tick: looked at in a picture."""
    plain = words.replace(" ", "")
    found = letters(pdf)
    text = "".join(one.text for one in found)
    first = found[text.index(plain)]
    scale = 300 / 25.4
    middle = (first.top + first.bottom) / 2
    box = (
        (first.left - 4.4) * scale,
        (middle - 1.1) * scale,
        (first.left - 2.2) * scale,
        (middle + 1.1) * scale,
    )
    inside = picture(pdf, 300, grey=True).crop(tuple(round(edge) for edge in box))
    dark = sum(1 for grey in inside.getdata() if grey < 128)
    return dark > inside.width * inside.height * 0.04


@pytest.mark.filterwarnings("ignore:Image.Image.getdata:DeprecationWarning")
def test_boxes_are_ticked_as_they_were_on_the_screen() -> None:
    pdf = pdf_of("receipt")
    for tick in (*RECEIPT.given_back, *RECEIPT.shown_told):
        words = tick.text if isinstance(tick.text, str) else tick.text.key
        assert ticked(pdf, words) is tick.ticked, words
    assert ticked(pdf, "the customer: Benedikt Arnsvik")
    assert not ticked(pdf, "somebody with the ticket")


@pytest.mark.filterwarnings("ignore:Image.Image.getdata:DeprecationWarning")
@pytest.mark.parametrize(
    ("collector", "words"),
    [
        (Collector.WITH_TICKET, "somebody with the ticket"),
        (Collector.NAMED, "somebody named by telephone"),
        (Collector.TICKET_LOST, "ticket lost; proof noted"),
    ],
)
def test_who_collected_is_ticked_with_name_and_proof(press: Press, collector: Collector, words: str) -> None:
    facts = replace(RECEIPT, collector=collector, collector_name="Oda Lind", proof="identity card seen")
    pdf = press(facts)
    assert ticked(pdf, words)
    assert not ticked(pdf, "the customer: Benedikt Arnsvik")
    assert "Oda Lind; identity card seen" in whole(pdf)


def test_what_is_still_to_do_prints_as_open_boxes(press: Press) -> None:
    facts = replace(RECEIPT, still_to_do=(Sentence("final readings"),), done=(), payment="", declaration="")
    text = whole(press(facts))
    assert "Still to do final readings" in text
    assert "nothing open" not in text
    assert "I have received what is ticked above." in text


@pytest.mark.parametrize("size", list(PaperSize))
def test_a_long_receipt_goes_on_and_the_signature_stands_at_its_end(press: Press, size: PaperSize) -> None:
    things = tuple(
        Tick(f"thing number {number} that somebody left with the player", True) for number in range(60)
    )
    facts = replace(RECEIPT, given_back=things, sheet=replace(SHEET, size=size))
    pages = texts(press(facts))
    assert len(pages) > 1
    assert "signature of the person who collects" in pages[-1]
    assert "signature of the person who collects" not in pages[0]
    assert all(f"thing number {number} " in " ".join(pages) for number in range(60))
    assert "Hand-back receipt · job 2131" in pages[1]


def test_without_lists_only_the_player_and_the_signature_remain(press: Press) -> None:
    facts = replace(
        RECEIPT, given_back=(), shown_told=(), flags=(), payment_lead="", player=Player("Larch", "1")
    )
    text = whole(press(facts))
    assert "Given back" not in text
    assert "Shown and told" not in text
    assert "transport" not in text
