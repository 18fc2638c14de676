"""The options of an estimate: one in sight at a time, its words, its lines, and what can be done with them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.text_lines import TextLines
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.label import Label
from app.screens.language import day, money, say
from app.screens.office.estimate_forms import HeadForm, LineForm, OptionForm
from app.screens.office.estimate_lines import option_rows, option_sums, option_table, option_words
from app.screens.office.form_place import FormPlace
from app.screens.office.invoice_lines import SumsView
from app.screens.office.link_line import inset, link_line
from app.trade.office.estimate import MOST_OPTIONS
from app.trade.office.invoice import LineKind
from app.work.office.estimate_view import EstimateNow, EstimateView, OptionView
from app.work.office.estimates import take_out_line, take_out_option

LINE_KINDS = (LineKind.LABOUR, LineKind.PART, LineKind.FIXED_CHARGE, LineKind.TEXT)


class OptionsPart(QWidget):
    """`asked` brings a deed of app.work that needs no form, with who does it left open."""

    asked = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.view: EstimateView | None = None
        self.now: EstimateNow | None = None
        self._chosen = 0  # place of the option in sight
        self._intro = Label("", wrap=True)
        self._until = Label("", "soft", wrap=True)
        self.head_link = Button(say("Write what was seen and tried"), self.write_head, kind="quiet")
        self._choosing = QWidget()
        self._choosing_column = Column(self._choosing)
        self.choice: Choice | None = None
        self.words = TextLines(say("Words of the option"), left=150)
        self._limit = Label("", "soft", wrap=True)
        self.words_link = Button(say("Write its words"), self.write_words, kind="quiet")
        self.new_link = Button(say("Add an option"), self.add_option, kind="quiet")
        self._out_link = Button(say("Take this option out"), self.take_option_out, kind="quiet")
        self._option_links = link_line(self.words_link, self.new_link, self._out_link)
        self.table = option_table()
        self.table.opened.connect(self.change_line)
        self.table.marked.connect(lambda _: self._show_links())
        self._nothing = Label(say("No line stands in this option yet."), "soft", wrap=True)
        self.time_link = Button(
            say("Add working time"), partial(self.add_line, LineKind.LABOUR), kind="quiet", key="Ctrl+Shift+W"
        )
        self._change_link = Button(say("Change the marked line"), self.change_marked, kind="quiet")
        self._line_out_link = Button(say("Take it out"), self.take_line_out, kind="quiet", key="Ctrl+Del")
        self._line_links = link_line(
            self.time_link,
            Button(
                say("Add a part"), partial(self.add_line, LineKind.PART), kind="quiet", key="Ctrl+Shift+A"
            ),
            Button(say("Add a fixed charge"), partial(self.add_line, LineKind.FIXED_CHARGE), kind="quiet"),
            Button(say("Add a text line"), partial(self.add_line, LineKind.TEXT), kind="quiet"),
            self._change_link,
            self._line_out_link,
        )
        self.place = FormPlace()
        self.sums = SumsView()
        column = Column(self, gap=9)
        column.addLayout(inset(self._intro, self._until, link_line(self.head_link)))
        column.addLayout(inset(self._choosing))
        column.add(self.words)
        column.addLayout(inset(self._limit, self._option_links))
        column.add(self.table)
        column.addLayout(inset(self._nothing, self._line_links))
        column.add(self.place, self.sums)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    # showing

    def show_view(self, view: EstimateView) -> None:
        """Show the estimate that is being written, else the last that went out."""
        first, self.view, self.now = self.view is None, view, view.now
        now = view.now
        if now is None:
            return
        options = now.options
        if first and now.answers:
            letter = now.answers[-1].letter
            self._chosen = next((at for at, one in enumerate(options) if one.kept.option.letter == letter), 0)
        self._chosen = min(self._chosen, max(len(options) - 1, 0))
        self._intro.setText(now.intro)
        set_shown(self._intro, bool(now.intro))
        self._until.setText(self._standing(now))
        set_shown(self.head_link, self.writes)
        self._make_choice(options)
        self._show_option()
        if first and self.writes:
            self._take_draft()

    @property
    def writes(self) -> bool:
        """Whether what is in sight can be changed."""
        return self.view is not None and self.view.changes and self.now is not None and not self.now.issued

    @property
    def option(self) -> OptionView | None:
        """The option in sight."""
        return self.now.options[self._chosen] if self.now is not None and self.now.options else None

    def _standing(self, now: EstimateNow) -> str:
        until = day(now.valid_until, "d MMMM y")
        return (
            say("It was open until {day}.", day=until) if now.expired else say("Open until {day}.", day=until)
        )

    def _make_choice(self, options: tuple[OptionView, ...]) -> None:
        named = [
            (at, f"{_letter(one, len(options))}{one.kept.option.entry.title}  {money(one.totals.due)}")
            for at, one in enumerate(options)
        ]
        if self.choice is not None:
            self._choosing_column.removeWidget(self.choice)
            self.choice.hide()
            self.choice.deleteLater()
        self.choice = Choice(say("Option"), named, self._chosen) if named else None
        if self.choice is not None:
            self.choice.changed.connect(self._choose)
            self._choosing_column.addWidget(self.choice)
            self.choice.show()
        set_shown(self._choosing, bool(named))

    def _choose(self, at: Any) -> None:
        if at is not None and at != self._chosen:
            self.place.close_form(focus=False)
            self._chosen = at
            self._show_option()

    def _show_option(self) -> None:
        option = self.option
        if option is None:
            self.words.set_lines([])
            self.table.set_rows([])
            self.sums.set_sums([])
        else:
            self.words.set_lines(option_words(option.kept.option.entry))
            self.table.set_rows(option_rows(option))
            self.sums.set_sums(option_sums(option.totals, option.ceiling))
        self._limit.setText("" if option is None or option.limit is None else say(option.limit))
        set_shown(self._limit, option is not None and option.limit is not None)
        set_shown(self.words, option is not None)
        there = option is not None and bool(option.kept.lines)
        set_shown(self.table, there)
        set_shown(self._nothing, option is not None and not there)
        set_shown(self.sums, there)
        self._show_links()

    def _show_links(self) -> None:
        writes, option = self.writes, self.option
        set_shown(self._option_links, writes)
        set_shown(self.words_link, option is not None)
        set_shown(self._out_link, self.now is not None and len(self.now.options) > 1)
        set_shown(self.new_link, self.now is not None and len(self.now.options) < MOST_OPTIONS)
        set_shown(self._line_links, writes and option is not None)
        marked = self.table.marked_key() is not None
        set_shown(self._change_link, marked)
        set_shown(self._line_out_link, marked)

    # forms

    def write_head(self, *, focus: bool = True) -> None:
        """Open what stands above the options."""
        if self.writes and self.view is not None and self.now is not None:
            self.place.open(HeadForm(self._desk, self.view.job_id, self.now), self.head_link, focus=focus)

    def write_words(self, *, focus: bool = True) -> None:
        """Open the words of the option in sight."""
        if self.writes and self.view is not None and self.now is not None and self.option is not None:
            form = OptionForm(self._desk, self.view, self.now.id, self.option.kept)
            self.place.open(form, self.words_link, focus=focus)

    def add_option(self, *, focus: bool = True) -> None:
        """Open the words of a further option; saved it comes into sight."""
        if self.writes and self.view is not None and self.now is not None:
            like = self.option.kept if self.option is not None else None
            form = OptionForm(self._desk, self.view, self.now.id, None, like=like)
            self.place.open(form, self.new_link, after=self._show_newest, focus=focus)

    def add_line(self, kind: LineKind, *, focus: bool = True) -> None:
        """Open the form of a line."""
        if self.writes and self.view is not None and self.option is not None:
            form = LineForm(self._desk, self.view, self.option.kept.id, kind)
            self.place.open(form, self.time_link, focus=focus)

    def change_marked(self) -> None:
        """Open the marked line."""
        self.change_line(self.table.marked_key())

    def change_line(self, line_id: Any) -> None:
        """Open a line of the table."""
        kept = (
            next((one for one in self.option.kept.lines if one.id == line_id), None) if self.option else None
        )
        if kept is not None and self.writes and self.view is not None and self.option is not None:
            form = LineForm(self._desk, self.view, self.option.kept.id, kept.line.kind, kept)
            self.place.open(form, self.table)

    def take_line_out(self) -> None:
        """Take the marked line out."""
        line = self.table.marked_key()
        if self.writes and line is not None:
            self.asked.emit(lambda book, who: partial(take_out_line, book, who, line))

    def take_option_out(self) -> None:
        """Take the option in sight out."""
        if self.writes and self.option is not None:
            option = self.option.kept.id
            self.asked.emit(lambda book, who: partial(take_out_option, book, who, option))

    def _show_newest(self, _: Any) -> None:
        self._chosen = MOST_OPTIONS  # the last one there is, once the answer comes

    def _take_draft(self) -> None:
        """What was half typed before stands open again."""
        view, option = self.view, self.option
        if view is None:
            return
        kept, job = self._desk.drafts.read, f"estimate {view.job_id}"
        opening: list[tuple[str, Callable[[], None]]] = [
            (f"{job} head", partial(self.write_head, focus=False)),
            (f"{job} option new", partial(self.add_option, focus=False)),
        ]
        if option is not None:
            opening.append((f"{job} option {option.kept.id}", partial(self.write_words, focus=False)))
            opening += [
                (f"{job} {kind.value} {option.kept.id}", partial(self.add_line, kind, focus=False))
                for kind in LINE_KINDS
            ]
        for key, opens in opening:
            if kept(key):
                opens()
                return


def _letter(option: OptionView, count: int) -> str:
    """The letter in front of a title; a single way needs none."""
    return f"{option.kept.option.letter}  " if count > 1 else ""
