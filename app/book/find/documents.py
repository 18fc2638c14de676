"""What each job, customer, unit and transport can be found by, as folded words and tails."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Select, bindparam, select
from sqlalchemy.orm import Session

from app.book.tables import metadata
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
    for kind in ("customer", "unit", "transport", "job"):
        yield from documents_of(session, kind, session.scalars(select(metadata.tables[f"{kind}s"].c.id)))


def _document(kind: str, ref_id: int, texts: Iterable[str], tails: Iterable[str]) -> Document:
    return Document(
        kind,
        ref_id,
        " ".join(dict.fromkeys(fold_words(" ".join(texts)))),
        " ".join(dict.fromkeys(t for t in map(fold_tail, tails) if t)),
    )


def _chosen(column: ColumnElement[int]) -> ColumnElement[bool]:
    return column.in_(bindparam("ids", expanding=True))


# Ready statements over plain columns: the whole book is folded anew by `check` and where the index was lost.
_CUSTOMER, _UNIT, _TRANSPORT, _JOB = (
    metadata.tables[name] for name in ("customers", "units", "transports", "jobs")
)
_FITTING, _TYPE, _REPORTED = (
    metadata.tables[name] for name in ("fittings", "transport_types", "reported_faults")
)
_C, _U, _T, _J, _F, _R = _CUSTOMER.c, _UNIT.c, _TRANSPORT.c, _JOB.c, _FITTING.c, _REPORTED.c
_CUSTOMERS = select(
    _C.id, _C.name, _C.email, _C.city, _C.phone_digits, _C.merged_into_id, _C.erased_at
).where(_chosen(_C.id))
_UNITS = select(_U.id, _U.maker, _U.model, _U.serial, _U.serial_key).where(_chosen(_U.id))
_TRANSPORTS = select(_T.id, _T.marking, _TYPE.c.name).join_from(_TRANSPORT, _TYPE).where(_chosen(_T.id))
_FAULTS = select(_R.job_id, _R.word).where(_chosen(_R.job_id)).order_by(_R.id)
_INSIDE = (
    select(_F.unit_id, _TYPE.c.name, _T.marking)
    .join_from(_FITTING, _TRANSPORT)
    .join(_TYPE, _TYPE.c.id == _T.type_id)
    .where(_chosen(_F.unit_id), _F.removed_at.is_(None))
)
_JOBS = (
    select(
        _J.id,
        _J.number,
        _J.fault,
        _J.fault_short,
        _J.unit_id,
        _U.maker,
        _U.model,
        _U.serial,
        _U.serial_key,
        _C.name,
    )
    .join_from(_JOB, _UNIT, _UNIT.c.id == _J.unit_id)
    .join(_CUSTOMER, _C.id == _J.customer_id)
    .where(_chosen(_J.id))
)


def _rows(session: Session, statement: Select[Any], ids: Iterable[int]) -> Sequence[Any]:
    return session.connection().execute(statement, {"ids": list(ids)}).all()


def _customers(session: Session, ids: list[int]) -> Iterator[Document]:
    for row in _rows(session, _CUSTOMERS, ids):
        if row.merged_into_id is not None or row.erased_at is not None:
            yield Document("customer", row.id, "", "")
            continue
        yield _document(
            "customer", row.id, (row.name, row.email, row.city, row.phone_digits), (row.phone_digits,)
        )


def _units(session: Session, ids: list[int]) -> Iterator[Document]:
    for row in _rows(session, _UNITS, ids):
        yield _document("unit", row.id, (row.maker, row.model, row.serial, row.serial_key), (row.serial_key,))


def _transports(session: Session, ids: list[int]) -> Iterator[Document]:
    for row in _rows(session, _TRANSPORTS, ids):
        yield _document("transport", row.id, (row.name, row.marking), (row.marking,))


def _jobs(session: Session, ids: list[int]) -> Iterator[Document]:
    faults: dict[int, list[str]] = defaultdict(list)
    for row in _rows(session, _FAULTS, ids):
        faults[row.job_id].append(row.word)
    jobs = _rows(session, _JOBS, ids)
    inside = _rows(session, _INSIDE, {job.unit_id for job in jobs})
    markings = {row.unit_id: f"{row.name} {row.marking}" for row in inside}
    for job in jobs:
        yield _document(
            "job",
            job.id,
            (
                f"{job.number} J{job.number}",
                job.name,
                job.maker,
                job.model,
                job.serial,
                job.serial_key,
                job.fault,
                job.fault_short,
                markings.get(job.unit_id, ""),
                *faults[job.id],
            ),
            (job.serial_key,),
        )


_MAKERS = {"customer": _customers, "unit": _units, "transport": _transports, "job": _jobs}
