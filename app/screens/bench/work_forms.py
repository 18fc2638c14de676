"""Parts, working time and charges as they are entered on the job."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.donor_field import DonorField
from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.bench.part_field import PartField
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import number, say
from app.trade.money import MICRO
from app.trade.office.amounts import clock, parse_hours, parse_price, parse_quantity
from app.trade.office.invoice import LineKind
from app.trade.office.on_the_bill import rates_offered
from app.trade.office.vat import WORDS, VatCategory, VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import PRICES_WITH_VAT
from app.trade.settings.shop_settings import ShopSettings
from app.work.bench.work_done import record_labour, use_part
from app.work.office.charges import ChargeEntry, add_charge, give_discount
from app.work.office.parts import PartLine, parts
from app.work.office.settings import shop_settings
from app.work.office.stock import Donor, donors

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

DISCOUNT = "discount"


class PartForm(InlineForm):
    """A part of the stock, by code or words, and how many."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Use this part"))
        self.page = page
        self.part = self.add("part", PartField())
        self.form.row(say("Part"), self.part)
        self.about = told()
        self.form.row("", self.about)
        self.quantity = self.add("quantity", Field("", text="1", width=70))
        self.form.row(say("How many"), self.quantity)
        self.note = self.add("note", Field(""))
        self.form.row(say("Note"), self.note)
        self.donor = self.add("donor", DonorField(say("the shelf")))
        self.donor_row = [self.form.row(say("Out of"), self.donor)]
        self.form.show_rows(self.donor_row, False)
        self.desk.doors.look_up(self, partial(parts, self.desk.book), self._show)
        self.desk.doors.look_up(self, partial(donors, self.desk.book), self._show_donors)

    def _show(self, lines: Sequence[PartLine]) -> None:
        self.part.show_parts(lines)
        self.changed()

    def _show_donors(self, found: Sequence[Donor]) -> None:
        """Where players stay as donors, a part may come straight out of one."""
        self.form.show_rows(self.donor_row, self.donor.show_donors(found))

    def changed(self) -> None:
        self.about.setText(self.part.about())

    def deed(self, who: int) -> Deed:
        wrong: dict[str, Sentence] = {}
        line = self.part.chosen()
        if line is None:
            wrong["part"] = Sentence("Choose a part from the list.")
        quantity = Decimal(0)
        try:
            quantity = Decimal(parse_quantity(self.quantity.text())) / MICRO
        except Refusal as refusal:
            wrong["quantity"] = refusal.sentence
        if wrong or line is None:
            raise FieldRefusal(wrong)
        return partial(
            use_part,
            self.desk.book,
            who,
            self.page.job_id,
            line.id,
            quantity,
            note=self.note.text(),
            donor=self.donor.value(),
        )


class LabourForm(InlineForm):
    """What was done, and how long it took: 1:30, 1.5 or 90 min."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Note the time"))
        self.page = page
        self.words_field = self.add("words", Field("", hint=say("fault found, arm bearing cleaned, …")))
        self.form.row(say("What was done"), self.words_field)
        self.hours = self.add("hours", Field("", width=90, hint="1:30"))
        self.charged = self.add("charged", Tick(say("charged"), True))
        self.form.row(say("It took"), self.hours, 8, self.charged)

    def changed(self) -> None:
        self.hours.set_error("")
        try:
            read = parse_hours(self.hours.text()) if self.hours.text() else None
        except Refusal:
            read = None
        self.hours.set_echo("" if read is None else say("read as {time}", time=clock(read)))

    def deed(self, who: int) -> Deed:
        wrong: dict[str, Sentence] = {}
        if not self.words_field.text():
            wrong["words"] = Sentence("Say what was done.")
        hours = Decimal(0)
        try:
            hours = Decimal(parse_hours(self.hours.text())) / MICRO
        except Refusal as refusal:
            wrong["hours"] = refusal.sentence
        if wrong:
            raise FieldRefusal(wrong)
        return partial(
            record_labour,
            self.desk.book,
            who,
            self.page.job_id,
            self.words_field.text(),
            hours,
            charged=self.charged.isChecked(),
        )


class ChargeForm(InlineForm):
    """A fixed charge, a fee, a line of text or a discount."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Put it on the job"))
        self.page = page
        kinds = [
            (LineKind.FIXED_CHARGE.value, say("fixed charge")),
            (LineKind.FEE.value, say("fee")),
            (LineKind.TEXT.value, say("text line")),
            (DISCOUNT, say("discount")),
        ]
        self.kind = self.add("kind", Choice("", kinds, LineKind.FIXED_CHARGE.value))
        self.form.row(say("Kind"), self.kind)
        self.words_field = self.add("words", Field(""))
        self.form.row(say("Words"), self.words_field)
        self.price = self.add("price", Field("", width=110))
        self.vat = self.add("vat", Combo(say("VAT"), (), width=170))
        self._rates: tuple[VatRate, ...] = ()
        self._with_vat = False
        self.price_row = [self.form.row(say("Amount"), self.price, say("VAT"), self.vat)]
        self.desk.doors.look_up(self, partial(shop_settings, self.desk.book), self._show)

    def _show(self, settings: ShopSettings) -> None:
        self._rates = rates_offered(settings)
        self._with_vat = settings[PRICES_WITH_VAT]
        chosen = self.vat.value() or 0
        words = [_rate_words(rate) for rate in self._rates]
        self.vat.set_options(list(enumerate(words)), chosen if chosen < len(words) else 0)
        self.changed()

    def changed(self) -> None:
        text_only = self.kind.value() == LineKind.TEXT.value
        self.form.show_rows(self.price_row, not text_only)
        self.price.set_error("")
        try:
            read = parse_price(self.price.text(), self.desk.shop.currency) if self.price.text() else None
        except Refusal:
            read = None
        net = self.kind.value() == DISCOUNT or not self._with_vat
        way = say("without VAT") if net else say("with VAT")
        echo = (
            ""
            if read is None
            else say(
                "{amount} {currency}, {way}",
                amount=Decimal(read) / MICRO,
                currency=self.desk.shop.currency,
                way=way,
            )
        )
        self.price.set_echo(echo)

    def deed(self, who: int) -> Deed:
        book, job, words = self.desk.book, self.page.job_id, self.words_field.text()
        rate = self._rates[self.vat.value() or 0] if self._rates else None
        if rate is None:
            raise FieldRefusal({"vat": Sentence("No VAT rate is entered in the settings.")})
        kind = self.kind.value()
        if kind == LineKind.TEXT.value:
            return partial(add_charge, book, who, job, ChargeEntry(kind=LineKind.TEXT, words=words, vat=rate))
        try:
            price = parse_price(self.price.text(), self.desk.shop.currency)
        except Refusal as refusal:
            raise FieldRefusal({"price": refusal.sentence}) from refusal
        if kind == DISCOUNT:
            return partial(give_discount, book, who, job, words, price, rate)
        return partial(
            add_charge, book, who, job, ChargeEntry(kind=LineKind(kind), words=words, price=price, vat=rate)
        )


def _rate_words(rate: VatRate) -> str:
    percent = f"{number((Decimal(rate.rate) / 100).normalize() + 0)}\u00a0%"
    return percent if rate.category is VatCategory.STANDARD else f"{percent} {say(WORDS[rate.category])}"
