"""The bench knowledge of this shop: what ships, with the records that the shop added or changed laid over it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import shipped_quantities
from app.book.kept import kept
from app.book.shipped import shipped
from app.book.tables import KnowledgeKept
from app.trade.bench.changes import read_changes
from app.trade.bench.kinds import KnowledgeKind
from app.trade.bench.ladder import Ladder, read_ladder
from app.trade.bench.likelihood_data import read_likelihoods
from app.trade.bench.ranking import Knowledge

Records = list[dict[str, Any]]


@dataclass(frozen=True)
class BenchKnowledge:
    """The ladder, and what ranking suspects rests on."""

    ladder: Ladder
    knowledge: Knowledge


@cache
def shipped_knowledge() -> BenchKnowledge:
    """The knowledge as it ships."""
    return _read(())


def knowledge_of(session: Session) -> BenchKnowledge:
    """The knowledge of this shop."""
    return kept(session, "knowledge", lambda: _of_shop(session))


def _of_shop(session: Session) -> BenchKnowledge:
    changed = session.scalars(select(KnowledgeKept).order_by(KnowledgeKept.id)).all()
    return _read(changed) if changed else shipped_knowledge()


def code_of(kind: KnowledgeKind, record: Mapping[str, Any]) -> str:
    """What a record is kept under: its id; a row of the ladder by rung and arrangement."""
    if kind is KnowledgeKind.LADDER_ROW:
        return f"{record['rung']} {record['arrangement']}"
    return str(record["id"])


def _read(changed: Iterable[KnowledgeKept]) -> BenchKnowledge:
    rows = tuple(changed)
    ladder_data, likely_data = shipped("bench/ladder"), shipped("bench/likelihoods")
    ladder = read_ladder(
        {
            **ladder_data,
            "suspects": _laid_over(ladder_data["suspects"], KnowledgeKind.SUSPECT, rows),
            "rows": _laid_over(ladder_data["rows"], KnowledgeKind.LADDER_ROW, rows),
        }
    )
    likelihoods = read_likelihoods(
        {
            **likely_data,
            "readings": _laid_over(likely_data["readings"], KnowledgeKind.EVIDENCE, rows),
            "symptoms": _laid_over(likely_data["symptoms"], KnowledgeKind.SYMPTOM, rows),
        },
        ladder.suspects,
        shipped_quantities(),
    )
    changes = read_changes(_laid_over(shipped("bench/changes"), KnowledgeKind.CHANGE, rows), ladder.suspects)
    return BenchKnowledge(ladder, Knowledge(ladder.suspects, likelihoods, changes))


def _laid_over(records: Records, kind: KnowledgeKind, changed: Iterable[KnowledgeKept]) -> Records:
    by_code = {code_of(kind, record): record for record in records}
    for row in changed:
        if row.kind is not kind:
            continue
        if row.retired:
            by_code.pop(row.code, None)
        else:
            by_code[row.code] = row.content
    return list(by_code.values())
