"""The first page of a new book: what the shop is called and where it is, its money, language, clock and sheet,
and its owner."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk, StaffNow
from app.screens.form_page import FormPage
from app.screens.kit import measure
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.foot import Foot
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.editor_for import options_of
from app.screens.own_zone import own_zone
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal
from app.trade.settings import CURRENCY, LANGUAGE, PAGE_SIZE
from app.work.office.first_run import FirstRun, begin_book, check_first_run
from app.work.shop_book import Done

ADDRESS = ("address_lines", "postcode", "city", "country")
PINS = ("pin", "pin_again")


class FirstRunPage(FormPage):
    """Registered as ``first_run``; shown while nobody works in the book yet."""

    help_topic = "first_run"
    draft_key = "first run"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, say("A new book"), parent, label_width=150)
        self.head.set_words(
            say("A new book for your shop"),
            below=say(
                "A few answers, and the first player can be taken in. All of them can be changed later in the "
                "settings; the currency only until the first invoice or payment."
            ),
        )
        self.form.section(say("Shop"))
        self.shop_name = _field(380)
        self.form.row(say("Name of the shop"), self.shop_name)
        self.street = _field(380)
        self.form.row(say("Street and house"), self.street)
        self.postcode = Field("", width=100)
        self.city = _field(220)
        self.form.row(say("Postcode"), self.postcode, say("Town"), self.city)
        self.country = Field("", width=60)
        self.form.row(say("Country"), self.country, say("such as DE or GB"))
        papers = say("The address heads every paper. It can follow later, but before the first invoice.")
        self.form.row("", Label(papers, "soft", wrap=True), stretch_last=True)
        self.currency = Combo("", options_of(CURRENCY), CURRENCY.default)
        self.form.row(say("Currency"), self.currency)
        self.language = Choice("", options_of(LANGUAGE), _own_language())
        self.form.row(say("Language of papers"), self.language)
        self.time_zone = _field(260, text=own_zone(), seen=_zones())
        self.form.row(say("Time zone"), self.time_zone)
        self.page_size = Choice("", options_of(PAGE_SIZE), PAGE_SIZE.default)
        self.form.row(say("Sheet"), self.page_size)
        self.form.section(say("Owner"))
        self.owner = _field(380)
        self.form.row(say("Your name"), self.owner)
        self.pin = Field("", width=160, secret=True)
        self.pin_again = Field("", width=160, secret=True)
        self.form.row(say("A PIN for signing"), self.pin, say("once more"), self.pin_again)
        told = say(
            "Four digits or more, or a passphrase. With it you sign what only the owner may decide. It guards "
            "against slips; whoever can copy the file can read it."
        )
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.named = {
            "shop_name": self.shop_name,
            "address_lines": self.street,
            "postcode": self.postcode,
            "city": self.city,
            "country": self.country,
            "currency": self.currency,
            "language": self.language,
            "time_zone": self.time_zone,
            "page_size": self.page_size,
            "owner": self.owner,
            "pin": self.pin,
            "pin_again": self.pin_again,
        }
        begin = Button(say("Begin the book"), self.save, kind="main", key="Ctrl+Return")
        self.foot.add(Foot(begin))
        for name in (*ADDRESS, "time_zone", *PINS):
            self.named[name].changed.connect(partial(self._check, name))

    def reload(self, changes: Any = None) -> None:
        """The draft, the first time."""
        if changes is None and not self._touched:
            self._touched = self.take_draft()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"save": self.save}

    def leave_form(self) -> None:
        """There is nowhere to go back to; what was typed is kept."""
        self.keep_draft()

    def values(self) -> dict[str, Any]:
        entry = self.entry()
        return {name: getattr(entry, name) for name in self.named if name not in PINS}

    def fill(self, values: Mapping[str, Any]) -> None:
        for name in ("shop_name", *ADDRESS, "owner", "time_zone"):
            self.named[name].set_text(str(values.get(name, "")))
        for name in ("currency", "language", "page_size"):
            if values.get(name):
                self.named[name].set_value(values[name])

    def entry(self) -> FirstRun:
        """What stands in the form."""
        return FirstRun(
            shop_name=self.shop_name.text(),
            owner=self.owner.text(),
            pin=self.pin.edit.text(),
            pin_again=self.pin_again.edit.text(),
            address_lines=self.street.text(),
            postcode=self.postcode.text(),
            city=self.city.text(),
            country=self.country.text(),
            currency=self.currency.value(),
            language=self.language.value(),
            time_zone=self.time_zone.text(),
            page_size=self.page_size.value(),
            proof=say("began this book"),
        )

    def save(self) -> None:
        """Write it all into the book, in one action."""
        entry = self.entry()
        if wrong := check_first_run(entry):
            self.clear_errors()
            self.refuse(FieldRefusal(wrong))
            return
        self.clear_errors()
        work = partial(begin_book, self.desk.book, entry)
        self.desk.change(self, work, partial(self._begun, entry), self._not_begun)

    def _begun(self, entry: FirstRun, done: Done[int]) -> None:
        self._filling = True
        for field in (self.pin, self.pin_again):
            field.edit.clear()
        self._filling = self._touched = False
        self.saved()
        shop = self.desk.shop
        shop.name, shop.currency, shop.language = entry.shop_name, entry.currency, entry.language
        shop.zone = self.desk.book.zone
        name = " ".join(entry.owner.split())
        self.desk.set_staff(StaffNow(done.value, name, frozenset({Mark.OWNER.value})))
        self.desk.facts_changed.emit()
        self.desk.open("counter")

    def _not_begun(self, error: Exception) -> None:
        if isinstance(error, FieldRefusal):
            self.refuse(error)
        else:
            tell(self.trouble, error, self.save)

    def _check(self, name: str, _: str) -> None:
        """While typing: what cannot be right in a field that can be judged before it is finished."""
        field = self.named[name]
        wrong = check_first_run(self.entry()).get(name) if field.edit.text() else None
        field.set_error(say(wrong) if wrong is not None else "")


def _field(widest: float, *, text: str = "", seen: tuple[str, ...] = ()) -> Field:
    """A field that is never wider than its kind of answer, and narrower where large text leaves less room."""
    field = Field("", text=text, seen=seen)
    measure.fix(field, max_width=widest)
    return field


def _own_language() -> str:
    from app.screens.language import current

    codes = [code for code, _ in LANGUAGE.choices]
    return current().language if current().language in codes else LANGUAGE.default


def _zones() -> tuple[str, ...]:
    from zoneinfo import available_timezones

    return tuple(sorted(available_timezones()))
