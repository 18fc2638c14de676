"""A visit under way in a large book, and what the rules are told of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Any

from app.trade.bench.facts import ComebackFact, DiscFact, JobFacts, ReadingFact, TrialFact
from app.trade.bench.kinds import ComebackStanding
from app.trade.bench.stages import Stage
from app.trade.money import Money
from app.trade.office.invoice import Totals
from app.trade.sentence import Measure, Sentence
from demo_db.many.players import Player
from demo_db.many.readings import finals_wanted
from demo_db.plan import PlannedJob

NOTHING = Money(0, "EUR")


@dataclass
class Visit:
    """A visit under way."""

    job: PlannedJob
    player: Player
    key: int
    number: int
    came: date  # the shop's day
    by: int  # the technician
    row: dict[str, Any]  # of the job
    readings: list[ReadingFact] = field(default_factory=list)
    trials: list[TrialFact] = field(default_factory=list)
    rung_final: int | None = None
    parts: int = 0
    discs: tuple[DiscFact, ...] = ()

    def facts(self, today: date, totals: Totals | None = None) -> JobFacts:
        """What the rules are told; with ``totals``, once it is invoiced and before it is paid."""
        job, player = self.job, self.player
        return JobFacts(
            number=self.number,
            today=today,
            stage=Stage.ON_THE_BENCH,
            taken_in=job.taken_in,
            outcome=self.row.get("outcome"),
            mains_class=player.mains,
            powered=True,
            rung_arrival=job.rung,
            rung_final=self.rung_final,
            modifications=tuple(player.modifications),
            readings=tuple(self.readings),
            trials=tuple(self.trials),
            parts_fitted=self.parts,
            laser_label=Measure(_shown(player.label * 1000), "mA"),
            safety_tests=tuple(player.tests),
            discs=self.discs,
            transit_lock=player.lock,
            comeback=self._comeback(),
            agreed=None if job.limit is None else Money(job.limit, "EUR"),
            work_so_far=NOTHING if totals is None else totals.gross,
            balance=NOTHING if totals is None else totals.due,
            finals_wanted=finals_wanted(self.readings),
            answers=tuple(player.flags.answers),
        )

    def _comeback(self) -> ComebackFact | None:
        former = self.player.former
        if former is None or self.row.get("comeback") is not ComebackStanding.CONFIRMED:
            return None
        left = any(m.live and m.job == former.number for m in self.player.modifications)
        words = Sentence("a modification left inside") if left else None
        return ComebackFact(former.number, (self.came - former.handed_back).days, former.helped, words)


def _shown(value: Decimal) -> Decimal:
    return value.quantize(Decimal(1)) if value == value.to_integral() else value.normalize()
