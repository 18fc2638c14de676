"""What is written on a transport, put right: its marking and the laser current of its label."""

from __future__ import annotations

from functools import partial

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.desk import Desk
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.part_entries import LASER_LABEL
from app.trade.bench.typed_value import parse_value, read_value, typed_form
from app.trade.sentence import Sentence
from app.work.bench.transport_life import TransportLife
from app.work.bench.transports import change_label


class MarkingForm(InlineForm):
    """Marking and label current, as they are read on the transport itself."""

    def __init__(self, desk: Desk, life: TransportLife) -> None:
        super().__init__(desk, f"transport {life.id} marking", say("Keep this"))
        self.life = life
        self.marking = self.add("marking", Field("", text=life.marking, width=180))
        self.form.row(say("Marking"), self.marking)
        label = typed_form(life.label.value, LASER_LABEL.unit) if life.label is not None else ""
        self.current = self.add("label_current", Field("", text=label, width=110))
        self.form.row(say("Label current"), self.current)

    def changed(self) -> None:
        text = self.current.text()
        read = read_value(text, LASER_LABEL) if text else None
        self.current.set_error("")
        self.current.set_echo("" if read is None or isinstance(read, Sentence) else say(read.echo))

    def deed(self, who: int) -> Deed:
        text = self.current.text()
        current = parse_value(text, LASER_LABEL, "label_current").value if text else None
        return partial(
            change_label,
            self.desk.book,
            who,
            self.life.id,
            self.marking.text(),
            current,
            version=self.life.version,
        )
