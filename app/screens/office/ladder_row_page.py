"""One row of the ladder: what reaching a rung shows and proves, and who is suspect when a player stops before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from app.screens.kit.boxes import set_shown
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.ladder import Ladder
from app.screens.kit.ladder_drawing import LadderFacts
from app.screens.language import say
from app.screens.office.knowledge_record import KnowledgeRecordPage
from app.screens.office.order_editor import OrderEditor
from app.screens.office.pairs_field import PairsField
from app.screens.office.record_words import (
    pairs_once,
    per_cent,
    said,
    shown,
    suspect_offers,
    typed,
    whole_number,
    with_rest,
)
from app.trade.bench.data_record import ARRANGEMENTS
from app.trade.bench.kinds import FaultGroup, KnowledgeKind
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.office.knowledge_list import KnowledgeLists

TEXTS = (("shows", Sentence("How it shows")), ("proves", Sentence("Reaching it proves")))
LAST = (("tools", Sentence("With what")), ("caution", Sentence("Take care")))


def rung_name(content: Mapping[str, Any], lists: KnowledgeLists) -> str:
    """The rung with its number: 11 long seek."""
    arrangement = ARRANGEMENTS.get(str(content["arrangement"]))
    rung = lists.ladder.rung(int(content["rung"]))
    return f"{rung.number} {say(rung.name(arrangement))}"


class LadderRowPage(KnowledgeRecordPage):
    """Registered as ``ladder_row``; its key is rung and arrangement, e.g. ``11 S``."""

    kind = "ladder row"
    knowledge = KnowledgeKind.LADDER_ROW
    new_words = Sentence("A row of the ladder")
    save_words = Sentence("Save the row")
    can_retire = False

    def make_fields(self) -> None:
        self.ladder = Ladder(lying=True)
        self.form.wide(self.ladder)
        self.off = Label("", "strong")  # stays in sight while any of the weights is typed
        self.heading.add(self.off)
        set_shown(self.off, False)
        self.form.section(say("Reached"))
        for key, label in TEXTS:
            self.text_row(key, say(label))
        self.works: OrderEditor = self.add("works", OrderEditor("", say("Add a fault group")))
        self.works.set_offers([(group.value, say(group.value)) for group in FaultGroup])
        self.form.row(say("Said to work by then"), self.works)
        self.form.section(say("Not reached"))
        self.weights: PairsField = self.add(
            "priors",
            PairsField(say("Name a suspect"), partial(Field, "", width=64), unit="%", told=_sum),
        )
        self.form.row(say("Suspects and their weight"), self.weights)
        self.readings: PairsField = self.add(
            "readings",
            PairsField(say("Add a reading"), lambda: Field("", hint=say("how, where it matters"), width=320)),
        )
        self.form.row(say("Readings that part them"), self.readings)
        self.trials: OrderEditor = self.add("changes", OrderEditor("", say("Add a change")))
        self.form.row(say("Changes that part them"), self.trials)
        for key, label in LAST:
            self.text_row(key, say(label))

    def changed(self) -> None:
        if not self.head.below():
            self.set_below(self.ladder.facts.sentence)
        told = _sum(self.weights.value())
        off = bool(self.weights.pairs) and told != say("Together 100 %")
        self.off.setText(told if off else "")
        set_shown(self.off, off)

    def offer(self, lists: KnowledgeLists) -> None:
        on = ("B", str(self.key).rpartition(" ")[2])
        suspects = lists.records[KnowledgeKind.SUSPECT]
        known = [
            one
            for one in suspect_offers(lists, other=True)
            if "B" in (on[1], suspects[one[0]]["arrangement"]) or suspects[one[0]]["arrangement"] in on
        ]
        self.weights.set_offers(known)
        self.readings.set_offers(
            [(q.id, say(q.words)) for q in lists.quantities.values() if not q.mains_classes]
        )
        changes = lists.records[KnowledgeKind.CHANGE]
        self.trials.set_offers([(code, say(str(one["words"]))) for code, one in changes.items()])

    def record_title(self, content: Mapping[str, Any]) -> str:
        arrangement = ARRANGEMENTS.get(str(content["arrangement"]))
        assert self.lists is not None
        name = rung_name(content, self.lists)
        return name if arrangement is None else f"{name}, {say(arrangement.value)}"

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        for key, _ in (*TEXTS, *LAST):
            self.named[key].set_text(shown(key, content, base))
        self.weights.set_value([(one, per_cent(weight)) for one, weight in content["priors"].items()])
        hows = {str(one["quantity"]): one.get("how", "") for one in base.get("readings", ())}
        self.readings.set_value(
            [
                (one["quantity"], shown("how", one, {"how": hows.get(one["quantity"], "")}))
                for one in content["readings"]
            ]
        )
        self.trials.set_value(content["changes"])
        self.works.set_value(content.get("works", ()))
        arrangement = ARRANGEMENTS.get(str(content["arrangement"]))
        rung = int(content["rung"])
        assert self.lists is not None
        ladder = self.lists.ladder
        names = tuple(say(one.name(arrangement)) for one in ladder.rungs)
        told = say(ladder.rung(rung).stop(arrangement))
        self.ladder.set_facts(LadderFacts(names, rung - 1, rung, told))

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        texts = {key: typed(key, self.named[key], base) for key, _ in (*TEXTS, *LAST)}
        weights = {one: whole_number("priors", text) for one, text in pairs_once("priors", self.weights)}
        total = sum(weights.values())
        if total != 100:
            raise FieldRefusal(
                {"priors": Sentence("The weights sum to {sum} %, not to 100 %.", {"sum": total})}
            )
        record: dict[str, Any] = {key: texts[key] for key, _ in TEXTS}
        record |= {
            "works": self.works.value(),
            "priors": {one: f"{weight / 100:.2f}" for one, weight in weights.items()},
            "readings": [_reading(one, how, base) for one, how in pairs_once("readings", self.readings)],
            "changes": self.trials.value(),
        }
        return with_rest(record, base, {key: texts[key] for key, _ in LAST})

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        weights = ", ".join(
            f"{self.weights.words_of(one)} {per_cent(weight)} %" for one, weight in content["priors"].items()
        )
        readings = ", ".join(
            f"{self.readings.words_of(one['quantity'])} {say(one['how']) if one.get('how') else ''}".strip()
            for one in content["readings"]
        )
        return (
            *((say(label), said(content, key)) for key, label in TEXTS),
            (say("Said to work by then"), ", ".join(map(self.works.words_of, content.get("works", ())))),
            (say("Suspects and their weight"), weights),
            (say("Readings that part them"), readings),
            (say("Changes that part them"), ", ".join(map(self.trials.words_of, content["changes"]))),
            *((say(label), said(content, key)) for key, label in LAST),
        )


def _reading(quantity: str, how: str, base: Mapping[str, Any]) -> dict[str, str]:
    ships = {str(one["quantity"]): one.get("how", "") for one in base.get("readings", ())}.get(quantity, "")
    how = ships if ships and how == say(ships) else how
    return {"quantity": quantity, **({"how": how} if how else {})}


def _sum(value: list[list[str]]) -> str:
    """The sum as it is typed."""
    total = sum(int(text) for _, text in value if text.isascii() and text.isdigit() and len(text) < 7)
    if total == 100:
        return say("Together 100 %")
    if total < 100:
        return say("Together {sum} %, {left} % to give", sum=total, left=100 - total)
    return say("Together {sum} %, {over} % too many", sum=total, over=total - 100)
