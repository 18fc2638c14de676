"""What an e-invoice still lacks by the rules of EN 16931-1 that are about who sells and who buys."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.e_invoice_facts import EInvoiceFacts, Party
from app.trade.money import decimals
from app.trade.sentence import Sentence

_WITH_VAT = frozenset({"S", "Z", "E", "AE"})
MOST_DECIMALS = 2  # BR-DEC-*


@dataclass(frozen=True, slots=True)
class Lacking:
    """What is missing by who it is about, each with the place where it is entered. ``sums``: what no entry can mend."""

    shop: tuple[Sentence, ...]
    customer: tuple[Sentence, ...]
    sums: tuple[Sentence, ...]

    @property
    def all(self) -> tuple[Sentence, ...]:
        """Everything; empty when the rules can be kept."""
        return (*self.shop, *self.customer, *self.sums)


def lacking(facts: EInvoiceFacts) -> Lacking:
    """Everything that is missing."""
    return Lacking(
        tuple(_of_the_seller(facts)),
        tuple(_of_the_buyer(facts.buyer, facts.categories)),
        tuple(_of_the_sums(facts)),
    )


def _of_the_seller(facts: EInvoiceFacts) -> list[Sentence]:
    seller, categories = facts.seller, facts.categories
    found = []
    if not seller.name:  # BR-06
        found.append(Sentence("The shop has no name yet: enter it in the settings under Shop."))
    if not seller.country:  # BR-09
        found.append(Sentence("The shop has no country yet: enter it in the settings under Shop."))
    if categories & _WITH_VAT and not (
        seller.vat_id or seller.tax_number
    ):  # BR-S-02, BR-Z-02, BR-E-02, BR-AE-02
        found.append(Sentence("The shop has neither VAT number nor tax number yet: enter one under Shop."))
    if not (seller.register_number or (seller.vat_id and "O" not in categories)):  # BR-CO-26, BR-O-02
        found.append(
            Sentence(
                "Outside VAT, an e-invoice names the shop by its number in a register: enter it under Shop."
            )
            if "O" in categories
            else Sentence(
                "An e-invoice names the shop by VAT number or number in a register: enter one under Shop."
            )
        )
    return found


def _of_the_buyer(buyer: Party, categories: frozenset[str]) -> list[Sentence]:
    found = []
    if not buyer.name:  # BR-07
        found.append(Sentence("The customer has no name: it was erased, or the card is empty."))
    if not buyer.country:  # BR-11
        found.append(
            Sentence("The customer has no country yet: enter it on the card, or the shop's own under Shop.")
        )
    if "AE" in categories and not (buyer.vat_id or buyer.register_number):  # BR-AE-02
        found.append(Sentence("Reverse charge needs the customer's VAT number: enter it on the card."))
    return found


def _of_the_sums(facts: EInvoiceFacts) -> list[Sentence]:
    found = []
    if decimals(facts.currency) > MOST_DECIMALS:
        found.append(
            Sentence(
                "An e-invoice writes amounts with two decimals at most; {currency} has {places}.",
                {"currency": facts.currency, "places": decimals(facts.currency)},
            )
        )
    if "O" in facts.categories and len(facts.categories) > 1:  # BR-O-11 to BR-O-14
        found.append(
            Sentence("What is outside VAT stands on an e-invoice of its own, with nothing else on it.")
        )
    return found
