"""What a job has come to so far, as an invoice draft: labour, parts used, charges, less what was paid."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.office.shop_settings import settings_of
from app.book.tables import Charge, Invoice, Labour, Part, PartMove, Payment
from app.trade.money import Money, decimals
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind, work_out
from app.trade.settings.prices import CURRENCY, ROUND_DUE_TO, VAT_RATES
from app.trade.settings.shop_settings import ShopSettings

DISCOUNT = "discount"


def draft_of(session: Session, job_id: int, settings: ShopSettings, *, fees_only: bool = False) -> Draft:
    """The draft of everything on the job that no invoice has taken; ``fees_only`` for an unsafe return."""
    currency = settings[CURRENCY]
    lines = [] if fees_only else _with_vat([*_labour(session, job_id), *_parts(session, job_id)], settings)
    discounts = []
    for charge in session.scalars(
        select(Charge).where(Charge.job_id == job_id, Charge.struck_at.is_(None)).order_by(Charge.id)
    ):
        if charge.kind == DISCOUNT:
            scale = 10 ** (6 - decimals(currency))
            discounts.append(
                Adjustment(
                    charge.price // scale, charge.words, charge.vat_rate, charge.category, charge.vat_reason
                )
            )
        elif not fees_only or charge.kind in (LineKind.FEE, LineKind.TEXT):
            lines.append(
                Line(
                    charge.words,
                    LineKind(charge.kind),
                    charge.quantity,
                    charge.unit,
                    charge.price,
                    charge.vat_rate,
                    charge.category,
                    charge.vat_reason,
                    price_with_vat=charge.price_with_vat,
                )
            )
    return Draft(
        currency,
        tuple(lines),
        () if fees_only else tuple(discounts),
        prepaid=paid(session, job_id),
        round_due_to=settings[ROUND_DUE_TO],
    )


def _with_vat(lines: list[Line], settings: ShopSettings) -> list[Line]:
    """Labour and parts keep only their rate; the shop's list of rates says of which category it is, and why."""
    rates = settings[VAT_RATES]
    known = {rate.rate: rate for rate in rates[::-1]}
    return [
        replace(line, category=known[line.vat_rate].category, vat_reason=known[line.vat_rate].reason)
        if line.vat_rate in known
        else line
        for line in lines
    ]


def _labour(session: Session, job_id: int) -> list[Line]:
    return [
        Line(row.words, LineKind.LABOUR, row.hours, "HUR", row.rate, row.vat_rate)
        for row in session.scalars(
            select(Labour)
            .where(Labour.job_id == job_id, Labour.struck_at.is_(None), Labour.charged)
            .order_by(Labour.id)
        )
    ]


def _parts(session: Session, job_id: int) -> list[Line]:
    used: dict[tuple[int, int, int], int] = defaultdict(int)
    for move in session.scalars(select(PartMove).where(PartMove.job_id == job_id).order_by(PartMove.id)):
        used[(move.part_id, move.price, move.vat_rate)] -= move.quantity
    parts = {
        part.id: part
        for part in session.scalars(select(Part).where(Part.id.in_({part_id for part_id, _, _ in used})))
    }
    return [
        Line(parts[part_id].words, LineKind.PART, quantity, parts[part_id].unit, price, vat_rate)
        for (part_id, price, vat_rate), quantity in used.items()
        if quantity > 0
    ]


def paid(session: Session, job_id: int) -> int:
    """Minor units paid on the job so far, refunds taken off."""
    return (
        session.scalar(select(func.coalesce(func.sum(Payment.amount), 0)).where(Payment.job_id == job_id))
        or 0
    )


def work_so_far(session: Session, job_id: int, settings: ShopSettings | None = None) -> Money:
    """Work, parts and charges of the job with VAT, to set against the agreed amount."""
    settings = settings or settings_of(session)
    draft = draft_of(session, job_id, settings)
    return work_out(draft).gross


def balance(session: Session, job_id: int, currency: str) -> Money:
    """Open on issued invoices of the job: gross and rounding, less everything paid on it. Zero without one."""
    billed = session.scalar(
        select(func.sum(Invoice.gross + Invoice.rounding)).where(Invoice.job_id == job_id)
    )
    return Money(0 if billed is None else billed - paid(session, job_id), currency)
