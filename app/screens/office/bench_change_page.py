"""One change that is tried at the bench: what it addresses and how well, what it needs and leaves behind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.screens.office.knowledge_record import KnowledgeRecordPage
from app.screens.office.pairs_field import PairsField
from app.screens.office.record_words import (
    pairs_once,
    said,
    shown,
    suspect_offers,
    typed,
    whole_number,
    with_rest,
)
from app.trade.bench.changes import Grade, Leaves
from app.trade.bench.kinds import KnowledgeKind
from app.trade.sentence import Sentence
from app.work.office.knowledge_list import KnowledgeLists

NO_GRADE = ""
GRADES = {
    Grade.AIMS.value: Sentence("aims at it"),
    Grade.OFTEN.value: Sentence("often helps"),
    Grade.BY_THE_WAY.value: Sentence("by the way"),
    NO_GRADE: Sentence("overcomes, mends nothing"),
}


class BenchChangePage(KnowledgeRecordPage):
    """Registered as ``bench_change``."""

    kind = "bench change"
    knowledge = KnowledgeKind.CHANGE
    new_words = Sentence("A change of the shop's own")
    save_words = Sentence("Save the change")

    def make_fields(self) -> None:
        self.form.section(say("The change"))
        self.words = self.text_row("words", say("What is done"))
        self.tools = self.text_row("tools", say("With what"))
        self.minutes = self.add("minutes", Field("", text="15", width=64))
        self.form.row(say("Takes"), self.minutes, say("minutes"))
        self.caution = self.text_row("caution", say("Take care"))
        self.form.section(say("Addresses"))
        grades = [(key, say(words)) for key, words in GRADES.items()]
        self.addresses: PairsField = self.add(
            "addresses",
            PairsField(say("Name a suspect"), lambda: Combo("", grades, Grade.AIMS.value, width=220)),
        )
        self.form.row(say("Suspects, and how well"), self.addresses)
        self.form.section(say("Leaves"))
        self.leaves = self.add(
            "leaves", Choice("", [(one.value, say(one.value)) for one in Leaves], Leaves.NOTHING.value)
        )
        self.form.row(say("In the player"), self.leaves)
        self.in_full = self.add("leaves_words", Field("", text=say(Leaves.NOTHING.value)))
        self.form.row(say("In full"), self.in_full)
        self.last = self.add("last", Tick(say("kept for last: hard to undo, or opens the pick-up")))
        self.form.row("", self.last)

    def offer(self, lists: KnowledgeLists) -> None:
        self.addresses.set_offers(suspect_offers(lists))

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        for key in ("words", "tools", "caution", "leaves_words"):
            self.named[key].set_text(shown(key, content, base))
        self.minutes.set_text(str(content["minutes"]))
        self.addresses.set_value([(one, grade or NO_GRADE) for one, grade in content["addresses"].items()])
        self.leaves.set_value(content["leaves"])
        self.last.setChecked(bool(content.get("last")))

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        record = {
            "words": typed("words", self.words, base),
            "addresses": {one: grade or None for one, grade in pairs_once("addresses", self.addresses)},
            "minutes": whole_number("minutes", self.minutes.text()),
            "leaves": self.leaves.value(),
            "leaves_words": typed("leaves_words", self.in_full, base),
        }
        rest = {
            "tools": typed("tools", self.tools, base),
            "caution": typed("caution", self.caution, base),
            "last": self.last.isChecked(),
        }
        return with_rest(record, base, rest)

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        addressed = ", ".join(
            f"{self.addresses.words_of(one)}: {say(GRADES[grade or NO_GRADE])}"
            for one, grade in content["addresses"].items()
        )
        return (
            (say("What is done"), said(content, "words")),
            (say("With what"), said(content, "tools")),
            (say("Takes"), say("{n} minutes", n=content["minutes"])),
            (say("Take care"), said(content, "caution")),
            (say("Suspects, and how well"), addressed),
            (say("In the player"), say(str(content["leaves"]))),
            (say("In full"), said(content, "leaves_words")),
            (
                say("kept for last: hard to undo, or opens the pick-up"),
                say("yes") if content.get("last") else say("no"),
            ),
        )
