"""What the book knows of a player, in the margin of the taking-in page."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.job_words import player_words
from app.screens.kit.boxes import Column, Row, set_shown
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Figure, Words
from app.screens.kit.cells import Row as TableRow
from app.screens.kit.fields import Field
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import current, day, say
from app.trade.bench.stages import said
from app.work.counter.known_unit import KnownTransport, KnownUnit, LastReading, Visit

ACCEPT, DENY, UNDO = "accept", "deny", "undo"


class BookKnows(QWidget):
    """`asked` brings ``("job", id)`` to open, or ``accept``, ``deny``, ``undo`` for the comeback it proposes."""

    asked = Signal(object)
    flagged = Signal(object)  # the flags as they stand, for a narrow page

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.known: KnownUnit | None = None
        self.accepted = False
        self.denied = False
        self._title = Label("", "large", wrap=True)
        self.flags = FlagBar(say("What the book knows"), stacked=True)
        self.flags.acted.connect(self.asked)
        self.reason = Field(say("Why it is another fault"), hint=say("why it is another fault"))
        self._reason_line = QWidget()
        Row(self._reason_line).add(Label(say("Because"), "soft"), self.reason)
        self._visits_word = Label("", "strong")
        self.visits = SmallTable(say("Earlier visits"), _visit_columns(), opened=self._open)
        self._finals_word = Label("", "strong", wrap=True)
        self.finals = SmallTable(say("Last final readings"), _final_columns(), header=False)
        self._inside = Label("", "soft", wrap=True)
        column = Column(self, gap=9)
        column.addLayout(_inset(Column(gap=0).add(Label(say("What the book knows"), "soft"), self._title)))
        column.addLayout(_inset(Column(gap=7).add(self.flags, self._reason_line)))
        column.addLayout(_inset(Column().add(self._visits_word)))
        column.add(self.visits)
        column.addLayout(_inset(Column().add(self._finals_word)))
        column.add(self.finals)
        column.addLayout(_inset(Column().add(self._inside)))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.hide()

    def show_known(self, known: KnownUnit | None, *, accepted: bool = False, denied: bool = False) -> None:
        """Show a player, or nothing. ``accepted`` and ``denied`` say what became of its comeback."""
        self.known, self.accepted, self.denied = known, accepted, denied
        set_shown(self, known is not None)
        flags = facts_of(known, accepted=accepted, denied=denied) if known is not None else []
        self.flags.set_flags(flags)
        self.flagged.emit(flags)
        set_shown(self._reason_line, denied)
        if known is None:
            return
        serial = say("serial not readable") if known.serial_unreadable else known.serial
        name = f"{known.maker} {known.model}".strip()
        self._title.setText(
            f"{name}, {serial}" if known.serial_unreadable else player_words(known.maker, known.model, serial)
        )
        earlier = [visit for visit in known.visits if visit.handed_back is not None]
        self._visits_word.setText(
            say("1 earlier visit") if len(earlier) == 1 else say("{n} earlier visits", n=len(earlier))
        )
        self.visits.set_rows([_visit_row(visit) for visit in earlier])
        set_shown(self.visits, bool(earlier))
        set_shown(self._visits_word, bool(earlier))
        self._finals_word.setText(
            say("At its last final test, job {number}", number=str(known.finals_of or ""))
        )
        self.finals.set_rows([_final_row(reading) for reading in known.finals])
        set_shown(self._finals_word, bool(known.finals))
        set_shown(self.finals, bool(known.finals))
        self._inside.setText(_inside_words(known.transport))
        set_shown(self._inside, known.transport is not None)

    def ask_reason(self) -> None:
        """Put the focus where the reason is written."""
        self.reason.setFocus(Qt.FocusReason.OtherFocusReason)

    def _open(self, job_id: Any) -> None:
        self.asked.emit(("job", job_id))


def facts_of(known: KnownUnit, *, accepted: bool, denied: bool) -> list[FlagFacts]:
    """The flags of the margin: in the shop already, the comeback, what stands open, guarantee, transit lock."""
    flags: list[FlagFacts] = []
    if known.in_shop is not None:
        job_id, number = known.in_shop
        flags.append(
            FlagFacts(
                "caution",
                say("In the shop already"),
                say("It stands here as job {number}.", number=str(number)),
                action=say("Open job"),
                target=("job", job_id),
            )
        )
    if known.comeback is not None:
        flags.append(_comeback(known, accepted=accepted, denied=denied))
    for flag in known.flags:
        flags.append(
            FlagFacts(
                flag.level.value,
                say(flag.word),
                say(flag.sentence),
                action=say("Read sheet") if flag.job_id is not None else "",
                target=("job", flag.job_id),
            )
        )
    for sentence in known.guarantees:
        flags.append(FlagFacts("note", say("Guarantee running"), say(sentence)))
    if known.transport is not None and known.transport.has_transit_lock:
        flags.append(FlagFacts("note", say("Transit lock"), say("This transport has one: note its state.")))
    return flags


def _comeback(known: KnownUnit, *, accepted: bool, denied: bool) -> FlagFacts:
    assert known.comeback is not None
    number = str(known.comeback.job)
    if accepted:
        words = say("Taken in as comeback of job {number}.", number=number)
        return FlagFacts("caution", say("Comeback"), words, action=say("Take back"), target=UNDO)
    if denied:
        words = say("No comeback of job {number}.", number=number)
        return FlagFacts("note", say("Another fault"), words, action=say("Take back"), target=UNDO)
    return FlagFacts(
        "caution",
        say("Comeback proposed"),
        say(known.comeback.sentence),
        buttons=((say("Take in as comeback"), ACCEPT), (say("Another fault"), DENY)),
    )


def _inset(inner: Column) -> Column:
    """Words stand under the words of tables, which stick out by u on both sides."""
    inner.set_margins((9, 0, 9, 0))
    return inner


def _visit_columns() -> tuple[TableColumn, ...]:
    return (
        TableColumn("job", say("Job"), 60),
        TableColumn("back", say("Handed back"), 110),
        TableColumn("done", say("What was done"), least=120),
    )


def _visit_row(visit: Visit) -> TableRow:
    back = day(visit.handed_back) if visit.handed_back is not None else ""
    outcome = say(said(visit.outcome)) if visit.outcome is not None else ""
    tip = f"{visit.done} ({outcome})" if outcome else visit.done
    return TableRow(
        visit.job_id, (Words(str(visit.number), strong=True), Words(back), Words(visit.done, tip=tip))
    )


def _final_columns() -> tuple[TableColumn, ...]:
    return (
        TableColumn("name", say("Quantity"), least=120),
        TableColumn("value", say("Value"), 110, number=True),
        TableColumn("verdict", say("Verdict"), 120),
    )


def _final_row(reading: LastReading) -> TableRow:
    value = (
        Figure(current().number(reading.value.value), reading.value.unit)
        if reading.value is not None
        else Words(say("open"))
    )
    verdict = say(said(reading.verdict)) if reading.verdict is not None else ""
    ink = "stop" if reading.verdict is not None and reading.verdict.outside else ""
    return TableRow(None, (Words(say(reading.name), tip=say(reading.name)), value, Words(verdict, ink=ink)))


def _inside_words(transport: KnownTransport | None) -> str:
    if transport is None:
        return ""
    if not transport.marking:
        return say("Inside: {type}.", type=transport.type)
    return say("Inside: {type}, number {number}.", type=transport.type, number=transport.marking)
