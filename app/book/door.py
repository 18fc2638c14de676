"""The one transaction door: every change goes through it, with who, why and now."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, tzinfo
from pathlib import Path
from typing import Any, TypeVar

from sqlalchemy import Engine, event, select
from sqlalchemy.exc import DBAPIError, IntegrityError
from sqlalchemy.orm import ORMExecuteState, Session, UOWTransaction
from sqlalchemy.orm.exc import StaleDataError

from app.book import history
from app.book.base import Base
from app.book.changes import Changes
from app.book.engine import WRITER
from app.book.kept import End, Keeper, Standing
from app.book.office.settings import NumberSeries
from app.book.trouble import refusal_of
from app.trade.refusal import Fault, Refusal, StaleRow
from app.trade.sentence import Sentence

R = TypeVar("R", bound=Base)
Clock = Callable[[], datetime]
Settle = Callable[["Change"], None]


def system_clock() -> datetime:
    """The present instant, aware, UTC."""
    return datetime.now(UTC)


@dataclass
class Touched:
    """Ids of rows that an action added or changed, by table, and which columns it filled or changed."""

    rows: dict[str, set[int]] = field(default_factory=dict)
    columns: dict[str, set[str]] = field(default_factory=dict)
    jobs: set[int] = field(default_factory=set)
    units: set[int] = field(default_factory=set)
    transports: set[int] = field(default_factory=set)
    customers: set[int] = field(default_factory=set)

    def note(self, row: Base, columns: Iterable[str]) -> None:
        """Note one row and what it belongs to."""
        self.rows.setdefault(row.__tablename__, set()).add(row.id)  # type: ignore[attr-defined]
        self.columns.setdefault(row.__tablename__, set()).update(columns)
        for kind, ids in (
            ("job", self.jobs),
            ("unit", self.units),
            ("transport", self.transports),
            ("customer", self.customers),
        ):
            own = row.id if row.__tablename__ == f"{kind}s" else getattr(row, f"{kind}_id", None)  # type: ignore[attr-defined]
            if own is not None:
                ids.add(own)

    def changes(self) -> Changes:
        """The same, frozen, for the screens."""
        return Changes(
            frozenset(self.jobs),
            frozenset(self.units),
            frozenset(self.transports),
            frozenset(self.customers),
            frozenset(self.rows),
        )


class Asking(Session):
    """A reading session."""


class Writing(Session):
    """The session of one action; its `Change` stands in ``info``."""


class Change:
    """One action under way. ``changes`` is filled when the door has closed behind it."""

    def __init__(
        self,
        session: Session,
        now: datetime,
        zone: tzinfo,
        who: int | None,
        why: Sentence,
        held: dict[tuple[type, int], object] | None = None,
    ) -> None:
        self.session = session
        self._held = {} if held is None else held  # rows that were asked for stay known to the session
        self.now = now
        self.zone = zone
        self.who = who
        self.why = why
        self.touched = Touched()
        self.changes = Changes()
        self._entries: list[history.Entry] = []

    @property
    def today(self) -> date:
        """The shop-local day of ``now``."""
        return self.now.astimezone(self.zone).date()

    @property
    def by(self) -> int:
        """Who acts. A change by the program itself has nobody, which is a Fault where somebody must sign."""
        if self.who is None:
            raise Fault("this change needs a person")
        return self.who

    def add(self, row: R) -> R:
        """Add a row and give it its key."""
        self.session.add(row)
        self.session.flush()
        return row

    def get(self, table: type[R], key: int, *, version: int | None = None) -> R:
        """The row to change; with ``version``, the version that the person saw. Raises StaleRow, Fault."""
        row = self.session.get(table, key)
        if row is None:
            raise Fault(f"no row {key} in {table.__tablename__}")
        self._held[table, key] = row
        if version is not None and row.version != version:  # type: ignore[attr-defined]
            now = {c.name: getattr(row, c.name) for c in row.__table__.columns if c.name != "version"}
            raise StaleRow(
                Sentence("Somebody else saved this in between. Nothing was overwritten; compare both."),
                theirs=now,
                mine={},
            )
        return row

    def next_number(self, series: str, first: int = 1) -> int:
        """Take the next number of a gapless series; a rollback gives it back."""
        row = self.session.scalars(select(NumberSeries).where(NumberSeries.name == series)).one_or_none()
        if row is None:
            row = NumberSeries(name=series, next=first)
            self.session.add(row)
        number = row.next
        row.next = number + 1
        self.session.flush()
        return number

    def entry(self, entry: history.Entry) -> None:
        """Add a history entry of its own, e.g. of an erasure."""
        self._entries.append(entry)

    def finish(self, settle: Sequence[Settle]) -> End:
        """Called by the door once, at the end: settles, and writes history. Gives number and hash of its end."""
        self.session.flush()
        for step in settle:
            step(self)
            self.session.flush()
        standing: Standing = self.session.info["standing"]
        end = standing.end(self.session)
        return history.write(self.session, end, self._entries, self.now, self.who, self.why)


class Book:
    """An open book. Screens hold it as an opaque thing; app/work asks and changes through it."""

    def __init__(
        self,
        engine: Engine,
        path: Path,
        clock: Clock = system_clock,
        settle: Sequence[Settle] = (),
        on_close: Callable[[], None] = lambda: None,
    ) -> None:
        self.engine = engine
        self._writer = engine.execution_options(**{WRITER: True})
        self.path = path
        self.clock = clock
        self.changed_since_backup = False
        self._settle = tuple(settle)
        self._on_close = on_close
        self._zone: tzinfo = UTC
        self._keeper = Keeper()

    @property
    def zone(self) -> tzinfo:
        """The shop's time zone."""
        return self._zone

    def use_zone(self, zone: tzinfo) -> None:
        """Take over the time zone from the settings, at opening and when it is changed."""
        self._zone = zone

    @property
    def files(self) -> Path:
        """The folder of attachments and filed papers, beside the book."""
        return self.path.with_name(f"{self.path.stem}.files")

    def now(self) -> datetime:
        """The present instant from the one Clock."""
        return self.clock()

    def today(self) -> date:
        """The shop-local day."""
        return self.clock().astimezone(self._zone).date()

    @contextmanager
    def ask(self) -> Iterator[Session]:
        """A reading transaction; nothing can be written. Fetch whole answers and leave.

        Raises Refusal for the person's world (damaged file, drive pulled out).
        """
        info = {"standing": Standing(self._keeper)}
        with Asking(self.engine, autoflush=False, info=info) as session:
            try:
                yield session
                session.rollback()
            except DBAPIError as error:
                raise refusal_of(error) from error

    @contextmanager
    def change(self, who: int | None, why: Sentence) -> Iterator[Change]:
        """One action, one transaction, its history rows inside it. Leaving by an error changes nothing.

        Raises Refusal for the person's world (full disk, busy, read-only), StaleRow for a second saver.
        """
        with Writing(self._writer, expire_on_commit=False) as session, in_words():
            change = Change(session, self.clock(), self._zone, who, why)
            standing = Standing(self._keeper, lambda: change.touched.rows.keys())
            session.info.update(change=change, standing=standing)
            yield change
            end = change.finish(self._settle)
            session.commit()
            standing.move_on(end)
        change.changes = change.touched.changes()
        self.changed_since_backup = self.changed_since_backup or bool(change.changes)

    def close(self) -> None:
        """Let go of the file and its lock."""
        self.engine.dispose()
        self._on_close()


@contextmanager
def in_words() -> Iterator[None]:
    """What the database refuses inside is raised as what a person can be told, or as our own mistake."""
    try:
        yield
    except StaleDataError as error:
        raise StaleRow(
            Sentence("Somebody else saved this in between. Nothing was overwritten; compare both."), {}, {}
        ) from error
    except IntegrityError as error:
        raise _integrity(error) from error
    except DBAPIError as error:  # a damaged file is no OperationalError
        raise refusal_of(error) from error


def _integrity(error: IntegrityError) -> Exception:
    text = str(error.orig)
    if "uq_fittings_open_transport" in text or "fittings.transport_id" in text:
        return Refusal(Sentence("This transport is in another unit. Take it out there first."))
    if "uq_fittings_open_place" in text or "fittings.unit_id" in text:
        return Refusal(Sentence("This unit has a transport already. Take it out first."))
    return Fault(text)


def _collect_changed(session: Session, context: UOWTransaction, instances: object) -> None:
    change: Change = session.info["change"]
    dialect = session.get_bind().dialect
    for row in session.dirty:
        if isinstance(row, Base) and row.told and session.is_modified(row):
            entry = history.entry_of_changed(row, row._sa_instance_state, dialect)  # type: ignore[attr-defined]
            if entry:
                change.entry(entry)
                change.touched.note(row, entry.fields)
    for row in session.deleted:
        if isinstance(row, Base) and row.told:
            raise Fault(f"{row.__tablename__}: rows are struck out or ended, never deleted")


def _collect_new(session: Session, context: UOWTransaction) -> None:
    change: Change = session.info["change"]
    dialect = session.get_bind().dialect
    for row in session.new:
        if isinstance(row, Base) and row.told:
            entry = history.entry_of_new(row, dialect)
            change.entry(entry)
            change.touched.note(row, entry.fields)


def _through_rows_only(state: ORMExecuteState) -> None:
    """Updates and deletes in bulk would pass history by: only untold tables may have them."""
    if state.is_update or state.is_delete or state.is_insert:
        mapper: Any = state.bind_mapper
        if mapper is None or mapper.class_.told:
            raise Fault("changes go through rows, so that history tells them")


def _no_writing(session: Session, context: UOWTransaction, instances: object) -> None:
    raise Fault("a question must not change the book")


event.listen(Asking, "before_flush", _no_writing)
event.listen(Writing, "before_flush", _collect_changed)
event.listen(Writing, "after_flush", _collect_new)
event.listen(Writing, "do_orm_execute", _through_rows_only)
