"""A player that has been ready for weeks and that nobody collects."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import CaseStep, CauseFound, MainsClass, Moment, Outcome, Stage
from app.work.counter.uncollected import issue_uncollected_notice
from demo_db.in_the_shop.players import Players

FINAL = Moment.FINAL


class NotCollected(Players):
    """Taken in before the first story, so that the numbers of all others follow from it as before."""

    def moved_away(self) -> Iterator[datetime]:
        """Ready and told eleven weeks ago; a notice was printed, and nothing happens by itself."""
        shop = self.shop
        yield self.ago(57, "10:20")
        job = self.take_in(
            "Osier 7",
            "20 4019",
            name="Gudrun Pellworm",
            phone="01632 960388",
            street="9 Ropewalk Yard",
            fault="Takes a long time to find the first track.",
            faults=("reads no disc: sometimes",),
            marking="T 50877",
            came_with=("remote control",),
            limit="110",
            shelf="D 2",
            promised_on=shop.days.after(self.ago(57, "10:20").date(), 6),
        )
        yield self.ago(54, "9:40")
        shop.move(job, Stage.ON_THE_BENCH, "sanna")
        shop.climb(job, 12, who="sanna")
        shop.case(job, CaseStep.OPENED, "sanna")
        shop.case(job, CaseStep.CLOSED, "sanna")
        shop.climb(job, 12, FINAL, who="sanna", tries=3)
        yield self.ago(54, "11:05")
        shop.safety_test(job, MainsClass.II, insulation="> 200", touch_current="0.04")
        shop.labour(job, "bench work: lens cleaned", "0.50", who="sanna")
        shop.found(job, FaultGroup.LIGHT, CauseFound.DIRT, Outcome.MENDED, who="sanna")
        shop.move(job, Stage.READY, "sanna")
        shop.say(job, "It is ready and can be collected.")
        yield self.ago(21, "15:10")
        notice = issue_uncollected_notice(shop.book, shop.people["mirr"], job).value
        shop.file(notice)
