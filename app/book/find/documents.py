"""What each job, customer, unit and transport can be found by, as folded words and tails."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.tables import Customer, Fitting, Job, ReportedFault, Transport, TransportType, Unit
from app.trade.find.fold import fold_tail, fold_words

AT_ONCE = 500  # keys in one IN list


@dataclass(frozen=True, slots=True)
class Document:
    """``words`` are folded and parted by one space; ``tails`` are what is found by its end."""

    kind: str
    ref_id: int
    words: str
    tails: str


def documents_of(session: Session, kind: str, ids: Iterable[int]) -> Iterator[Document]:
    """The documents of these rows of one kind, worked out anew from the book."""
    keys = sorted(ids)
    for start in range(0, len(keys), AT_ONCE):
        yield from _MAKERS[kind](session, keys[start : start + AT_ONCE])


def all_documents(session: Session) -> Iterator[Document]:
    """Every document that the index should hold, for `check` and for building it anew."""
    for kind, table in (("customer", Customer), ("unit", Unit), ("transport", Transport), ("job", Job)):
        yield from documents_of(session, kind, session.scalars(select(table.id)))


def _document(kind: str, ref_id: int, texts: Iterable[str], tails: Iterable[str]) -> Document:
    return Document(
        kind,
        ref_id,
        " ".join(dict.fromkeys(fold_words(" ".join(texts)))),
        " ".join(dict.fromkeys(t for t in map(fold_tail, tails) if t)),
    )


def _customers(session: Session, ids: list[int]) -> Iterator[Document]:
    for row in session.scalars(select(Customer).where(Customer.id.in_(ids))):
        if row.merged_into_id is not None or row.erased_at is not None:
            yield Document("customer", row.id, "", "")
            continue
        yield _document(
            "customer", row.id, (row.name, row.email, row.city, row.phone_digits), (row.phone_digits,)
        )


def _units(session: Session, ids: list[int]) -> Iterator[Document]:
    for row in session.scalars(select(Unit).where(Unit.id.in_(ids))):
        yield _document("unit", row.id, (row.maker, row.model, row.serial, row.serial_key), (row.serial_key,))


def _transports(session: Session, ids: list[int]) -> Iterator[Document]:
    for row, kind in session.execute(
        select(Transport, TransportType.name).join(TransportType).where(Transport.id.in_(ids))
    ):
        yield _document("transport", row.id, (kind, row.marking), (row.marking,))


def _jobs(session: Session, ids: list[int]) -> Iterator[Document]:
    faults: dict[int, list[str]] = defaultdict(list)
    for job_id, word in session.execute(
        select(ReportedFault.job_id, ReportedFault.word).where(ReportedFault.job_id.in_(ids))
    ):
        faults[job_id].append(word)
    markings: dict[int, str] = {
        unit_id: f"{kind} {marking}"
        for unit_id, kind, marking in session.execute(
            select(Fitting.unit_id, TransportType.name, Transport.marking)
            .join(Transport, Transport.id == Fitting.transport_id)
            .join(TransportType, TransportType.id == Transport.type_id)
            .join(Job, Job.unit_id == Fitting.unit_id)
            .where(Job.id.in_(ids), Fitting.removed_at.is_(None))
        )
    }
    for job, unit, customer in session.execute(
        select(Job, Unit, Customer)
        .join(Unit, Unit.id == Job.unit_id)
        .join(Customer, Customer.id == Job.customer_id)
        .where(Job.id.in_(ids))
    ):
        yield _document(
            "job",
            job.id,
            (
                f"{job.number} J{job.number}",
                customer.name,
                unit.maker,
                unit.model,
                unit.serial,
                unit.serial_key,
                job.fault,
                job.fault_short,
                markings.get(unit.id, ""),
                *faults[job.id],
            ),
            (unit.serial_key,),
        )


_MAKERS = {"customer": _customers, "unit": _units, "transport": _transports, "job": _jobs}
