"""What the last answer to an estimate puts on the invoice of its job."""

from __future__ import annotations

from app.book.bench.job_rows import JobRows, Line
from app.trade.office import invoice
from app.trade.office.estimate import Taken
from app.trade.office.invoice import LineKind


def line_of(row: Line) -> invoice.Line:
    """A kept line of an option, as invoices are worked out."""
    return invoice.Line(
        row.words,
        LineKind(row.kind),
        row.quantity,
        row.unit,
        row.price,
        row.vat_rate,
        row.category,
        row.vat_reason,
        price_with_vat=row.price_with_vat,
    )


def taken_of(rows: JobRows) -> Taken:
    """How the invoice of the job is made up; as worked while no estimate was answered."""
    return rows.estimate_answers[-1].taken if rows.estimate_answers else Taken.AS_WORKED
