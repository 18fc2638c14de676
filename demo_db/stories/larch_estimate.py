"""The estimate of job 2131: another transport, or the customer's own with more current through its coil."""

from __future__ import annotations

from app.trade.office.estimate import OptionEntry
from demo_db.estimating import estimate, fixed, hours, part
from demo_db.stories.telling import Telling


def two_ways(t: Telling, job: int) -> int:
    """The estimate that the customer chose from by telephone: a used transport, or his own with more current."""
    tested = fixed("electrical safety test after repair, with record", "14.28")
    running_in = fixed("running in, with final readings", "21.42")
    another = OptionEntry(
        title="another transport",
        what="Replace the whole optical transport by a used one of the same type, tested here.",
        risk="The replacement is old too; its remaining life is not known.",
        guarantee="12 months on work, 6 on the transport",
        ready="about 3 weeks, part on order",
        never_above=39_000,
    )
    modified = OptionEntry(
        title="modified, yours kept",
        what="Keep your transport. Raise the current of its radial coil by 21 %: resistor R314, 5.6 Ω in place of 6.8 Ω.",
        design="changed in one point; undone by fitting 6.8 Ω again",
        risk="The coil runs warmer. It may not help; then 6.8 Ω goes back in, and option A remains.",
        guarantee="6 months on work and parts",
        ready="Friday 27 November",
        never_above=25_000,
    )
    return estimate(
        t.shop,
        job,
        "It plays the first tracks, but stopped at the long seek in 3 of 3 tries: 4.8 s, limit 1.5 s. Three changes"
        " made no difference.",
        (
            (
                another,
                (hours("bench work", "3"), part("transport Velk A1, used", "98.00"), running_in, tested),
            ),
            (modified, (hours("bench work", "2.25"), part("resistor 5.6 Ω", "0.60"), running_in, tested)),
        ),
    )
