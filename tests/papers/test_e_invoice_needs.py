"""What an e-invoice asks the shop and the customer for, set against what the official rules miss."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.papers.e_invoice_facts import EInvoiceFacts, Party
from app.papers.e_invoice_needs import lacking
from app.papers.e_invoice_xml import e_invoice_xml
from app.trade.office.invoice import Draft
from tests.papers.e_invoice_story import CASES, DRAFTS, LABOUR, facts_of
from tests.papers.schematron import rules_broken


def without(facts: EInvoiceFacts, whose: str, **more: str) -> EInvoiceFacts:
    party: Party = getattr(facts, whose)
    return replace(facts, **{whose: replace(party, **more)})


def test_nothing_is_asked_for_where_all_is_there() -> None:
    assert {name: lacking(facts).all for name, facts in CASES.items()} == dict.fromkeys(CASES, ())


PLAIN, REVERSE, OUTSIDE = CASES["plain"], CASES["reverse charge"], CASES["outside VAT"]


@pytest.mark.parametrize(
    ("facts", "words", "rule"),
    [
        (without(PLAIN, "seller", name=""), "no name", "BR-06"),
        (without(PLAIN, "seller", country=""), "no country", "BR-09"),
        (without(PLAIN, "seller", vat_id="", tax_number="", register_number="HRB 1"), "neither VAT", "BR-S-02"),
        (without(CASES["exempt"], "seller", vat_id="", tax_number="", register_number="1"), "neither VAT", "BR-E-02"),
        (without(PLAIN, "seller", vat_id=""), "VAT number or number in a register", "BR-CO-26"),
        (without(OUTSIDE, "seller", register_number=""), "Outside VAT", "BR-CO-26"),
        (without(PLAIN, "buyer", name=""), "customer has no name", "BR-07"),
        (without(PLAIN, "buyer", country=""), "customer has no country", "BR-11"),
        (without(REVERSE, "buyer", vat_id=""), "Reverse charge", "BR-AE-02"),
        (facts_of(Draft("EUR", (LABOUR, *DRAFTS["outside VAT"].lines))), "of its own", "BR-O-11"),
    ],
)  # fmt: skip
def test_each_sentence_stands_where_an_official_rule_would_be_broken(
    facts: EInvoiceFacts, words: str, rule: str
) -> None:
    """Outside check: the schematron names the rule for the very facts that we refuse."""
    assert any(words in sentence.key for sentence in lacking(facts).all)
    broken = " ".join(rules_broken(e_invoice_xml(facts)))
    assert rule in broken


def test_three_decimals_have_no_place() -> None:
    """BR-DEC-*: amounts have at most two decimals."""
    facts = facts_of(Draft("KWD", (LABOUR,)))
    (sentence,) = lacking(facts).sums
    assert lacking(facts).all == (sentence,)
    assert sentence.values == {"currency": "KWD", "places": 3}
    assert "BR-DEC" in " ".join(rules_broken(e_invoice_xml(facts)))


def test_what_is_missing_is_told_by_who_it_is_about() -> None:
    nobody = lacking(without(without(REVERSE, "seller", name=""), "buyer", vat_id=""))
    assert ["shop has no name" in sentence.key for sentence in nobody.shop] == [True]
    assert ["VAT number" in sentence.key for sentence in nobody.customer] == [True]
    assert nobody.sums == ()
