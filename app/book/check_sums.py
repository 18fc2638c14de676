"""Works sums, series and fittings out again and compares them with what the book says."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from itertools import pairwise
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.tables import (
    CreditNote,
    CreditNoteLine,
    Fitting,
    Invoice,
    InvoiceLine,
    Job,
    NumberSeries,
    Part,
    PartMove,
    PartOrder,
    Payment,
)
from app.trade.money import MICRO
from app.trade.office.invoice import Line, LineKind, line_net, share_of
from app.trade.office.numbers import gaps_in, invoice_number
from app.trade.office.stock import INTO_STOCK, OUT_OF_STOCK, MoveKind
from app.trade.sentence import Measure, Sentence

Findings = tuple[int, list[Sentence]]
AT_ONCE = 500  # so few that collecting garbage among them is not felt in the window


def stock_findings(book: Book) -> Findings:
    """Parts of which more was used than there was, moves that go the wrong way for their kind, and orders that another
    part came of, or something that was not bought."""
    with book.ask() as session:
        count = session.scalar(select(func.count()).select_from(Part)) or 0
        short = session.execute(
            select(Part.code, func.sum(PartMove.quantity))
            .join(PartMove, PartMove.part_id == Part.id)
            .group_by(Part.id)
            .having(func.sum(PartMove.quantity) < 0)
            .order_by(Part.code)
        ).all()
        odd = session.execute(
            select(PartMove.id, Part.code, PartMove.kind)
            .join(Part, Part.id == PartMove.part_id)
            .where(
                (PartMove.kind.in_(OUT_OF_STOCK) & (PartMove.quantity > 0))
                | (PartMove.kind.in_(INTO_STOCK) & (PartMove.quantity < 0))
            )
        ).all()
        astray = session.execute(
            select(PartMove.id, Part.code, PartOrder.id)
            .join(Part, Part.id == PartMove.part_id)
            .join(PartOrder, PartOrder.id == PartMove.order_id)
            .where((PartOrder.part_id != PartMove.part_id) | (PartMove.kind != MoveKind.RECEIVED))
        ).all()
    found = [
        Sentence(
            "Part {code} has {quantity} in stock, which cannot be. Count it.",
            {"code": code, "quantity": Measure(_from_micro(quantity))},
        )
        for code, quantity in short
    ]
    found += [
        Sentence(
            "Move {move} of part {code} goes the wrong way for “{kind}”.", {"move": m, "code": c, "kind": k}
        )
        for m, c, k in odd
    ]
    found += [
        Sentence(
            "Move {move} of part {code} cannot have come of order {order}.",
            {"move": m, "code": c, "order": o},
        )
        for m, c, o in astray
    ]
    return count, found


def _from_micro(quantity: int) -> Decimal:
    return (Decimal(quantity) / MICRO).normalize() + 0


def invoice_findings(book: Book) -> Findings:
    """Invoices whose sums do not follow from their lines by EN 16931, or whose payments are elsewhere."""
    found: list[Sentence] = []
    last = count = 0
    while True:
        with book.ask() as session:
            invoices = session.scalars(
                select(Invoice).where(Invoice.id > last).order_by(Invoice.id).limit(AT_ONCE)
            ).all()
            if not invoices:
                break
            first, last = invoices[0].id, invoices[-1].id
            lines: dict[int, list[InvoiceLine]] = defaultdict(list)
            for line in session.scalars(
                select(InvoiceLine)
                .where(InvoiceLine.invoice_id.between(first, last))
                .order_by(InvoiceLine.invoice_id, InvoiceLine.position)
            ):
                lines[line.invoice_id].append(line)
            for invoice in invoices:
                if not _adds_up(invoice, lines[invoice.id], invoice.prepaid):
                    number = invoice_number(invoice.series, invoice.number)
                    found.append(Sentence("The sums of invoice {number} do not add up.", {"number": number}))
        count += len(invoices)
    with book.ask() as session:
        strayed = session.scalars(
            select(Payment.id)
            .join(Invoice, Invoice.id == Payment.invoice_id)
            .where((Payment.job_id != Invoice.job_id) | (Payment.currency != Invoice.currency))
        ).all()
    found += [
        Sentence("Payment {payment} does not belong to the job of its invoice.", {"payment": payment})
        for payment in strayed
    ]
    return count, found


def credit_findings(book: Book) -> Findings:
    """Credit notes whose sums do not follow from their lines, and invoices of which more was given back than asked."""
    with book.ask() as session:
        notes = session.scalars(select(CreditNote).order_by(CreditNote.id)).all()
        lines: dict[int, list[CreditNoteLine]] = defaultdict(list)
        for line in session.scalars(select(CreditNoteLine)):
            lines[line.credit_note_id].append(line)
        found = [
            Sentence(
                "The sums of credit note {number} do not add up.",
                {"number": invoice_number(note.series, note.number)},
            )
            for note in notes
            if not _adds_up(note, lines[note.id], prepaid=0)
        ]
        asked = Invoice.gross + Invoice.rounding
        beyond = session.execute(
            select(Invoice.series, Invoice.number)
            .join(CreditNote, CreditNote.invoice_id == Invoice.id)
            .group_by(Invoice.id)
            .having(func.sum(CreditNote.due) > asked)
            .order_by(Invoice.id)
        ).all()
    found += [
        Sentence("More than invoice {number} was credited on it.", {"number": invoice_number(series, number)})
        for series, number in beyond
    ]
    return len(notes), found


def _adds_up(
    invoice: Invoice | CreditNote, lines: Sequence[InvoiceLine] | Sequence[CreditNoteLine], prepaid: int
) -> bool:
    """BR-CO-10, 13, 14, 15 and 16, BR-CO-17 for each VAT group, and every line by itself."""
    groups = [(rate, base, tax) for rate, _, base, tax, _ in invoice.groups]
    return (
        len(lines) == invoice.line_count
        and all(_net(line, invoice.currency) == line.net for line in lines)
        and sum(line.net for line in lines) == invoice.lines_net
        and invoice.lines_net - invoice.discount + invoice.charge == invoice.net
        and sum(base for _, base, _ in groups) == invoice.net
        and all(share_of(base, rate) == tax for rate, base, tax in groups)
        and sum(tax for _, _, tax in groups) == invoice.vat
        and invoice.net + invoice.vat == invoice.gross
        and invoice.gross - prepaid + invoice.rounding == invoice.due
    )


def _net(row: InvoiceLine | CreditNoteLine, currency: str) -> int:
    line = Line(
        row.words, LineKind(row.kind), row.quantity, row.unit, row.price, row.vat_rate, discount=row.discount
    )
    return line_net(line, currency).minor


def fitting_findings(book: Book) -> Findings:
    """Transports in two units at once, units with two transports in one place, fittings that end before they begin."""
    with book.ask() as session:
        count = session.scalar(select(func.count()).select_from(Fitting)) or 0
        open_now = Fitting.removed_at.is_(None)

        def twice(*columns: Any) -> list[int]:
            rows = select(*columns).where(open_now).group_by(*columns).having(func.count() > 1)
            return [int(row[0]) for row in session.execute(rows)]

        transports = twice(Fitting.transport_id)
        units = twice(Fitting.unit_id, Fitting.place)
        backwards = session.scalars(select(Fitting.id).where(Fitting.removed_at < Fitting.fitted_at)).all()
    found = [Sentence("Transport {id} is in two units at once.", {"id": key}) for key in transports]
    found += [Sentence("Unit {id} has two transports in one place.", {"id": key}) for key in units]
    found += [Sentence("Fitting {id} ends before it begins.", {"id": key}) for key in backwards]
    return count, found


def number_findings(book: Book) -> Findings:
    """Gaps in the numbers of jobs and of each series of invoices and credit notes, and days that go back."""
    with book.ask() as session:
        jobs = session.scalars(select(Job.number)).all()
        issued, given = _issued(session, Invoice), _issued(session, CreditNote)
        follows = {row.name: row.next for row in session.scalars(select(NumberSeries))}
    found = [Sentence("Jobs: {why}", {"why": why}) for why in _series_findings(jobs, follows.get("job"))]
    for series, numbers in sorted(issued.items()):
        for why in _series_findings(
            [number for number, _ in numbers], follows.get(f"invoice {series}".strip()), first=1
        ):
            found.append(
                Sentence("Invoices {series}: {why}", {"series": series, "why": why})
                if series
                else Sentence("Invoices: {why}", {"why": why})
            )
        found += [
            Sentence("Invoice {number} bears an earlier date than the one before it.", {"number": number})
            for number in _going_back(series, numbers)
        ]
    for series, numbers in sorted(given.items()):
        after = follows.get(f"credit note {series}".strip())
        found += [
            Sentence("Credit notes {series}: {why}", {"series": series, "why": why})
            for why in _series_findings([number for number, _ in numbers], after, first=1)
        ]
        found += [
            Sentence("Credit note {number} bears an earlier date than the one before it.", {"number": number})
            for number in _going_back(series, numbers)
        ]
    return len(jobs) + sum(map(len, issued.values())) + sum(map(len, given.values())), found


Issued = dict[str, list[tuple[int, date]]]


def _issued(session: Session, table: type[Invoice] | type[CreditNote]) -> Issued:
    """Numbers and days by series, in the order of the numbers."""
    issued: Issued = defaultdict(list)
    for series, number, day in session.execute(
        select(table.series, table.number, table.issued_on).order_by(table.number)
    ):
        issued[series].append((number, day))
    return issued


def _going_back(series: str, numbers: list[tuple[int, date]]) -> list[str]:
    return [
        invoice_number(series, number) for (_, before), (number, day) in pairwise(numbers) if day < before
    ]


def _series_findings(numbers: Sequence[int], after: int | None, first: int | None = None) -> list[Sentence]:
    """A gap in a series, and a next number that would leave one or give a number twice."""
    if not numbers:
        return []
    found = [gap] if (gap := gaps_in(numbers, min(numbers) if first is None else first)) else []
    if after is not None and after != max(numbers) + 1:
        found.append(
            Sentence(
                "After {last} the next would be {after}.", {"last": str(max(numbers)), "after": str(after)}
            )
        )
    return found
