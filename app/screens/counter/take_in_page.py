"""Taking a player in: one page, by keyboard alone, in the order in which people speak."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from app.screens.counter.book_knows import ACCEPT, DENY, UNDO, BookKnows
from app.screens.counter.failures import tell
from app.screens.counter.intake_fields import NO_TYPE, IntakeFields
from app.screens.counter.intake_matches import IntakeMatches
from app.screens.counter.papers import show_paper, with_staff
from app.screens.desk import Desk
from app.screens.form_page import FormPage
from app.screens.kit.buttons import Button
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.foot import Foot
from app.screens.kit.margin import MarginPage
from app.screens.language import day, say
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake, IntakeDay, check_field, check_intake, missing_in
from app.trade.refusal import FieldRefusal
from app.work.counter.intake_offers import IntakeOffers, intake_offers
from app.work.counter.known_unit import KnownUnit, UnitMatch, what_book_knows
from app.work.counter.promise_offer import promise_offer
from app.work.counter.taking_in import Received, receive_unit
from app.work.people.customers import CustomerCard, customer_card
from app.work.shop_book import Done

PAUSE_MS = 700  # after the last key, before a field that cannot be right says so


class TakeInPage(FormPage):
    """Registered as ``take_in``. Ctrl+Enter saves and shows the ticket, Esc leaves and keeps the draft."""

    help_topic = "take_in"
    draft_key = "intake"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, say("Take in a player"), parent)
        self._day: IntakeDay | None = None
        self._saving = False
        self._wants_paper = True
        self._knows_asked: Any = None
        self._promise_asked: Any = None
        self._flags: Sequence[FlagFacts] = ()
        self.fields = IntakeFields(self.form, desk.today, desk.shop.currency)
        self.named = self.fields.named
        self.knows = BookKnows()
        self.knows.asked.connect(self._knows_asks)
        self.matches = IntakeMatches(self, self.fields)
        self._make_margin()
        self._make_foot()
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._check_all)
        self._watch()
        self.take_draft()
        self._ask_offers()

    # making

    def _make_margin(self) -> None:
        margin = MarginPage(say("What the book knows"), width=468)
        margin.column.set_margins((14, 18, 9, 18))
        margin.column.add(self.matches.holder, self.knows)
        margin.column.addStretch(1)
        self._margin_column = margin.column
        self._folded_flags = FlagBar(say("What the book knows"), folds=True)
        self._folded_flags.acted.connect(self._knows_asks)
        self.knows.flagged.connect(self._fold_flags)
        self.heading.add(self._folded_flags)
        self.set_margin(margin, self._folded_flags)

    def _make_foot(self) -> None:
        self.save_button = Button(say("Save and print the ticket"), self.save, kind="main", key="Ctrl+Return")
        self.plain_button = Button(say("Save without paper"), self.save_without_paper)
        self.leave_button = Button(say("Leave, keep the draft"), self.leave_form, kind="quiet", key="Esc")
        self.empty_button = Button(say("Empty the form"), self.empty, kind="quiet")
        self.foot.add(Foot(self.save_button, self.plain_button, self.empty_button, leave=self.leave_button))

    def _watch(self) -> None:
        fields = self.fields
        self.form.typed.connect(self._pause.start)
        for name, field in self.named.items():
            left = getattr(field, "left", None)
            if left is not None:
                left.connect(partial(self._check, name))
        fields.unreadable.toggled.connect(lambda _: self._check("serial"))
        fields.mains_class.changed.connect(lambda _: self._check("mains_voltage"))
        fields.deposit_means.changed.connect(lambda _: self._check("deposit_means"))
        fields.faults.changed.connect(self._faults_changed)
        fields.faults.changed.connect(self._ask_promise)
        fields.transport_type.changed.connect(self._ask_promise)
        self.knows.reason.changed.connect(self._reason_typed)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Another job may have taken the number that stands under the title; or it is another day."""
        if changes is None or "jobs" in changes.kinds:
            self._ask_offers()

    def arrive(self) -> None:
        super().arrive()
        if self._day is not None and self._day.today != self.desk.today():
            self._ask_offers()

    def narrowed(self, narrow: bool) -> None:
        """Matches stand in the margin, and above the form where there is none."""
        (self.heading if narrow else self._margin_column).insertWidget(
            1 if narrow else 0, self.matches.holder
        )
        self._fold_flags(self._flags)

    def _fold_flags(self, flags: Sequence[FlagFacts]) -> None:
        """Without a margin the flags stand folded above the form; with one they stand there only."""
        self._flags = flags
        self._folded_flags.set_flags(flags if self.narrow else ())

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**super().commands(), "ticket": self.save, "promise_such": self.fields.such_jobs.take}

    def put_away(self) -> None:
        self.keep_draft()
        self._pause.stop()
        self.matches.cancel()

    # drafts

    def values(self) -> dict[str, Any]:
        return self.fields.values()

    def fill(self, values: Mapping[str, Any]) -> None:
        self.fields.fill(values)
        if self.fields.unit_id is not None:
            self._ask_knows(self.fields.unit_id)

    def empty(self) -> None:
        """Begin with an empty form; what stood in it is gone from the drafts too."""
        self._filling = True
        try:
            self.fields.fill({})
        finally:
            self._filling = False
        self._touched = False
        self.clear_errors()
        self.knows.show_known(None)
        self.matches.clear()
        self.fields.name.set_echo("")
        self.saved()
        self._ask_offers()
        self.form.first()

    # what the book offers and knows

    def _ask_offers(self) -> None:
        self.desk.doors.look_up(
            self, partial(intake_offers, self.desk.book), self._offered, partial(tell, self.trouble)
        )

    def _offered(self, offers: IntakeOffers) -> None:
        self._day = offers.day
        self._filling = True
        try:
            self.fields.offer(offers)
        finally:
            self._filling = False
        today = offers.day.today
        self.set_below(say("Job {number}, {day}.", number=str(offers.number), day=day(today, "EEE d MMM y")))
        self._ask_promise()

    def _ask_promise(self, *_: object) -> None:
        """Ask how long such jobs took; an answer to what stood there before is no longer waited for."""
        if self._filling:
            return
        if self._promise_asked is not None:
            self._promise_asked.cancel()
        fields = self.fields
        like = partial(
            promise_offer, self.desk.book, fields.transport_type.value() or None, fields.faults.value()
        )
        self._promise_asked = self.desk.doors.look_up(
            self, like, fields.such_jobs.show_offer, partial(tell, self.trouble)
        )

    def take_customer(self, customer_id: int) -> None:
        """A customer of the book was chosen: the card fills the form."""
        self.desk.doors.look_up(
            self,
            partial(customer_card, self.desk.book, customer_id),
            self.show_customer,
            partial(tell, self.trouble),
        )

    def show_customer(self, card: CustomerCard) -> None:
        """Put a card's words into the form."""
        fields = self.fields
        fields.customer_id = card.id
        self.matches.quiet(lambda: self._fill_card(card))
        jobs = len(card.jobs)
        fields.name.set_echo(
            say("known since {year}, 1 job", year=_year(card))
            if jobs == 1
            else say("known since {year}, {n} jobs", year=_year(card), n=jobs)
        )
        self._typed()

    def _fill_card(self, card: CustomerCard) -> None:
        fields, form = self.fields, card.form
        for name in ("name", "phone", "email", "postcode", "city", "ring_when"):
            getattr(fields, name).set_text(getattr(form, name))
        fields.street.set_text(", ".join(form.street.splitlines()))

    def take_unit(self, match: UnitMatch) -> None:
        """A player of the book was chosen."""
        self.fields.unit_id = match.id
        self._ask_knows(match.id, fill=True)

    def _ask_knows(self, unit_id: int, *, fill: bool = False) -> None:
        if self._knows_asked is not None:
            self._knows_asked.cancel()
        self._knows_asked = self.desk.doors.look_up(
            self,
            partial(what_book_knows, self.desk.book, unit_id, self.fields.faults.value()),
            partial(self._known, fill=fill),
            partial(tell, self.trouble),
        )

    def _known(self, known: KnownUnit, *, fill: bool = False) -> None:
        fields = self.fields
        if fields.unit_id != known.id:
            return
        if fill:
            self.matches.quiet(lambda: self._fill_unit(known))
            if fields.customer_id is None and known.customer_id is not None and not fields.name.text():
                self.take_customer(known.customer_id)
            self._typed()
        if known.comeback is None:
            fields.comeback_of_id, fields.comeback_denied = None, ""
        self._show_known(known)

    def _show_known(self, known: KnownUnit | None) -> None:
        fields = self.fields
        denied = bool(fields.comeback_denied) or (self.knows.denied and fields.comeback_of_id is None)
        self.knows.show_known(known, accepted=fields.comeback_of_id is not None, denied=denied)

    def _fill_unit(self, known: KnownUnit) -> None:
        fields = self.fields
        fields.serial.set_text(known.serial)
        fields.unreadable.setChecked(known.serial_unreadable)
        for name in ("maker", "model", "look", "mains_voltage"):
            getattr(fields, name).set_text(getattr(known, name))
        if known.mains_class is not MainsClass.NOT_KNOWN:
            fields.mains_class.set_value(known.mains_class)
        fields.set_type(known.transport.type_id if known.transport else NO_TYPE)
        fields.transport_serial.set_text(known.transport.marking if known.transport else "")

    def forget_unit(self) -> None:
        """Another serial is typed: it is not the player that was chosen."""
        self.fields.unit_id = self.fields.comeback_of_id = None
        self.fields.comeback_denied = ""
        self.knows.show_known(None)

    def forget_customer(self) -> None:
        """Another name is typed: it is not the customer that was chosen."""
        self.fields.customer_id = None
        self.fields.name.set_echo("")

    # the comeback

    def _knows_asks(self, asked: Any) -> None:
        fields = self.fields
        if isinstance(asked, tuple):
            self.keep_draft()
            self.desk.open_job(asked[1])
            return
        fields.comeback_denied = ""
        fields.comeback_of_id = (
            self.knows.known.comeback_job_id if asked == ACCEPT and self.knows.known else None
        )
        self.knows.denied = asked == DENY
        if asked in (DENY, UNDO):
            self.knows.reason.set_text("")
        self._show_known(self.knows.known)
        self._typed()
        if asked == DENY:
            self.knows.ask_reason()

    def _reason_typed(self, text: str) -> None:
        if self.knows.denied:
            self.fields.comeback_denied = text.strip()
            self._typed()

    def _faults_changed(self) -> None:
        if self.fields.unit_id is not None and not self._filling:
            self._ask_knows(self.fields.unit_id)

    # checking while typing

    def _check(self, name: str) -> None:
        """Say under a field that was left what cannot be right in it, or take the words away."""
        field = self.named.get(name)
        if self._day is None or field is None or not hasattr(field, "set_error"):
            return
        unread = self.fields.unread().get(name)
        wrong = unread or check_field(self.fields.intake(), name, self._day)
        field.set_error(say(wrong) if wrong is not None else "")

    def _check_all(self) -> None:
        for name in self.named:
            self._check(name)

    # saving

    def save(self) -> None:
        """Ctrl+Enter: save and show the ticket."""
        self._save(paper=True)

    def save_without_paper(self) -> None:
        """Save; the ticket is filed with the job and can be printed later."""
        self._save(paper=False)

    def _save(self, *, paper: bool) -> None:
        if self._saving:
            return
        self._wants_paper = paper
        self._pause.stop()
        self.trouble.clear()
        self.clear_errors()
        intake = self.fields.intake()
        wrong = {**self.fields.unread(), **missing_in(intake)}
        if self._day is not None:
            wrong = {**check_intake(intake, self._day), **wrong}
        if wrong:
            order = list(self.named)
            self.refuse(FieldRefusal(dict(sorted(wrong.items(), key=lambda w: _place(order, w[0])))))
            return
        self.keep_draft()
        with_staff(self.desk, self, partial(self._receive, intake))

    def _receive(self, intake: Intake, who: int) -> None:
        self._saving = True
        self.desk.change(
            self, partial(receive_unit, self.desk.book, who, intake), self._received, self._refused
        )

    def _received(self, done: Done[Received]) -> None:
        self._saving = False
        received = done.value
        self.empty()
        self.desk.open_job(received.job_id)
        if self._wants_paper:
            show_paper(self, received.ticket_id)

    def _refused(self, error: Exception) -> None:
        self._saving = False
        if isinstance(error, FieldRefusal):
            self.refuse(error)
        else:
            tell(self.trouble, error, self.save)


def _year(card: CustomerCard) -> str:
    return str(card.since.year)


def _place(order: list[str], name: str) -> int:
    return order.index(name) if name in order else len(order)
