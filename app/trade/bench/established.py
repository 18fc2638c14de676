"""Which suspect a closed job showed to be the cause, so that it counts among the shop's own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from app.trade.bench.changes import BenchChange, Grade, Leaves
from app.trade.bench.evidence import TrialSeen
from app.trade.bench.stages import CauseFound, Outcome, TrialOutcome

COUNTING = frozenset({Outcome.MENDED, Outcome.NO_FAULT_SHOWN})
NO_CAUSE = frozenset({CauseFound.NOT_ESTABLISHED, CauseFound.NO_FAULT})


def established_suspect(
    outcome: Outcome | None,
    cause: CauseFound | None,
    trials: Iterable[tuple[TrialSeen, str]],
    changes: Mapping[str, BenchChange],
) -> str | None:
    """The suspect that was the cause, by the last trial that cured: the one it was made for (beside the trial,
    empty where nobody was named), else the only one that its change aims at. None where nothing is established:
    no cause was found, or a modification had its part in the cure."""
    if outcome not in COUNTING or cause is None or cause in NO_CAUSE:
        return None
    cured = [
        (trial, suspected)
        for trial, suspected in sorted(trials, key=lambda pair: pair[0].number)
        if trial.outcome is TrialOutcome.CURED
    ]
    if not cured:
        return None
    trial, suspected = cured[-1]
    change = changes.get(trial.change)
    if trial.modifies or (change is not None and change.leaves is Leaves.MODIFICATION):
        return None
    if suspected or change is None:
        return suspected or None
    aimed = [suspect for suspect, grade in change.addresses.items() if grade is Grade.AIMS]
    return aimed[0] if len(aimed) == 1 else None
