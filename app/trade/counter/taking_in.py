"""Taking a player in: the form as plain values, what cannot be right in it, and what is still missing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from app.trade.bench.kinds import Means, TransitLock
from app.trade.bench.stages import MainsClass
from app.trade.calendar.promise import ShopCalendar, check_promise
from app.trade.counter.fault_words import ReportedFault
from app.trade.counter.mains_voltage import check_voltage
from app.trade.money import Money
from app.trade.people.email import check_email
from app.trade.people.phone import check_phone
from app.trade.people.serial import check_serial
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed

HIGHEST = 10**9  # minor units; more is a slip of the hand, not a player's price


@dataclass(frozen=True, kw_only=True)
class Intake:
    """The taking-in form in the order in which people speak. Texts as typed, money and days as read.

    ``customer_id`` and ``unit_id`` say that the person chose what the book knows already. None is "not asked"
    or "not looked yet", never "no".
    """

    # who
    customer_id: int | None = None
    name: str = ""
    phone: str = ""
    email: str = ""
    street: str = ""  # one or more lines
    postcode: str = ""
    city: str = ""
    country: str = ""  # ISO 3166 alpha-2, empty: the shop's own
    ring_when: str = ""
    # what
    unit_id: int | None = None
    serial: str = ""
    serial_unreadable: bool = False
    maker: str = ""
    model: str = ""
    look: str = ""  # colour and the like
    mains_class: MainsClass = MainsClass.NOT_KNOWN
    mains_voltage: str = ""
    transport_type_id: int | None = None  # if visible
    transport_serial: str = ""
    # fault
    fault: str = ""  # in the customer's words
    faults: tuple[ReportedFault, ...] = ()
    error_shown: str = ""
    # condition on arrival
    marks: str = ""
    opened_before: bool | None = None
    screws_missing: bool | None = None
    transit_lock: TransitLock = TransitLock.NOT_LOOKED
    smell: str = ""
    rust: str = ""
    came_with: tuple[str, ...] = ()
    disc_inside: str = ""  # where a disc was left: "tray"; empty: none was seen
    # what is agreed
    go_ahead_limit: Money | None = None
    diagnosis_fee: Money | None = None
    diagnosis_fee_told: bool = False
    deposit: Money | None = None
    deposit_means: Means | None = None
    shelf: str = ""
    parts_returned: bool | None = None
    promised_on: date | None = None
    promised_time: str = ""
    goes_by_post: bool = False
    comeback_of_id: int | None = None  # the job it is a comeback of, accepted at the counter
    comeback_denied: str = ""  # why a proposed comeback is none


@dataclass(frozen=True)
class IntakeDay:
    """What the check has to know of the day and the shop."""

    today: date
    calendar: ShopCalendar
    currency: str


# How many letters have room in each plain field (300-letter names print; a novel does not fit the ticket).
ROOM: Mapping[str, int] = MappingProxyType(
    {
        "name": 300,
        "postcode": 16,
        "city": 80,
        "ring_when": 60,
        "maker": 60,
        "model": 60,
        "look": 80,
        "transport_serial": 40,
        "error_shown": 60,
        "marks": 600,
        "smell": 80,
        "rust": 80,
        "disc_inside": 60,
        "shelf": 20,
        "promised_time": 20,
        "comeback_denied": 200,
    }
)
STREET_ROOM, FAULT_ROOM, THING_ROOM, MOST_THINGS = 240, 2000, 80, 30


def _amount(amount: Money | None, currency: str) -> Sentence | None:
    if amount is None:
        return None
    if amount.currency != currency:
        return Sentence("The shop's money is {currency}.", {"currency": currency})
    if amount.minor < 0:
        return Sentence("An amount is not below zero.")
    if amount.minor > HIGHEST:
        return Sentence("That amount is too high to be meant.")
    return None


def _country(intake: Intake, day: IntakeDay) -> Sentence | None:
    code = intake.country
    if code and not (len(code) == 2 and code.isascii() and code.isalpha() and code.isupper()):
        return Sentence("A country is two capital letters, such as DE or GB.")
    return None


def _faults(intake: Intake, day: IntakeDay) -> Sentence | None:
    words = [fault.word for fault in intake.faults]
    for word in words:
        if words.count(word) > 1:
            return Sentence("“{word}” stands there twice.", {"word": Sentence(word.value)})
    return None


def _came_with(intake: Intake, day: IntakeDay) -> Sentence | None:
    if len(intake.came_with) > MOST_THINGS:
        return Sentence("At most {most} things have room on the ticket.", {"most": MOST_THINGS})
    if any(not thing.strip() for thing in intake.came_with):
        return Sentence("Name the thing, or leave it out.")
    checks = (check_typed(thing, THING_ROOM) for thing in intake.came_with)
    return next((wrong for wrong in checks if wrong), None)


def _diagnosis_fee(intake: Intake, day: IntakeDay) -> Sentence | None:
    if intake.diagnosis_fee_told and intake.diagnosis_fee is None:
        return Sentence("Enter the fee that was told.")
    return _amount(intake.diagnosis_fee, day.currency)


def _deposit_means(intake: Intake, day: IntakeDay) -> Sentence | None:
    paid = intake.deposit is not None and intake.deposit.minor > 0
    if paid and intake.deposit_means is None:
        return Sentence("Say how the deposit was paid.")
    return None


def _promised_on(intake: Intake, day: IntakeDay) -> Sentence | None:
    if intake.promised_on is None:
        return None
    return check_promise(intake.promised_on, day.today, day.calendar)


def _comeback_denied(intake: Intake, day: IntakeDay) -> Sentence | None:
    if intake.comeback_denied.strip() and intake.comeback_of_id is not None:
        return Sentence("Either it is a comeback, or the reason why not.")
    return check_typed(intake.comeback_denied, ROOM["comeback_denied"])


_RULES: dict[str, Callable[[Intake, IntakeDay], Sentence | None]] = {
    "phone": lambda intake, day: check_phone(intake.phone),
    "email": lambda intake, day: check_email(intake.email),
    "street": lambda intake, day: check_typed(intake.street, STREET_ROOM, lines=True),
    "country": _country,
    "serial": lambda intake, day: check_serial(intake.serial, unreadable=intake.serial_unreadable),
    "mains_voltage": lambda intake, day: check_voltage(intake.mains_voltage, intake.mains_class),
    "fault": lambda intake, day: check_typed(intake.fault, FAULT_ROOM, lines=True),
    "faults": _faults,
    "came_with": _came_with,
    "go_ahead_limit": lambda intake, day: _amount(intake.go_ahead_limit, day.currency),
    "diagnosis_fee": _diagnosis_fee,
    "deposit": lambda intake, day: _amount(intake.deposit, day.currency),
    "deposit_means": _deposit_means,
    "promised_on": _promised_on,
    "comeback_denied": _comeback_denied,
}


def check_field(intake: Intake, field: str, day: IntakeDay) -> Sentence | None:
    """Why this one field cannot be right as it stands, or None: asked while typing."""
    rule = _RULES.get(field)
    if rule is not None:
        return rule(intake, day)
    room = ROOM.get(field)
    return None if room is None else check_typed(getattr(intake, field), room, lines=field == "marks")


def check_intake(intake: Intake, day: IntakeDay) -> dict[str, Sentence]:
    """Every field that cannot be right, in the order of the form; empty when nothing speaks against it."""
    order = [field for field in Intake.__dataclass_fields__ if field in _RULES or field in ROOM]
    return {field: wrong for field in order if (wrong := check_field(intake, field, day))}


def missing_in(intake: Intake) -> dict[str, Sentence]:
    """What a ticket cannot be printed without, by field; asked when saving, not while typing."""
    missing: dict[str, Sentence] = {}
    if intake.customer_id is None and not intake.name.strip():
        missing["name"] = Sentence("Who brings it? Write a name.")
    if intake.unit_id is None:
        if not intake.serial.strip() and not intake.serial_unreadable:
            missing["serial"] = Sentence("Write the serial number, or choose “not readable”.")
        if not intake.maker.strip() and not intake.model.strip():
            missing["maker"] = Sentence("Which player is it? Write maker or model.")
    if not intake.fault.strip() and not intake.faults:
        missing["fault"] = Sentence("What is wrong with it? Write what the customer says, or pick a word.")
    return missing
