"""What comebacks cost: guarantee work in hours, parts and lost charges, and jobs that ended not repaired."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal
from statistics import median_high, median_low
from typing import TYPE_CHECKING

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.door import Book
from app.book.kept import kept
from app.trade.bench.stages import NOT_MENDED, Outcome
from app.trade.money import MICRO, Money
from app.trade.office.stock import MoveKind
from app.trade.sentence import Sentence, Value
from app.trade.settings.prices import CURRENCY
from app.trade.statistics.returns import NOTHING
from app.work.office.settings import shop_settings
from app.work.statistics.answer import Answer, Why, nothing_found, set_aside
from app.work.statistics.columns import columns_of
from app.work.statistics.ground import ground_in
from app.work.statistics.guarantee_work import guarantee_work
from app.work.statistics.question import Question
from app.work.statistics.steps import READING, Step, Steps
from app.work.statistics.visits import OUTCOMES, RESTS_ON, Visits

if TYPE_CHECKING:
    from app.work.statistics.ground import Marks, Whole

IN_A_JOB = (MoveKind.USED, MoveKind.PUT_BACK, MoveKind.FROM_DONOR)


OF = 12  # parts of the work, as they are told where nothing was kept
T = tables.metadata.tables
_L, _M = T["labour"].c, T["part_moves"].c
_LABOUR = select(_L.job_id, _L.hours, _L.rate).where(_L.struck_at.is_(None))
_MOVES = (
    select(_M.job_id, _M.quantity, _M.price, T["parts"].c.cost)
    .join(T["parts"], T["parts"].c.id == _M.part_id)
    .where(_M.job_id.is_not(None), _M.kind.in_(IN_A_JOB))
)


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
    """Jobs of one outcome that were not repaired: hours of work in all, their median, and the median of the days from
    taking in to handing back."""

    outcome: Outcome
    count: int
    hours: Decimal
    median_hours: Decimal
    median_days: Decimal
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost(Answer):
    """Guarantee work by group, the dearest first, and what was not repaired."""

    rows: tuple[CostRow, ...]
    unrepaired: tuple[UnrepairedRow, ...]


def cost(book: Book, question: Question, step: Step | None = None) -> Cost:
    """Hours, parts and lost charges of guarantee work, and the time that went into jobs not repaired."""
    steps, currency = Steps(step, OF), shop_settings(book)[CURRENCY]
    with book.ask() as session:
        ground = ground_in(session, book, question, steps)
        steps.next()
        free = kept(
            session,
            f"guarantee work, days of {book.zone}",
            lambda: guarantee_work(session, book.zone, steps.still),
            frozenset({"jobs", "guarantee_answers", "invoices", "credit_notes"}),
        )
        worked = kept(
            session,
            "work and parts",
            lambda: _worked(session, ground.visits, steps),
            RESTS_ON | {"labour", "part_moves", "parts"},
        )
    steps.next()
    known, undecided = (
        _marked(ground.visits, jobs)[ground.rows] for jobs in (free.decided | free.undecided, free.undecided)
    )
    hours, parts, lost = (amounts[ground.rows] for amounts in worked)
    found = []
    for label, at in ground.groups.items():
        own = at[known[at]]
        if len(own):
            found.append(
                CostRow(
                    label,
                    ground.name(label),
                    len(own),
                    Decimal(int(hours[own].sum())) / MICRO,
                    _money(parts[own], currency),
                    _money(lost[own], currency),
                    tuple(ground.job[own].tolist()),
                    int(undecided[own].sum()),
                )
            )
    rows = tuple(sorted(found, key=lambda row: (-row.lost.minor, row.label)))
    outcome = ground.visits.outcome[ground.rows]
    stayed = ground.left - ground.visits.came[ground.rows]
    unrepaired = tuple(
        UnrepairedRow(
            ended,
            int(own.sum()),
            Decimal(int(hours[own].sum())) / MICRO,
            _middle(hours[own]) / MICRO,
            _middle(stayed[own]),
            tuple(ground.job[own].tolist()),
        )
        for code, ended in enumerate(OUTCOMES)
        for own in (outcome == code,)
        if ended in NOT_MENDED and own.any()
    )
    total = len(ground.rows)
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
        unrepaired=unrepaired,
    )


def _worked(session: Session, visits: Visits, steps: Steps) -> tuple[Whole, Whole, Whole]:
    """For each visit its hours in millionths, and what its parts cost the shop and the charges of work and parts, in
    millionths of millionths of money; kept with the visits."""
    import numpy as np

    hours, cost_of_parts, charges = (np.zeros(len(visits.job), dtype=np.int64) for _ in range(3))
    job, worked, rate = columns_of(session, _L.id, _LABOUR, steps.still)
    at = visits.places(job)
    np.add.at(hours, at, worked)
    np.add.at(charges, at, worked * rate)
    steps.next(READING)
    job, quantity, price, bought = columns_of(session, _M.id, _MOVES, steps.still)
    at = visits.places(job)
    np.add.at(cost_of_parts, at, -quantity * np.where(bought == NOTHING, price, bought))
    np.add.at(charges, at, -quantity * price)
    return hours, cost_of_parts, charges


def _marked(visits: Visits, jobs: Collection[int]) -> Marks:
    import numpy as np

    marks = np.zeros(len(visits.job), dtype=bool)
    marks[visits.places(np.array(sorted(jobs), dtype=np.int64))] = True
    return marks


def _money(amounts: Whole, currency: str) -> Money:
    return Money.of(Decimal(int(amounts.sum())) / MICRO / MICRO, currency)


def _middle(numbers: Whole) -> Decimal:
    each = numbers.tolist()
    return Decimal(median_low(each) + median_high(each)) / 2


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
