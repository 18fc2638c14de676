"""The kinds of paper the shop issues, and what each is called on lists and on itself."""

from __future__ import annotations

from app.papers.paper_kind import PaperKind as Kind
from app.trade.sentence import words

__all__ = ["NAMES", "TITLES", "Kind"]

NAMES = {
    Kind.INTAKE_TICKET: words("intake ticket"),
    Kind.BENCH_TAG: words("bench tag"),
    Kind.HAND_BACK_RECEIPT: words("hand-back receipt"),
    Kind.UNSAFE_RETURN: words("returned unrepaired and unsafe"),
    Kind.MODIFIED_LABEL: words("label of a modified player"),
    Kind.ESTIMATE: words("estimate"),
    Kind.INVOICE: words("invoice"),
    Kind.CREDIT_NOTE: words("credit note"),
    Kind.SERVICE_REPORT: words("service report"),
    Kind.REMINDER: words("reminder"),
    Kind.PAYMENT_RECEIPT: words("receipt for payment"),
    Kind.UNCOLLECTED_NOTICE: words("notice to collect"),
}
# Templates of the titles, worded in the language of the paper.
TITLES = {
    Kind.INTAKE_TICKET: words("Intake ticket {number}"),
    Kind.BENCH_TAG: words("Bench tag {number}"),
    Kind.HAND_BACK_RECEIPT: words("Hand-back receipt {number}"),
    Kind.UNSAFE_RETURN: words("Returned unrepaired and unsafe {number}"),
    Kind.MODIFIED_LABEL: words("Label of a modified player {number}"),
    Kind.ESTIMATE: words("Estimate {number}"),
    Kind.INVOICE: words("Invoice {number}"),
    Kind.CREDIT_NOTE: words("Credit note {number}"),
    Kind.SERVICE_REPORT: words("Service report {number}"),
    Kind.REMINDER: words("Reminder {number}"),
    Kind.PAYMENT_RECEIPT: words("Receipt for payment {number}"),
    Kind.UNCOLLECTED_NOTICE: words("Notice to collect {number}"),
}
