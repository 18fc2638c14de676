"""Labour, parts and charges, and what was said, on the job sheet."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from app.book.bench.job_rows import JobRows
from app.trade.bench.kinds import HowOften
from app.trade.money import MICRO, Money
from app.trade.office.invoice import Line, LineKind, line_net
from app.trade.office.on_the_bill import OnBill
from app.trade.office.part_orders import Ordered
from app.trade.settings.prices import CURRENCY
from app.work.bench.sheet_lines import (
    AgreementLine,
    EarlierJob,
    FileLine,
    MessageLine,
    NoteLine,
    OrderedPart,
    PaperLine,
    Struck,
    ThingLine,
    WorkLine,
)
from app.work.office.parts import pieces

Names = dict[int, str]


def struck_of(row: Any, staff: Names) -> Struck | None:
    """Why a row was struck out, or None."""
    if row.struck_at is None:
        return None
    return Struck(row.struck_at, staff[row.struck_by], row.struck_reason)


def fault_words_of(rows: JobRows) -> tuple[tuple[str, HowOften], ...]:
    """The fault words picked at the counter."""
    return tuple((row.word, row.how) for row in rows.fault_words)


def work_of(rows: JobRows) -> tuple[WorkLine, ...]:
    """Labour, parts and charges, in the order of time."""
    currency, staff = rows.settings[CURRENCY], rows.staff
    lines = []
    for row in rows.labour:
        line = Line(row.words, LineKind.LABOUR, row.hours, "HUR", row.rate, row.vat_rate)
        net = line_net(line, currency) if row.charged else Money(0, currency)
        lines.append(_work(row, "labour", row.hours, "HUR", net, staff))
    for row in rows.part_moves:
        line = Line(row.words, LineKind.PART, -row.quantity, row.unit, row.price, row.vat_rate)
        lines.append(_work(row, "part", -row.quantity, row.unit, line_net(line, currency), staff))
    for row in rows.charges:
        if row.kind in tuple(OnBill):
            sign = 1 if row.kind == OnBill.SURCHARGE else -1
            net = Money.of(sign * Decimal(row.price) / MICRO, currency)
        else:
            line = Line(row.words, LineKind(row.kind), row.quantity, row.unit, row.price, row.vat_rate)
            net = line_net(line, currency)
        lines.append(_work(row, row.kind, row.quantity, row.unit, net, staff))
    return tuple(sorted(lines, key=lambda line: line.at))


def _work(row: Any, kind: str, quantity: int, unit: str, net: Money, staff: Names) -> WorkLine:
    struck = struck_of(row, staff) if hasattr(row, "struck_at") else None
    amount = (Decimal(quantity) / MICRO).normalize()
    return WorkLine(row.id, kind, row.words, amount, unit, net, row.at, staff[row.by], struck)


def ordered_of(rows: JobRows) -> tuple[OrderedPart, ...]:
    """Parts ordered for the job, what is expected first above."""
    return tuple(
        OrderedPart(
            row.part_id,
            row.code,
            row.words,
            row.unit,
            row.bin or "",
            row.supplier,
            Ordered(
                pieces(row.quantity), pieces(row.came), row.expected_on, given_up=row.given_up_at is not None
            ),
        )
        for row in rows.part_orders
    )


def messages_of(rows: JobRows) -> tuple[MessageLine, ...]:
    """Calls and messages."""
    return tuple(
        MessageLine(row.id, row.to_customer, row.way, row.text, row.spoke_with, row.at, rows.staff[row.by])
        for row in rows.messages
    )


def agreements_of(rows: JobRows) -> tuple[AgreementLine, ...]:
    """The customer's recorded yes and no."""
    currency = rows.settings[CURRENCY]
    return tuple(
        AgreementLine(
            row.id,
            row.kind,
            row.yes,
            row.what,
            None if row.amount is None else Money(row.amount, currency),
            row.way,
            row.said_by,
            row.said_at,
            rows.staff[row.by],
        )
        for row in rows.agreements
    )


def things_of(rows: JobRows) -> tuple[ThingLine, ...]:
    """What came with the player."""
    return tuple(ThingLine(row.id, row.kind, row.words, row.returned_at is not None) for row in rows.things)


def files_of(rows: JobRows) -> tuple[FileLine, ...]:
    """Photos and files."""
    return tuple(
        FileLine(
            row.id,
            row.name,
            row.media_type,
            row.size,
            row.sha256,
            row.note,
            row.at,
            rows.staff[row.by],
            struck_of(row, rows.staff),
        )
        for row in rows.files
    )


def notes_of(rows: JobRows) -> tuple[NoteLine, ...]:
    """Notes of the shop."""
    return tuple(
        NoteLine(row.id, row.text, row.at, rows.staff[row.by], struck_of(row, rows.staff))
        for row in rows.notes
    )


def papers_of(rows: JobRows) -> tuple[PaperLine, ...]:
    """Papers issued for the job."""
    return tuple(
        PaperLine(row.id, row.kind, row.title, row.issued_at, rows.staff[row.issued_by], bool(row.sha256))
        for row in rows.papers
    )


def earlier_jobs_of(rows: JobRows) -> tuple[EarlierJob, ...]:
    """The unit's earlier jobs, newest first."""
    helped = rows.helped_earlier
    return tuple(
        EarlierJob(row.id, row.number, row.handed_back_at, row.outcome, helped.get(row.id, row.fault_short))
        for row in rows.earlier
    )
