"""The bench knowledge: rows of the ladder, suspects, what readings and symptom words say, and changes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.kit.choice import Choice
from app.screens.language import moment, number, say
from app.screens.office.evidence_page import reading_words
from app.screens.office.ladder_row_page import rung_name
from app.screens.office.list_page import ListPage
from app.screens.office.record_words import per_cent
from app.screens.office.weighing_page import CHANCES, chances_of, chances_told
from app.trade.bench.data_record import ARRANGEMENTS, BOTH
from app.trade.bench.kinds import KnowledgeKind
from app.trade.sentence import Sentence
from app.work.office.knowledge_list import KnowledgeLine, KnowledgeLists, knowledge_lines, knowledge_lists

_BOTH = Sentence("both arrangements")
Told = Callable[[Mapping[str, Any], KnowledgeLists], tuple[str, str]]


def _row_told(content: Mapping[str, Any], lists: KnowledgeLists) -> tuple[str, str]:
    weights = content["priors"]
    grave = sorted(weights, key=lambda one: float(weights[one]), reverse=True)
    told = [f"{_suspect(one, lists)} {per_cent(weights[one])} %" for one in grave if one != "other"]
    return rung_name(content, lists), ", ".join(told)


def _rung_told(content: Mapping[str, Any], lists: KnowledgeLists) -> tuple[str, str]:
    names = dict.fromkeys(say(str(words)) for words in content["words"].values())
    stops = dict.fromkeys(say(str(words)) for words in content["stopped"].values())
    return f"{content['rung']} {' / '.join(names)}", " / ".join(stops)


def _weighing_told(content: Mapping[str, Any], lists: KnowledgeLists) -> tuple[str, str]:
    told = (f"{say(words)}: {chances_told(chances_of(content, code))}" for code, words in CHANCES.items())
    return say("Trials and past jobs"), "; ".join(told)


def _suspect_told(content: Mapping[str, Any], lists: KnowledgeLists) -> tuple[str, str]:
    on = ARRANGEMENTS.get(str(content["arrangement"]))
    group = say(str(content["group"]))
    return say(str(content["words"])), group if on is None else f"{group}, {say(on.value)}"


def _evidence_told(content: Mapping[str, Any], lists: KnowledgeLists) -> tuple[str, str]:
    return reading_words(content, lists), say(str(content["why"]))


def _symptom_told(content: Mapping[str, Any], lists: KnowledgeLists) -> tuple[str, str]:
    ratios = content["said"]
    told = [f"{_suspect(one, lists)} {number(Decimal(ratio))}" for one, ratio in ratios.items()]
    return say(str(content["words"])), ", ".join(told)


def _change_told(content: Mapping[str, Any], lists: KnowledgeLists) -> tuple[str, str]:
    return say(str(content["words"])), ", ".join(_suspect(one, lists) for one in content["addresses"])


def _suspect(code: str, lists: KnowledgeLists) -> str:
    known = lists.records[KnowledgeKind.SUSPECT].get(code)
    return say(str(known["words"])) if known is not None else code


@dataclass(frozen=True)
class _Kind:
    """How a kind of record is called, opened and told."""

    words: Sentence
    page: str
    told: Told
    add: Sentence | None = None


KINDS: Mapping[KnowledgeKind, _Kind] = {
    KnowledgeKind.LADDER_ROW: _Kind(Sentence("Ladder"), "ladder_row", _row_told),
    KnowledgeKind.RUNG: _Kind(Sentence("Rungs"), "rung", _rung_told),
    KnowledgeKind.SUSPECT: _Kind(Sentence("Suspects"), "suspect", _suspect_told, Sentence("Add a suspect")),
    KnowledgeKind.EVIDENCE: _Kind(
        Sentence("What readings say"), "evidence", _evidence_told, Sentence("Add a reading")
    ),
    KnowledgeKind.SYMPTOM: _Kind(
        Sentence("Symptom words"), "symptom", _symptom_told, Sentence("Add a symptom word")
    ),
    KnowledgeKind.CHANGE: _Kind(Sentence("Changes"), "bench_change", _change_told, Sentence("Add a change")),
    KnowledgeKind.WEIGHING: _Kind(Sentence("What trials weigh"), "weighing", _weighing_told),
}


class KnowledgePage(ListPage):
    """Registered as ``knowledge``; its key is the word of a kind, None for the ladder."""

    help_topic = "knowledge"
    words = Sentence("Bench knowledge")
    add_words = Sentence("Add a suspect")
    empty_words = (Sentence("What the bench knows stands here"), Sentence("It ships with the program."))
    leaving = (Leave("changed"), Leave("from"))
    kinds = frozenset({"knowledge", "quantities"})

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        self.of = KnowledgeKind(key) if key else KnowledgeKind.LADDER_ROW
        super().__init__(desk, key, parent)
        self.choice = Choice(
            say("What is shown"), [(kind.value, say(one.words)) for kind, one in KINDS.items()], self.of.value
        )
        self.choice.changed.connect(self._choose)
        self.heading.add(self.choice)

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("what", say("What"), 330),
            Column("tells", say("Tells"), 0, least=200),
            Column("from", say("From"), 170),
            Column("changed", say("Last changed"), 190),
        )

    def fetch(self) -> Any:
        book, kind = self.desk.book, self.of
        return kind, knowledge_lines(book, kind, retired=self.former), knowledge_lists(book)

    def rows(self, found: Any) -> list[Row | Group]:
        kind, lines, lists = found
        told = KINDS[kind].told
        if kind is not KnowledgeKind.LADDER_ROW:
            return [_row(line, *told(line.content, lists)) for line in lines]
        rows: list[Row | Group] = []
        for code, on in (*((one, Sentence(of.value)) for one, of in ARRANGEMENTS.items()), (BOTH, _BOTH)):
            rows.append(Group(say(on), say("who is suspect when it stops before the rung")))
            rows += [
                _row(line, *told(line.content, lists))
                for line in sorted(lines, key=lambda one: int(one.content["rung"]), reverse=True)
                if line.content["arrangement"] == code
            ]
        return rows

    def open(self, key: Any) -> None:
        self.desk.open(KINDS[self.of].page, key)

    def add(self) -> None:
        self.desk.open(KINDS[self.of].page, None)

    def told(self) -> tuple[str, ...]:
        return (say(KINDS[self.of].words), *super().told())

    def _choose(self, value: str) -> None:
        self.of = KnowledgeKind(value)
        self.reload()

    def _show(self, found: Any) -> None:
        super()._show(found)
        add = KINDS[self.of].add
        if add is not None:
            self.add_button.setText(say(add))
        set_shown(self.add_button, add is not None)
        set_shown(self.turn, add is not None)


def _row(line: KnowledgeLine, what: str, tells: str) -> Row:
    ours = line.base is None or line.changed
    came = (
        say("no longer used")
        if line.retired
        else say("the shop’s own")
        if line.base is None
        else say("changed by the shop")
        if line.changed
        else say("as it ships")
    )
    return Row(
        line.code,
        (Words(what, tip=what), Words(tells, soft=True, tip=tells), Words(came, soft=not ours), _last(line)),
    )


def _last(line: KnowledgeLine) -> Words | None:
    """Who changed it last, and when."""
    if line.at is None:
        return None
    when = moment(line.at)
    return Words(line.by, when, tip=f"{line.by} {when}".strip())
