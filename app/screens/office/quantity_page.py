"""One quantity: a shipped one to be read, one of the shop's own to be changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.screens.office.record_page import RecordPage
from app.screens.office.setting_editors import decimal
from app.screens.office.transport_types_page import rung_names
from app.trade.bench.units import UNITS
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.office.quantity_list import (
    OwnQuantity,
    code_for,
    own_quantities,
    save_quantity,
    shipped_content,
)
from app.work.shop_book import Book, Done

BOTH = "B"
ARRANGEMENTS = ((BOTH, Sentence("both")), ("S", Sentence("swing arm only")), ("T", Sentence("sled only")))
TEXTS = ("words", "usual", "instrument", "high", "low", "caution")


@dataclass(frozen=True)
class QuantityLine:
    """A quantity as its page shows it: its content by key, and whether it may be changed here."""

    code: str
    version: int
    content: Mapping[str, Any]
    own: bool
    retired: bool = False


class QuantityPage(RecordPage):
    """Registered as ``quantity``; its key is the code, None for a new one."""

    help_topic = "quantities"
    kind = "quantity"
    new_words = Sentence("A quantity of the shop's own")
    save_words = Sentence("Save the quantity")

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self._ships = Label(
            say("This one ships with the program. It can be read here; limits for it are the shop's own."),
            "soft",
        )
        self.heading.add(self._ships)
        set_shown(self._ships, False)
        self.form.section(say("What"))
        self.words = self.add("words", Field("", width=320))
        self.unit = self.add("unit", Combo("", [(unit, unit) for unit in UNITS], "mV", width=110))
        self.decimals = self.add("decimals", Combo("", [(n, str(n)) for n in range(7)], 1, width=66))
        self.form.row(say("Name"), self.words)
        self.form.row(say("Unit"), self.unit, say("decimals"), self.decimals)
        self.low = self.add("range.low", Field("", width=100))
        self.high = self.add("range", Field("", width=100))
        self.example = self.add("example", Field("", width=100))
        self.form.row(say("Typed from"), self.low, say("to"), self.high, say("for example"), self.example)
        told = Label(
            say("Beyond this range a value is taken for a slip; it is no verdict."), "soft", wrap=True
        )
        self.form.row("", told, stretch_last=True)
        self.form.section(say("Where"))
        self.arrangement = self.add(
            "arrangement", Choice("", [(code, say(words)) for code, words in ARRANGEMENTS], BOTH)
        )
        rungs = [(0, say("any"))] + [(n, f"{n} {name}") for n, name in enumerate(rung_names(), start=1)]
        self.needs = self.add("needs", Combo("", rungs, 0, width=260))
        self.inside = self.add("inside", Tick(say("read with the case open")))
        self.asks_name = self.add("asks_name", Tick(say("several in one player: ask which one")))
        self.form.row(say("Exists on"), self.arrangement)
        self.form.row(say("From rung"), self.needs)
        self.form.row("", self.inside, self.asks_name)
        self.form.section(say("How well"))
        self.percent = self.add("percent", Field("", text="1", width=80))
        self.digits = self.add("digits", Field("", text="1", width=80))
        self.step = self.add("step", Field("", width=80))
        self.share = self.add("share", Field("", text="2", width=80))
        self.form.row(
            say("Accuracy"), self.percent, say("% of reading and"), self.digits, say("digits of"), self.step
        )
        self.form.row(say("Taken anew"), self.share, say("% apart"))
        self.form.section(say("In words"))
        for name, label in (
            ("usual", say("Usual")),
            ("instrument", say("Read with")),
            ("high", say("Too high means")),
            ("low", say("Too low means")),
            ("caution", say("Take care")),
        ):
            self.form.row(label, self.add(name, Field("")))
        self.retired = self.add("retired", Tick(say("no longer used")))
        self.form.row("", self.retired)

    def fetch(self) -> Any:
        return None if self.key is None else quantity_line(self.desk.book, self.key)

    def named_title(self, line: QuantityLine) -> str:
        return say(str(line.content["words"]))

    def put(self, line: QuantityLine) -> None:
        content = line.content
        for name in TEXTS:
            text = str(content.get(name, ""))
            self.named[name].set_text(say(text) if text and not line.own else text)
        self.unit.set_value(content["unit"])
        self.decimals.set_value(content["decimals"])
        self.low.set_text(str(content["range"][0]))
        self.high.set_text(str(content["range"][1]))
        self.example.set_text(str(content["example"]))
        self.arrangement.set_value(content.get("arrangement", BOTH))
        self.needs.set_value(content.get("needs", 0))
        self.inside.setChecked(bool(content.get("inside")))
        self.asks_name.setChecked(bool(content.get("asks_name")))
        model = content.get("model", {})
        for field, name in ((self.percent, "percent"), (self.digits, "digits"), (self.step, "step")):
            field.set_text(str(model.get(name, "")))
        share = content.get("repeatability", {}).get("share", "")
        self.share.set_text(_percent(share))
        self.retired.setChecked(line.retired)
        self._fix(not line.own)

    def _fix(self, fixed: bool) -> None:
        """A shipped one is only read."""
        for field in self.named.values():
            if isinstance(field, Field):
                field.set_fixed(fixed)
            else:
                field.setEnabled(not fixed)
        set_shown(self._ships, fixed)
        for button in (self.save_button, self.empty_button):
            set_shown(button, not fixed)
        set_shown(self.retired, not fixed)
        self.leave_button.setText(say("Back to the list") if fixed else say("Leave, keep the draft"))

    def entry(self) -> QuantityLine:
        texts = {name: self.named[name].text() for name in TEXTS}
        content = {
            **texts,
            "unit": self.unit.value(),
            "decimals": self.decimals.value(),
            "range": [_plain("range.low", self.low), _plain("range", self.high)],
            "example": _plain("example", self.example),
            "arrangement": self.arrangement.value(),
            "needs": self.needs.value(),
            "inside": self.inside.isChecked(),
            "asks_name": self.asks_name.isChecked(),
            "model": {name: _plain(name, self.named[name]) for name in ("percent", "digits", "step")},
            "repeatability": {"share": str((decimal_of("share", self.share) / 100).normalize() + 0)},
        }
        return QuantityLine(self.key or "", self.version, content, True, self.retired.isChecked())

    def deed(self, who: int, entry: QuantityLine) -> Callable[[], Any]:
        return partial(keep_quantity, self.desk.book, who, entry)

    def facts(self, line: QuantityLine) -> Sequence[tuple[str, str]]:
        content = line.content
        model = content.get("model", {})
        return (
            (say("Name"), str(content["words"])),
            (say("Unit"), str(content["unit"])),
            (say("Typed from, to"), " – ".join(content["range"])),
            (say("for example"), str(content["example"])),
            (say("Exists on"), str(content.get("arrangement", BOTH))),
            (say("From rung"), str(content.get("needs", 0))),
            (say("Accuracy"), ", ".join(str(model.get(name, "")) for name in ("percent", "digits", "step"))),
            (say("Usual"), str(content.get("usual", ""))),
            (say("Take care"), str(content.get("caution", ""))),
            (say("no longer used"), say("yes") if line.retired else say("no")),
        )

    def save(self) -> None:
        if not self.save_button.isHidden():
            super().save()


def quantity_line(book: Book, code: str) -> QuantityLine | None:
    """A quantity by its code, as its page shows it."""
    kept: OwnQuantity | None = own_quantities(book).get(code)
    if kept is not None and not kept.shipped:
        return QuantityLine(code, kept.version, kept.content, True, kept.retired)
    content = shipped_content(code)
    if content is None:
        return None
    return QuantityLine(code, 1, {**content, **(kept.content if kept is not None else {})}, False)


def keep_quantity(book: Book, who: int, line: QuantityLine) -> Done[str]:
    """Save one of the shop's own; a new one gets its code from its words."""
    code = line.code or code_for(book, str(line.content["words"]))
    version = line.version if line.code else None
    return save_quantity(book, who, code, line.content, version=version, retired=line.retired)


def decimal_of(name: str, field: Field) -> Decimal:
    """The number in a field. Raises FieldRefusal under ``name``."""
    text = field.text()
    sign = -1 if text[:1] in ("-", "\u2212") else 1
    try:
        return sign * decimal(text.lstrip("-\u2212").strip())
    except Refusal as refusal:
        raise FieldRefusal({name: refusal.sentence}) from refusal


def _plain(name: str, field: Field) -> str:
    return str(decimal_of(name, field))


def _percent(share: Any) -> str:
    if share in ("", None):
        return ""
    percent = (Decimal(str(share)) * 100).normalize() + 0
    return format(percent, "f")
