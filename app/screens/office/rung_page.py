"""One rung of the ladder: what it is called, and what a player does that stops before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from app.screens.language import say
from app.screens.office.knowledge_record import KnowledgeRecordPage
from app.screens.office.record_words import said, shown, typed
from app.trade.bench.kinds import KnowledgeKind
from app.trade.sentence import Sentence

PARTS = (("words", Sentence("The rung")), ("stopped", Sentence("When it stops before it")))
# A rung of which the two arrangements need different words has them beside those for both.
WHERE = (
    ("B", Sentence("In words")),
    ("S", Sentence("Swing arm, if otherwise")),
    ("T", Sentence("Sled, if otherwise")),
)


class RungPage(KnowledgeRecordPage):
    """Registered as ``rung``; its key is the number, e.g. ``11``."""

    kind = "rung"
    knowledge = KnowledgeKind.RUNG
    new_words = Sentence("A rung of the ladder")
    save_words = Sentence("Save the rung")
    can_retire = False

    def make_fields(self) -> None:
        for part, heading in PARTS:
            self.form.section(say(heading))
            for on, label in WHERE:
                self.text_row(f"{part}.{on}", say(label))

    def record_title(self, content: Mapping[str, Any]) -> str:
        return f"{content['rung']} {say(str(content['words']['B']))}"

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        for part, _ in PARTS:
            for on, _ in WHERE:
                self.named[f"{part}.{on}"].set_text(shown(on, content[part], base[part]))

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        return {
            part: {
                on: text
                for on, _ in WHERE
                if (text := typed(on, self.named[f"{part}.{on}"], base[part])) or on == "B"
            }
            for part, _ in PARTS
        }

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        return [
            (f"{say(heading)}, {say(label)}", said(content[part], on))
            for part, heading in PARTS
            for on, label in WHERE
        ]
