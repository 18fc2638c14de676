"""One part: what it is and costs, where it comes from, its stock and every move."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import current, number, say
from app.screens.office.charge_forms import read
from app.screens.office.invoice_lines import rate_words
from app.screens.office.link_line import inset
from app.screens.office.part_stock import MOST_MOVES, PartStock
from app.screens.office.record_page import RecordPage
from app.screens.office.setting_editors import whole
from app.trade.money import decimals
from app.trade.office.amounts import parse_price, shown
from app.trade.office.invoice import UNITS
from app.trade.office.vat import VatCategory, VatRate, percent
from app.trade.sentence import Sentence
from app.trade.settings import SERVICE_LEVELS, VAT_RATES
from app.work.office.former_lines import FormerLine, former_parts
from app.work.office.part_orders import part_orders
from app.work.office.parts import PartEntry, PartLine, parts, save_part, suppliers
from app.work.office.reorder_list import reorder_list
from app.work.office.settings import shop_settings
from app.work.office.stock import part_moves

PIECE = "H87"  # what parts are counted by; another is offered only where a part has it already


class PartPage(RecordPage):
    """Registered as ``part``; its key is the id."""

    help_topic = "parts"
    kind = "part"
    new_words = Sentence("A new part")
    save_words = Sentence("Save the part")

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self._rates: tuple[VatRate, ...] = ()
        self.stock = PartStock(desk, self.trouble)  # first in the order of keys, as on the page
        self.code = self.add("code", Field("", width=160, hint=say("as on its drawer")))
        self.words = self.add("words", Field("", width=380))
        self.bin = self.add("bin", Field("", width=110))
        self.unit = self.add("unit", Choice("", _units(PIECE), PIECE))
        self.price = self.add("price", Field("", width=110))
        self.rate = self.add("vat_rate", Combo("", width=170))
        self.cost = self.add("cost", Field("", width=110))
        self.protects = self.add("safety_critical", Tick(say("it protects people")))
        self.rating = self.add("rating", Field("", width=260, hint=say("T 315 mA 250 V, 0.6 W")))
        self.safety = self.add(
            "safety_type", Field("", width=260, hint=say("EN 60127, X2, Y2: empty for most"))
        )
        self.supplier = self.add("supplier", Field("", width=260))
        self.order_code = self.add("order_code", Field("", width=160))
        self.lead = self.add("lead_days", Field("", width=70))
        self.service = self.add("service", Combo("", width=190))
        self.retired = self.add("retired", Tick(say("no longer kept")))
        self._lay(desk)
        # The table of moves sticks out by u, so that its words stand under those of the form.
        self.sheet.removeWidget(self.form)
        self.sheet.set_margins((18, 9, 18, 18))
        self.sheet.add(self.stock)
        self.sheet.addLayout(inset(self.form))
        self.sheet.add(self.stock.moves, self.stock.older)

    def _lay(self, desk: Desk) -> None:
        form = self.form
        form.section(say("What"))
        form.row(say("Code"), self.code, say("Bin"), self.bin)
        form.row(say("What it is"), self.words)
        form.row(say("Rating"), self.rating)
        form.row(say("Must carry"), self.safety, 9, self.protects)
        form.section(say("Money"))
        form.row(say("Sold by"), self.unit)
        form.row(say("Price, without VAT"), self.price, desk.shop.currency, say("VAT"), self.rate)
        form.row(
            say("It costs the shop"), self.cost, say("{currency}, without VAT", currency=desk.shop.currency)
        )
        form.section(say("Ordering"))
        form.row(say("Supplier"), self.supplier, say("its number there"), self.order_code)
        form.row(say("It takes"), self.lead, say("days; empty: as the settings have it"))
        form.row(say("It is there when needed"), self.service)
        form.row("", self.retired)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        """While a move of the stock is written down, saving and leaving mean that form."""
        form = self.stock.place.form
        if form is not None:
            return {"save": form.save, "leave": self.stock.place.close_form}
        if self.key is None:
            return super().commands()
        return {**super().commands(), "order_part": self.stock.order_some}

    def fetch(self) -> Any:
        book = self.desk.book
        rates, names = shop_settings(book)[VAT_RATES], suppliers(book)
        if self.key is None:
            return None, (), None, (), rates, names
        line = next((line for line in parts(book, retired=True) if line.id == self.key), None)
        (again,) = reorder_list(book, every=True, part_id=self.key)
        orders = part_orders(book, part_id=self.key)
        return line, part_moves(book, self.key, most=MOST_MOVES), again, orders, rates, names

    def show_found(self, found: Any) -> Any:
        line, moves, again, orders, self._rates, names = found
        rates = [(rate.rate, rate_words(rate.rate, rate.category)) for rate in self._rates]
        if line is not None and line.vat_rate not in dict(rates):
            rates.append((line.vat_rate, rate_words(line.vat_rate, VatCategory.STANDARD)))
        self.rate.set_options(rates, self.rate.value() if self.rate.value() is not None else rates[0][0])
        self.service.set_options(_services(), self.service.value() or 0)
        self.supplier.set_seen(names)
        self.stock.show_stock(line, moves, again, orders)
        return line

    def former_lines(self) -> Sequence[FormerLine[PartLine]]:
        return former_parts(self.desk.book, self.key)

    def named_title(self, line: PartLine) -> str:
        return f"{line.code}  {line.words}"

    def put(self, line: PartLine) -> None:
        self.code.set_text(line.code)
        self.words.set_text(line.words)
        self.unit.set_options(_units(line.unit), line.unit)
        self.price.set_text(self._price(line.price))
        self.rate.set_value(line.vat_rate)
        self.safety.set_text(line.safety_type)
        self.retired.setChecked(line.retired)
        self.protects.setChecked(line.safety_critical)
        self.rating.set_text(line.rating)
        self.bin.set_text(line.bin)
        self.cost.set_text("" if line.cost is None else self._price(line.cost))
        self.supplier.set_text(line.supplier)
        self.order_code.set_text(line.order_code)
        self.lead.set_text("" if line.lead_days is None else str(line.lead_days))
        self.service.set_value(line.service or 0)

    def entry(self) -> PartEntry:
        currency = self.desk.shop.currency
        return PartEntry(
            code=self.code.text(),
            words=self.words.text(),
            price=read("price", lambda text: parse_price(text, currency), self.price.text()),
            unit=self.unit.value(),
            vat_rate=self.rate.value(),
            safety_type=self.safety.text(),
            retired=self.retired.isChecked(),
            supplier=self.supplier.text(),
            order_code=self.order_code.text(),
            cost=_optional("cost", lambda text: parse_price(text, currency), self.cost),
            bin=self.bin.text(),
            rating=self.rating.text(),
            safety_critical=self.protects.isChecked(),
            lead_days=_optional("lead_days", whole, self.lead),
            service=self.service.value() or None,
        )

    def deed(self, who: int, entry: PartEntry) -> Callable[[], Any]:
        version = self.version if self.key is not None else None
        return partial(save_part, self.desk.book, who, entry, part_id=self.key, version=version)

    def facts(self, line: PartLine | PartEntry) -> Sequence[tuple[str, str]]:
        rate = line.vat_rate or 0
        return (
            (say("Code"), line.code),
            (say("What it is"), line.words),
            (say("Sold by"), say(UNITS[line.unit])),
            (say("Price, without VAT"), self._price(line.price)),
            (say("VAT"), current().value(percent(rate))),
            (say("Must carry"), line.safety_type),
            (say("no longer kept"), say("yes") if line.retired else say("no")),
            (say("Bin"), line.bin),
            (say("Rating"), line.rating),
            (say("it protects people"), say("yes") if line.safety_critical else say("no")),
            (say("It costs the shop"), "" if line.cost is None else self._price(line.cost)),
            (say("Supplier"), line.supplier),
            (say("its number there"), line.order_code),
            (say("It takes"), "" if line.lead_days is None else say("{n} days", n=line.lead_days)),
            (say("It is there when needed"), dict(_services())[line.service or 0]),
        )

    def _price(self, micro: int) -> str:
        return number(shown(micro, decimals(self.desk.shop.currency)))


def _units(*codes: str) -> list[tuple[str, str]]:
    return [(code, say(UNITS[code])) for code in dict.fromkeys((PIECE, *codes))]


def _services() -> list[tuple[int, str]]:
    """What the settings say, or one of the shop's levels; 0 stands for the first."""
    levels = [(level, say("{n} in 100 times", n=level // 100)) for level in SERVICE_LEVELS]
    return [(0, say("as the settings have it")), *levels]


def _optional(name: str, parse: Callable[[str], int], field: Field) -> int | None:
    return read(name, parse, field.text()) if field.text() else None
