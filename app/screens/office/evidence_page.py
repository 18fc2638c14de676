"""What one reading says of the suspects: how often it is outside by itself, and how much more often with each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.screens.office.knowledge_record import KnowledgeRecordPage
from app.screens.office.ladder_names import ladder_offers
from app.screens.office.order_editor import OrderEditor
from app.screens.office.record_words import (
    ARRANGEMENTS,
    per_cent,
    ratio_pairs,
    ratios_of,
    ratios_told,
    said,
    share,
    shown,
    suspect_offers,
    typed,
    whole_number,
    with_rest,
)
from app.trade.bench.kinds import KnowledgeKind
from app.trade.sentence import Sentence
from app.work.office.knowledge_list import KnowledgeLists

SIDES = (("high", Sentence("Too high")), ("low", Sentence("Too low")))


def reading_words(content: Mapping[str, Any], lists: KnowledgeLists) -> str:
    """Its own words, or those of what is measured."""
    if content.get("words"):
        return say(str(content["words"]))
    first = str(content["quantities"][0])
    quantity = lists.quantities.get(first)
    return say(quantity.words) if quantity is not None else first


class EvidencePage(KnowledgeRecordPage):
    """Registered as ``evidence``."""

    kind = "evidence"
    knowledge = KnowledgeKind.EVIDENCE
    new_words = Sentence("What another reading says")
    save_words = Sentence("Save what the reading says")

    def make_fields(self) -> None:
        self.form.section(say("Reading"))
        self.quantities: OrderEditor = self.add("quantities", OrderEditor("", say("Add a quantity")))
        self.form.row(say("What is measured"), self.quantities)
        self.words = self.text_row("words", say("Called, if otherwise"))
        self.on = self.add("arrangement", Choice("", [(code, say(one)) for code, one in ARRANGEMENTS], "B"))
        self.form.row(say("Speaks on"), self.on)
        self.family = self.add("family", Field("", width=200))
        self.form.row(say("Family"), self.family)
        told = say("Readings of one family say nearly the same and count together.")
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.minutes = self.add("minutes", Field("", text="5", width=64))
        self.form.row(say("Takes"), self.minutes, say("minutes"))
        self.form.section(say("Speaks of"))
        for side, label in SIDES:
            self.often_row(f"background_{side}", say(label), text="0")
            self.ratios(f"outside_{side}", say("Times as often with"))
        self.ratio_note()
        self.why = self.text_row("why", say("Why"))
        self.form.section(say("Except"))
        self.itself = self.add("rung_itself", Combo("", ladder_offers(None, say("none")), 0, width=260))
        self.form.row(say("Says nothing at rung"), self.itself)
        self.unless = self.add("unless_outside", Combo("", [("", say("none"))], "", width=360))
        self.form.row(say("Or when outside is"), self.unless)
        self.by_size = self.add("by_size", Tick(say("only its size counts, whatever its sign")))
        self.form.row("", self.by_size)

    def offer(self, lists: KnowledgeLists) -> None:
        self.quantities.set_offers(
            [(q.id, say(q.words)) for q in lists.quantities.values() if not q.mains_classes]
        )
        for side, _ in SIDES:
            self.named[f"outside_{side}"].set_offers(suspect_offers(lists))
        self.itself.set_options(ladder_offers(lists.ladder, say("none")), self.itself.value())
        others = lists.records[KnowledgeKind.EVIDENCE]
        self.unless.set_options(
            [("", say("none"))]
            + [(code, reading_words(one, lists)) for code, one in others.items() if code != self.key],
            self.unless.value() or "",
        )
        self.family.set_seen(sorted({say(str(one["family"])) for one in others.values()}))

    def record_title(self, content: Mapping[str, Any]) -> str:
        assert self.lists is not None
        return reading_words(content, self.lists)

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        self.quantities.set_value(content["quantities"])
        for key in ("words", "family", "why"):
            self.named[key].set_text(shown(key, content, base))
        self.on.set_value(content["arrangement"])
        self.minutes.set_text(str(content["minutes"]))
        for side, _ in SIDES:
            self.named[f"background_{side}"].set_text(per_cent(content[f"background_{side}"]))
            self.named[f"outside_{side}"].set_value(ratio_pairs(content[f"outside_{side}"]))
        self.itself.set_value(content.get("rung_itself", 0))
        self.unless.set_value(content.get("unless_outside", ""))
        self.by_size.setChecked(bool(content.get("by_size")))

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        record: dict[str, Any] = {
            "arrangement": self.on.value(),
            "family": self._family(base),
            "quantities": self.quantities.value(),
            "minutes": whole_number("minutes", self.minutes.text()),
            "why": typed("why", self.why, base),
        }
        for side, _ in SIDES:
            often, ratios = f"background_{side}", f"outside_{side}"
            record |= {
                often: share(often, self.named[often].text()),
                ratios: ratios_of(ratios, self.named[ratios]),
            }
        rest = {
            "words": typed("words", self.words, base),
            "rung_itself": self.itself.value(),
            "unless_outside": self.unless.value(),
            "by_size": self.by_size.isChecked(),
        }
        return with_rest(record, {}, rest)

    def _family(self, base: Mapping[str, Any]) -> str:
        """A family that is known by the words in the window is that family, whatever its language."""
        assert self.lists is not None
        known = {
            say(str(one["family"])): str(one["family"])
            for one in self.lists.records[KnowledgeKind.EVIDENCE].values()
        }
        text: str = self.family.text()
        return known.get(text, text)

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        facts = [
            (say("What is measured"), ", ".join(map(self.quantities.words_of, content["quantities"]))),
            (say("Called, if otherwise"), said(content, "words")),
            (say("Speaks on"), say(dict(ARRANGEMENTS)[str(content["arrangement"])])),
            (say("Family"), said(content, "family")),
            (say("Takes"), say("{n} minutes", n=content["minutes"])),
        ]
        for side, label in SIDES:
            often = f"{per_cent(content[f'background_{side}'])} %"
            ratios = ratios_told(self.named[f"outside_{side}"], content[f"outside_{side}"])
            facts.append((say(label), f"{often}, {ratios}" if ratios else often))
        assert self.lists is not None
        other = self.lists.records[KnowledgeKind.EVIDENCE].get(str(content.get("unless_outside")))
        unless = reading_words(other, self.lists) if other is not None else say("none")
        return (
            *facts,
            (say("Why"), said(content, "why")),
            (say("Says nothing at rung"), str(content.get("rung_itself") or say("none"))),
            (say("Or when outside is"), unless),
            (
                say("only its size counts, whatever its sign"),
                say("yes") if content.get("by_size") else say("no"),
            ),
        )
