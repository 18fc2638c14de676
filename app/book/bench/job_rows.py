"""The rows that belong to one job, its unit and the transport in it, each list fetched once when first asked.

Both the rules' facts and the job sheet are built from these, so that one page costs one set of statements.
Plain rows, not mapped objects: they are read, shown and forgotten.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import Any

from sqlalchemy import BindParameter, Row, Select, and_, bindparam, exists, or_, select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.bench.catalogue import quantities
from app.book.kept import kept
from app.book.office.shop_settings import settings_of
from app.trade.bench.quantities import Quantity
from app.trade.settings.shop_settings import ShopSettings

Rows = Sequence[Row[Any]]

T = tables.metadata.tables
JOB: BindParameter[int] = bindparam("job")
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
_STATEMENTS: dict[str, Select[Any]] = {
    "readings": _of_job("readings", "at", "id"),
    "start_ups": _of_job("start_up_results", "at", "id"),
    "trials": _of_job("trials", "number"),
    "agreements_of_job": _of_job("agreements", "at", "id"),
    "papers": _of_job("papers", "id").with_only_columns(*(c for c in T["papers"].c if c.name != "facts")),
    "things": _of_job("things_left", "id"),
    "labour": _of_job("labour", "id"),
    "charges": _of_job("charges", "id"),
    "payments": _of_job("payments", "id"),
    "invoices": _of_job("invoices", "id"),
    "requests": _of_job("unsafe_requests", "id"),
    "unsafe_returns": _of_job("unsafe_returns", "id"),
    "part_moves": select(_MOVES, _PARTS.c.words, _PARTS.c.unit)
    .join(_PARTS, _PARTS.c.id == _MOVES.c.part_id)
    .where(_MOVES.c.job_id == JOB)
    .order_by(_MOVES.c.id),
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
_THERE = select(
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
            ("payments", "payments"),
            ("invoices", "invoices"),
            ("requests", "unsafe_requests"),
            ("unsafe_returns", "unsafe_returns"),
            ("part_moves", "part_moves"),
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
    select(_JOBS.c.id)
    .where(_JOBS.c.unit_id == UNIT)
    .order_by(_JOBS.c.number.desc())
    .limit(1)
    .label("latest"),
)


class JobRows:
    """The rows around one job inside one transaction. ``job`` is its row, mapped or plain."""

    def __init__(self, session: Session, job: Any) -> None:
        session.flush()  # plain statements do not flush by themselves
        self.session = session
        self.job = job
        self._connection = session.connection()

    def _all(self, name: str, **more: Any) -> Rows:
        if not getattr(self._there, name, True):
            return ()
        return self._fetch(name, **more)

    def _fetch(self, name: str, **more: Any) -> Rows:
        keys = {"job": self.job.id, "unit": self.job.unit_id}
        if name in _BY_TRANSPORT:
            keys["transport"] = self.transport_id or 0
        return self._connection.execute(
            _STATEMENTS[name],
            {key: value for key, value in {**keys, **more}.items() if key in _PARAMETERS[name]},
        ).all()

    @cached_property
    def _there(self) -> Any:
        return self._connection.execute(
            _THERE, {"job": self.job.id, "unit": self.job.unit_id, "transport": self.transport_id or 0}
        ).one()

    def has(self, name: str) -> bool:
        """Whether the list of this name has any row: messages, files, notes, discs, or one of those below."""
        return bool(getattr(self._there, name))

    @property
    def latest_job_id(self) -> int:
        """The last job of the unit, which speaks for it."""
        latest: int = self._there.latest
        return latest

    @cached_property
    def settings(self) -> ShopSettings:
        """The shop's settings."""
        return settings_of(self.session)

    @cached_property
    def quantities(self) -> dict[str, Quantity]:
        """The catalogue of quantities, by id."""
        return dict(quantities(self.session))

    @cached_property
    def staff(self) -> dict[int, str]:
        """Names of everybody who ever worked here, by id."""
        return kept(self.session, "staff", lambda: {row.id: row.name for row in self._fetch("staff")})

    @cached_property
    def unit(self) -> Row[Any]:
        """The unit's row, and in it that of the open fitting with its transport and type (else empty)."""
        return self._fetch("unit")[0]

    @property
    def fitted(self) -> Row[Any] | None:
        """The same row where a transport is inside, else None."""
        return self.unit if self.unit.transport_id is not None else None

    @property
    def transport_id(self) -> int | None:
        """The transport that is in the unit now."""
        return self.fitted.transport_id if self.fitted is not None else None

    @cached_property
    def readings(self) -> Rows:
        """Readings of the job, struck-out ones too."""
        return self._all("readings")

    @cached_property
    def start_ups(self) -> Rows:
        """Start-up results of the job."""
        return self._all("start_ups")

    @cached_property
    def trials(self) -> Rows:
        """Trials of the job."""
        return self._all("trials")

    @cached_property
    def modifications(self) -> Rows:
        """Of the unit, of the transport in it, and of this job; with the number of the job that entered each."""
        return self._all("modifications")

    @cached_property
    def agreements(self) -> Rows:
        """The customer's words on this job."""
        return self._all("agreements_of_job")

    @cached_property
    def agreements_by_modification(self) -> dict[int, Row[Any]]:
        """The last word on each modification, from whichever job."""
        ids = [row.id for row in self.modifications]
        if not ids:
            return {}
        return {row.modification_id: row for row in self._fetch("agreements_of_modifications", ids=ids)}

    @cached_property
    def papers(self) -> Rows:
        """Papers of the job, without their facts."""
        return self._all("papers")

    @cached_property
    def things(self) -> Rows:
        """What came with the player."""
        return self._all("things")

    @cached_property
    def labour(self) -> Rows:
        """Time spent."""
        return self._all("labour")

    @cached_property
    def part_moves(self) -> Rows:
        """Parts used and put back, with words and unit."""
        return self._all("part_moves")

    @cached_property
    def charges(self) -> Rows:
        """Charges and discounts."""
        return self._all("charges")

    @cached_property
    def payments(self) -> Rows:
        """Money taken and given back."""
        return self._all("payments")

    @cached_property
    def invoices(self) -> Rows:
        """Issued invoices of the job."""
        return self._all("invoices")

    @cached_property
    def case_events(self) -> Rows:
        """Opened and closed, over all jobs of the unit."""
        return self._fetch("case_events")  # often asked for alone

    @cached_property
    def safety_tests(self) -> Rows:
        """Electrical safety tests of the unit."""
        return self._all("safety_tests")

    @cached_property
    def safety_steps(self) -> Rows:
        """Steps of those tests."""
        ids = [row.id for row in self.safety_tests]
        return self._fetch("safety_steps", ids=ids) if ids else ()

    @cached_property
    def flags(self) -> Rows:
        """Flags of job, unit and transport, cleared ones too."""
        return self._all("flags")

    @cached_property
    def instruments(self) -> dict[int, Row[Any]]:
        """Instruments by id."""
        return kept(self.session, "instruments", lambda: {row.id: row for row in self._fetch("instruments")})

    @cached_property
    def marks(self) -> Rows:
        """Marks of staff."""
        return kept(self.session, "marks", lambda: self._fetch("marks"))

    @cached_property
    def requests(self) -> Rows:
        """Unsafe things that were asked for."""
        return self._all("requests")

    @cached_property
    def unsafe_return(self) -> Row[Any] | None:
        """The owner's decision that it goes back unsafe, or None."""
        rows = self._all("unsafe_returns")
        return rows[0] if rows else None


_BY_TRANSPORT = frozenset({"modifications", "flags"})
_PARAMETERS = {name: frozenset(statement.compile().params) for name, statement in _STATEMENTS.items()}
