"""The bench knowledge of this shop: what ships, with the records that the shop added or changed laid over it."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import shipped_quantities
from app.book.kept import kept
from app.book.shipped import shipped
from app.book.tables import KnowledgeKept, QuantityKept
from app.trade.bench.changes import read_changes
from app.trade.bench.kinds import KnowledgeKind
from app.trade.bench.ladder import Ladder, read_ladder
from app.trade.bench.likelihood_data import read_likelihoods
from app.trade.bench.ranking import Knowledge

Content = Mapping[str, Any]
Records = Mapping[KnowledgeKind, Mapping[str, Content]]  # of each kind by code


@dataclass(frozen=True)
class BenchKnowledge:
    """The ladder, and what ranking suspects rests on."""

    ladder: Ladder
    knowledge: Knowledge


@dataclass(frozen=True, slots=True)
class Laid:
    """One record that is laid over what ships. Without content it stands as it ships."""

    kind: KnowledgeKind
    code: str
    content: Content
    retired: bool = False


@cache
def shipped_knowledge() -> BenchKnowledge:
    """The knowledge as it ships."""
    return read_knowledge(shipped_records(), shipped_quantities())


def knowledge_of(session: Session) -> BenchKnowledge:
    """The knowledge of this shop."""
    return kept(session, "knowledge", lambda: _of_shop(session))


def _of_shop(session: Session) -> BenchKnowledge:
    changed = laid_of(session)
    return read_knowledge(laid_over(changed), known_quantities(session)) if changed else shipped_knowledge()


def laid_of(session: Session) -> tuple[Laid, ...]:
    """What the shop laid over what ships, in the order in which it came."""
    rows = session.scalars(select(KnowledgeKept).order_by(KnowledgeKept.id))
    return tuple(Laid(row.kind, row.code, row.content, row.retired) for row in rows)


def known_quantities(session: Session) -> frozenset[str]:
    """The codes of all quantities that ship or that the shop added; one no longer used is still known."""
    return frozenset(shipped_quantities()) | frozenset(session.scalars(select(QuantityKept.code)))


def code_of(kind: KnowledgeKind, record: Content) -> str:
    """What a record is kept under: its id; a row of the ladder by rung and arrangement, a rung by its number, and
    the one record of how trials and past jobs weigh by its kind."""
    if kind is KnowledgeKind.LADDER_ROW:
        return f"{record['rung']} {record['arrangement']}"
    if kind is KnowledgeKind.RUNG:
        return str(record["rung"])
    if kind is KnowledgeKind.WEIGHING:
        return kind.value
    return str(record["id"])


@cache
def shipped_records() -> Records:
    """The records of each kind as they ship, by code. Do not change them."""
    ladder, likelihoods = shipped("bench/ladder"), shipped("bench/likelihoods")
    lists = {
        KnowledgeKind.LADDER_ROW: ladder["rows"],
        KnowledgeKind.SUSPECT: ladder["suspects"],
        KnowledgeKind.EVIDENCE: likelihoods["readings"],
        KnowledgeKind.SYMPTOM: likelihoods["symptoms"],
        KnowledgeKind.CHANGE: shipped("bench/changes"),
        KnowledgeKind.RUNG: ladder["rungs"],
        KnowledgeKind.WEIGHING: [{key: likelihoods[key] for key in _WEIGHING}],
    }
    return {kind: {code_of(kind, one): one for one in records} for kind, records in lists.items()}


def laid_over(changed: Iterable[Laid]) -> Records:
    """The records that hold. A suspect who is no longer one is left out of ratios and of what changes address:
    they speak of nobody then. A ladder's row that still names him is the readers' to refuse."""
    records = {kind: dict(by_code) for kind, by_code in shipped_records().items()}
    gone: set[str] = set()
    for one in changed:
        if one.retired:
            records[one.kind].pop(one.code, None)
            if one.kind is KnowledgeKind.SUSPECT:
                gone.add(one.code)
        elif one.content:
            records[one.kind][one.code] = whole_content(one.kind, one.content)
    if gone:
        for kind, fields in _SPEAKING.items():
            records[kind] = {code: _without(gone, one, fields) for code, one in records[kind].items()}
    return records


def whole_content(kind: KnowledgeKind, content: Content) -> Content:
    """A record as the shop kept it. One of how things weigh, kept before all of its numbers were data, has the rest
    as it ships."""
    return {**shipped_records()[kind][kind.value], **content} if kind is KnowledgeKind.WEIGHING else content


_WEIGHING = ("ladder_worth", "unaddressed", "grades", "entrants", "source")
_SPEAKING = {
    KnowledgeKind.EVIDENCE: ("outside_high", "outside_low"),
    KnowledgeKind.SYMPTOM: ("said",),
    KnowledgeKind.CHANGE: ("addresses",),
}


def _without(gone: Container[str], record: Content, fields: Iterable[str]) -> Content:
    spoken = {field: {s: v for s, v in record[field].items() if s not in gone} for field in fields}
    return {**record, **spoken}


def read_knowledge(records: Records, quantities: Container[str]) -> BenchKnowledge:
    """Records as knowledge. Raises Refusal where they are wrong."""
    lists = {kind: list(by_code.values()) for kind, by_code in records.items()}
    ladder = read_ladder(
        {
            "rungs": lists[KnowledgeKind.RUNG],
            "suspects": lists[KnowledgeKind.SUSPECT],
            "rows": lists[KnowledgeKind.LADDER_ROW],
        }
    )
    likelihoods = read_likelihoods(
        {
            **lists[KnowledgeKind.WEIGHING][0],
            "readings": lists[KnowledgeKind.EVIDENCE],
            "symptoms": lists[KnowledgeKind.SYMPTOM],
        },
        ladder.suspects,
        quantities,
    )
    changes = read_changes(lists[KnowledgeKind.CHANGE], ladder.suspects)
    return BenchKnowledge(ladder, Knowledge(ladder.suspects, likelihoods, changes))
