"""Where one record of the bench knowledge is named by others, which keeps it from being retired."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from app.trade.bench.data_record import ARRANGEMENTS
from app.trade.bench.kinds import KnowledgeKind
from app.trade.sentence import Sentence

Records = Mapping[KnowledgeKind, Mapping[str, Mapping[str, Any]]]


def row_words(record: Mapping[str, Any]) -> Sentence:
    """What a row of the ladder is called: rung 11, sled three-beam."""
    arrangement = ARRANGEMENTS.get(str(record["arrangement"]))
    if arrangement is None:
        return Sentence("rung {rung}", {"rung": record["rung"]})
    return Sentence(
        "rung {rung}, {arrangement}", {"rung": record["rung"], "arrangement": Sentence(arrangement.value)}
    )


def uses_of(kind: KnowledgeKind, code: str, records: Records) -> tuple[Sentence, ...]:
    """The records that name this one and cannot do without it. A suspect counts only where he has a weight."""
    return tuple(_uses(kind, code, records))


def _uses(kind: KnowledgeKind, code: str, records: Records) -> Iterator[Sentence]:
    field = {KnowledgeKind.SUSPECT: "priors", KnowledgeKind.CHANGE: "changes"}.get(kind)
    if field is not None:
        for row in records[KnowledgeKind.LADDER_ROW].values():
            if code in row.get(field, ()):
                yield row_words(row)
    elif kind is KnowledgeKind.EVIDENCE:
        for reading in records[kind].values():
            if reading.get("unless_outside") == code:
                yield Sentence(str(reading.get("words") or reading["id"]))


def uses_elsewhere(code: str, arrangement: str, records: Records) -> tuple[Sentence, ...]:
    """The rows of the other arrangement that name a suspect, when it is to exist on ``arrangement`` (S, T or B)."""
    return tuple(
        row_words(row)
        for row in records[KnowledgeKind.LADDER_ROW].values()
        if arrangement not in ("B", row["arrangement"]) and code in row.get("priors", ())
    )
