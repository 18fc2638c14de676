"""The facts of an estimate for its paper: options worked out, what was told at taking in, who looked at it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

from app.book.bench.job_rows import JobRows
from app.book.office.job_lines import paid
from app.book.tables import Customer, Estimate, Unit
from app.papers import estimate_facts as paper
from app.papers.invoice_facts import VatGroup
from app.trade.bench.stages import CauseFound
from app.trade.money import Money
from app.trade.office.amounts import shown
from app.trade.office.estimate import option_totals
from app.trade.office.invoice import Line, LineKind, unit_words
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TIME_ZONE
from app.trade.settings.prices import CURRENCY
from app.work.office.estimate_rows import OptionKept
from app.work.papers.sheet_facts import customer_facts, money, player_facts, sheet_of


def estimate_facts(
    files: Path,
    rows: JobRows,
    estimate: Estimate,
    options: Sequence[OptionKept],
    number: str,
    issued: date,
    *,
    preview: bool = False,
) -> paper.EstimateFacts:
    """The estimate of a job as it is issued, or with ``preview`` as it would be."""
    session, settings, job = rows.session, rows.settings, rows.job
    customer = session.get_one(Customer, job.customer_id)
    fee = money(job.diagnosis_fee, settings) if job.diagnosis_fee_told else None
    zone = ZoneInfo(settings[TIME_ZONE])
    return paper.EstimateFacts(
        sheet=sheet_of(files, settings, customer, draft=preview),
        number=number,
        job=job.number,
        issued=issued,
        valid_until=estimate.valid_until,
        customer=customer_facts(customer, settings),
        player=player_facts(session, session.get_one(Unit, job.unit_id)),
        options=tuple(_option(kept, settings[CURRENCY]) for kept in options),
        intro=estimate.intro,
        cause=_cause(job.cause),
        looked_at_by=_looked_at_by(rows, estimate),
        limit=money(job.go_ahead_limit, settings),
        fee=fee if fee is not None and fee.minor else None,
        fee_told=job.taken_in_at.astimezone(zone).date() if fee is not None else None,
        deposit=paid(rows) > 0,
    )


def _cause(cause: CauseFound | None) -> Sentence | str:
    """No paper names a cause that the book does not hold as established."""
    return Sentence("The cause is not established.") if cause in (None, CauseFound.NOT_ESTABLISHED) else ""


def _looked_at_by(rows: JobRows, estimate: Estimate) -> str:
    """Who read or tried something last; else who wrote the estimate."""
    looked = [row.by for row in (*rows.readings, *rows.trials) if row.struck_at is None]
    return rows.staff[looked[-1] if looked else estimate.by]


def _option(kept: OptionKept, currency: str) -> paper.EstimateOption:
    option = kept.option
    totals, entry = option_totals(option.lines, currency), option.entry
    return paper.EstimateOption(
        letter=option.letter,
        title=entry.title,
        lines=tuple(_line(line, net) for line, net in zip(option.lines, totals.line_nets, strict=True)),
        net=totals.net,
        vat=tuple(
            VatGroup(Decimal(g.rate).scaleb(-2).normalize(), g.base, g.tax, g.reason) for g in totals.groups
        ),
        total=totals.due,
        what=entry.what,
        design=entry.design,
        risk=entry.risk,
        guarantee=entry.guarantee,
        ready=entry.ready,
        rounding=totals.rounding if totals.rounding.minor else None,
        never_above=None if entry.never_above is None else Money(entry.never_above, currency),
    )


def _line(line: Line, net: Money) -> paper.EstimateLine:
    if line.kind is LineKind.TEXT:
        return paper.EstimateLine(line.words)
    many = shown(line.quantity)
    if many == 1 and line.kind is not LineKind.LABOUR:
        return paper.EstimateLine(line.words, net)
    return paper.EstimateLine(line.words, net, many, unit_words(line.unit, many))
