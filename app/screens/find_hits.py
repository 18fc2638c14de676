"""What the find box shows for a text, grouped by kind and worded."""

from __future__ import annotations

from app.screens.desk import FindHit
from app.screens.language import day, money, say
from app.trade.sentence import words
from app.work.find.find import Found, find
from app.work.papers.kinds import Kind
from app.work.shop_book import Book

HEADS = {
    Kind.INVOICE: words("Invoices"),
    Kind.CREDIT_NOTE: words("Credit notes"),
    Kind.ESTIMATE: words("Estimates"),
}


def hits_of(book: Book, text: str) -> tuple[FindHit, ...]:
    """What ``text`` is found in, by kind: a paper of money leads to its page."""
    found: Found = find(book, text)
    hits = [
        FindHit(
            say("Jobs"),
            f"{job.number}  {job.maker} {job.model}",
            _line(job.customer, job.serial, say(job.stage.value)),
            ("job", job.id),
        )
        for job in found.jobs
    ]
    hits += [
        FindHit(
            say(HEADS[one.kind]),
            one.number,
            _line(one.customer, money(one.amount) if one.amount is not None else "", day(one.issued_on)),
            ("estimate" if one.kind is Kind.ESTIMATE else "invoice", one.job_id),
        )
        for one in found.numbered
    ]
    hits += [
        FindHit(say("Customers"), one.name, _line(one.phone, one.city), ("customer", one.id))
        for one in found.customers
    ]
    hits += [
        FindHit(
            say("Players"), f"{unit.maker} {unit.model}", _line(unit.serial, unit.customer), ("unit", unit.id)
        )
        for unit in found.units
    ]
    hits += [
        FindHit(
            say("Transports"),
            f"{one.type} {one.marking}".strip(),
            one.unit or (say("shelf {shelf}", shelf=one.shelf) if one.shelf else say("in no player")),
            ("transport", one.id),
        )
        for one in found.transports
    ]
    hits += [FindHit(say("Know-how cards"), one.title, one.concerns, ("card", one.id)) for one in found.cards]
    return tuple(hits)


def _line(*words: str) -> str:
    return " · ".join(word for word in words if word)
