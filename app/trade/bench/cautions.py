"""The safety notes that papers carry: C1 to C5 for the person who uses the player, T1 to T5 for the next
technician. A shop may add to them, not remove. Own wording; local rules and a competent person decide.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.case import MAINS_INSIDE, opened_in
from app.trade.bench.circuit_ratio import CircuitRatio, circuit_ratios, follows_law
from app.trade.bench.facts import JobFacts
from app.trade.bench.flag import FlagRaised
from app.trade.bench.holds import unsafe_stops
from app.trade.bench.modification_words import against_maker, what_it_is
from app.trade.bench.modifications import Circuit, Kind, Modification, in_words, live
from app.trade.sentence import Sentence, Value


class PaperKind(StrEnum):
    """Papers that carry safety notes."""

    TICKET = "intake ticket"
    INVOICE = "invoice"
    REPORT = "service report"
    UNSAFE = "returned unrepaired and unsafe"


class NoteSign(StrEnum):
    """The drawing beside a note, by the name that papers know it."""

    GENERAL = "general"
    LASER = "laser"
    ELECTRIC = "electric"
    STATIC = "static"
    HOT = "hot"
    PLUG = "plug"


@dataclass(frozen=True, slots=True)
class PaperNote:
    """One safety note: ``title`` stands out, ``text`` follows. ``large``: it heads its paper."""

    id: str
    title: Sentence
    text: Sentence
    sign: NoteSign | None = None
    large: bool = False


_WITH_PLAYER = frozenset({PaperKind.INVOICE, PaperKind.REPORT})
# A change here changes a current or heat, whether or not a factor is known.
_CURRENT_CIRCUITS = frozenset(
    {
        Circuit.RADIAL_COIL,
        Circuit.FOCUS_COIL,
        Circuit.LASER_SUPPLY,
        Circuit.MAINS,
        Circuit.SUPPLY_RAIL,
        Circuit.FUSE,
    }
)


def notes_for_user(facts: JobFacts, paper: PaperKind) -> tuple[PaperNote, ...]:
    """What the person who uses the player has to know, C5 first where it applies, then C1 to C4."""
    return tuple(_for_user(facts, paper))


def _for_user(facts: JobFacts, paper: PaperKind) -> Iterator[PaperNote]:
    dangers = electrical_dangers(facts)
    mains = facts.mains_class in MAINS_INSIDE
    modified = live(facts.modifications)
    if dangers:
        yield _do_not_use(dangers, large=paper is PaperKind.UNSAFE)
    if paper is PaperKind.UNSAFE:
        return
    if paper is PaperKind.TICKET:
        yield PaperNote(
            "C1",
            Sentence("Invisible laser light inside."),
            _ticket_text(mains),
            NoteSign.LASER,
        )
        return
    yield PaperNote(
        "C1",
        Sentence("Invisible laser light inside."),
        Sentence("Leave the cover closed. Do not open the player or hold down its disc switch."),
        NoteSign.LASER,
    )
    if mains:
        yield PaperNote(
            "C2",
            Sentence("Pull the mains plug"),
            Sentence("before cleaning or moving it, and if liquid or a small object has fallen in."),
            NoteSign.PLUG,
        )
    if modified:
        yield PaperNote("C3", Sentence("Modified."), _modified_text(modified))
    if mains or any(m.circuit in _CURRENT_CIRCUITS for m in modified):
        yield PaperNote("C4", Sentence("Smell, smoke, heat or a new noise?"), _trouble_text(mains))


def _do_not_use(dangers: tuple[FlagRaised, ...], *, large: bool) -> PaperNote:
    return PaperNote(
        "C5",
        Sentence("Do not use. Do not plug it in."),
        Sentence(
            "This player can start a fire or give an electric shock until it is made safe: {what}.",
            {"what": tuple(dict.fromkeys(f.word for f in dangers))},
        ),
        NoteSign.GENERAL,
        large,
    )


def _ticket_text(mains: bool) -> Sentence:
    if mains:
        return Sentence(
            "Keep the cover closed. If, after the repair, it smells, smokes or runs hot: switch off, pull the plug and bring it back."
        )
    return Sentence(
        "Keep the cover closed. If, after the repair, it smells, smokes or runs hot: switch off, take its supply away and bring it back."
    )


def _modified_text(modified: tuple[Modification, ...]) -> Sentence:
    values: dict[str, Value] = {"n": len(modified)}
    if any(m.kind is Kind.TRIMMER and not m.reading_before and not m.way_back for m in modified):
        return Sentence(
            "This player no longer follows its maker's design in {n} place(s). How far it can be put back is written under “Modification”. Keep this sheet with it and pass it on.",
            values,
        )
    if len(modified) == 1:
        return Sentence(
            "One part of this player no longer follows its maker's design. It can be put back. Keep this sheet with it and pass it on."
        )
    return Sentence(
        "In {n} places this player no longer follows its maker's design. It can be put back. Keep this sheet with it and pass it on.",
        values,
    )


def _trouble_text(mains: bool) -> Sentence:
    if mains:
        return Sentence(
            "Switch off, pull the plug and bring it to a competent person. Leave air around the player."
        )
    return Sentence(
        "Switch off, take its supply away and bring it to a competent person. Leave air around the player."
    )


def notes_for_technician(facts: JobFacts, paper: PaperKind) -> tuple[PaperNote, ...]:
    """What the next technician has to know, in the order T1 to T5; only on invoice and service report."""
    return tuple(_for_technician(facts)) if paper in _WITH_PLAYER else ()


def _for_technician(facts: JobFacts) -> Iterator[PaperNote]:
    # No power or distance is called safe here: none is.
    yield PaperNote(
        "T1",
        Sentence("Laser."),
        Sentence(
            "With the cover off or a switch bridged, an unseen beam near 780 nm can leave the lens. Never look into the lens or its reflection; use a meter or detector card."
        ),
        NoteSign.LASER,
    )
    if facts.mains_class in MAINS_INSIDE:
        yield PaperNote(
            "T2",
            Sentence("Mains and stored charge."),
            Sentence(
                "Parts on the mains side can be live; capacitors can stay charged after unplugging. Measure before touching."
            ),
            NoteSign.ELECTRIC,
        )
    yield PaperNote(
        "T3",
        Sentence("Static."),
        Sentence(
            "The laser diode is easily destroyed. Wear a tested wrist strap; close the shorting bridge before the ribbon is unplugged."
        ),
        NoteSign.STATIC,
    )
    changes = tuple(change_lines(facts))
    if changes:
        yield PaperNote(
            "T4",
            Sentence("Modification."),
            Sentence("{changes} Read “Modification” before judging readings.", {"changes": joined(changes)}),
        )
    if opened_in(facts.case_events, facts.number):
        yield PaperNote(
            "T5",
            Sentence("After any repair:"),
            Sentence(
                "tests by a competent person under the rules that apply where you are. Those rules come before this sheet."
            ),
        )


def change_lines(facts: JobFacts) -> Iterator[Sentence]:
    """Each changed circuit in one sentence with its factor, and each change without one in its own words."""
    for ratio in circuit_ratios(facts.modifications):
        if ratio.k is not None:
            yield _factor_line(ratio)
    for m in live(facts.modifications):
        if not follows_law(m):
            yield Sentence("Changed: {what}.", {"what": what_it_is(m)})


def _factor_line(ratio: CircuitRatio) -> Sentence:
    assert ratio.k is not None
    values: dict[str, Value] = {
        "circuit": in_words(ratio.circuit),
        "share": against_maker(ratio.k),
        "list": ratio.places,
    }
    if ratio.of_current and all(m.ours for m in ratio.modifications):
        return Sentence("Current in {circuit} is {share} on purpose ({list}).", values)
    if ratio.of_current:
        return Sentence("Current in {circuit} is {share} ({list}).", values)
    return Sentence("Loop gain in {circuit} is {share} ({list}).", values)


def joined(sentences: tuple[Sentence, ...]) -> Sentence:
    """Several sentences as one, with a space between."""
    joined = sentences[0]
    for sentence in sentences[1:]:
        joined = Sentence("{first} {second}", {"first": joined, "second": sentence})
    return joined


def electrical_dangers(facts: JobFacts) -> tuple[FlagRaised, ...]:
    """Open stops by which the player itself can start a fire or give a shock."""
    return tuple(f for f in unsafe_stops(facts) if f.rule != "interlock")
