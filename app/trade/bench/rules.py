"""The rules by id: their version, their short word, and what clears them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.trade.bench.flag import Closing, FlagRaised, Level, Subject
from app.trade.bench.modifications import Modification
from app.trade.bench.stages import Mark
from app.trade.sentence import Sentence


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule that raises flags. A change of what it says or when it speaks is a new version."""

    word: Sentence
    clears: Sentence
    version: int = 1


# In the order in which flags of one level are listed.
RULES: dict[str, Rule] = {
    "interlock": Rule(
        Sentence("interlock"),
        Sentence("The bypass taken out and the switch tried; a request refused and closed as refused."),
    ),
    "fuse": Rule(Sentence("fuse"), Sentence("The right fuse fitted and the cause noted.")),
    "mains_wiring": Rule(
        Sentence("mains wiring"),
        Sentence("Restored as the maker had it, and a safety test passed by a competent person."),
    ),
    "earth": Rule(
        Sentence("earth"), Sentence("Restored, measured, and a safety test passed by a competent person.")
    ),
    "safety_part": Rule(
        Sentence("safety part"),
        Sentence(
            "A part of the right type fitted, a safety test passed by a competent person, the owner's word."
        ),
    ),
    "part_over": Rule(Sentence("part overloaded"), Sentence("A larger part, worked out again.")),
    "safety_failed": Rule(
        Sentence("safety test failed"),
        Sentence("Repaired, and a full new test passed by a competent person."),
    ),
    "beyond_agreed": Rule(
        Sentence("beyond agreed"), Sentence("The customer agrees to more: who said so, when, by which way.")
    ),
    "final_outside": Rule(
        Sentence("final outside"),
        Sentence("A new reading within, or the owner's reason where the limit allows one."),
    ),
    "coil_up_big": Rule(
        Sentence("coil current high"),
        Sentence("The owner acknowledges it with a reason; it goes only when the change is put back."),
    ),
    "coil_up": Rule(Sentence("coil current up"), Sentence("Only putting the change back clears it.")),
    "coil_hot": Rule(Sentence("coil hot"), Sentence("A new reading below.")),
    "laser_up_big": Rule(Sentence("laser high"), Sentence("The owner's reason, or a reading not above it.")),
    "laser_up": Rule(Sentence("laser up"), Sentence("A reading not above it.")),
    "supply_changed": Rule(
        Sentence("supply changed"), Sentence("Putting the rail back to the maker's voltage.")
    ),
    "other_type": Rule(
        Sentence("other type"), Sentence("The owner's reason, once limits for the new type are chosen.")
    ),
    "part_warm": Rule(Sentence("part warm"), Sentence("A larger part.")),
    "unknown_mod": Rule(
        Sentence("earlier change"),
        Sentence("Its effect worked out, then kept and named on the paper, or put back."),
    ),
    "stacked": Rule(
        Sentence("changes stacked"), Sentence("Putting all but one back, or the technician's reason.")
    ),
    "trimmer_blind": Rule(
        Sentence("trimmer blind"),
        Sentence("Nothing clears it; it becomes a note when all final readings are within."),
    ),
    "comeback": Rule(Sentence("comeback"), Sentence("The owner decides about the guarantee.")),
    "disc_inside": Rule(Sentence("disc inside"), Sentence("The disc returned and ticked.")),
    "transit_lock": Rule(Sentence("transit lock"), Sentence("Its state noted.")),
    "pile": Rule(Sentence("cautions together"), Sentence("The owner's reason.")),
    "final_close": Rule(
        Sentence("final close"), Sentence("A better instrument, or a line about it on the report.")
    ),
    "cal_overdue": Rule(
        Sentence("calibration due"),
        Sentence("Its calibration entered, or the readings repeated with another."),
    ),
    "unpaid": Rule(Sentence("unpaid"), Sentence("Payment. It never holds a player by itself.")),
}
_ORDER = {rule: place for place, rule in enumerate(RULES)}
_WEIGHT = {Level.STOP: 0, Level.CAUTION: 1, Level.NOTE: 2}


def flag(
    rule: str,
    level: Level,
    sentence: Sentence,
    *,
    subject: Subject = Subject.JOB,
    detail: str = "",
    closing: Closing = Closing.FACTS,
    needs: Mark | None = None,
    owner_sees: bool = False,
    clears: Sentence | None = None,
) -> FlagRaised:
    """A flag with what its rule always says filled in."""
    return FlagRaised(
        rule=rule,
        rule_version=RULES[rule].version,
        level=level,
        subject=subject,
        detail=detail,
        sentence=sentence,
        clears=clears or RULES[rule].clears,
        word=RULES[rule].word,
        closing=closing,
        needs=needs,
        owner_sees=owner_sees,
    )


def subject_of(modifications: Iterable[Modification]) -> Subject:
    """A change wholly inside the transport leaves with it; any other stays with the unit."""
    return Subject.TRANSPORT if all(m.in_transport for m in modifications) else Subject.UNIT


def in_order(flags: Iterable[FlagRaised]) -> tuple[FlagRaised, ...]:
    """Stops first, then cautions, then notes; within a level in the order of `RULES`."""
    return tuple(sorted(flags, key=lambda f: (_WEIGHT[f.level], _ORDER[f.rule], f.detail)))
