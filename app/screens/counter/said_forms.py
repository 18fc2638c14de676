"""What was said with the customer, written down in two keys: a call or message, and a recorded yes or no."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import partial
from typing import Any

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.counter.money_field import MoneyField
from app.screens.counter.words_area import WordsArea
from app.screens.desk import Desk
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.trade.bench.stages import Way
from app.trade.calendar.clock_time import parse_clock
from app.trade.counter.agreements import AgreementEntry, AgreementKind, MessageEntry
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.counter.messages import add_agreement, add_message

TO, FROM = "to", "from"
YES, NO = "yes", "no"


class WhenRow:
    """Day and time at which it was said; both empty: now."""

    def __init__(self, form: InlineForm, desk: Desk) -> None:
        self._desk = desk
        self.day = form.add("said_day", DayField(say("Day"), desk.today, width=140))
        self.time = form.add("said_time", Field(say("Time"), hint=say("now"), width=64))
        form.form.row(say("When"), self.day, say("at"), self.time)

    def instant(self) -> datetime | None:
        """When it was said, None for now. Raises FieldRefusal."""
        if self.day.is_wrong:
            raise FieldRefusal(
                {"said_day": Sentence("No day can be read from this. Write 27 Nov, +8 or Fri.")}
            )
        if not self.time.text() and self.day.day() is None:
            return None
        if not self.time.text():
            raise FieldRefusal({"said_time": Sentence("At what time was it said?")})
        try:
            clock = parse_clock(self.time.text())
        except Refusal as refusal:
            raise FieldRefusal({"said_time": refusal.sentence}) from refusal
        day = self.day.day() or self._desk.today()
        return datetime.combine(day, clock, self._desk.shop.zone).astimezone(UTC)


def _way(form: InlineForm) -> Choice:
    ways = [(str(way), say(way.value)) for way in Way]
    choice: Choice = form.add("way", Choice(say("By which way"), ways, str(Way.TELEPHONE)))
    return choice


class MessageForm(InlineForm):
    """One call or message. The text has the focus: type, then Ctrl+Enter."""

    def __init__(self, desk: Desk, job_id: int, key: str) -> None:
        super().__init__(desk, key, say("Keep it"))
        self.job_id = job_id
        self.text = self.add("text", WordsArea(say("What was said"), lines=2))
        self.form.row(say("What was said"), self.text)
        directions = [(TO, say("we to the customer")), (FROM, say("the customer to us"))]
        self.direction = self.add("direction", Choice(say("Who spoke"), directions, TO))
        self.way = _way(self)
        self.form.row(say("Who spoke"), self.direction)
        self.form.row(say("By which way"), self.way)
        self.spoke_with = self.add("spoke_with", Field(say("Spoke with"), hint=say("if not the customer")))
        self.awaits = self.add("awaits", Tick(say("waits for an answer")))
        self.form.row(say("Spoke with"), self.spoke_with, self.awaits)
        self.when = WhenRow(self, desk)

    def entry(self) -> MessageEntry:
        """What stands in the form. Raises FieldRefusal for a time that cannot be read."""
        return MessageEntry(
            text=self.text.text(),
            way=Way(self.way.value() or Way.TELEPHONE),
            to_customer=self.direction.value() != FROM,
            spoke_with=self.spoke_with.text(),
            at=self.when.instant(),
            awaits_answer=self.awaits.isChecked(),
        )

    def deed(self, who: int) -> Deed:
        return partial(add_message, self.desk.book, who, self.job_id, self.entry())


class AgreementForm(InlineForm):
    """The customer's yes or no: to exactly what, by whom, by which way, when.

    ``modifications`` are ids and words of those in the player, to be chosen from; ``customer`` is who is
    proposed to have said it.
    """

    def __init__(
        self,
        desk: Desk,
        job_id: int,
        key: str,
        *,
        customer: str = "",
        modifications: Sequence[tuple[int, str]] = (),
    ) -> None:
        super().__init__(desk, key, say("Record it"))
        self.job_id = job_id
        self.yes = self.add("yes", Choice(say("Answer"), [(YES, say("yes")), (NO, say("no"))], YES))
        kinds = [(str(kind), say(kind.value)) for kind in AgreementKind if modifications or _offered(kind)]
        self.kind = self.add("kind", Choice(say("To what"), kinds, str(AgreementKind.WORK)))
        self.form.row(say("Answer"), self.yes, say("to what"), self.kind)
        self.modification = self.add("modification_id", Combo(say("Which modification"), modifications))
        self._modification_row = self.form.row(say("Which one"), self.modification)
        self.what = self.add("what", WordsArea(say("To exactly what"), lines=2))
        self.form.row(say("Exactly what"), self.what)
        self.amount = self.add("amount", MoneyField(say("Up to"), desk.shop.currency, width=90))
        self._amount_row = self.form.row(
            say("Up to"), self.amount, say("{c}, with VAT", c=desk.shop.currency)
        )
        self.said_by = self.add("said_by", Field(say("Said by"), text=customer))
        self.form.row(say("Said by"), self.said_by)
        self.way = _way(self)
        self.form.row(say("By which way"), self.way)
        self.when = WhenRow(self, desk)
        self.changed()

    def about(self, modification_id: int, what: str = "") -> None:
        """The yes or no is about this modification."""
        self.kind.set_value(str(AgreementKind.MODIFICATION))
        self.modification.set_value(modification_id)
        if what and not self.what.text():
            self.what.set_text(what)
        self.changed()

    def changed(self) -> None:
        kind = self.kind.value()
        self.form.show_rows([self._modification_row], kind == AgreementKind.MODIFICATION)
        self.form.show_rows([self._amount_row], kind != AgreementKind.MODIFICATION)

    def entry(self) -> AgreementEntry:
        """What stands in the form. Raises FieldRefusal for an amount or time that cannot be read."""
        if self.amount.is_wrong:
            self.amount.settle()
            raise FieldRefusal({"amount": Sentence("{why}", {"why": self.amount.error()})})
        kind = AgreementKind(self.kind.value() or AgreementKind.WORK)
        of_modification = kind is AgreementKind.MODIFICATION
        return AgreementEntry(
            kind=kind,
            yes=self.yes.value() != NO,
            what=self.what.text(),
            said_by=self.said_by.text(),
            way=Way(self.way.value() or Way.TELEPHONE),
            amount=None if of_modification else self.amount.amount(),
            modification_id=self.modification.value() if of_modification else None,
            said_at=self.when.instant(),
        )

    def deed(self, who: int) -> Deed:
        return partial(add_agreement, self.desk.book, who, self.job_id, self.entry())

    def first_field(self) -> Any:
        return self.what


def _offered(kind: AgreementKind) -> bool:
    """Without a modification in the player nobody can say yes to one."""
    return kind is not AgreementKind.MODIFICATION
