"""The editor of the safety standard: its name and edition, and the limits as the shop copied them in."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.fields import Field
from app.screens.kit.form import Form
from app.screens.kit.label import Label
from app.screens.language import current, say
from app.screens.office.setting_editors import Editor, decimal
from app.trade.bench.safety_limits import PROPOSED, CordRule, SafetyLimits
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence

# Name of the figure, its words, the unit shown, and the power of ten from it to the SI unit.
FIGURES = (
    ("insulation_class_i", Sentence("Insulation, class I, at least"), "M\u03a9", 6),
    ("insulation_class_ii", Sentence("Insulation, class II, at least"), "M\u03a9", 6),
    ("protective_conductor_current", Sentence("Protective conductor current, at most"), "mA", -3),
    ("touch_current", Sentence("Touch current, at most"), "mA", -3),
)
CORD = (
    ("base_ohm", "\u03a9"),
    ("base_metres", "m"),
    ("more_ohm", "\u03a9"),
    ("more_metres", "m"),
    ("most_ohm", "\u03a9"),
)


class SafetyEditor(Editor):
    """Every figure may stay empty: what was not entered lets no test pass."""

    def __init__(self) -> None:
        self._box = QWidget()
        super().__init__(self._box)
        self.fields: dict[str, Field] = {}
        self._form = Form(sections=False, label_width=250)
        self._line("standard", say("Standard"), 190, "EN 50678")
        self._line("edition", say("Edition"), 110, "2020")
        cord = [self._field(name, 66) for name, _ in CORD]
        self._form.row(
            say("Protective conductor, at most"), cord[0], say("Ω up to"), cord[1], say("m of cord, then")
        )
        self._form.row("", cord[2], say("Ω more for each further"), cord[3], say("m begun,"))
        self._form.row("", say("never above"), cord[4], "Ω")
        for name, words, unit, _ in FIGURES:
            self._form.row(say(words), self._field(name, 90), unit)
        self.propose = Button(say("Take the figures proposed"), self._propose, kind="quiet")
        told = Label(
            say("Usual figures from secondary texts, to be compared with your own edition of the standard."),
            "soft",
            wrap=True,
        )
        row = Row(gap=14)
        row.addWidget(self.propose, 0, Qt.AlignmentFlag.AlignTop)
        row.add(told, stretch=1)
        column = Column(self._box, gap=9)
        column.add(self._form)
        column.addLayout(row)
        self.setFocusProxy(self.fields["standard"])
        self._box.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        for (name, _), said in zip(CORD, _cord_names(), strict=True):
            self.fields[name].set_name(said)

    def set_name(self, name: str) -> None:
        self.setAccessibleName(name)

    def set_fixed(self, fixed: bool) -> None:
        for field in self.fields.values():
            field.set_fixed(fixed)
        self.propose.setVisible(not fixed)

    def value(self) -> Any:
        figures = {name: self._read(name, power) for name, _, _, power in FIGURES}
        return SafetyLimits(
            standard=self.fields["standard"].text(),
            edition=self.fields["edition"].text(),
            protective_conductor=self._cord(),
            **figures,
        )

    def set_value(self, value: Any) -> None:
        self.fields["standard"].set_text(value.standard)
        self.fields["edition"].set_text(value.edition)
        self._put_figures(value)

    def draft(self) -> Any:
        return {name: field.text() for name, field in self.fields.items()}

    def put_draft(self, plain: Any) -> None:
        for name, text in plain.items():
            if name in self.fields:
                self.fields[name].set_text(str(text))

    def _line(self, name: str, words: str, width: float, hint: str) -> None:
        self.fields[name] = Field("", width=width, hint=hint)
        self.fields[name].changed.connect(lambda _: self.changed.emit())
        self._form.row(words, self.fields[name])

    def _field(self, name: str, width: float) -> Field:
        self.fields[name] = Field("", width=width)
        self.fields[name].changed.connect(lambda _: self.changed.emit())
        return self.fields[name]

    def _propose(self) -> None:
        self._put_figures(PROPOSED)
        first = self.fields["standard"]
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def _put_figures(self, limits: SafetyLimits) -> None:
        cord = limits.protective_conductor
        for name, _ in CORD:
            self.fields[name].set_text("" if cord is None else _written(getattr(cord, name)))
        for name, _, _, power in FIGURES:
            figure = getattr(limits, name)
            self.fields[name].set_text("" if figure is None else _written(figure.scaleb(-power)))

    def _read(self, name: str, power: int) -> Decimal | None:
        text = self.fields[name].text()
        return decimal(text).scaleb(power) if text else None

    def _cord(self) -> CordRule | None:
        texts = [self.fields[name].text() for name, _ in CORD]
        if not any(texts):
            return None
        if not all(texts):
            raise Refusal(Sentence("Enter all five figures of the protective conductor, or none."))
        try:
            return CordRule(*(decimal(text) for text in texts))
        except FieldRefusal as refusal:
            raise Refusal(refusal.sentence) from refusal


def _written(figure: Decimal) -> str:
    plain = figure.normalize()
    return current().number(plain.quantize(Decimal(1)) if plain == plain.to_integral() else plain)


def _cord_names() -> tuple[str, ...]:
    return (
        say("Protective conductor, limit in ohm"),
        say("Protective conductor, up to metres of cord"),
        say("Protective conductor, more ohm"),
        say("Protective conductor, for each further metres"),
        say("Protective conductor, never above ohm"),
    )
