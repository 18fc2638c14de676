"""What is asked of the book around one job: each list by a statement of its own, and which lists are not empty.

Written once, as building a statement takes longer than asking it.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import BindParameter, Select, and_, bindparam, exists, func, or_, select

from app.book import tables

T = tables.metadata.tables
JOB: BindParameter[int] = bindparam("job")
NUMBER: BindParameter[int] = bindparam("number")
UNIT: BindParameter[int] = bindparam("unit")
TRANSPORT: BindParameter[int] = bindparam("transport")


def _of_job(table: str, *order: str) -> Select[Any]:
    columns = T[table].c
    return select(T[table]).where(columns.job_id == JOB).order_by(*(columns[name] for name in order))


_TYPES, _TRANSPORTS, _FITTINGS = T["transport_types"], T["transports"], T["fittings"]
_UNIT = (
    select(
        T["units"],
        _FITTINGS.c.transport_id,
        _FITTINGS.c.as_maker,
        _FITTINGS.c.belongs_type,
        _TRANSPORTS.c.type_id,
        _TRANSPORTS.c.marking,
        _TRANSPORTS.c.label_current,
        _TYPES.c.name,
        _TYPES.c.arrangement,
        _TYPES.c.has_transit_lock,
        _TYPES.c.not_testable,
    )
    .outerjoin(_FITTINGS, and_(_FITTINGS.c.unit_id == T["units"].c.id, _FITTINGS.c.removed_at.is_(None)))
    .outerjoin(_TRANSPORTS, _TRANSPORTS.c.id == _FITTINGS.c.transport_id)
    .outerjoin(_TYPES, _TYPES.c.id == _TRANSPORTS.c.type_id)
    .where(T["units"].c.id == UNIT)
)
_MODS, _JOBS = T["modifications"], T["jobs"]
_MODIFICATIONS = (
    select(_MODS, _JOBS.c.number.label("job_number"))
    .join(_JOBS, _JOBS.c.id == _MODS.c.job_id)
    .where(or_(_MODS.c.unit_id == UNIT, _MODS.c.transport_id == TRANSPORT, _MODS.c.job_id == JOB))
    .order_by(_MODS.c.at, _MODS.c.id)
)
_AGREEMENTS, _CASE, _TESTS, _STEPS = T["agreements"], T["case_events"], T["safety_tests"], T["safety_steps"]
_FLAGS, _MOVES, _PARTS = T["flags"], T["part_moves"], T["parts"]
_ESTIMATED, _ORDERS = T["estimate_lines"], T["part_orders"]
_CAME = select(func.coalesce(func.sum(_MOVES.c.quantity), 0)).where(_MOVES.c.order_id == _ORDERS.c.id)
_TRIALS, _EARLIER = T["trials"], (_JOBS.c.unit_id == UNIT, _JOBS.c.number < NUMBER)
STATEMENTS: dict[str, Select[Any]] = {
    "readings": _of_job("readings", "at", "id"),
    "start_ups": _of_job("start_up_results", "at", "id"),
    "trials": _of_job("trials", "number"),
    "agreements_of_job": _of_job("agreements", "at", "id"),
    "papers": _of_job("papers", "id").with_only_columns(*(c for c in T["papers"].c if c.name != "facts")),
    "things": _of_job("things_left", "id"),
    "labour": _of_job("labour", "id"),
    "charges": _of_job("charges", "id"),
    "estimates": _of_job("estimates", "id").where(T["estimates"].c.given_up_at.is_(None)),
    "estimate_answers": _of_job("estimate_answers", "id"),
    "estimate_lines": select(_ESTIMATED)
    .where(_ESTIMATED.c.option_id == bindparam("option"), _ESTIMATED.c.taken_out_at.is_(None))
    .order_by(_ESTIMATED.c.id),
    "payments": _of_job("payments", "id"),
    "invoices": _of_job("invoices", "id"),
    "credit_notes": _of_job("credit_notes", "id"),
    "requests": _of_job("unsafe_requests", "id"),
    "fault_words": _of_job("reported_faults", "id"),
    "messages": _of_job("messages", "at", "id"),
    "files": _of_job("attachments", "at", "id"),
    "notes": _of_job("job_notes", "at", "id"),
    "earlier": select(
        _JOBS.c.id, _JOBS.c.number, _JOBS.c.handed_back_at, _JOBS.c.outcome, _JOBS.c.fault_short
    )
    .where(*_EARLIER)
    .order_by(_JOBS.c.number.desc()),
    "helped_earlier": select(_TRIALS.c.job_id, _TRIALS.c.words)
    .join(_JOBS, _JOBS.c.id == _TRIALS.c.job_id)
    .where(*_EARLIER, _TRIALS.c.struck_at.is_(None), _TRIALS.c.outcome.in_(("cured", "better")))
    .order_by(_TRIALS.c.number, _TRIALS.c.id),
    "unsafe_returns": _of_job("unsafe_returns", "id"),
    "part_moves": select(_MOVES, _PARTS.c.words, _PARTS.c.unit)
    .join(_PARTS, _PARTS.c.id == _MOVES.c.part_id)
    .where(_MOVES.c.job_id == JOB)
    .order_by(_MOVES.c.id),
    "part_orders": select(
        _ORDERS,
        _PARTS.c.code,
        _PARTS.c.words,
        _PARTS.c.unit,
        _PARTS.c.bin,
        _CAME.scalar_subquery().label("came"),
    )
    .join(_PARTS, _PARTS.c.id == _ORDERS.c.part_id)
    .where(_ORDERS.c.job_id == JOB)
    .order_by(_ORDERS.c.expected_on, _ORDERS.c.id),
    "agreements_of_modifications": select(_AGREEMENTS)
    .where(_AGREEMENTS.c.modification_id.in_(bindparam("ids", expanding=True)))
    .order_by(_AGREEMENTS.c.at, _AGREEMENTS.c.id),
    "case_events": select(_CASE, _JOBS.c.number.label("job_number"))
    .join(_JOBS, _JOBS.c.id == _CASE.c.job_id)
    .where(_JOBS.c.unit_id == UNIT)
    .order_by(_CASE.c.at, _CASE.c.id),
    "safety_tests": select(_TESTS).where(_TESTS.c.unit_id == UNIT).order_by(_TESTS.c.at, _TESTS.c.id),
    "safety_steps": select(_STEPS)
    .where(_STEPS.c.test_id.in_(bindparam("ids", expanding=True)))
    .order_by(_STEPS.c.test_id, _STEPS.c.position),
    "flags": select(_FLAGS)
    .where(or_(_FLAGS.c.job_id == JOB, _FLAGS.c.unit_id == UNIT, _FLAGS.c.transport_id == TRANSPORT))
    .order_by(_FLAGS.c.id),
    "instruments": select(T["instruments"]),
    "marks": select(T["staff_marks"]),
    "staff": select(T["staff"].c.id, T["staff"].c.name),
    "unit": _UNIT,
    "modifications": _MODIFICATIONS,
}


def _of(table: str, *owners: Any) -> Any:
    return exists(select(1).select_from(T[table]).where(or_(*owners)))


# Most lists of a job are empty: one statement says which are not, so that only those are fetched.
THERE = select(
    *(
        _of(table, T[table].c.job_id == JOB).label(name)
        for name, table in (
            ("readings", "readings"),
            ("start_ups", "start_up_results"),
            ("trials", "trials"),
            ("agreements_of_job", "agreements"),
            ("papers", "papers"),
            ("things", "things_left"),
            ("labour", "labour"),
            ("charges", "charges"),
            ("estimates", "estimates"),
            ("estimate_answers", "estimate_answers"),
            ("payments", "payments"),
            ("invoices", "invoices"),
            ("credit_notes", "credit_notes"),
            ("requests", "unsafe_requests"),
            ("unsafe_returns", "unsafe_returns"),
            ("part_moves", "part_moves"),
            ("part_orders", "part_orders"),
            ("messages", "messages"),
            ("files", "attachments"),
            ("notes", "job_notes"),
        )
    ),
    _of(
        "modifications", _MODS.c.unit_id == UNIT, _MODS.c.transport_id == TRANSPORT, _MODS.c.job_id == JOB
    ).label("modifications"),
    _of("flags", _FLAGS.c.job_id == JOB, _FLAGS.c.unit_id == UNIT, _FLAGS.c.transport_id == TRANSPORT).label(
        "flags"
    ),
    _of("safety_tests", _TESTS.c.unit_id == UNIT).label("safety_tests"),
    exists(select(1).where(T["things_left"].c.job_id == JOB, T["things_left"].c.kind == "disc")).label(
        "discs"
    ),
    exists(select(1).where(*_EARLIER)).label("earlier"),
    select(_JOBS.c.id)
    .where(_JOBS.c.unit_id == UNIT)
    .order_by(_JOBS.c.number.desc())
    .limit(1)
    .label("latest"),
)

BY_TRANSPORT = frozenset({"modifications", "flags"})
PARAMETERS = {name: frozenset(statement.compile().params) for name, statement in STATEMENTS.items()}
