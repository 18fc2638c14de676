"""The fields of the taking-in page, in the order in which people speak, and what they say as one `Intake`."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from app.screens.counter.fault_words_field import FaultWordsField
from app.screens.counter.money_field import MoneyField
from app.screens.counter.such_jobs import SuchJobs
from app.screens.counter.words_area import WordsArea
from app.screens.kit.boxes import set_shown
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.kit.form import Form
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.trade.bench.kinds import HowOften, Means, TransitLock
from app.trade.bench.stages import MainsClass
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.trade.counter.taking_in import Intake
from app.trade.counter.things import USUAL_THINGS
from app.trade.sentence import Sentence
from app.work.counter.intake_offers import IntakeOffers

NOT_LOOKED = ""
NO_TYPE = 0

# Fields whose text goes into the intake as it stands.
_TEXTS = (
    "name",
    "phone",
    "email",
    "street",
    "postcode",
    "city",
    "ring_when",
    "serial",
    "maker",
    "model",
    "look",
    "mains_voltage",
    "transport_serial",
    "fault",
    "error_shown",
    "marks",
    "smell",
    "rust",
    "shelf",
    "promised_time",
)
_AMOUNTS = ("go_ahead_limit", "diagnosis_fee", "deposit")


class IntakeFields:
    """Makes the rows of ``form`` and reads them. ``customer_id``, ``unit_id`` and the comeback are not typed."""

    def __init__(self, form: Form, today: Callable[[], date], currency: str) -> None:
        self.customer_id: int | None = None
        self.unit_id: int | None = None
        self.comeback_of_id: int | None = None
        self.comeback_denied = ""
        self._who(form)
        self._what(form)
        self._fault(form)
        self._condition(form)
        self._promise(form, today, currency)
        self.named: dict[str, Any] = {
            **{name: getattr(self, name) for name in (*_TEXTS, *_AMOUNTS)},
            "promised_on": self.promised_on,
            "mains_class": self.mains_class,
            "deposit_means": self.deposit_means,
            "came_with": self.other_things,
            "disc_inside": self.disc_inside,
        }

    # the rows

    def _who(self, form: Form) -> None:
        form.section(say("Who"))
        self.name = Field(say("Customer"))
        form.row(say("Customer"), self.name)
        self.phone, self.email = Field(say("Phone"), width=160), Field(say("E-mail"))
        form.row(say("Phone"), self.phone, say("E-mail"), self.email)
        self.street = Field(say("Street and house"))
        self.postcode = Field(say("Postcode"), hint=say("postcode"), width=84)
        self.city = Field(say("Town"), hint=say("town"), width=136)
        form.row(say("Address"), self.street, self.postcode, self.city)

    def _what(self, form: Form) -> None:
        form.section(say("What"))
        self.serial = Field(say("Serial number"), width=220)
        self.unreadable = Tick(say("not readable"))
        form.row(say("Serial number"), self.serial, self.unreadable)
        self.serial.changed.connect(self._one_of_the_two)
        self.unreadable.toggled.connect(self._one_of_the_two)
        self.maker = Field(say("Maker"), hint=say("maker"))
        self.model = Field(say("Model"), hint=say("model"))
        self.look = Field(say("Look"), hint=say("colour and the like"), width=150)
        form.row(say("Player"), self.maker, self.model, self.look)
        classes = [(one, say(one.value)) for one in MainsClass]
        self.mains_class = Choice(say("Mains"), classes, MainsClass.NOT_KNOWN)
        form.row(say("Mains"), self.mains_class)
        self.mains_voltage = Field(say("Voltage"), hint=say("as on the plate"), width=120)
        self.transport_type = Combo(say("Transport"), [(NO_TYPE, say("not in sight"))], NO_TYPE, width=150)
        self.transport_serial = Field(say("Number of the transport"), hint=say("number"), width=100)
        form.row(
            say("Voltage"), self.mains_voltage, say("Transport"), self.transport_type, self.transport_serial
        )

    def _fault(self, form: Form) -> None:
        form.section(say("Fault"))
        self.fault = WordsArea(say("As they say it"), lines=2)
        form.row(say("As they say it"), self.fault)
        self.faults = FaultWordsField(say("In short"))
        form.row(say("In short"), self.faults)
        self.error_shown = Field(say("Error shown"), width=160)
        form.row(say("Error shown"), self.error_shown)

    def _condition(self, form: Form) -> None:
        form.section(say("Condition"))
        self.marks = Field(say("Marks"), hint=say("scratch on the cover, front left; corner chipped"))
        form.row(say("Marks"), self.marks)
        yes_no = [(NOT_LOOKED, say("not looked")), ("no", say("no")), ("yes", say("yes"))]
        self.opened_before = Choice(say("Opened before"), yes_no, NOT_LOOKED, gap=12)
        self.screws_missing = Choice(say("Screws missing"), yes_no, NOT_LOOKED, gap=12)
        form.row(say("Opened before"), self.opened_before, say("Screws missing"), self.screws_missing)
        locks = [(one, say(one.value)) for one in TransitLock]
        self.transit_lock = Combo(say("Transit lock"), locks, TransitLock.NOT_LOOKED, width=150)
        self.smell, self.rust = Field(say("Smell"), width=100), Field(say("Rust"), width=100)
        form.row(say("Transit lock"), self.transit_lock, say("Smell"), self.smell, say("Rust"), self.rust)
        self.things = {thing: Tick(say(thing)) for thing in USUAL_THINGS}
        form.row(say("Came with it"), *self.things.values())
        self.other_things = Field(say("Other things"), hint=say("one, another"))
        self.disc_inside = Field(say("Disc left inside"), hint=say("where"), width=100)
        form.row(say("Other things"), self.other_things, say("Disc left inside"), self.disc_inside)

    def _promise(self, form: Form, today: Callable[[], date], currency: str) -> None:
        form.section(say("Promise"))
        self.promised_on = DayField(say("Ready by"), today)
        self.promised_time = Field(say("Time"), hint="17:00", width=64)
        self.such_jobs = SuchJobs(self.promised_on)
        promised = (self.promised_on, say("at"), self.promised_time, self.such_jobs.button)
        form.row(say("Ready by"), *promised)
        form.row("", self.such_jobs)
        self.ring_when = Field(say("When to ring"), width=140)
        self.shelf = Field(say("Shelf"), width=84)
        self.goes_by_post = Tick(say("goes back by post"))
        form.row(say("When to ring"), self.ring_when, say("Shelf"), self.shelf, self.goes_by_post)
        self.go_ahead_limit = MoneyField(say("Ask first above"))
        self.fee_told = Tick(say("diagnosis fee told"))
        self.diagnosis_fee = MoneyField(say("Diagnosis fee"))
        form.row(
            say("Ask first above"), self.go_ahead_limit, currency, self.fee_told, self.diagnosis_fee, currency
        )
        means = [(one, say(one.value)) for one in Means]
        self.deposit = MoneyField(say("Deposit"))
        self.deposit_means = Combo(say("Paid by"), means, width=110)
        self.parts_returned = Tick(say("wants old parts back"))
        form.row(
            say("Deposit"), self.deposit, currency, say("paid by"), self.deposit_means, self.parts_returned
        )

    def _one_of_the_two(self, *_: object) -> None:
        """Beside a number that was read there is nothing to say about one that was not."""
        set_shown(self.unreadable, not self.serial.text() or self.unreadable.isChecked())

    # offers of the book

    def offer(self, offers: IntakeOffers) -> None:
        """Lists to complete from, and the day and fee that the shop proposes where nothing stands yet."""
        self.maker.set_seen([maker for maker, _ in offers.players])
        self.model.set_seen([model for _, model in offers.players])
        self.shelf.set_seen(offers.shelves)
        chosen = self.transport_type.value()
        types = [(NO_TYPE, say("not in sight")), *((one.id, one.name) for one in offers.transport_types)]
        self.transport_type.set_options(types, chosen)
        for name in _AMOUNTS:
            getattr(self, name).set_currency(offers.day.currency)
        if self.promised_on.day() is None and not self.promised_on.text():
            self.promised_on.set_day(offers.promised)
        if not self.diagnosis_fee.text():
            self.diagnosis_fee.set_amount(offers.diagnosis_fee)

    # reading

    def intake(self) -> Intake:
        """What stands in the form. Amounts and a day that cannot be read are left out: `unread` names them."""
        means = self.deposit_means.value()
        typed: dict[str, Any] = {name: self._text(name) for name in _TEXTS}
        typed.update({name: getattr(self, name).amount() for name in _AMOUNTS})
        return Intake(
            **typed,
            customer_id=self.customer_id,
            unit_id=self.unit_id,
            serial_unreadable=self.unreadable.isChecked(),
            mains_class=self.mains_class.value() or MainsClass.NOT_KNOWN,
            transport_type_id=self.transport_type.value() or None,
            faults=self.faults.value(),
            opened_before=_yes_no(self.opened_before.value()),
            screws_missing=_yes_no(self.screws_missing.value()),
            transit_lock=self.transit_lock.value() or TransitLock.NOT_LOOKED,
            came_with=self._came_with(),
            disc_inside=self.disc_inside.text(),
            diagnosis_fee_told=self.fee_told.isChecked(),
            deposit_means=Means(means) if means else None,
            parts_returned=self.parts_returned.isChecked() or None,
            promised_on=self.promised_on.day(),
            goes_by_post=self.goes_by_post.isChecked(),
            comeback_of_id=self.comeback_of_id,
            comeback_denied=self.comeback_denied,
        )

    def unread(self) -> dict[str, Sentence]:
        """Fields in which something stands that is no amount or no day."""
        wrong = {
            name: Sentence("This cannot be read as an amount.")
            for name in _AMOUNTS
            if getattr(self, name).is_wrong
        }
        if self.promised_on.is_wrong:
            wrong["promised_on"] = Sentence("No day can be read from this. Write 27 Nov, +8 or Fri.")
        return wrong

    def _text(self, name: str) -> str:
        field = getattr(self, name)
        return str(field.text())

    def _came_with(self) -> tuple[str, ...]:
        ticked = [thing for thing, box in self.things.items() if box.isChecked()]
        others = [part.strip() for part in self.other_things.text().split(",") if part.strip()]
        return (*ticked, *others)

    # drafts

    def values(self) -> dict[str, Any]:
        """What stands in the form, as JSON can hold it."""
        return {
            "customer_id": self.customer_id,
            "unit_id": self.unit_id,
            "comeback_of_id": self.comeback_of_id,
            "comeback_denied": self.comeback_denied,
            **{name: self._text(name) for name in (*_TEXTS, *_AMOUNTS, "other_things", "disc_inside")},
            "promised_on": self.promised_on.text(),
            "unreadable": self.unreadable.isChecked(),
            "mains_class": str(self.mains_class.value() or ""),
            "transport_type": self.transport_type.value(),
            "faults": [[str(f.word), str(f.how)] for f in self.faults.value()],
            "opened_before": self.opened_before.value(),
            "screws_missing": self.screws_missing.value(),
            "transit_lock": str(self.transit_lock.value() or ""),
            "things": [thing for thing, box in self.things.items() if box.isChecked()],
            "fee_told": self.fee_told.isChecked(),
            "deposit_means": str(self.deposit_means.value() or ""),
            "parts_returned": self.parts_returned.isChecked(),
            "goes_by_post": self.goes_by_post.isChecked(),
        }

    def fill(self, values: Mapping[str, Any]) -> None:
        """Put values into the form; what is missing empties its field."""
        for name in (*_TEXTS, *_AMOUNTS, "other_things", "disc_inside", "promised_on"):
            field = getattr(self, name)
            field.set_text(str(values.get(name) or ""))
        self.unreadable.setChecked(bool(values.get("unreadable")))
        self.mains_class.set_value(MainsClass(values.get("mains_class") or MainsClass.NOT_KNOWN))
        self.set_type(values.get("transport_type") or NO_TYPE)
        self.faults.set_value(
            [ReportedFault(FaultWord(word), HowOften(how)) for word, how in values.get("faults") or ()]
        )
        self.opened_before.set_value(values.get("opened_before") or NOT_LOOKED)
        self.screws_missing.set_value(values.get("screws_missing") or NOT_LOOKED)
        self.transit_lock.set_value(TransitLock(values.get("transit_lock") or TransitLock.NOT_LOOKED))
        left: Sequence[str] = values.get("things") or ()
        for thing, box in self.things.items():
            box.setChecked(thing in left)
        self.fee_told.setChecked(bool(values.get("fee_told")))
        means = values.get("deposit_means")
        self.deposit_means.set_value(Means(means) if means else None)
        self.parts_returned.setChecked(bool(values.get("parts_returned")))
        self.goes_by_post.setChecked(bool(values.get("goes_by_post")))
        self.customer_id, self.unit_id = values.get("customer_id"), values.get("unit_id")
        self.comeback_of_id = values.get("comeback_of_id")
        self.comeback_denied = str(values.get("comeback_denied") or "")

    def set_type(self, type_id: int) -> None:
        """Choose a transport type, also before the list of types has come from the book."""
        try:
            self.transport_type.set_value(type_id)
        except ValueError:
            self.transport_type.set_options([(NO_TYPE, say("not in sight")), (type_id, "…")], type_id)


def _yes_no(value: Any) -> bool | None:
    return None if value in (NOT_LOOKED, None) else value == "yes"
