"""Matches while a player is taken in: customers by name or number, players by serial, maker and model."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from app.screens.counter.failures import tell
from app.screens.counter.intake_fields import IntakeFields
from app.screens.kit.boxes import Column
from app.screens.kit.fields import Field
from app.screens.kit.matches import Match, MatchesList
from app.screens.language import say
from app.work.counter.known_unit import UnitMatch, match_units
from app.work.people.customers import CustomerMatch, match_customers

if TYPE_CHECKING:
    from app.screens.counter.take_in_page import TakeInPage


class IntakeMatches:
    """Asks the book for every key typed into these fields; ``list`` shows what came, in the margin."""

    def __init__(self, page: TakeInPage, fields: IntakeFields) -> None:
        self._page, self._fields = page, fields
        self._asked: Any = None
        self._quiet = False
        self.list = MatchesList()
        self.holder = QWidget()
        Column(self.holder, margins=(9, 0, 9, 0)).add(self.list)
        for field in (fields.name, fields.phone):
            self.list.attach(field, self._take_customer)
            field.left.connect(partial(self._hint, field, 0))
        for field in (fields.serial, fields.maker, fields.model):
            self.list.attach(field, self._take_unit)
            field.left.connect(partial(self._hint, field, 0))
        fields.name.changed.connect(self._name)
        fields.phone.changed.connect(self._phone)
        fields.serial.changed.connect(self._serial)
        fields.maker.changed.connect(self._player)
        fields.model.changed.connect(self._player)

    def quiet(self, fill: Callable[[], object]) -> None:
        """Fill fields without taking it for typing."""
        self._quiet = True
        try:
            fill()
        finally:
            self._quiet = False

    def clear(self) -> None:
        """Nothing is typed any more."""
        self.cancel()
        self.list.clear()

    def cancel(self) -> None:
        """Drop what is on its way."""
        if self._asked is not None:
            self._asked.cancel()
            self._asked = None

    @property
    def _silent(self) -> bool:
        return self._quiet or self._page._filling

    def _name(self, text: str) -> None:
        if self._silent:
            return
        if self._fields.customer_id is not None:
            self._page.forget_customer()
        self._customers(self._fields.name, name=text)

    def _phone(self, text: str) -> None:
        if not self._silent and self._fields.customer_id is None:
            self._customers(self._fields.phone, phone=text)

    def _customers(self, field: Field, *, name: str = "", phone: str = "") -> None:
        ask = partial(match_customers, self._page.desk.book, name=name, phone=phone)
        self._ask(field, ask, self._show_customers)

    def _serial(self, text: str) -> None:
        if self._silent:
            return
        if self._fields.unit_id is not None:
            self._page.forget_unit()
        self._units(self._fields.serial, serial=text)

    def _player(self, text: str) -> None:
        if not self._silent and self._fields.unit_id is None:
            words = f"{self._fields.maker.text()} {self._fields.model.text()}"
            field = self._fields.model if self._fields.model.edit.hasFocus() else self._fields.maker
            self._units(field, words=words)

    def _units(self, field: Field, *, serial: str = "", words: str = "") -> None:
        customer = self._fields.customer_id
        ask = partial(match_units, self._page.desk.book, serial=serial, words=words, customer_id=customer)
        self._ask(field, ask, self._show_units)

    def _ask(self, field: Field, work: Callable[[], Any], show: Callable[[Field, Any], None]) -> None:
        self.cancel()
        self._asked = self._page.desk.doors.look_up(
            self._page, work, partial(show, field), partial(tell, self._page.trouble)
        )

    def _show_customers(self, field: Field, found: Sequence[CustomerMatch]) -> None:
        by_phone = field is self._fields.phone
        matches = [
            Match(
                c.phone if by_phone else c.name,
                c.name if by_phone else c.phone,
                c.city or _jobs(c.jobs),
                c.id,
            )
            for c in found
        ]
        typed = field.text()
        title = (
            say("Numbers with “{typed}”", typed=typed)
            if by_phone
            else say("Customers with “{typed}”", typed=typed)
        )
        self._show(field, title, matches)

    def _show_units(self, field: Field, found: Sequence[UnitMatch]) -> None:
        by_serial = field is self._fields.serial
        matches = []
        for unit in found:
            name = f"{unit.maker} {unit.model}".strip()
            serial = unit.serial or say("not readable")
            seen = (
                say("last seen {year}", year=str(unit.last_seen.year)) if unit.last_seen is not None else ""
            )
            matches.append(
                Match(
                    serial if by_serial else name, name if by_serial else serial, unit.customer or seen, unit
                )
            )
        typed = field.text()
        title = (
            say("Serial numbers with “{typed}”", typed=typed)
            if by_serial
            else say("Players with “{typed}”", typed=typed)
        )
        self._show(field, title, matches)

    def _show(self, field: Field, title: str, matches: Sequence[Match]) -> None:
        self.list.show_matches(field, title, matches)
        self._hint(field, len(matches))

    def _hint(self, field: Field, count: int) -> None:
        """How to take one, beside the field; the echo of a chosen customer stays."""
        if field is self._fields.name and self._fields.customer_id is not None:
            return
        if not count:
            field.set_echo("")
        elif count == 1:
            field.set_echo(say("1 in the book. Down marks, Enter takes."))
        else:
            field.set_echo(say("{n} in the book. Down marks, Enter takes.", n=count))

    def _take_customer(self, customer_id: int) -> None:
        self.cancel()
        self._page.take_customer(customer_id)

    def _take_unit(self, match: UnitMatch) -> None:
        self.cancel()
        self._page.take_unit(match)


def _jobs(count: int) -> str:
    return say("1 job") if count == 1 else say("{n} jobs", n=count)
