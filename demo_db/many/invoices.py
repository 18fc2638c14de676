"""Invoices of a large book: worked out by the trade's arithmetic, their papers' facts frozen by the program's own
function. The newest papers have a PDF of their own; the others share one, as drawing all would take an hour."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum, auto
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from app.book import attachments
from app.book.tables import Customer, Transport, TransportType, Unit
from app.papers.facts_json import pack
from app.papers.press import printed
from app.trade.bench.facts import JobFacts
from app.trade.office.invoice import Draft, Line, Totals, work_out
from app.trade.office.numbers import invoice_number
from app.trade.settings.prices import CURRENCY
from app.trade.settings.shop_settings import ShopSettings
from app.work.office.invoice_paper import invoice_facts
from app.work.papers.kinds import TITLES, Kind
from app.work.papers.modification_block import modification_ids
from app.work.papers.sheet_facts import wording_of
from demo_db.many.rows import Rows


class Filed(Enum):
    """Whether an invoice has its paper in the book, and which PDF."""

    NONE = auto()
    SHARED = auto()
    OWN = auto()


@dataclass
class Invoices:
    """Issues them. ``files`` is where papers are filed."""

    rows: Rows
    settings: ShopSettings
    files: Path
    staff: Mapping[int, str]
    by: int
    shared: str = ""  # SHA-256 of the PDF that older papers share

    def issue(
        self,
        number: int,
        job: Mapping[str, Any],
        key: int,
        lines: Sequence[Line],
        day: date,
        at: datetime,
    ) -> tuple[int, Draft, Totals]:
        """The invoice and its lines; gives its key with what it comes to."""
        draft = Draft(self.settings[CURRENCY], tuple(lines))
        totals = work_out(draft)
        invoice = self.rows.add(
            "invoices",
            number=number,
            job_id=key,
            customer_id=job["customer_id"],
            issued_on=day,
            issued_at=at,
            issued_by=self.by,
            currency=draft.currency,
            lines_net=totals.lines_net.minor,
            discount=totals.discount.minor,
            charge=totals.charge.minor,
            net=totals.net.minor,
            vat=totals.vat.minor,
            gross=totals.gross.minor,
            prepaid=totals.prepaid.minor,
            rounding=totals.rounding.minor,
            due=totals.due.minor,
            groups=[[g.rate, g.category.value, g.base.minor, g.tax.minor, g.reason] for g in totals.groups],
            line_count=len(lines),
        )
        for position, (line, net) in enumerate(zip(lines, totals.line_nets, strict=True), start=1):
            self.rows.add(
                "invoice_lines",
                invoice_id=invoice,
                position=position,
                kind=line.kind.value,
                words=line.words,
                quantity=line.quantity,
                unit=line.unit,
                price=line.price,
                price_with_vat=line.price_with_vat,
                discount=line.discount,
                net=net.minor,
                vat_rate=line.vat_rate,
                category=line.category,
                vat_reason=line.vat_reason,
            )
        return invoice, draft, totals

    def paper(
        self, number: int, stand: StandIn, facts: JobFacts, draft: Draft, totals: Totals, invoice: int, at: datetime,
        *, filed: Filed,
    ) -> str:  # fmt: skip
        """The paper of an invoice, filed; gives its title."""
        says = invoice_number("", number)
        frozen = invoice_facts(self.files, stand, facts, draft, totals, says, facts.today)  # type: ignore[arg-type]
        wording = wording_of(frozen.sheet)
        title = wording(TITLES[Kind.INVOICE], number=says)
        if filed is Filed.OWN or not self.shared:
            sha256 = attachments.store(self.files, printed(frozen, wording)).sha256
            self.shared = self.shared or sha256
        else:
            sha256 = self.shared
        self.rows.add(
            "papers",
            kind=Kind.INVOICE.value,
            job_id=stand.key,
            invoice_id=invoice,
            title=title,
            language=frozen.sheet.language,
            facts=pack(frozen),  # what its JSON text holds, without the text
            issued_at=at,
            issued_by=self.by,
            sha256=sha256,
            filed_at=at,
            names_modifications=list(modification_ids(facts)),
        )
        return title


class StandIn:
    """Stands in for the rows of a job that are not in the book yet, where a paper asks for them."""

    def __init__(
        self,
        key: int,
        job: Mapping[str, Any],
        settings: ShopSettings,
        inside: tuple[Customer, Unit, Transport, TransportType],
        **rows: Any,
    ) -> None:
        self.key = key
        self.job = SimpleNamespace(**job)
        self.settings = settings
        self.session = self
        self.agreements = self.payments = ()
        self.unsafe_return = None
        self.modifications: Sequence[Any] = rows["modifications"]
        self.agreements_by_modification: Mapping[int, Any] = rows["agreements"]
        self.safety_tests: Sequence[Any] = rows["safety_tests"]
        self.safety_steps: Sequence[Any] = rows["safety_steps"]
        self.instruments: Mapping[int, Any] = rows["instruments"]
        self.staff: Mapping[int, str] = rows["staff"]
        self.fitted = inside[3]  # its type tells the arrangement
        self._inside = inside

    def get_one(self, table: type[Any], key: int) -> Any:
        """The customer or the player."""
        return next(row for row in self._inside if isinstance(row, table))

    def execute(self, statement: Any) -> StandIn:
        """The one question that is asked: which transport is inside."""
        return self

    def first(self) -> tuple[Transport, TransportType]:
        """The answer."""
        return self._inside[2], self._inside[3]
