"""The door of the papers: facts in, PDF bytes out. The PDF library is loaded when the first paper is printed."""

from __future__ import annotations

from typing import TypeAlias

from app.papers.credit_note_facts import CreditNoteFacts
from app.papers.estimate_facts import EstimateFacts
from app.papers.hand_back_receipt_facts import HandBackReceiptFacts
from app.papers.intake_ticket_facts import IntakeTicketFacts
from app.papers.invoice_facts import InvoiceFacts
from app.papers.labels_facts import BenchTagFacts, ModifiedLabelFacts
from app.papers.paper_kind import PaperKind
from app.papers.payment_receipt_facts import PaymentReceiptFacts
from app.papers.reminder_facts import ReminderFacts
from app.papers.service_report_facts import ServiceReportFacts
from app.papers.uncollected_notice_facts import UncollectedNoticeFacts
from app.papers.unsafe_return_facts import UnsafeReturnFacts
from app.trade.wording import Wording

PaperFacts: TypeAlias = (
    IntakeTicketFacts
    | BenchTagFacts
    | HandBackReceiptFacts
    | EstimateFacts
    | InvoiceFacts
    | CreditNoteFacts
    | ReminderFacts
    | PaymentReceiptFacts
    | UncollectedNoticeFacts
    | UnsafeReturnFacts
    | ModifiedLabelFacts
    | ServiceReportFacts
)

FACTS: dict[PaperKind, type[PaperFacts]] = {
    PaperKind.INTAKE_TICKET: IntakeTicketFacts,
    PaperKind.BENCH_TAG: BenchTagFacts,
    PaperKind.HAND_BACK_RECEIPT: HandBackReceiptFacts,
    PaperKind.ESTIMATE: EstimateFacts,
    PaperKind.INVOICE: InvoiceFacts,
    PaperKind.CREDIT_NOTE: CreditNoteFacts,
    PaperKind.REMINDER: ReminderFacts,
    PaperKind.PAYMENT_RECEIPT: PaymentReceiptFacts,
    PaperKind.UNCOLLECTED_NOTICE: UncollectedNoticeFacts,
    PaperKind.UNSAFE_RETURN: UnsafeReturnFacts,
    PaperKind.MODIFIED_LABEL: ModifiedLabelFacts,
    PaperKind.SERVICE_REPORT: ServiceReportFacts,
}


def kind_of(facts: PaperFacts) -> PaperKind:
    """The kind of paper that these facts are for."""
    return next(kind for kind, type_ in FACTS.items() if isinstance(facts, type_))


def read_facts(kind: PaperKind, text: str) -> PaperFacts:
    """Facts as kept in the book (`to_json`). ValueError where the text is no such facts."""
    return FACTS[kind].from_json(text)


def printed(facts: PaperFacts, wording: Wording) -> bytes:
    """The PDF of a paper. Equal facts and wording give equal bytes."""
    from app.papers.bench_tag import bench_tag
    from app.papers.credit_note import credit_note
    from app.papers.estimate import estimate
    from app.papers.hand_back_receipt import hand_back_receipt
    from app.papers.intake_ticket import intake_ticket
    from app.papers.invoice import invoice
    from app.papers.modified_label import modified_label
    from app.papers.payment_receipt import payment_receipt
    from app.papers.reminder import reminder
    from app.papers.service_report import service_report
    from app.papers.uncollected_notice import uncollected_notice
    from app.papers.unsafe_return import unsafe_return

    match facts:
        case IntakeTicketFacts():
            return intake_ticket(facts, wording)
        case BenchTagFacts():
            return bench_tag(facts, wording)
        case HandBackReceiptFacts():
            return hand_back_receipt(facts, wording)
        case EstimateFacts():
            return estimate(facts, wording)
        case InvoiceFacts():
            return invoice(facts, wording)
        case CreditNoteFacts():
            return credit_note(facts, wording)
        case ReminderFacts():
            return reminder(facts, wording)
        case PaymentReceiptFacts():
            return payment_receipt(facts, wording)
        case UncollectedNoticeFacts():
            return uncollected_notice(facts, wording)
        case UnsafeReturnFacts():
            return unsafe_return(facts, wording)
        case ModifiedLabelFacts():
            return modified_label(facts, wording)
        case ServiceReportFacts():
            return service_report(facts, wording)
