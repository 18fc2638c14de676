"""What comebacks cost: guarantee work in hours, parts and lost charges, and jobs that ended not repaired."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from decimal import Decimal
from statistics import median

from sqlalchemy import func, select

from app.book.door import Book
from app.book.tables import Labour, Part, PartMove
from app.trade.bench.stages import NOT_MENDED, Outcome
from app.trade.money import MICRO, Money
from app.trade.office.stock import MoveKind
from app.trade.sentence import Sentence, Value
from app.trade.settings.prices import CURRENCY
from app.work.office.settings import shop_settings
from app.work.statistics.answer import Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import ground_of
from app.work.statistics.guarantee_work import guarantee_work
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

IN_A_JOB = (MoveKind.USED, MoveKind.PUT_BACK, MoveKind.FROM_DONOR)


@dataclass
class _Sum:
    hours: Decimal = Decimal(0)
    lost: Decimal = Decimal(0)  # work and parts at the prices of the day, without VAT
    parts: Decimal = Decimal(0)  # what the parts cost the shop
    jobs: list[int] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class CostRow:
    """One group: jobs done at no charge under the guarantee, with hours, cost of parts, and charges lost, no VAT.

    ``undecided`` of them are confirmed comebacks within the guarantee that asked for nothing, decided by nobody.
    """

    label: str
    name: Value
    count: int
    hours: Decimal
    parts: Money
    lost: Money
    jobs: tuple[int, ...]
    undecided: int = 0


@dataclass(frozen=True, slots=True)
class UnrepairedRow:
    """Jobs of one outcome that were not repaired: hours in all, and the median of a job."""

    outcome: Outcome
    count: int
    hours: Decimal
    median_hours: Decimal
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost(Answer):
    """Guarantee work by group, the dearest first, and what was not repaired."""

    rows: tuple[CostRow, ...]
    unrepaired: tuple[UnrepairedRow, ...]


def cost(book: Book, question: Question, step: Step | None = None) -> Cost:
    """Hours, parts and lost charges of guarantee work, and the time that went into jobs not repaired."""
    ground, currency = ground_of(book, question, Steps(step, 4)), shop_settings(book)[CURRENCY]
    with book.ask() as session:
        free = guarantee_work(session, book.zone)
        labour = session.execute(
            select(Labour.job_id, func.sum(Labour.hours), func.sum(Labour.hours * 1.0 * Labour.rate))
            .where(Labour.struck_at.is_(None))
            .group_by(Labour.job_id)
        )
        worked = {
            job: (_micro(hours), Decimal(repr(float(due))) / MICRO / MICRO) for job, hours, due in labour
        }
        moves = session.execute(
            select(PartMove.job_id, PartMove.quantity, PartMove.price, Part.cost)
            .join(Part, Part.id == PartMove.part_id)
            .where(PartMove.job_id.is_not(None), PartMove.kind.in_(IN_A_JOB))
        ).all()
    used: defaultdict[int | None, list[Decimal]] = defaultdict(lambda: [Decimal(0), Decimal(0)])
    for job, quantity, price, bought in moves:
        used[job][0] += -_micro(quantity) * _micro(price if bought is None else bought)
        used[job][1] += -_micro(quantity) * _micro(price)
    sums: defaultdict[str, _Sum] = defaultdict(_Sum)
    unrepaired: defaultdict[Outcome, list[tuple[Decimal, int]]] = defaultdict(list)
    total, known = 0, free.decided | free.undecided
    for one in ground.each:
        total += 1
        hours, charge = worked.get(one.job_id, (Decimal(0), Decimal(0)))
        if one.outcome in NOT_MENDED:
            unrepaired[one.outcome].append((hours, one.job_id))
        if one.job_id in known:
            into = sums[ground.label(one)]
            into.hours += hours
            into.parts += used[one.job_id][0]
            into.lost += charge + used[one.job_id][1]
            into.jobs.append(one.job_id)
    rows = tuple(
        CostRow(
            label,
            ground.name(label),
            len(one.jobs),
            one.hours,
            Money.of(one.parts, currency),
            Money.of(one.lost, currency),
            tuple(one.jobs),
            sum(job in free.undecided for job in one.jobs),
        )
        for label, one in sorted(sums.items(), key=lambda item: (-item[1].lost, item[0]))
    )
    return Cost(
        question=question,
        headline=_headline(rows, currency) if total else nothing_found(ground.first is not None),
        said=(*_said(rows), *set_aside(ground.wrong)),
        why=Why(
            n=total,
            counted=Sentence("jobs handed back"),
            events=sum(row.count for row in rows),
            events_are=Sentence("done without charge"),
            method=(
                Sentence("Sums over the jobs that count as guarantee work; struck-out lines are left out."),
            ),
            source=(),
        ),
        rows=rows,
        unrepaired=tuple(
            _unrepaired(outcome, unrepaired[outcome]) for outcome in Outcome if outcome in unrepaired
        ),
    )


def _micro(value: int) -> Decimal:
    return (Decimal(value) / MICRO).normalize() + 0


def _unrepaired(outcome: Outcome, found: list[tuple[Decimal, int]]) -> UnrepairedRow:
    hours = [each for each, _ in found]
    return UnrepairedRow(
        outcome, len(found), sum(hours, Decimal(0)), median(hours), tuple(job for _, job in found)
    )


def _said(rows: tuple[CostRow, ...]) -> tuple[Sentence, ...]:
    """What is counted as guarantee work, how many nobody decided about, and what charges and parts mean."""
    undecided = sum(row.undecided for row in rows)
    open_still = {
        0: (),
        1: (Sentence("Of these, nobody has decided about 1 job."),),
    }.get(undecided, (Sentence("Of these, nobody has decided about {count} jobs.", {"count": undecided}),))
    return (
        Sentence(
            "Counted as guarantee work: what a person decided to do without charge, and confirmed comebacks that came "
            "in within the guarantee and asked for nothing. Other work that was not charged is not counted."
        ),
        *open_still,
        Sentence("Lost charges are work and parts at the prices of the day, without VAT."),
    )


def _headline(rows: tuple[CostRow, ...], currency: str) -> Sentence:
    if not rows:
        return Sentence("No job was done without charge under the guarantee")
    lost = sum((row.lost for row in rows), Money(0, currency))
    values: dict[str, Value] = {"hours": sum((row.hours for row in rows), Decimal(0)), "lost": lost}
    jobs = sum(row.count for row in rows)
    if jobs == 1:
        return Sentence("Guarantee work: 1 job, {hours} hours, {lost} not charged", values)
    return Sentence(
        "Guarantee work: {jobs} jobs, {hours} hours, {lost} not charged", {"jobs": jobs, **values}
    )
