"""`save as e-invoice`: the filed PDF of an invoice or credit note with the XML of its frozen facts inside."""

from __future__ import annotations

import json
from dataclasses import dataclass, fields, replace

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Paper
from app.papers.e_invoice_facts import EInvoiceFacts, Party
from app.papers.e_invoice_needs import Lacking, lacking
from app.papers.invoice_facts import InvoiceFacts
from app.papers.press import read_facts
from app.trade.refusal import Held, Refusal
from app.trade.sentence import Sentence
from app.work.language import wording_for
from app.work.office.e_invoice_facts import buyer, seller
from app.work.office.e_invoice_from_frozen import facts_of_frozen
from app.work.papers.issuing import paper_pdf
from app.work.papers.kinds import Kind


@dataclass(frozen=True, slots=True)
class EInvoiceFile:
    """The hybrid PDF, and the name that it is saved under."""

    title: str
    name: str
    pdf: bytes


class EInvoiceHeld(Held):
    """What an e-invoice still lacks. ``shop``: some of it is entered in the settings; ``customer``: some of it on this
    customer's card, else None."""

    def __init__(self, missing: Lacking, customer: int) -> None:
        super().__init__(Sentence("This e-invoice cannot be saved yet."), missing.all)
        self.shop = bool(missing.shop)
        self.customer = customer if missing.customer else None


def e_invoice_pdf(book: Book, paper_id: int) -> EInvoiceFile:
    """The e-invoice of an issued invoice or credit note; files its paper first where that was cut short.

    Raises EInvoiceHeld with everything that is missing at the shop or the customer, Refusal for another kind of paper and for
    one whose facts do not tell what it would have to say.
    """
    facts = e_invoice_of(book, paper_id)
    missing = lacking(facts)
    if missing.all:
        with book.ask() as session:
            job = session.get_one(Job, session.get_one(Paper, paper_id).job_id)
            raise EInvoiceHeld(missing, job.customer_id)
    file = paper_pdf(book, paper_id)
    with book.ask() as session:
        row = session.get_one(Paper, paper_id)
        language, issued_at = row.language, row.issued_at
    from app.papers.e_invoice import e_invoice

    pdf = e_invoice(file.pdf, facts, title=file.title, language=language, issued_at=issued_at)
    wording = wording_for(language, book.zone)
    name = wording("{title} e-invoice", title=file.title)
    return EInvoiceFile(file.title, f"{name}.pdf".replace("/", "-"), pdf)


def e_invoice_of(book: Book, paper_id: int) -> EInvoiceFacts:
    """The facts frozen with a paper; of an older invoice, what its rows and paper tell. What was empty then is taken
    from shop and customer as they are now."""
    with book.ask() as session:
        row = session.get_one(Paper, paper_id)
        frozen = read_facts(Kind(row.kind), json.dumps(row.facts)) if row.facts else None
        facts: EInvoiceFacts | None = getattr(frozen, "e_invoice", None)
        if facts is None and isinstance(frozen, InvoiceFacts) and row.invoice_id is not None:
            return facts_of_frozen(session, book.files, row.invoice_id, frozen)
        if facts is None:
            raise Refusal(
                Sentence("There is no e-invoice of this paper."),
                Sentence("Open an invoice or a credit note: those can be saved as one."),
            )
        settings = settings_of(session)
        customer = session.get_one(Customer, session.get_one(Job, row.job_id).customer_id)
        return replace(
            facts,
            seller=_filled(facts.seller, seller(settings)),
            buyer=_filled(facts.buyer, buyer(settings, customer)),
        )


def _filled(frozen: Party, now: Party) -> Party:
    """What was known at issue, and from now only what was empty then."""
    return Party(
        **{field.name: getattr(frozen, field.name) or getattr(now, field.name) for field in fields(Party)}
    )
