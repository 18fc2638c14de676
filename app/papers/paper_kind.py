"""Which papers there are."""

from __future__ import annotations

from enum import StrEnum


class PaperKind(StrEnum):
    """The papers, as the book names them."""

    INTAKE_TICKET = "intake ticket"
    BENCH_TAG = "bench tag"
    HAND_BACK_RECEIPT = "hand-back receipt"
    ESTIMATE = "estimate"
    INVOICE = "invoice"
    CREDIT_NOTE = "credit note"
    REMINDER = "reminder"
    PAYMENT_RECEIPT = "payment receipt"
    UNCOLLECTED_NOTICE = "uncollected notice"
    UNSAFE_RETURN = "returned unsafe"
    MODIFIED_LABEL = "modified label"
    SERVICE_REPORT = "service report"
