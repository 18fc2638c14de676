"""One symptom word: how often it is said by itself, and how much more often with each suspect."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from app.screens.language import say
from app.screens.office.knowledge_record import KnowledgeRecordPage
from app.screens.office.record_words import (
    per_cent,
    ratio_pairs,
    ratios_of,
    ratios_told,
    said,
    share,
    shown,
    suspect_offers,
    typed,
)
from app.trade.bench.kinds import KnowledgeKind
from app.trade.sentence import Sentence
from app.work.office.knowledge_list import KnowledgeLists


class SymptomPage(KnowledgeRecordPage):
    """Registered as ``symptom``."""

    kind = "symptom word"
    knowledge = KnowledgeKind.SYMPTOM
    new_words = Sentence("A symptom word of the shop's own")
    save_words = Sentence("Save the symptom word")

    def make_fields(self) -> None:
        self.form.section(say("Symptom word"))
        self.words = self.text_row("words", say("What is said"))
        self.often = self.often_row("background", say("Said by itself in"))
        self.form.section(say("Speaks of"))
        self.said = self.ratios("said", say("Times as often with"))
        self.ratio_note()
        self.why = self.text_row("why", say("Why"))

    def offer(self, lists: KnowledgeLists) -> None:
        self.said.set_offers(suspect_offers(lists))

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        self.words.set_text(shown("words", content, base))
        self.often.set_text(per_cent(content["background"]))
        self.said.set_value(ratio_pairs(content["said"]))
        self.why.set_text(shown("why", content, base))

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        return {
            "words": typed("words", self.words, base),
            "background": share("background", self.often.text()),
            "said": ratios_of("said", self.said),
            "why": typed("why", self.why, base),
        }

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        return (
            (say("What is said"), said(content, "words")),
            (say("Said by itself in"), f"{per_cent(content['background'])} %"),
            (say("Times as often with"), ratios_told(self.said, content["said"])),
            (say("Why"), said(content, "why")),
        )
