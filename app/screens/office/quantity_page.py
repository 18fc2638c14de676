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
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import number, say
from app.screens.office.ladder_names import ladder_offers
from app.screens.office.record_page import RecordPage
from app.screens.office.setting_editors import decimal
from app.trade.bench.units import UNITS
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench.standing import ladder_of
from app.work.office.former_lines import FormerLine, former_quantities
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
    """A quantity as its page shows it: its whole content by key. ``base`` is what ships, None for one of the
    shop's own; ``changed`` says that the shop changed something of it."""

    code: str
    version: int
    content: Mapping[str, Any]
    base: Mapping[str, Any] | None = None
    changed: bool = False
    retired: bool = False


class QuantityPage(RecordPage):
    """Registered as ``quantity``; its key is the code, None for a new one."""

    help_topic = "quantities"
    kind = "quantity"
    new_words = Sentence("A quantity of the shop's own")
    save_words = Sentence("Save the quantity")

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.unlocked = True
        self._ships = Label("", "soft", wrap=True)
        self.change = Button(say("Change it for this shop"), self._unlock, kind="quiet")
        self.take_back = Button(say("Take back what ships"), self._take_back, kind="quiet")
        self.head.set_buttons(self.take_back, self.change)
        self.heading.add(self._ships)
        for hidden in (self._ships, self.change, self.take_back):
            set_shown(hidden, False)
        self.form.section(say("What"))
        self.words = self.add("words", Field("", width=320))
        self.unit = self.add("unit", Combo("", [(unit, unit) for unit in UNITS], "mV", width=110))
        self.decimals = self.add("decimals", Combo("", [(n, str(n)) for n in range(7)], 1, width=66))
        self.form.row(say("Name"), self.words)
        self.form.row(say("Unit"), self.unit, say("decimals"), self.decimals)
        self.low_end = self.add("range.low", Field("", width=100))
        self.high_end = self.add("range", Field("", width=100))
        self.example = self.add("example", Field("", width=100))
        self.form.row(
            say("Typed from"), self.low_end, say("to"), self.high_end, say("for example"), self.example
        )
        told = Label(
            say("Beyond this range a value is taken for a slip; it is no verdict."), "soft", wrap=True
        )
        self.form.row("", told, stretch_last=True)
        self.form.section(say("Where"))
        self.arrangement = self.add(
            "arrangement", Choice("", [(code, say(words)) for code, words in ARRANGEMENTS], BOTH)
        )
        self.needs = self.add("needs", Combo("", ladder_offers(None, say("any")), 0, width=260))
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
        book = self.desk.book
        return None if self.key is None else quantity_line(book, self.key), ladder_of(book)

    def former_lines(self) -> Sequence[FormerLine[QuantityLine]]:
        return [
            FormerLine(one.at, one.by, line_of(one.before), line_of(one.after))
            for one in former_quantities(self.desk.book, self.key)
        ]

    def show_found(self, found: Any) -> Any:
        line, ladder = found
        self.needs.set_options(ladder_offers(ladder, say("any")), self.needs.value())
        return line

    def named_title(self, line: QuantityLine) -> str:
        return say(str(line.content["words"]))

    def put(self, line: QuantityLine) -> None:
        content = line.content
        for name in TEXTS:
            text = str(content.get(name, ""))
            self.named[name].set_text(_shown(text, line.base, name))
        self.unit.set_value(content["unit"])
        self.decimals.set_value(content["decimals"])
        self.low_end.set_text(_number(content["range"][0]))
        self.high_end.set_text(_number(content["range"][1]))
        self.example.set_text(_number(content["example"]))
        self.arrangement.set_value(content.get("arrangement", BOTH))
        self.needs.set_value(content.get("needs", 0))
        self.inside.setChecked(bool(content.get("inside")))
        self.asks_name.setChecked(bool(content.get("asks_name")))
        model = content.get("model", {})
        for field, name in ((self.percent, "percent"), (self.digits, "digits"), (self.step, "step")):
            field.set_text(_number(model.get(name, "")))
        share = content.get("repeatability", {}).get("share", "")
        self.share.set_text(_number(_percent(share)))
        self.retired.setChecked(line.retired)
        self.unlocked = line.base is None or line.changed
        self._fix(line)

    def _unlock(self) -> None:
        """What ships stays beside it and can be taken back."""
        self.unlocked = True
        self._fix(self.line)
        self.form.first()

    def _fix(self, line: QuantityLine) -> None:
        """A shipped one is only read until somebody wants it changed for this shop."""
        fixed = not self.unlocked
        for field in self.named.values():
            if isinstance(field, Field):
                field.set_fixed(fixed)
            else:
                field.setEnabled(not fixed)
        if not fixed and "percent" not in line.content.get("model", {"percent": ""}):
            for name in ("percent", "digits", "step", "share"):
                self.named[name].set_fixed(True)  # counted, worked out or fixed: nothing to type
        self._ships.setText(
            say("Changed by the shop; what ships stays beside it.")
            if line.changed
            else say("This one ships with the program.")
        )
        set_shown(self._ships, line.base is not None)
        set_shown(self.change, fixed)
        set_shown(self.take_back, line.changed)
        for button in (self.save_button, self.empty_button):
            set_shown(button, not fixed)
        set_shown(self.retired, line.base is None)
        self.leave_button.setText(say("Back to the list") if fixed else say("Leave, keep the draft"))

    def entry(self) -> QuantityLine:
        line = self.line
        base = line.base if line is not None else None
        content: dict[str, Any] = {name: _unshown(self.named[name].text(), base, name) for name in TEXTS}
        content |= {
            "unit": self.unit.value(),
            "decimals": self.decimals.value(),
            "range": [_plain("range.low", self.low_end), _plain("range", self.high_end)],
            "example": _plain("example", self.example),
            "arrangement": self.arrangement.value(),
            "needs": self.needs.value(),
            "inside": self.inside.isChecked(),
            "asks_name": self.asks_name.isChecked(),
        }
        if base is None or "percent" in base["model"]:
            content["model"] = {
                name: _plain(name, self.named[name]) for name in ("percent", "digits", "step")
            }
            if base is None or "share" in base["repeatability"]:
                share = (decimal_of("share", self.share) / 100).normalize() + 0
                content["repeatability"] = {"share": format(share, "f")}
        if base is not None:
            content = {key: value for key, value in content.items() if not _same(value, base.get(key))}
        return QuantityLine(self.key or "", self.version, content, base, retired=self.retired.isChecked())

    def deed(self, who: int, entry: QuantityLine) -> Callable[[], Any]:
        return partial(keep_quantity, self.desk.book, who, entry)

    def facts(self, line: QuantityLine) -> Sequence[tuple[str, str]]:
        content = {**(line.base or {}), **line.content}
        model = content.get("model", {})
        arrangement = content.get("arrangement", BOTH)
        return (
            (say("Name"), str(content["words"])),
            (say("Unit"), str(content["unit"])),
            (say("decimals"), str(content["decimals"])),
            (say("Typed from, to"), " – ".join(_number(end) for end in content["range"])),
            (say("for example"), _number(content["example"])),
            (say("Exists on"), say(dict(ARRANGEMENTS)[arrangement])),
            (say("From rung"), str(content.get("needs", 0))),
            (say("read with the case open"), _yes_no(content.get("inside"))),
            (say("several in one player: ask which one"), _yes_no(content.get("asks_name"))),
            (
                say("Accuracy"),
                ", ".join(_number(model.get(name, "")) for name in ("percent", "digits", "step")),
            ),
            (say("Taken anew"), _number(_percent(content.get("repeatability", {}).get("share", "")))),
            (say("Usual"), str(content.get("usual", ""))),
            (say("Read with"), str(content.get("instrument", ""))),
            (say("Too high means"), str(content.get("high", ""))),
            (say("Too low means"), str(content.get("low", ""))),
            (say("Take care"), str(content.get("caution", ""))),
            (say("no longer used"), _yes_no(line.retired)),
        )

    def save(self) -> None:
        if self.unlocked:
            super().save()

    def _take_back(self) -> None:
        """Drop what the shop changed of a shipped one."""
        staff = self.desk.staff
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        plain = QuantityLine(self.line.code, self.version, {}, self.line.base)
        self.desk.change(self, self.deed(staff.id, plain), self._was_saved, self._not_saved)


def quantity_line(book: Book, code: str) -> QuantityLine | None:
    """A quantity by its code, as its page shows it; None where there is none."""
    kept: OwnQuantity | None = own_quantities(book).get(code)
    if kept is not None:
        return line_of(kept)
    base = shipped_content(code)
    return None if base is None else QuantityLine(code, 1, base, base)


def line_of(kept: OwnQuantity) -> QuantityLine:
    """One that the shop keeps as its page shows it."""
    base = shipped_content(kept.code)
    if base is None:
        return QuantityLine(kept.code, kept.version, kept.content, retired=kept.retired)
    return QuantityLine(kept.code, kept.version, {**base, **kept.content}, base, bool(kept.content))


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


def _shown(text: str, base: Mapping[str, Any] | None, name: str) -> str:
    """Words that still read as they ship are shown in the window's language; the shop's own as they stand."""
    return say(text) if text and base is not None and text == base.get(name) else text


def _unshown(text: str, base: Mapping[str, Any] | None, name: str) -> str:
    shipped = str(base.get(name, "")) if base is not None else ""
    return shipped if shipped and text == say(shipped) else text


def _same(value: Any, base: Any) -> bool:
    """Whether a value is what ships: an empty text and one that is not there say the same."""
    return value == base or (not value and not base)


def _plain(name: str, field: Field) -> str:
    return format(decimal_of(name, field), "f")


def _yes_no(value: Any) -> str:
    return say("yes") if value else say("no")


def _number(plain: Any) -> str:
    """A number of a record as people of this language write it; empty for none."""
    return "" if plain == "" else number(Decimal(str(plain)))


def _percent(share: Any) -> str:
    if share in ("", None):
        return ""
    percent = (Decimal(str(share)) * 100).normalize() + 0
    return format(percent, "f")
