"""What both halves of the intake ticket say, in runs of text."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from app.papers.facts import Player, Tick
from app.papers.intake_ticket_facts import IntakeTicketFacts
from app.papers.line_breaks import Run
from app.papers.said import serial, shown, worded
from app.trade.wording import Wording

SHORT_DAY = "EEE d MMM"


def quoted(text: str, wording: Wording) -> str:
    """Words of a person in the quotes of the language."""
    return wording("“{words}”", words=text)


def short_day(day: date, wording: Wording) -> str:
    """ "Wed 25 Nov"."""
    return wording.day(day, SHORT_DAY)


def fault_notes(facts: IntakeTicketFacts, wording: Wording) -> str:
    """Fault words picked from the list, and the error shown: one line, empty when there is neither."""
    notes = [worded(word, wording) for word in facts.fault_words]
    if facts.error_shown:
        notes.append(wording("shows {error}", error=facts.error_shown))
    return wording("Noted: {notes}.", notes="; ".join(notes)) if notes else ""


def player_line(player: Player, wording: Wording) -> str:
    """ "Disc player, black; serial 0420 158; class II mains"."""
    parts = [player.looks, serial(player, wording), worded(player.mains or "", wording)]
    line = "; ".join(part for part in parts if part)
    return line[:1].upper() + line[1:]


def condition_runs(facts: IntakeTicketFacts, wording: Wording) -> list[Run]:
    """Marks, condition, what was left and what was not, earlier visits: labels in Semibold."""
    runs: list[Run] = []
    if facts.marks:
        _labelled(
            runs, wording("Marks:"), [Run("; ".join(worded(mark.text, wording) for mark in facts.marks))]
        )
    for row in facts.condition:
        label = wording("{label}:", label=worded(row.label, wording))
        _labelled(runs, label, [Run(shown(row.value, wording))])
    left = [thing for thing in facts.things if thing.ticked]
    if left:
        _labelled(runs, wording("With it:"), _listed(left, wording))
    else:
        _labelled(runs, wording("With it:"), [Run(wording("nothing"))])
    missing = [thing for thing in facts.things if not thing.ticked]
    if missing:
        _labelled(runs, wording("Not left:"), _listed(missing, wording))
    if facts.parts_back is not None:
        answer = wording("to be given back") if facts.parts_back else wording("not wanted")
        _labelled(runs, wording("Old parts:"), [Run(answer)])
    if facts.here_before:
        _labelled(runs, wording("Here before:"), [Run(worded(facts.here_before, wording))])
    return runs


def _listed(things: Sequence[Tick], wording: Wording) -> list[Run]:
    runs: list[Run] = []
    for thing in things:
        if runs:
            runs.append(Run(", "))
        runs.append(Run(worded(thing.text, wording), bold=thing.strong))
    return runs


def _labelled(runs: list[Run], label: str, words: Sequence[Run]) -> None:
    """Adds "Label: words." with a space before it."""
    if runs:
        runs.append(Run(" "))
    runs += [Run(label, bold=True), Run(" "), *words]
    if not words[-1].text.rstrip().endswith((".", "?", "…")):
        runs.append(Run("."))
