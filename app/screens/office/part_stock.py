"""The stock of one part: what is on hand, when it is ordered again, every move, and the forms that make one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.bench.order_form import OrderForm
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Figure, Leave, Link, Row, Words
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.kit.trouble import TroubleBar
from app.screens.language import day, moment, number, say
from app.screens.office.form_place import FormPlace
from app.screens.office.link_line import inset, link_line
from app.screens.office.part_orders import PartOrders
from app.screens.office.reorder_words import why_words
from app.screens.office.stock_forms import StockForm
from app.trade.office.stock import MOVE_WORDS, MoveKind
from app.work.office.part_orders import OrderLine
from app.work.office.parts import PartLine
from app.work.office.reorder_list import ReorderLine
from app.work.office.stock import MoveLine

MOST_MOVES = 200


class PartStock(QWidget):
    """One form stands open at a time; ``key`` is the part's. ``moves`` stands where the page puts it."""

    def __init__(self, desk: Desk, trouble: TroubleBar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self.key = desk, 0
        self._line: PartLine | None = None
        self._hand = Label("", "strong")
        self._why = Label("", "soft", wrap=True)
        self.order = Button(say("Order some"), self.order_some, kind="quiet")
        self.receive = Button(say("Receive some"), self._open_receiving, kind="quiet")
        self.from_donor = Button(say("Take from a donor"), self._opens(MoveKind.FROM_DONOR), kind="quiet")
        self.count = Button(say("Count them"), self._opens(MoveKind.COUNTED), kind="quiet")
        self.send_back = Button(say("Send back"), self._opens(MoveKind.SENT_BACK), kind="quiet")
        self.scrap = Button(say("Scrap some"), self._opens(MoveKind.SCRAPPED), kind="quiet")
        self._buttons = {
            MoveKind.FROM_DONOR: self.from_donor,
            MoveKind.COUNTED: self.count,
            MoveKind.SENT_BACK: self.send_back,
            MoveKind.SCRAPPED: self.scrap,
        }
        self.place = FormPlace()
        self.place.failed.connect(partial(tell, trouble))
        self.orders = PartOrders(desk, self.place)
        self.moves = SmallTable(
            say("Moves"), _columns(), leaving=(Leave("note"), Leave("by"), Leave("player"))
        )
        self.moves.link_opened.connect(self._open)
        column = Column(self, gap=7, margins=(0, 0, 0, 9))
        links = link_line(self.order, self.receive, *self._buttons.values())
        column.addLayout(inset(self._hand, self._why, links))
        column.add(self.place, self.orders)
        self.older = Label(
            say("The newest {n} moves stand here; the export has all.", n=MOST_MOVES), "soft", wrap=True
        )
        for part in (self, self.moves, self.older):
            set_shown(part, False)

    def show_stock(
        self,
        line: PartLine | None,
        moves: Sequence[MoveLine],
        again: ReorderLine | None,
        orders: Sequence[OrderLine],
    ) -> None:
        """What is on hand of an entry that is there; a new one has no stock."""
        set_shown(self, line is not None)
        set_shown(self.moves, bool(moves))
        set_shown(self.older, len(moves) >= MOST_MOVES)
        if line is None:
            return
        self.key, self._line = line.id, line
        self._hand.setText(_there(line))
        self.orders.show_orders(orders, self._desk.today())
        self._why.setText("" if again is None else why_words(again))
        set_shown(self._why, again is not None)
        self.moves.set_rows([_move_row(move) for move in moves])

    def _opens(self, kind: MoveKind) -> Callable[[], None]:
        return lambda: self.place.open(StockForm(self._desk, self.key, kind), self._buttons[kind])

    def order_some(self) -> None:
        """Open the form that writes an order down."""
        assert self._line is not None
        form = OrderForm(self._desk, f"order part {self.key}", part=self._line)
        self.place.open(form, self.order)

    def _open_receiving(self) -> None:
        form = StockForm(self._desk, self.key, MoveKind.RECEIVED, orders=self.orders.open_orders())
        self.place.open(form, self.receive)

    def _open(self, key: tuple[str, int]) -> None:
        kind, row = key
        self._desk.open(kind, row)


def _there(line: PartLine) -> str:
    """What lies there and what is on its way."""
    if not line.on_order or line.expected_on is None:
        return say("On hand: {count}", count=number(line.on_hand))
    return say(
        "On hand: {count}, on order: {more}, expected {day}",
        count=number(line.on_hand),
        more=number(line.on_order),
        day=day(line.expected_on, "d MMM"),
    )


def _columns() -> tuple[TableColumn, ...]:
    return (
        TableColumn("when", say("When"), 170),
        TableColumn("kind", say("Move"), 190),
        TableColumn("quantity", say("How many"), 90, number=True),
        TableColumn("after", say("Then on hand"), 120, number=True),
        TableColumn("job", say("Job"), 70),
        TableColumn("player", say("Player"), 180),
        TableColumn("by", say("By"), 150),
        TableColumn("note", say("Note"), 0, least=80),
    )


def _move_row(move: MoveLine) -> Row:
    return Row(
        move.id,
        (
            Words(moment(move.at)),
            Words(say(MOVE_WORDS[move.kind]), _ordered(move)),
            Figure(number(move.quantity, signed=True)),
            Figure(number(move.after), strong=True),
            Link(str(move.job), ("job", move.job_id)) if move.job is not None else None,
            Link(
                move.player,
                ("unit", move.unit_id),
                say("out of {player}", player=move.out_of) if move.out_of else "",
            )
            if move.player
            else None,
            Words(move.by, soft=True),
            Words(move.note, soft=True, tip=move.note),
        ),
    )


def _ordered(move: MoveLine) -> str:
    return "" if move.ordered_on is None else say("ordered {day}", day=day(move.ordered_on, "d MMM"))
