"""The kinds of paper the shop issues: what each is called, its facts, and what renders them."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from importlib import import_module
from typing import Any

from app.papers.facts_json import Frozen
from app.trade.sentence import words
from app.trade.wording import Wording


class Kind(StrEnum):
    """A kind of paper, by the word that the book keeps."""

    INTAKE_TICKET = words("intake ticket")
    BENCH_TAG = words("bench tag")
    HAND_BACK_RECEIPT = words("hand-back receipt")
    UNSAFE_RETURN = words("returned unrepaired and unsafe")
    MODIFIED_LABEL = words("label of a modified player")
    INVOICE = words("invoice")


# Templates of the titles, worded in the language of the paper.
TITLES = {
    Kind.INTAKE_TICKET: words("Intake ticket {number}"),
    Kind.BENCH_TAG: words("Bench tag {number}"),
    Kind.HAND_BACK_RECEIPT: words("Hand-back receipt {number}"),
    Kind.UNSAFE_RETURN: words("Returned unrepaired and unsafe {number}"),
    Kind.MODIFIED_LABEL: words("Label of a modified player {number}"),
    Kind.INVOICE: words("Invoice {number}"),
}
# Module and class of the facts, module and function of the paper: imported only when a paper is rendered.
_MADE_BY = {
    Kind.INTAKE_TICKET: ("intake_ticket_facts", "IntakeTicketFacts", "intake_ticket", "intake_ticket"),
    Kind.BENCH_TAG: ("labels_facts", "BenchTagFacts", "labels", "bench_tag"),
    Kind.HAND_BACK_RECEIPT: (
        "hand_back_receipt_facts",
        "HandBackReceiptFacts",
        "hand_back_receipt",
        "hand_back_receipt",
    ),
    Kind.UNSAFE_RETURN: ("unsafe_return_facts", "UnsafeReturnFacts", "unsafe_return", "unsafe_return"),
    Kind.MODIFIED_LABEL: ("labels_facts", "ModifiedLabelFacts", "labels", "modified_label"),
    Kind.INVOICE: ("invoice_facts", "InvoiceFacts", "invoice", "invoice"),
}


def facts_class(kind: str) -> type[Frozen]:
    """The class that reads the frozen facts of a kind."""
    module, name, _, _ = _MADE_BY[Kind(kind)]
    found: type[Frozen] = getattr(import_module(f"app.papers.{module}"), name)
    return found


def renderer(kind: str) -> Callable[[Any, Wording], bytes]:
    """The function that makes the PDF of a kind from its facts."""
    _, _, module, name = _MADE_BY[Kind(kind)]
    made_by: Callable[[Any, Wording], bytes] = getattr(import_module(f"app.papers.{module}"), name)
    return made_by
