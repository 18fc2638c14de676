"""Forms of the estimate page: what stands above the options, the words of an option, one line of it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.counter.money_field import MoneyField
from app.screens.counter.words_area import WordsArea
from app.screens.desk import Desk
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import money, number, say
from app.screens.office.charge_forms import rate_options, read
from app.trade.money import Money, decimals
from app.trade.office.amounts import clock, parse_hours, parse_price, parse_quantity, shown
from app.trade.office.estimate import OptionEntry
from app.trade.office.invoice import Line, LineKind, line_net, net_of
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.office.estimate_rows import LineKept, OptionKept
from app.work.office.estimate_view import EstimateNow, EstimateView
from app.work.office.estimates import (
    EstimatedLine,
    add_line,
    add_option,
    change_line,
    change_option,
    set_head,
)
from app.work.office.parts import PartLine, parts

LINE_TITLES = {
    LineKind.LABOUR: Sentence("Add the working time"),
    LineKind.PART: Sentence("Add the part"),
    LineKind.FIXED_CHARGE: Sentence("Add the fixed charge"),
    LineKind.TEXT: Sentence("Add the text line"),
}


class HeadForm(InlineForm):
    """What was seen and tried, and until when the estimate stands."""

    def __init__(self, desk: Desk, job_id: int, now: EstimateNow, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"estimate {job_id} head", say("Keep it"), parent=parent)
        self._now = now
        self.intro = self.add(
            "intro",
            WordsArea(
                "",
                hint=say("how far it climbs, which readings are outside, what made no difference"),
                lines=3,
            ),
        )
        self.intro.set_text(now.intro)
        self.form.row(say("Seen and tried"), self.intro)
        self.until = self.add("valid_until", DayField("", desk.today, day=now.valid_until))
        self.form.row(say("Open until"), self.until)

    def deed(self, who: int) -> Deed:
        day = self.until.day()
        if day is None:
            raise FieldRefusal(
                {"valid_until": Sentence("No day can be read from this. Write 27 Nov, +8 or Fri.")}
            )
        return partial(
            set_head,
            self.desk.book,
            who,
            self._now.id,
            intro=self.intro.text(),
            valid_until=day,
            version=self._now.version,
        )


class OptionForm(InlineForm):
    """The words of one way to mend it. A new one can begin with the lines of the option in sight."""

    def __init__(
        self,
        desk: Desk,
        view: EstimateView,
        estimate_id: int,
        kept: OptionKept | None,
        *,
        like: OptionKept | None = None,
        parent: QWidget | None = None,
    ) -> None:
        key = f"estimate {view.job_id} option {'new' if kept is None else kept.id}"
        super().__init__(desk, key, say("Add the option") if kept is None else say("Keep it"), parent=parent)
        self._estimate_id, self._was, self._like = estimate_id, kept, like
        self._currency = view.currency
        self.title = self.add("title", Field("", hint=say("another transport; modified, yours kept")))
        self.form.row(say("In a few words"), self.title)
        self.what = self.add("what", WordsArea("", lines=2))
        self.form.row(say("What we do"), self.what)
        self.design = self.add(
            "design",
            Field("", hint=say("empty: the maker's design is kept; else what, and how it is undone")),
        )
        self.form.row(say("Departs in"), self.design)
        self.risk = self.add("risk", Field("", hint=say("also that it may not help")))
        self.form.row(say("May go wrong"), self.risk)
        self.guarantee = self.add("guarantee", Field(""))
        self.form.row(say("Guarantee"), self.guarantee)
        self.ready = self.add("ready", Field("", hint=say("Friday 27 November; about 3 weeks")))
        self.form.row(say("Ready"), self.ready)
        self.highest = self.add("never_above", MoneyField("", view.currency, width=90))
        self.form.row(
            say("Never above"),
            self.highest,
            say("{c}, with VAT; empty: what the lines come to", c=view.currency),
        )
        self.same: Tick | None = None
        if like is not None:
            letter = like.option.letter
            self.same = self.add(
                "same_lines", Tick(say("begin with the lines of option {letter}", letter=letter), True)
            )
            self.form.row("", self.same)
        if kept is not None:
            self._filling = True  # what the book has is no draft
            self._put(kept.option.entry)
            self._filling = False

    def _put(self, entry: OptionEntry) -> None:
        for name in ("title", "what", "design", "risk", "guarantee", "ready"):
            self.named[name].set_text(getattr(entry, name))
        if entry.never_above is not None:
            self.highest.set_amount(Money(entry.never_above, self._currency))

    def entry(self) -> OptionEntry:
        """What stands in the form. Raises FieldRefusal for an amount that cannot be read."""
        if self.highest.is_wrong:
            self.highest.settle()
            raise FieldRefusal({"never_above": Sentence("{why}", {"why": self.highest.error()})})
        amount = self.highest.amount()
        return OptionEntry(
            title=self.title.text(),
            what=self.what.text(),
            design=self.design.text(),
            risk=self.risk.text(),
            guarantee=self.guarantee.text(),
            ready=self.ready.text(),
            never_above=None if amount is None else amount.minor,
        )

    def deed(self, who: int) -> Deed:
        book, entry = self.desk.book, self.entry()
        if self._was is not None:
            return partial(change_option, book, who, self._was.id, entry, version=self._was.version)
        like = (
            self._like.id
            if self._like is not None and self.same is not None and self.same.isChecked()
            else None
        )
        return partial(add_option, book, who, self._estimate_id, entry, like=like)


class LineForm(InlineForm):
    """One line: working time, a part of the stock or any other, a fixed charge, or text."""

    def __init__(
        self,
        desk: Desk,
        view: EstimateView,
        option_id: int,
        kind: LineKind,
        kept: LineKept | None = None,
        parent: QWidget | None = None,
    ) -> None:
        name = f"line {kept.id}" if kept is not None else f"{kind.value} {option_id}"
        save = say(LINE_TITLES[kind]) if kept is None else say("Keep it")
        super().__init__(desk, f"estimate {view.job_id} {name}", save, parent=parent)
        self._view, self._option_id, self.kind, self._was = view, option_id, kind, kept
        self._parts: dict[str, PartLine] = {}
        hint = {
            LineKind.LABOUR: say("fault found, arm bearing cleaned, …"),
            LineKind.PART: say("code or words of the stock, or any other part"),
            LineKind.FIXED_CHARGE: say("running in, electrical safety test"),
            LineKind.TEXT: say("printed as it stands, charges nothing"),
        }[kind]
        self.what = self.add("words", Field("", hint=hint))
        self.form.row(say("What"), self.what)
        self.quantity: Field | None = None
        self.price: Field | None = None
        self.rate: Combo | None = None
        if kind is not LineKind.TEXT:
            self._make_figures()
        if kind is LineKind.PART:
            desk.doors.look_up(self, partial(parts, desk.book), self._show_parts)
        if kept is not None:
            self._filling = True  # what the book has is no draft
            self._put(kept.line)
            self._filling = False
        self.changed()

    def _make_figures(self) -> None:
        view, labour = self._view, self.kind is LineKind.LABOUR
        self.quantity = self.add(
            "quantity",
            Field("", text="" if labour else "1", width=90 if labour else 60, hint="1:30" if labour else ""),
        )
        price_hint = number(shown(view.hourly_rate, decimals(view.currency))) if labour else ""
        self.price = self.add("price", Field("", width=90, hint=price_hint))
        self.rate = self.add("vat_rate", Combo("", rate_options(view.rates), 0))
        each = say("Each, with VAT") if view.prices_with_vat else say("Each, without VAT")
        if labour:
            each = say("An hour, with VAT") if view.prices_with_vat else say("An hour, without VAT")
        much = say("How long") if labour else say("How much")
        self.form.row(much, self.quantity, each, self.price, say("VAT"), self.rate)

    def _put(self, line: Line) -> None:
        self.what.set_text(line.words)
        if self.quantity is None or self.price is None or self.rate is None:
            return
        self.quantity.set_text(number(shown(line.quantity)))
        typed = line.price if line.price_with_vat is None else line.price_with_vat
        own = (
            self.kind is LineKind.LABOUR
            and line.price_with_vat is None
            and line.price == self._view.hourly_rate
        )
        if not own:
            self.price.set_text(number(shown(typed, decimals(self._view.currency))))
        at = next(
            (
                i
                for i, r in enumerate(self._view.rates)
                if (r.rate, r.category) == (line.vat_rate, line.category)
            ),
            0,
        )
        self.rate.set_value(at)

    def _show_parts(self, lines: Sequence[PartLine]) -> None:
        self._parts = {}
        for line in lines:
            for words in (line.code, line.words, f"{line.code} {line.words}"):
                self._parts.setdefault(words.casefold(), line)
        self.what.set_seen([f"{line.code} {line.words}" for line in lines] + [line.words for line in lines])
        self.changed()

    def entry(self) -> EstimatedLine:
        """What stands in the form. Raises FieldRefusal for what cannot be read."""
        vat = self._view.rates[0]
        if self.quantity is None or self.price is None or self.rate is None:
            return EstimatedLine(kind=self.kind, words=self.what.text(), vat=vat)
        parse = parse_hours if self.kind is LineKind.LABOUR else parse_quantity
        part = self._parts.get(self.what.text().casefold())
        typed = self.price.text()
        return EstimatedLine(
            kind=self.kind,
            words=self.what.text() if part is None else part.words,
            quantity=read("quantity", parse, self.quantity.text()),
            price=read("price", lambda text: parse_price(text, self._view.currency), typed)
            if typed
            else None,
            part_id=None if part is None else part.id,
            vat=self._view.rates[self.rate.value() or 0],
        )

    def deed(self, who: int) -> Deed:
        book, entry = self.desk.book, self.entry()
        if self._was is not None:
            return partial(change_line, book, who, self._was.id, entry, version=self._was.version)
        return partial(add_line, book, who, self._option_id, entry)

    def changed(self) -> None:
        """Show what it comes to, and how a time was read."""
        if self.quantity is None or self.price is None:
            return
        self.quantity.set_error("")
        self.price.set_error("")
        if self.kind is LineKind.LABOUR:
            self.quantity.set_echo(self._time_read())
        try:
            entry = self.entry()
        except FieldRefusal:
            self.price.set_echo("")
            return
        net = self._net(entry)
        self.price.set_echo("" if net is None else say("comes to {amount} without VAT", amount=money(net)))

    def _time_read(self) -> str:
        assert self.quantity is not None
        try:
            return say("read as {time}", time=clock(parse_hours(self.quantity.text())))
        except Refusal:
            return ""

    def _net(self, entry: EstimatedLine) -> Money | None:
        price = entry.price
        if price is None:
            part = self._parts.get(self.what.text().casefold())
            if part is not None:
                price = part.price
            elif self.kind is LineKind.LABOUR:
                price = self._view.hourly_rate
        elif self._view.prices_with_vat and entry.vat.rate:
            price = net_of(price, entry.vat.rate)
        if price is None:
            return None
        return line_net(
            Line("", self.kind, entry.quantity, "C62", price, entry.vat.rate), self._view.currency
        )
