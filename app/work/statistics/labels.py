"""What repairs are parted by, as columns: for each visit the place of its label among all labels."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import case, select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.bench.knowledge_data import knowledge_of
from app.book.kept import SHOP_WIDE, kept
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import CauseFound, TrialOutcome
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import UNKNOWN, WITH, WITHOUT, By
from app.work.statistics.columns import coded, columns_of, worded_columns
from app.work.statistics.steps import READING, Steps
from app.work.statistics.visits import GROUPS, RESTS_ON, Visits

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

T = tables.metadata.tables
_J, _U, _X, _S = (T[name].c for name in ("jobs", "units", "trials", "staff"))
_HELPED = (TrialOutcome.CURED, TrialOutcome.BETTER)

_PLAYER = {"maker": _U.maker, "model": _U.model, "maker model": _U.maker + " " + _U.model}
# Of several rows of a job the last counts: the technician of its last trial, the last change that helped.
CHANGE = case((_X.change != "", _X.change), else_=_X.words)
_CHANGES = select(_X.job_id, _X.number).where(_X.struck_at.is_(None), _X.outcome.in_(_HELPED))
_TRIED_BY = select(_X.job_id, _X.number, _X.by).where(_X.struck_at.is_(None))


@dataclass(frozen=True, slots=True, eq=False)
class Labels:
    """``code``: of each visit the place of its label in ``texts``. ``names`` tells labels that are ids."""

    code: NDArray[np.int32]
    texts: tuple[str, ...]
    names: Mapping[str, Sentence]


def labels_of(session: Session, by: By, visits: Visits, steps: Steps) -> Labels:
    """The label of every visit; kept with the visits while nobody changes what it rests on."""
    if by is By.FAULT_GROUP:
        return _labels(visits.group, (*(group.value for group in GROUPS), UNKNOWN))
    if by is By.MODIFICATION:
        return _labels(visits.modified, (WITHOUT, WITH))
    if by is By.TRANSPORT_TYPE:
        return _labels(visits.kind, (name or UNKNOWN for name in visits.kinds))
    make, tables_too = _MADE[by]
    steps.next(READING)
    return kept(
        session,
        f"labels by {by.value}",
        lambda: make(session, visits, steps.still),
        RESTS_ON | tables_too,
    )


def arrangements(session: Session) -> dict[str, Arrangement]:
    """The arrangement of each transport type, by its name."""
    rows = session.execute(select(tables.TransportType.name, tables.TransportType.arrangement))
    return dict(rows.all())


def players_of(session: Session, visits: Visits, part: str) -> tuple[NDArray[np.int32], tuple[str, ...]]:
    """For each visit the place of its player's maker, model, or both ("maker model") among those that there are; kept
    with the visits."""
    import numpy as np

    def gathered() -> tuple[NDArray[np.int32], tuple[str, ...]]:
        rows = session.execute(select(_U.id, _PLAYER[part])).all()
        texts = tuple(dict.fromkeys(text for _, text in rows))
        place = {text: at for at, text in enumerate(texts)}
        code = np.zeros(max((key for key, _ in rows), default=0) + 1, dtype=np.int32)
        code[[key for key, _ in rows]] = [place[text] for _, text in rows]
        return code[visits.unit], texts

    return kept(session, f"players: {part}", gathered, RESTS_ON | {"units"})


def _labels(code: NDArray[Any], texts: Iterable[str], names: Mapping[str, Sentence] | None = None) -> Labels:
    """Labels from places in ``texts``, where -1 is the last; places that read alike become one."""
    import numpy as np

    texts = tuple(texts)
    unique = tuple(dict.fromkeys(texts))
    place = np.array([unique.index(text) for text in texts], dtype=np.int32)
    return Labels(place[code.astype(np.int64)], unique, names or {})


def _by_arrangement(session: Session, visits: Visits, step: Callable[[], object]) -> Labels:
    found = arrangements(session)
    return _labels(visits.kind, (found.get(name) or UNKNOWN for name in visits.kinds))


def _by_maker(session: Session, visits: Visits, step: Callable[[], object]) -> Labels:
    code, texts = players_of(session, visits, "maker")
    return _labels(code, (text or UNKNOWN for text in texts))


def _by_model(session: Session, visits: Visits, step: Callable[[], object]) -> Labels:
    code, texts = players_of(session, visits, "maker model")
    return _labels(code, (text or UNKNOWN for text in texts))


def _by_cause(session: Session, visits: Visits, step: Callable[[], object]) -> Labels:
    return _labels(causes_of(session, visits, step), (*(cause.value for cause in CauseFound), UNKNOWN))


def causes_of(session: Session, visits: Visits, step: Callable[[], object]) -> NDArray[np.int8]:
    """For each visit the place of the cause found in `CauseFound`, NONE where none was."""
    import numpy as np

    job, cause = columns_of(session, _J.id, select(_J.id, coded(_J.cause, CauseFound)), step)
    found = np.full(len(visits.job), -1, dtype=np.int8)
    found[visits.places(job)] = cause
    return found


def _by_change(session: Session, visits: Visits, step: Callable[[], object]) -> Labels:
    import numpy as np

    names = {key: change.name for key, change in knowledge_of(session).knowledge.changes.items()}
    texts, (place, job, number) = worded_columns(session, _X.id, CHANGE, _CHANGES, step)
    last = np.lexsort((number, job))
    code = np.full(len(visits.job), len(texts), dtype=np.int64)
    code[visits.places(job[last])] = place[last]
    return _labels(code, (*(text or UNKNOWN for text in texts), UNKNOWN), names)


def _by_technician(session: Session, visits: Visits, step: Callable[[], object]) -> Labels:
    import numpy as np

    names = session.execute(select(_S.id, _S.name).order_by(_S.id)).all()
    job, number, by = columns_of(session, _X.id, _TRIED_BY, step)
    last = np.lexsort((number, job))
    code = np.full(len(visits.job), -1, dtype=np.int64)
    code[visits.places(job[last])] = np.searchsorted([key for key, _ in names], by[last])
    return _labels(code, (*(name or UNKNOWN for _, name in names), UNKNOWN))


_Make = Callable[[Session, Visits, Callable[[], object]], Labels]
_MADE: dict[By, tuple[_Make, frozenset[str]]] = {
    By.ARRANGEMENT: (_by_arrangement, frozenset()),
    By.MAKER: (_by_maker, frozenset({"units"})),
    By.MODEL: (_by_model, frozenset({"units"})),
    By.CAUSE: (_by_cause, frozenset()),
    By.CHANGE: (_by_change, frozenset({"trials"}) | SHOP_WIDE),
    By.TECHNICIAN: (_by_technician, frozenset({"trials", "staff"})),
}
