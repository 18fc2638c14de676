"""One suspect: what may be wrong, and the fault group that it belongs to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.language import say
from app.screens.office.knowledge_record import KnowledgeRecordPage
from app.screens.office.record_words import (
    ARRANGEMENTS,
    said,
    shown,
    typed,
    with_rest,
)
from app.trade.bench.kinds import FaultGroup, KnowledgeKind
from app.trade.sentence import Sentence


class SuspectPage(KnowledgeRecordPage):
    """Registered as ``suspect``."""

    kind = "suspect"
    knowledge = KnowledgeKind.SUSPECT
    new_words = Sentence("A suspect of the shop's own")
    save_words = Sentence("Save the suspect")

    def make_fields(self) -> None:
        self.form.section(say("The suspect"))
        self.words = self.text_row("words", say("What may be wrong"))
        self.short = self.text_row("short", say("In a word or two"))
        groups = [(group.value, say(group.value)) for group in FaultGroup]
        self.group = self.add("group", Combo("", groups, FaultGroup.OTHER.value, width=200))
        self.form.row(say("Fault group"), self.group)
        self.on = self.add("arrangement", Choice("", [(code, say(one)) for code, one in ARRANGEMENTS], "B"))
        self.form.row(say("Exists on"), self.on)

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        self.words.set_text(shown("words", content, base))
        self.short.set_text(shown("short", content, base))
        self.group.set_value(content["group"])
        self.on.set_value(content["arrangement"])

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        record = {
            "words": typed("words", self.words, base),
            "group": self.group.value(),
            "arrangement": self.on.value(),
        }
        return with_rest(record, base, {"short": typed("short", self.short, base)})

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        return (
            (say("What may be wrong"), said(content, "words")),
            (say("In a word or two"), said(content, "short")),
            (say("Fault group"), say(str(content["group"]))),
            (say("Exists on"), say(dict(ARRANGEMENTS)[str(content["arrangement"])])),
        )
