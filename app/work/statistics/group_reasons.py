"""Why a group's comeback rate is what it is: its rate with the test behind it, and the group parted once more."""

from __future__ import annotations

from dataclasses import dataclass

from app.book.door import Book
from app.trade.statistics.comeback_rates import Rate, rates
from app.trade.statistics.comebacks import By, Counted
from app.work.statistics.comeback_rate import ComebackRates, RateRow, comeback_rates
from app.work.statistics.question import Question


@dataclass(frozen=True, slots=True)
class Parted:
    """One group parted by something else, each part against the others."""

    by: By
    parts: tuple[Rate, ...]


def rates_of(answer: ComebackRates) -> dict[str, Rate]:
    """The rate of each group by its label, as the answer has them."""
    groups = [
        Counted(
            row.label,
            row.handed_back,
            row.too_young,
            row.not_counted,
            row.set_aside,
            row.could,
            row.came_back,
        )
        for row in answer.rows
    ]
    return {rate.label: rate for rate in rates(groups)}


def parted_again(book: Book, question: Question, row: RateRow) -> Parted:
    """One group of an answer parted by transport type, fault group or modification: never by what it is parted or
    filtered by already."""
    by = _part_by(question)
    own, back = frozenset(row.jobs), frozenset(row.came_back_jobs)
    parts = []
    for part in comeback_rates(book, question.but(by=by)).rows:
        could = len(own.intersection(part.jobs))
        came = len(back.intersection(part.came_back_jobs))
        if could:
            parts.append(Counted(part.label, could, 0, 0, 0, could, came))
    return Parted(by, rates(parts))


def _part_by(question: Question) -> By:
    if question.by is not By.TRANSPORT_TYPE and not question.transport_type:
        return By.TRANSPORT_TYPE
    if question.by is not By.FAULT_GROUP and question.group is None:
        return By.FAULT_GROUP
    return By.MODIFICATION
