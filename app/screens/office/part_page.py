"""One part: what it is and costs, its stock received and counted, and every move."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Figure, Leave, Link, Row, Words
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.kit.tick import Tick
from app.screens.language import current, moment, number, say
from app.screens.office.charge_forms import read
from app.screens.office.form_place import FormPlace
from app.screens.office.invoice_lines import rate_words
from app.screens.office.link_line import inset, link_line
from app.screens.office.record_page import RecordPage
from app.screens.office.stock_forms import StockForm
from app.trade.money import decimals
from app.trade.office.amounts import parse_price, shown
from app.trade.office.invoice import UNITS
from app.trade.office.vat import VatCategory, VatRate, percent
from app.trade.sentence import Sentence
from app.trade.settings import VAT_RATES
from app.work.office.parts import PartEntry, PartLine, parts, save_part
from app.work.office.settings import shop_settings
from app.work.office.stock import MoveLine, part_moves

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
        self.code = self.add("code", Field("", width=160, hint=say("as on its drawer")))
        self.words = self.add("words", Field("", width=380))
        self.unit = self.add("unit", Choice("", _units(PIECE), PIECE))
        self.price = self.add("price", Field("", width=110))
        self.rate = self.add("vat_rate", Combo("", width=170))
        self.safety = self.add(
            "safety_type", Field("", width=260, hint=say("EN 60127, X2, Y2: empty for most"))
        )
        self.retired = self.add("retired", Tick(say("no longer kept")))
        self.form.row(say("Code"), self.code)
        self.form.row(say("What it is"), self.words)
        self.form.row(say("Sold by"), self.unit)
        self.form.row(say("Price, without VAT"), self.price, desk.shop.currency, say("VAT"), self.rate)
        self.form.row(say("Must carry"), self.safety)
        self.form.row("", self.retired)
        self._make_stock()

    def _make_stock(self) -> None:
        self._hand = Label("", "strong")
        self.receive = Button(say("Receive some"), partial(self._stock, counted=False), kind="quiet")
        self.count = Button(say("Count them"), partial(self._stock, counted=True), kind="quiet")
        self.place = FormPlace()
        self.place.failed.connect(partial(tell, self.trouble))
        self.moves = SmallTable(say("Moves"), _columns(), leaving=(Leave("note"), Leave("by")))
        self.moves.link_opened.connect(self.desk.open_job)
        self.stock = QWidget()
        part = Column(self.stock, gap=7, margins=(0, 9, 0, 0))
        part.addLayout(inset(self._hand, link_line(self.receive, self.count)))
        part.add(self.place, self.moves)
        # The table of moves sticks out by u, so that its words stand under those of the form.
        self.sheet.removeWidget(self.form)
        self.sheet.set_margins((18, 9, 18, 18))
        self.sheet.addLayout(inset(self.form))
        self.sheet.add(self.stock)
        set_shown(self.stock, False)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        """While the stock is being received or counted, saving and leaving mean that form."""
        form = self.place.form
        if form is not None:
            return {"save": form.save, "leave": self.place.close_form}
        return super().commands()

    # the record

    def fetch(self) -> Any:
        book = self.desk.book
        rates = shop_settings(book)[VAT_RATES]
        if self.key is None:
            return None, (), rates
        lines = parts(book, retired=True)
        return next((line for line in lines if line.id == self.key), None), part_moves(book, self.key), rates

    def show_found(self, found: Any) -> Any:
        line, moves, self._rates = found
        rates = [(rate.rate, rate_words(rate.rate, rate.category)) for rate in self._rates]
        if line is not None and line.vat_rate not in dict(rates):
            rates.append((line.vat_rate, rate_words(line.vat_rate, VatCategory.STANDARD)))
        self.rate.set_options(rates, self.rate.value() if self.rate.value() is not None else rates[0][0])
        self._show_stock(line, moves)
        return line

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
        )

    def _price(self, micro: int) -> str:
        return number(shown(micro, decimals(self.desk.shop.currency)))

    # the stock

    def _show_stock(self, line: PartLine | None, moves: Sequence[MoveLine]) -> None:
        set_shown(self.stock, line is not None)
        if line is None:
            return
        self._hand.setText(say("On hand: {count}", count=number(line.on_hand)))
        self.moves.set_rows([_move_row(move) for move in moves])
        set_shown(self.moves, bool(moves))

    def _stock(self, *, counted: bool) -> None:
        if self.key is not None:
            form = StockForm(self.desk, self.key, counted=counted)
            self.place.open(form, self.count if counted else self.receive)


def _units(*codes: str) -> list[tuple[str, str]]:
    return [(code, say(UNITS[code])) for code in dict.fromkeys((PIECE, *codes))]


def _columns() -> tuple[TableColumn, ...]:
    return (
        TableColumn("when", say("When"), 170),
        TableColumn("kind", say("Move"), 110),
        TableColumn("quantity", say("How many"), 90, number=True),
        TableColumn("after", say("Then on hand"), 120, number=True),
        TableColumn("job", say("Job"), 80),
        TableColumn("by", say("By"), 150),
        TableColumn("note", say("Note"), 0, least=80),
    )


def _move_row(move: MoveLine) -> Row:
    return Row(
        move.id,
        (
            Words(moment(move.at)),
            Words(say(move.kind.value)),
            Figure(number(move.quantity, signed=True)),
            Figure(number(move.after), strong=True),
            Link(str(move.job), move.job_id) if move.job is not None else None,
            Words(move.by, soft=True),
            Words(move.note, soft=True),
        ),
    )
