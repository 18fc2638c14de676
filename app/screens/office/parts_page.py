"""Parts in stock: what is on hand, which fall short, and former ones on wish."""

from __future__ import annotations

from typing import Any

from app.screens.kit.cells import Column, Figure, Group, Leave, Row, Words
from app.screens.language import current, number, say
from app.screens.office.list_page import ListPage
from app.trade.money import decimals
from app.trade.office.amounts import shown
from app.trade.office.invoice import unit_words
from app.trade.office.vat import percent
from app.trade.sentence import Sentence
from app.work.office.parts import PartLine, parts


class PartsPage(ListPage):
    """Registered as ``parts``. Enter opens a part, with its moves."""

    help_topic = "parts"
    record = "part"
    words = Sentence("Parts in stock")
    add_words = Sentence("Add a part")
    empty_words = (
        Sentence("Parts that the shop keeps stand here, by the code on their drawer"),
        Sentence("What is used on a job is taken off the stock and charged at the price of that day."),
    )
    leaving = (Leave("safety"), Leave("vat"), Leave("supplier"), Leave("unit"), Leave("price"))
    kinds = frozenset({"parts", "part_moves", "part_orders", "settings"})

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("code", say("Code"), 110),
            Column("words", say("Part"), 0, least=170),
            Column(
                "safety",
                say("Must carry"),
                150,
                tip=say("The approval that a part for this place must carry"),
            ),
            Column("bin", say("Bin"), 76),
            Column("supplier", say("Supplier"), 170),
            Column("hand", say("On hand"), 92, number=True),
            Column("unit", "", 64),
            Column("coming", say("On order"), 84, number=True, tip=say("Ordered and not here yet")),
            Column("price", say("Price, without VAT"), 150, number=True),
            Column("vat", say("VAT"), 80, number=True),
        )

    def fetch(self) -> Any:
        return parts(self.desk.book, retired=self.former)

    def rows(self, found: Any) -> list[Row | Group]:
        return [_row(line, self.desk.shop.currency) for line in found]

    def below(self, found: Any) -> str:
        short = sum(line.on_hand < 0 for line in found)
        if not short:
            return ""
        return (
            say("Of 1 part more was used than there was: count it.")
            if short == 1
            else say("Of {n} parts more was used than there was: count them.", n=short)
        )


def _row(line: PartLine, currency: str) -> Row:
    short = line.on_hand < 0
    return Row(
        line.id,
        (
            Words(line.code, strong=not line.retired, before="caution" if short else ""),
            Words(line.words, say("no longer kept") if line.retired else line.rating, tip=line.words),
            Words(line.safety_type or (say("protects people") if line.safety_critical else ""), soft=True),
            Words(line.bin),
            Words(line.supplier, soft=True),
            Figure(number(line.on_hand), strong=True, soft=not line.on_hand, ink="caution" if short else ""),
            Words(say(unit_words(line.unit, line.on_hand)), soft=True),
            Figure(number(line.on_order), soft=True) if line.on_order else None,
            Figure(number(shown(line.price, decimals(currency)), grouped=True), currency),
            Figure(current().number(percent(line.vat_rate).value), "%", soft=True),
        ),
    )
