"""A customer's page: the card to be written anew, jobs and players, and making two cards one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.job_words import stage_word
from app.screens.counter.failures import tell
from app.screens.counter.merge_panel import MergePanel
from app.screens.counter.papers import with_staff
from app.screens.counter.words_area import WordsArea
from app.screens.desk import Desk
from app.screens.form_page import FormPage
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Row as TableRow
from app.screens.kit.cells import Words
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.kit.foot import Foot
from app.screens.kit.label import Label
from app.screens.kit.margin import MarginPage
from app.screens.kit.table import SmallTable
from app.screens.language import day, say
from app.trade.calendar.promise import local_day
from app.trade.people.customer import CustomerForm
from app.trade.refusal import FieldRefusal, StaleRow
from app.work.people.customers import (
    CustomerCard,
    CustomerJob,
    CustomerUnit,
    add_customer,
    customer_card,
    edit_customer,
)
from app.work.shop_book import Done

_PLAIN = ("name", "phone", "email", "postcode", "city", "country", "vat_id", "ring_when")
_LONG = ("street", "note")


class CustomerPage(FormPage):
    """Registered as ``customer`` with the id; None begins a new card."""

    help_topic = "customers"

    def __init__(self, desk: Desk, customer_id: int | None, parent: QWidget | None = None) -> None:
        super().__init__(desk, say("Customer"), parent)
        self.customer_id = customer_id
        self.draft_key = f"customer {customer_id or 'new'}"
        self.card: CustomerCard | None = None
        self._saving = False
        self._told = ""  # behind the soft line, until something is saved again
        self._make_form()
        self._make_margin()
        self._make_foot()
        if customer_id is None:
            self.head.set_words(say("New customer"))
            self.take_draft()

    # making

    def _make_form(self) -> None:
        form = self.form
        form.section(say("Who"))
        self.name = Field(say("Name"))
        form.row(say("Name"), self.name)
        self.phone, self.email = Field(say("Phone"), width=160), Field(say("E-mail"))
        form.row(say("Phone"), self.phone, say("E-mail"), self.email)
        self.ring_when = Field(say("When to ring"), width=200)
        form.row(say("When to ring"), self.ring_when)
        form.section(say("Where"))
        self.street = WordsArea(say("Street and house"), lines=2)
        form.row(say("Address"), self.street)
        self.postcode = Field(say("Postcode"), hint=say("postcode"), width=100)
        self.city = Field(say("Town"), hint=say("town"))
        self.country = Field(say("Country"), hint=say("two letters"), width=84)
        form.row("", self.postcode, self.city, self.country)
        form.section(say("Papers"))
        languages = [("", say("as the shop")), ("en", say("English")), ("de", say("German"))]
        self.language = Choice(say("Language of papers"), languages, "")
        form.row(say("Language"), self.language)
        self.vat_id = Field(say("VAT number"), width=200)
        form.row(say("VAT number"), self.vat_id)
        self.note = WordsArea(say("Note"), lines=3)
        form.row(say("Note"), self.note)
        self.named = {name: getattr(self, name) for name in (*_PLAIN, *_LONG, "language")}
        self._stands_for = Label("", "soft", wrap=True)
        self.sheet.add(self._stands_for)
        self.merge = MergePanel(self.desk, self.customer_id or 0)
        self.merge.failed.connect(partial(tell, self.trouble))
        self.sheet.add(self.merge)
        set_shown(self.merge, self.customer_id is not None)

    def _make_margin(self) -> None:
        margin = MarginPage(say("Jobs and players"), width=468)
        margin.column.set_margins((14, 18, 9, 18))
        self._beside, self._under = margin.column, Column(gap=9)
        below = QWidget()
        below.setLayout(self._under)
        self.sheet.add(below)
        self._knows = QWidget()
        knows = Column(self._knows, gap=9)
        self._jobs_word, self._units_word = Label("", "strong"), Label("", "strong")
        self.jobs = SmallTable(say("Jobs"), _job_columns(), opened=self.desk.open_job)
        self.units = SmallTable(say("Players"), _unit_columns(), opened=self.desk.open_unit)
        for word, table in ((self._jobs_word, self.jobs), (self._units_word, self.units)):
            inset = Column(margins=(9, 0, 9, 0))
            inset.add(word)
            knows.addLayout(inset)
            knows.add(table, 9)
        margin.column.add(self._knows)
        margin.column.addStretch(1)
        self.set_margin(margin, below)

    def _make_foot(self) -> None:
        self.save_button = Button(say("Save the card"), self.save, kind="main", key="Ctrl+Return")
        leave = Button(say("Leave, keep the draft"), self.leave_form, kind="quiet", key="Esc")
        self.foot.add(Foot(self.save_button, leave=leave))

    # what pages do

    def narrowed(self, narrow: bool) -> None:
        """Jobs and players stand below the card where there is no margin."""
        (self._under if narrow else self._beside).insertWidget(0, self._knows)

    def reload(self, changes: Any = None) -> None:
        """Ask for the card anew when an action touched it."""
        if self.customer_id is None:
            return
        if changes is None or self.customer_id in changes.customers or "jobs" in changes.kinds:
            self.desk.doors.look_up(
                self,
                partial(customer_card, self.desk.book, self.customer_id),
                self.show_card,
                partial(tell, self.trouble),
            )

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**super().commands(), "customers": lambda: self.desk.open("customers")}

    def values(self) -> dict[str, Any]:
        return {field.name: getattr(self.form_now(), field.name) for field in fields(CustomerForm)}

    def fill(self, values: Mapping[str, Any]) -> None:
        for name in _PLAIN:
            getattr(self, name).set_text(str(values.get(name) or ""))
        for name in _LONG:
            getattr(self, name).set_text(str(values.get(name) or ""))
        language = values.get("language")
        self.language.set_value(language if language in ("en", "de") else "")

    # showing

    def show_card(self, card: CustomerCard) -> None:
        """Show a card. What is half typed stays; the first time a draft goes before what the book has."""
        if card.merged_into is not None:
            self.desk.open_customer(card.merged_into)
            return
        first, self.card = self.card is None, card
        name = say("erased") if card.erased else card.form.name
        self.set_title(name)
        self.head.set_words(name)
        since = local_day(card.since, self.desk.shop.zone) if self.desk.shop.zone else card.since.date()
        self.set_below(f"{say('In the book since {day}.', day=day(since))} {self._told}".strip())
        if not self._touched and not (first and self.take_draft()):
            self._filling = True
            try:
                self.fill({field.name: getattr(card.form, field.name) for field in fields(CustomerForm)})
            finally:
                self._filling = False
        self._show_lists(card)
        for part in (self.form, self.save_button, self.merge):
            set_shown(part, not card.erased)
        self.merge.show_card(card)

    def _show_lists(self, card: CustomerCard) -> None:
        jobs, units = len(card.jobs), len(card.units)
        self._jobs_word.setText(say("1 job") if jobs == 1 else say("{n} jobs", n=jobs))
        self._units_word.setText(say("1 player") if units == 1 else say("{n} players", n=units))
        self.jobs.set_rows([self._job_row(job) for job in card.jobs])
        self.units.set_rows([_unit_row(unit) for unit in card.units])
        set_shown(self.jobs, bool(jobs))
        set_shown(self.units, bool(units))
        self._stands_for.setText(say("This card stands also for: {names}.", names=", ".join(card.stands_for)))
        set_shown(self._stands_for, bool(card.stands_for))

    def _job_row(self, job: CustomerJob) -> TableRow:
        at = day(local_day(job.taken_in_at, self.desk.shop.zone)) if self.desk.shop.zone else ""
        player = f"{job.player}, {job.fault}" if job.fault else job.player
        return TableRow(
            job.id,
            (
                Words(str(job.number), strong=True),
                Words(at),
                Words(job.player, job.fault, tip=player),
                Words(stage_word(job.stage, job.outcome)),
            ),
        )

    # saving

    def form_now(self) -> CustomerForm:
        """The card as typed."""
        plain = {name: getattr(self, name).text() for name in _PLAIN}
        long = {name: getattr(self, name).text() for name in _LONG}
        return CustomerForm(**plain, **long, language=self.language.value() or "")

    def save(self) -> None:
        """Ctrl+Enter."""
        if self._saving or (self.customer_id is not None and self.card is None):
            return
        self._told = ""
        self.trouble.clear()
        self.clear_errors()
        self.keep_draft()
        with_staff(self.desk, self, self._save)

    def _save(self, who: int) -> None:
        self._saving = True
        form = self.form_now()
        work: Callable[[], Done[Any]]
        if self.customer_id is None:
            work = partial(add_customer, self.desk.book, who, form)
        else:
            assert self.card is not None
            work = partial(edit_customer, self.desk.book, who, self.customer_id, self.card.version, form)
        self.desk.change(self, work, self._saved, self._refused)

    def _saved(self, done: Done[Any]) -> None:
        self._saving = False
        self._touched = False
        self.saved()
        if self.customer_id is None:
            self.fill({})
            self.desk.open_customer(done.value)
        else:
            self._told = say("Saved.")
            self.reload(None)

    def _refused(self, error: Exception) -> None:
        self._saving = False
        if isinstance(error, FieldRefusal):
            self.refuse(error)
            return
        if isinstance(error, StaleRow):
            self._show_theirs(error)
        tell(self.trouble, error, self.save)

    def _show_theirs(self, stale: StaleRow) -> None:
        """Beside each field that differs stands what the book has now; saving again then means it."""
        mine = self.form_now()
        for name in _PLAIN:
            theirs = str(stale.theirs.get(name) or "")
            if theirs != getattr(mine, name):
                getattr(self, name).set_echo(say("in the book now: {value}", value=theirs or say("nothing")))
        self._touched = True  # the card comes anew for its version; what is typed stays
        self.reload(None)


def _job_columns() -> tuple[TableColumn, ...]:
    return (
        TableColumn("job", say("Job"), 56),
        TableColumn("at", say("Taken in"), 100),
        TableColumn("what", say("Player and fault"), least=120),
        TableColumn("stage", say("Stage"), 110),
    )


def _unit_columns() -> tuple[TableColumn, ...]:
    return (TableColumn("player", say("Player"), least=140), TableColumn("serial", say("Serial number"), 160))


def _unit_row(unit: CustomerUnit) -> TableRow:
    serial = say("not readable") if unit.serial_unreadable else unit.serial
    return TableRow(
        unit.id, (Words(f"{unit.maker} {unit.model}".strip()), Words(serial, soft=unit.serial_unreadable))
    )
