"""Closed jobs of other players, written out by their days."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

from app.book import tables as t
from app.trade.bench.kinds import Arrangement, FaultGroup, TransitLock
from app.trade.bench.modifications import Circuit, Kind, Law
from app.trade.bench.stages import MainsClass, Outcome, Stage, TrialOutcome, Waiting
from app.trade.sentence import Sentence

RADIAL = FaultGroup.RADIAL
TODAY = datetime(2026, 3, 12, 9, 0, tzinfo=UTC)


class Past:
    """Writes closed jobs of other players by their days, counted back from the shop's today."""

    def __init__(self, bench: Any) -> None:
        self.bench, self.number = bench, 5000
        with self._change() as change:
            self.other_type = change.add(t.TransportType(name="Grellin S1", arrangement=Arrangement.SLED)).id

    def _change(self) -> Any:
        return self.bench.book.change(self.bench.tobbe, Sentence("wrote the past"))

    def player(self, kind: int | None = None) -> tuple[int, int]:
        with self._change() as change:
            unit = change.add(
                t.Unit(
                    maker="Quellmar",
                    model="Larch 2",
                    serial="1",
                    serial_key="1",
                    customer_id=self.bench.customer,
                    mains_class=MainsClass.BATTERY,
                    created_at=change.now,
                )
            )
            made = change.add(t.Transport(type_id=kind or self.bench.type, created_at=change.now))
            change.add(t.Fitting(transport_id=made.id, unit_id=unit.id, fitted_at=TODAY - timedelta(4000)))
            return unit.id, made.id

    def job(
        self,
        player: tuple[int, int],
        came: int,
        *tried: tuple[str, TrialOutcome | None],
        left: int | None = 0,
        rung: int = 10,
        outcome: Outcome = Outcome.MENDED,
        group: FaultGroup | None = RADIAL,
        modified: bool = False,
        struck: bool = False,
        words: tuple[str, ...] = (),
        **more: Any,
    ) -> int:
        """A job ``came`` days ago, gone ``left`` days ago (0: a week later, None: still here)."""
        self.number += 1
        gone = None if left is None else TODAY - timedelta(left or came - 7)
        with self._change() as change:
            job = change.add(
                t.Job(
                    number=self.number,
                    unit_id=player[0],
                    customer_id=self.bench.customer,
                    stage=Stage.TAKEN_IN if gone is None else Stage.HANDED_BACK,
                    waiting=Waiting.NOTHING,
                    outcome=None if gone is None else outcome,
                    taken_in_at=TODAY - timedelta(came),
                    taken_in_by=self.bench.tobbe,
                    handed_back_at=gone,
                    fault="Hangs.",
                    fault_group=group,
                    transit_lock=TransitLock.NONE,
                    **more,
                )
            )
            for word in words:
                change.add(t.ReportedFault(job_id=job.id, word=word, how="always"))
            for number, (what, result) in enumerate(tried, start=1):
                trial = change.add(
                    t.Trial(
                        job_id=job.id,
                        transport_id=player[1],
                        number=number,
                        change="" if " " in what else what,
                        words=what,
                        outcome=result,
                        rung_before=rung,
                        at=TODAY - timedelta(came - 1),
                        by=self.bench.tobbe,
                        struck_at=TODAY if struck else None,
                    )
                )
                if modified:
                    change.add(
                        t.Modification(
                            unit_id=player[0],
                            job_id=job.id,
                            trial_id=trial.id,
                            kind=Kind.OTHER,
                            circuit=Circuit.OTHER,
                            law=Law.NEITHER,
                            reference="R1",
                            at=TODAY - timedelta(came - 1),
                            by=self.bench.tobbe,
                        )
                    )
            return int(job.id)
