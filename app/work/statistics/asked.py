"""What was asked, in words: of which jobs an answer is, for what is printed or saved without a window."""

from __future__ import annotations

from sqlalchemy import select

from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.tables import Staff
from app.trade.sentence import Sentence, Value
from app.trade.statistics.comebacks import WITH, WITHOUT
from app.work.statistics.answer import Answer
from app.work.statistics.comeback_rate import ComebackRates
from app.work.statistics.cost import Cost
from app.work.statistics.how_long import HowLong
from app.work.statistics.keep_coming import KeepComing
from app.work.statistics.question import Question
from app.work.statistics.what_fails import WhatFails

PARTED = (ComebackRates, HowLong, KeepComing, WhatFails, Cost)


def asked_words(book: Book, answer: Answer) -> tuple[Sentence, ...]:
    """The period, what jobs are parted by where that says anything, and every filter that keeps jobs out."""
    question = answer.question
    said = [Sentence("handed back {period}", {"period": _period(question)})]
    if isinstance(answer, PARTED):
        said.append(_named(Sentence("Parted by"), Sentence(question.by.value)))
    if question.transport_type:
        said.append(_named(Sentence("Transport type"), question.transport_type))
    if question.arrangement is not None:
        said.append(_named(Sentence("Arrangement"), Sentence(question.arrangement.value)))
    if question.maker or question.model:
        said.append(_named(Sentence("Player"), f"{question.maker} {question.model}".strip()))
    if question.group is not None:
        said.append(_named(Sentence("Fault group"), Sentence(question.group.value)))
    with book.ask() as session:
        if question.change:
            change = knowledge_of(session).knowledge.changes.get(question.change)
            said.append(_named(Sentence("Kind of change"), change.name if change else question.change))
        if question.technician is not None:
            name = session.scalar(select(Staff.name).where(Staff.id == question.technician))
            said.append(_named(Sentence("Technician"), name or str(question.technician)))
    if question.modified is not None:
        said.append(_named(Sentence("Modification inside"), Sentence(WITH if question.modified else WITHOUT)))
    return tuple(said)


def _period(question: Question) -> Sentence:
    since, until = question.since, question.until
    if since is not None and until is not None:
        return Sentence("from {first} to {last}", {"first": since, "last": until})
    if since is not None:
        return Sentence("from {day} on", {"day": since})
    if until is not None:
        return Sentence("until {day}", {"day": until})
    return Sentence("at any time")


def _named(what: Sentence, value: Value) -> Sentence:
    return Sentence("{what}: {value}", {"what": what, "value": value})
