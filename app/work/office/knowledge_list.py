"""The bench knowledge as the shop edits it: ladder rows, suspects, likelihoods, symptom words and changes."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.knowledge_data import (
    Content,
    Laid,
    Records,
    code_of,
    knowledge_of,
    known_quantities,
    laid_of,
    laid_over,
    read_knowledge,
    shipped_records,
    whole_content,
)
from app.book.door import Book, Change
from app.book.tables import HistoryRow, KnowledgeKept, Staff, StaffMark
from app.trade.bench.authority import MarkHeld, may_sign
from app.trade.bench.kinds import KnowledgeKind
from app.trade.bench.knowledge_refused import field_refused
from app.trade.bench.knowledge_uses import uses_elsewhere, uses_of
from app.trade.bench.ladder import Ladder
from app.trade.bench.quantities import Quantity
from app.trade.bench.stages import Mark
from app.trade.find.fold import fold
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed
from app.work.office.former_lines import FormerLine
from app.work.shop_book import Done

ROOM = {"words": 80, "family": 60}  # letters; other texts are longer
MUCH_ROOM = 400
BY_PLACE = (KnowledgeKind.LADDER_ROW, KnowledgeKind.RUNG, KnowledgeKind.WEIGHING)  # named by no id
WHOLE = {  # of these none is added or put away
    KnowledgeKind.LADDER_ROW: Sentence("Every rung has its row; it can be changed, but not put away."),
    KnowledgeKind.RUNG: Sentence("The ladder has its twelve rungs; one can be renamed, but not put away."),
    KnowledgeKind.WEIGHING: Sentence("Something has to be weighed by; it can be changed, but not put away."),
}
NEW = 0  # the version of a record that was never changed here


@dataclass(frozen=True, slots=True, kw_only=True)
class KnowledgeLine:
    """One record as it stands. ``base`` is what ships, None for one of the shop's own. ``by`` and ``at``: who
    changed it last and when; None where nobody did."""

    kind: KnowledgeKind
    code: str
    content: Content
    base: Content | None
    retired: bool = False
    version: int = NEW
    by: str = ""
    at: datetime | None = None

    @property
    def changed(self) -> bool:
        """A shipped one of which the shop changed something."""
        return self.base is not None and (self.retired or self.content != self.base)


@dataclass(frozen=True, slots=True)
class KnowledgeLists:
    """What a record may name: the records of each kind by code, the quantities and the ladder of this shop."""

    records: Records
    quantities: Mapping[str, Quantity]
    ladder: Ladder


def knowledge_lists(book: Book) -> KnowledgeLists:
    """What a record may name, as it stands now."""
    with book.ask() as session:
        return KnowledgeLists(laid_over(laid_of(session)), quantities(session), knowledge_of(session).ladder)


def knowledge_lines(book: Book, kind: KnowledgeKind, *, retired: bool = False) -> tuple[KnowledgeLine, ...]:
    """The records of a kind in their order, the shop's own last; with ``retired`` those no longer used as well."""
    base = shipped_records()[kind]
    with book.ask() as session:
        rows = {
            row.code: row
            for row in session.scalars(
                select(KnowledgeKept).where(KnowledgeKept.kind == kind).order_by(KnowledgeKept.id)
            )
        }
        changed = _last_changes(session, [row.id for row in rows.values()])
        lines = [
            _line(kind, code, base.get(code), rows.get(code), changed)
            for code in dict.fromkeys([*base, *rows])
        ]
    return tuple(line for line in lines if retired or not line.retired)


def _last_changes(session: Session, keys: Sequence[int]) -> dict[int, tuple[str, datetime]]:
    """Who changed each of these rows last, and when."""
    last = (
        select(func.max(HistoryRow.seq))
        .where(HistoryRow.row_table == KnowledgeKept.__tablename__, HistoryRow.row_id.in_(keys))
        .group_by(HistoryRow.row_id)
    )
    found = session.execute(
        select(HistoryRow.row_id, Staff.name, HistoryRow.at)
        .outerjoin(Staff, Staff.id == HistoryRow.staff_id)
        .where(HistoryRow.seq.in_(last))
    )
    return {key: (name or "", at) for key, name, at in found}


def knowledge_line(book: Book, kind: KnowledgeKind, code: str) -> KnowledgeLine:
    """One record. Raises KeyError for one that is not there."""
    return {line.code: line for line in knowledge_lines(book, kind, retired=True)}[code]


def _line(
    kind: KnowledgeKind,
    code: str,
    base: Content | None,
    row: KnowledgeKept | None,
    changed: Mapping[int, tuple[str, datetime]],
) -> KnowledgeLine:
    if row is None:
        return KnowledgeLine(kind=kind, code=code, content=base or {}, base=base)
    by, at = changed[row.id]
    return KnowledgeLine(
        kind=kind,
        code=code,
        content=whole_content(kind, row.content or base or {}),
        base=base,
        retired=row.retired,
        version=row.version,
        by=by,
        at=at,
    )


def save_record(
    book: Book,
    who: int,
    kind: KnowledgeKind,
    code: str,
    content: Content,
    *,
    version: int | None = None,
    retired: bool = False,
) -> Done[str]:
    """Keep a changed record, or one of the shop's own (``code`` empty: a new one, which gets its code here).

    ``content`` is a whole record as it ships in assets/bench, without its id. One that equals what ships is no
    longer the shop's and follows what ships. Raises FieldRefusal by key of the record, Refusal where only the
    owner may, StaleRow.
    """
    with book.change(who, Sentence("changed the bench knowledge")) as change:
        _owner_only(change, who)
        code = code or _new_code(change.session, kind, content)
        whole = content if kind in BY_PLACE else {**content, "id": code}
        base = shipped_records()[kind].get(code)
        _check(change.session, Laid(kind, code, whole, retired), base)
        row = change.session.scalars(
            select(KnowledgeKept).where(KnowledgeKept.kind == kind, KnowledgeKept.code == code)
        ).first()
        if row is not None:
            row = change.get(KnowledgeKept, row.id, version=version)
        elif whole != base or retired:
            row = KnowledgeKept(kind=kind, code=code)
        if row is not None:
            row.content, row.retired = {} if whole == base else dict(whole), retired
            change.add(row)
    return Done(code, change.changes)


def put_back(
    book: Book, who: int, kind: KnowledgeKind, code: str, *, version: int | None = None
) -> Done[str]:
    """Let a shipped record stand as it ships again; what the shop had made of it stays in history."""
    return save_record(book, who, kind, code, shipped_records()[kind][code], version=version)


def bring_back(book: Book, who: int, former: KnowledgeLine, *, version: int | None = None) -> Done[str]:
    """Let a record stand as it once did; what stands there now becomes a former text in its turn."""
    return save_record(
        book, who, former.kind, former.code, former.content, version=version, retired=former.retired
    )


def former_records(book: Book, kind: KnowledgeKind, code: str) -> tuple[FormerLine[KnowledgeLine], ...]:
    """Every change of a record with what it was before, newest first. How one of the shop's own began is none."""
    base = shipped_records()[kind].get(code)
    with book.ask() as session:
        key = session.scalar(
            select(KnowledgeKept.id).where(KnowledgeKept.kind == kind, KnowledgeKept.code == code)
        )
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        rows = session.scalars(
            select(HistoryRow)
            .where(HistoryRow.row_table == KnowledgeKept.__tablename__, HistoryRow.row_id == key)
            .order_by(HistoryRow.seq)
        )
        found: list[FormerLine[KnowledgeLine]] = []
        before = KnowledgeLine(kind=kind, code=code, content=base or {}, base=base)
        for row in rows:
            after = _after(before, row.fields)
            if base is not None or row.happened != "added":
                by = names.get(row.staff_id or 0, "")
                found.append(FormerLine(at=row.at, by=by, before=before, after=after))
            before = after
    return tuple(reversed(found))


def _after(before: KnowledgeLine, fields: Mapping[str, Any]) -> KnowledgeLine:
    content, retired = before.content, before.retired
    if "content" in fields:
        content = whole_content(before.kind, json.loads(fields["content"][1]) or before.base or {})
    if "retired" in fields:
        retired = bool(fields["retired"][1])
    return KnowledgeLine(
        kind=before.kind, code=before.code, content=content, base=before.base, retired=retired
    )


def _owner_only(change: Change, who: int) -> None:
    marks = change.session.scalars(select(StaffMark).where(StaffMark.staff_id == who))
    held = [MarkHeld(row.mark, row.proof, row.dated, row.ends) for row in marks]
    if may_sign(held, Mark.OWNER, change.today) is not None:
        raise Refusal(
            Sentence("Only the owner changes the bench knowledge."),
            Sentence("Ask the owner to take over with Ctrl+U."),
        )


def _new_code(session: Session, kind: KnowledgeKind, content: Content) -> str:
    """From its words, or from what it measures; it never changes again, and no other record has it."""
    said = str(content.get("words") or " ".join(content.get("quantities", ())))
    stem = "own_" + "_".join(fold(said).replace("_", " ").split()[:4])
    taken = {one.code for one in laid_of(session) if one.kind is kind}
    code, again = stem, 2
    while code in taken:
        code, again = f"{stem}_{again}", again + 1
    return code


def _check(session: Session, laid: Laid, base: Content | None) -> None:
    """Raises FieldRefusal for what cannot be right once this record lies over all others."""
    kind, code = laid.kind, laid.code
    if wrong := _typed_wrong(laid.content, base):
        raise FieldRefusal(wrong)
    others = [one for one in laid_of(session) if (one.kind, one.code) != (kind, code)]
    before = laid_over(others)
    known = known_quantities(session)
    if laid.retired:
        uses = uses_of(kind, code, before)
        if kind in WHOLE or uses:
            raise FieldRefusal({"retired": WHOLE.get(kind) or _still_named(uses)})
    elif kind is KnowledgeKind.SUSPECT:
        if uses := uses_elsewhere(code, str(laid.content.get("arrangement")), before):
            raise FieldRefusal({"arrangement": _still_named(uses)})
    elif kind in WHOLE:
        if code not in before[kind] or code_of(kind, laid.content) != code:
            raise FieldRefusal({"content": Sentence("Rung and arrangement of a row do not change.")})
        if kind is KnowledgeKind.LADDER_ROW:
            _check_row(laid.content, before, known)
    after = laid_over([*others, laid])
    names = {one: Sentence(record["words"]) for one, record in before[KnowledgeKind.SUSPECT].items()}
    try:
        read_knowledge(after, known)
    except Refusal as refusal:
        raise field_refused(refusal, names) from refusal


def _still_named(uses: tuple[Sentence, ...]) -> Sentence:
    return Sentence("It is still named at {places}. Take it out there first.", {"places": uses})


def _check_row(content: Content, records: Records, known: frozenset[str]) -> None:
    if any(one.get("quantity") not in known for one in content.get("readings", ())):
        raise FieldRefusal({"readings": Sentence("Choose what is measured.")})
    if any(one not in records[KnowledgeKind.CHANGE] for one in content.get("changes", ())):
        raise FieldRefusal({"changes": Sentence("One of these changes is no longer tried here.")})


def _typed_wrong(content: Content, base: Content | None) -> dict[str, Sentence]:
    texts, ships = _texts(content), _texts(base or {})
    return {
        key: why
        for key, text in texts.items()
        if text != ships.get(key) and (why := check_typed(text, ROOM.get(key.partition(".")[0], MUCH_ROOM)))
    }


def _texts(content: Content) -> dict[str, str]:
    """The texts of a record by their field; those of a rung by the arrangement as well: words.S."""
    found = {key: text for key, text in content.items() if isinstance(text, str)}
    for field in ("words", "stopped"):
        if isinstance(inside := content.get(field), Mapping):
            found |= {f"{field}.{key}": text for key, text in inside.items() if isinstance(text, str)}
    return found
