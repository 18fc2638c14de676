"""Labour, parts and charges, and what was said, on the job sheet."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import and_, select
from sqlalchemy.orm import Session

from app.book.office.shop_settings import settings_of
from app.book.tables import (
    Agreement,
    Attachment,
    Charge,
    Job,
    JobNote,
    Labour,
    Message,
    Paper,
    Part,
    PartMove,
    ThingLeft,
    Trial,
)
from app.trade.money import MICRO, Money
from app.trade.office.invoice import Line, LineKind, line_net
from app.trade.settings.prices import CURRENCY
from app.work.bench.job_sheet import (
    AgreementLine,
    EarlierJob,
    FileLine,
    MessageLine,
    NoteLine,
    PaperLine,
    Struck,
    ThingLine,
    WorkLine,
)

Names = dict[int, str]


def struck_of(row: Any, staff: Names) -> Struck | None:
    """Why a row was struck out, or None."""
    if row.struck_at is None:
        return None
    return Struck(row.struck_at, staff[row.struck_by], row.struck_reason)


def work_of(session: Session, job_id: int, staff: Names) -> tuple[WorkLine, ...]:
    """Labour, parts and charges, in the order of time."""
    currency = settings_of(session)[CURRENCY]
    lines: list[tuple[datetime, WorkLine]] = []
    for row in session.scalars(select(Labour).where(Labour.job_id == job_id)):
        net = line_net(Line(row.words, LineKind.LABOUR, row.hours, "HUR", row.rate, row.vat_rate), currency)
        if not row.charged:
            net = Money(0, currency)
        lines.append((row.at, _work(row, "labour", row.words, row.hours, "HUR", net, staff)))
    for move, part in session.execute(
        select(PartMove, Part).join(Part, Part.id == PartMove.part_id).where(PartMove.job_id == job_id)
    ):
        net = line_net(
            Line(part.words, LineKind.PART, -move.quantity, part.unit, move.price, move.vat_rate), currency
        )
        words = part.words
        lines.append((move.at, _work(move, "part", words, -move.quantity, part.unit, net, staff)))
    for charge in session.scalars(select(Charge).where(Charge.job_id == job_id)):
        if charge.kind == "discount":
            net = -Money.of(Decimal(charge.price) / MICRO, currency)
        else:
            net = line_net(
                Line(
                    charge.words,
                    LineKind(charge.kind),
                    charge.quantity,
                    charge.unit,
                    charge.price,
                    charge.vat_rate,
                ),
                currency,
            )
        lines.append(
            (charge.at, _work(charge, charge.kind, charge.words, charge.quantity, charge.unit, net, staff))
        )
    return tuple(line for _, line in sorted(lines, key=lambda pair: pair[0]))


def _work(row: Any, kind: str, words: str, quantity: int, unit: str, net: Money, staff: Names) -> WorkLine:
    struck = struck_of(row, staff) if hasattr(row, "struck_at") else None
    amount = (Decimal(quantity) / MICRO).normalize()
    return WorkLine(row.id, kind, words, amount, unit, net, row.at, staff[row.by], struck)


def messages_of(session: Session, job_id: int, staff: Names) -> tuple[MessageLine, ...]:
    """Calls and messages."""
    return tuple(
        MessageLine(row.id, row.to_customer, row.way, row.text, row.spoke_with, row.at, staff[row.by])
        for row in session.scalars(
            select(Message).where(Message.job_id == job_id).order_by(Message.at, Message.id)
        )
    )


def agreements_of(session: Session, job_id: int, staff: Names) -> tuple[AgreementLine, ...]:
    """The customer's recorded yes and no."""
    currency = settings_of(session)[CURRENCY]
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
            staff[row.by],
        )
        for row in session.scalars(
            select(Agreement).where(Agreement.job_id == job_id).order_by(Agreement.at, Agreement.id)
        )
    )


def things_of(session: Session, job_id: int) -> tuple[ThingLine, ...]:
    """What came with the player."""
    return tuple(
        ThingLine(row.id, row.kind, row.words, row.returned_at is not None)
        for row in session.scalars(select(ThingLeft).where(ThingLeft.job_id == job_id).order_by(ThingLeft.id))
    )


def files_of(session: Session, job_id: int, staff: Names) -> tuple[FileLine, ...]:
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
            staff[row.by],
            struck_of(row, staff),
        )
        for row in session.scalars(
            select(Attachment).where(Attachment.job_id == job_id).order_by(Attachment.at, Attachment.id)
        )
    )


def notes_of(session: Session, job_id: int, staff: Names) -> tuple[NoteLine, ...]:
    """Notes of the shop."""
    return tuple(
        NoteLine(row.id, row.text, row.at, staff[row.by], struck_of(row, staff))
        for row in session.scalars(
            select(JobNote).where(JobNote.job_id == job_id).order_by(JobNote.at, JobNote.id)
        )
    )


def papers_of(session: Session, job_id: int, staff: Names) -> tuple[PaperLine, ...]:
    """Papers issued for the job."""
    return tuple(
        PaperLine(row.id, row.kind, row.title, row.issued_at, staff[row.issued_by], bool(row.sha256))
        for row in session.scalars(select(Paper).where(Paper.job_id == job_id).order_by(Paper.id))
    )


def earlier_jobs_of(session: Session, job: Job) -> tuple[EarlierJob, ...]:
    """The unit's earlier jobs, newest first."""
    rows = session.scalars(
        select(Job)
        .where(and_(Job.unit_id == job.unit_id, Job.number < job.number))
        .order_by(Job.number.desc())
    ).all()
    trials = session.execute(
        select(Trial.job_id, Trial.words)
        .where(Trial.job_id.in_([row.id for row in rows]), Trial.struck_at.is_(None))
        .where(Trial.outcome.in_(("cured", "better")))
        .order_by(Trial.number)
    )
    done = dict(trials.tuples().all())
    return tuple(
        EarlierJob(row.id, row.number, row.handed_back_at, row.outcome, done.get(row.id, row.fault_short))
        for row in rows
    )
