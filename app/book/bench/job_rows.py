"""The rows that belong to one job, its unit and the transport in it, each list fetched once when first asked.

Both the rules' facts and the job sheet are built from these, so that one page costs one set of statements.
Plain named tuples, not mapped objects: they are read, shown and forgotten.
"""

from __future__ import annotations

from collections import namedtuple
from collections.abc import Callable, Iterable, Sequence
from functools import cache, cached_property
from typing import Any, TypeAlias

from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.job_statements import BY_TRANSPORT, PARAMETERS, STATEMENTS, THERE
from app.book.kept import kept
from app.book.office.shop_settings import settings_of
from app.trade.bench.quantities import Quantity
from app.trade.settings.shop_settings import ShopSettings

Line: TypeAlias = Any  # a named tuple of one row's columns
Rows: TypeAlias = Sequence[Line]


@cache
def _line(columns: tuple[str, ...]) -> Callable[[Iterable[Any]], Line]:
    """Makes a named tuple of a row: each column of it is read in a tenth of the time that a Row takes."""
    made: Any = namedtuple("_Line", columns)  # type: ignore[misc]
    make: Callable[[Iterable[Any]], Line] = made._make
    return make


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
        keys = {"job": self.job.id, "unit": self.job.unit_id, "number": self.job.number}
        if name in BY_TRANSPORT:
            keys["transport"] = self.transport_id or 0
        found = self._connection.execute(
            STATEMENTS[name],
            {key: value for key, value in {**keys, **more}.items() if key in PARAMETERS[name]},
        )
        return [*map(_line(tuple(found.keys())), found)]

    @cached_property
    def _there(self) -> Any:
        return self._connection.execute(
            THERE,
            {
                "job": self.job.id,
                "unit": self.job.unit_id,
                "number": self.job.number,
                "transport": self.transport_id or 0,
            },
        ).one()

    def has(self, name: str) -> bool:
        """Whether the list of this name has any row: discs, or one of those below."""
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
    def unit(self) -> Line:
        """The unit's row, and in it that of the open fitting with its transport and type (else empty)."""
        return self._fetch("unit")[0]

    @cached_property
    def fitted(self) -> Line | None:
        """The same row where a transport is inside, else None."""
        return self.unit if self.unit.transport_id is not None else None

    @cached_property
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
    def agreements_by_modification(self) -> dict[int, Line]:
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
    def part_orders(self) -> Rows:
        """Parts ordered for the job, with their code, words and bin, and what came; what is expected first above."""
        return self._all("part_orders")

    @cached_property
    def charges(self) -> Rows:
        """Charges and discounts."""
        return self._all("charges")

    @cached_property
    def estimates(self) -> Rows:
        """Estimates that went out or are being written."""
        return self._all("estimates")

    @cached_property
    def estimate_answers(self) -> Rows:
        """What the customer answered to estimates."""
        return self._all("estimate_answers")

    @cached_property
    def estimate_lines(self) -> Rows:
        """Lines of the option that was chosen last; none while no estimate was answered, or none of them taken."""
        option = self.estimate_answers[-1].option_id if self.estimate_answers else None
        return () if option is None else self._fetch("estimate_lines", option=option)

    @cached_property
    def payments(self) -> Rows:
        """Money taken and given back."""
        return self._all("payments")

    @cached_property
    def invoices(self) -> Rows:
        """Issued invoices of the job."""
        return self._all("invoices")

    @cached_property
    def credit_notes(self) -> Rows:
        """Issued credit notes of the job."""
        return self._all("credit_notes")

    @cached_property
    def fault_words(self) -> Rows:
        """The fault words picked at the counter."""
        return self._all("fault_words")

    @cached_property
    def messages(self) -> Rows:
        """Calls and messages."""
        return self._all("messages")

    @cached_property
    def files(self) -> Rows:
        """Photos and files."""
        return self._all("files")

    @cached_property
    def notes(self) -> Rows:
        """Notes of the shop."""
        return self._all("notes")

    @cached_property
    def earlier(self) -> Rows:
        """The unit's jobs before this one, newest first: key, number, end, outcome and fault."""
        return self._all("earlier")

    @cached_property
    def helped_earlier(self) -> dict[int, str]:
        """What helped last in each of those, by job."""
        return {row.job_id: row.words for row in self._fetch("helped_earlier")} if self.earlier else {}

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
    def instruments(self) -> dict[int, Line]:
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
    def unsafe_return(self) -> Line | None:
        """The owner's decision that it goes back unsafe, or None."""
        rows = self._all("unsafe_returns")
        return rows[0] if rows else None
