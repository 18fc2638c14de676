"""The estimate: options side by side, sums at one edge, and an answer box that can stand alone."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from app.papers.estimate_facts import EstimateLine
from app.papers.facts import PaperSize
from app.papers.invoice_facts import VatGroup
from app.papers.paper_kind import PaperKind
from app.papers.press import printed, read_facts
from app.work.language import wording_for
from tests.papers.reading import letters, right_edges, texts
from tests.papers.story import ENGLISH
from tests.papers.story_estimate import ESTIMATE, A, B
from tests.papers.story_shop import euro

Press = Callable[..., bytes]


def plain(pdf: bytes) -> str:
    return " ".join(" ".join(texts(pdf)).split()).replace("\u00a0", " ")


@pytest.mark.parametrize(("size", "edge"), [(PaperSize.A4, 190.0), (PaperSize.LETTER, 195.9)])
def test_amounts_of_an_option_end_at_the_edge_of_its_column(
    press: Press, size: PaperSize, edge: float
) -> None:
    pdf = press(replace(ESTIMATE, sheet=replace(ESTIMATE.sheet, size=size)))
    for amount in ("139.50", "2.15", "171.65", "32.61", "215.00"):
        assert right_edges(pdf, amount)[-1] == pytest.approx(edge, abs=0.8)  # side bearings of the figures
    first = right_edges(pdf, "186.00")[0]
    for amount in ("98.00", "314.00", "59.66", "390.00"):
        assert right_edges(pdf, amount)[0] == pytest.approx(first, abs=0.5)


def test_lines_of_the_same_words_share_a_row(press: Press) -> None:
    text = plain(press(ESTIMATE))
    assert text.count("Electrical safety test") == 1
    assert "Bench work 3.00 h 186.00 2.25 h 139.50" in text
    assert text.count("12.00") == 2


def test_what_departs_from_the_makers_design_is_named_and_agreed_to(press: Press) -> None:
    text = plain(press(ESTIMATE))
    assert "Maker’s design kept changed in one point; undone by fitting 6.8 Ω again" in text
    assert "Option A, 373.66 EUR Option B, 204.26 EUR; I agree to the change of the maker’s design" in text


def test_no_culprit_is_named_and_the_limit_is_told(press: Press) -> None:
    text = plain(press(ESTIMATE))
    assert "The cause is not established. At taking in you named a limit of 120.00 EUR." in text
    assert "Player looked at by Tobbe Ruskamp" in text


def test_saying_no_costs_what_was_told_beforehand(press: Press) -> None:
    text = plain(press(ESTIMATE))
    assert (
        "Neither: return it unrepaired (45.00 EUR with VAT for looking, told on 19 Nov 2026; what you paid counts)"
        in text
    )
    assert "(45.00 EUR with VAT for looking)" in plain(press(replace(ESTIMATE, fee_told=None, deposit=False)))
    assert "(nothing is charged for looking)" in plain(press(replace(ESTIMATE, fee=None)))


def test_the_answer_alone_on_a_sheet_names_the_player_and_every_amount(press: Press) -> None:
    pages = texts(press(ESTIMATE))
    assert len(pages) == 2
    last = " ".join(pages[1].split())
    for words in (
        "Your answer",
        "Quellmar Larch 2, serial 0420",
        "Option A, 373.66",
        "Option B, 204.26",
        "signature",
    ):
        assert words in last
    assert "ring +44 1632 960 017, or write to desk@lanternfield.example" in last.replace("\u00a0", " ")


def test_a_single_way_is_asked_for_with_yes_and_no_on_one_page(press: Press) -> None:
    only = replace(ESTIMATE, options=(replace(B, never_above=None),), number="")
    pages = texts(press(only))
    text = " ".join(" ".join(pages).split())
    assert len(pages) == 1
    for words in ("What it costs to mend", "Yes, 204.26", "No: return it unrepaired"):
        assert words in text
    assert "never above" not in text
    kept = plain(press(replace(only, options=(replace(B, design="", rounding=euro("0.01")),))))
    assert "Yes, 204.26 EUR No:" in kept
    assert "Rounding 0.01" in kept


def test_three_ways_of_many_lines_repeat_their_heads_on_the_next_page(press: Press) -> None:
    many = tuple(
        EstimateLine(f"Part {n}, with a name that is as long as names of parts are", euro("1.00"))
        for n in range(40)
    )
    note = EstimateLine("Your transport is kept for you.")
    zero = VatGroup(Decimal(0), euro("0.00"), euro("0.00"), "small business")
    three = (A, replace(B, lines=(*B.lines, note), vat=(*B.vat, zero)), replace(A, letter="C", lines=many))
    pages = texts(press(replace(ESTIMATE, options=three)))
    assert len(pages) >= 3
    assert all("another transport" in page for page in pages[:-1])
    whole = " ".join(" ".join(pages).split())
    assert "Three ways to mend" in whole
    assert "None of them: return it unrepaired" in whole
    assert "VAT 0 %: small business" in whole.replace("\u00a0", " ")
    assert "Your transport is kept for you." in whole
    for n in range(40):
        assert f"Part {n}," in whole


@pytest.mark.parametrize(
    ("phone", "email", "words"),
    [
        ("01", "", "or ring 01."),
        ("", "a@b.example", "or write to a@b.example."),
        ("", "", "bring or send this sheet."),
    ],
)
def test_only_ways_that_the_shop_has_are_offered(press: Press, phone: str, email: str, words: str) -> None:
    shop = replace(ESTIMATE.sheet.shop, phone=phone, email=email)
    assert words in plain(press(replace(ESTIMATE, sheet=replace(ESTIMATE.sheet, shop=shop))))


def test_a_customer_who_reads_german_gets_it_in_german() -> None:
    sheet = replace(ESTIMATE.sheet, language="de")
    text = plain(printed(replace(ESTIMATE, sheet=sheet), wording_for("de", ENGLISH.zone)))
    for words in ("Zwei Wege", "Offen bis", "Ihre Antwort", "373,66", "Möglichkeit B", "Unterschrift"):
        assert words in text


def test_typed_markup_prints_letter_for_letter(press: Press) -> None:
    odd = replace(B, title="<b>x</b> & y", what="<img src='file:///etc/passwd'> " + "W" * 300)
    assert "<b>x</b> & y" in plain(press(replace(ESTIMATE, options=(odd,), intro="a<b", looked_at_by="")))


def test_its_facts_are_read_back_as_they_were_frozen() -> None:
    assert read_facts(PaperKind.ESTIMATE, ESTIMATE.to_json()) == ESTIMATE


def test_amounts_that_are_too_long_for_their_column_are_set_smaller_and_overlap_nothing(press: Press) -> None:
    most = euro("999999999000166.01")
    dear = EstimateLine("x", most, Decimal(1_000_000), "pieces")
    option = replace(A, lines=(dear,), net=most, total=most, never_above=most)
    found = list(letters(press(replace(ESTIMATE, options=(option, B, replace(option, letter="C"))))))
    rows: dict[float, list[tuple[float, float]]] = {}
    for one in found:
        if one.text.strip():
            rows.setdefault(round(one.top, 1), []).append((one.left, one.right))
    for spans in rows.values():
        spans.sort()
        assert all(after[0] > before[1] - 0.6 for before, after in itertools.pairwise(spans))
