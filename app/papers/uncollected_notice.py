"""The notice to collect: what waits here, since when, by which day, and the terms of storage."""

from __future__ import annotations

from app.papers.blocks import section
from app.papers.labelled_rows import labelled_rows
from app.papers.letter import Letter
from app.papers.plain_letter import begun, closed
from app.papers.said import serial, worded
from app.papers.sheet import made
from app.papers.text import BODY, FINE_GREY, TABLE, set_text
from app.papers.uncollected_notice_facts import UncollectedNoticeFacts
from app.trade.wording import Wording


def uncollected_notice(facts: UncollectedNoticeFacts, wording: Wording) -> bytes:
    """The PDF of a notice to collect, A4 or Letter."""
    letter = _letter(facts, wording)
    flow = begun(letter, wording("Your player is ready and waits here"), facts.text, wording)
    rows = labelled_rows(_what_waits(facts, wording), flow.width, FINE_GREY, TABLE, 5.6, ruled=True)
    flow.put(section(wording("What waits here"), flow.width, rows), 5.0)
    if facts.terms:
        words = set_text(worded(facts.terms, wording), BODY, flow.width)
        flow.put(section(wording("Terms of storage"), flow.width, words), 4.2)
    closed(flow, facts.writer, facts.sheet.shop.name, wording)
    return made(
        flow.pages,
        letter.format,
        letter.title,
        facts.sheet,
        wording,
        lambda pen, page, pages: letter.dress(pen, page, pages, wording),
    )


def _letter(facts: UncollectedNoticeFacts, wording: Wording) -> Letter:
    rows = [
        (wording("Date"), wording.day(facts.day, "d MMMM y")),
        (wording("Job"), str(facts.job)),
        (wording("Collect by"), wording.day(facts.collect_by, "d MMMM y")),
    ]
    if facts.customer.number:
        rows.append((wording("Customer"), facts.customer.number))
    return Letter(facts.sheet, wording("Notice to collect"), str(facts.job), facts.job, facts.customer, rows)


def _what_waits(facts: UncollectedNoticeFacts, wording: Wording) -> list[tuple[str, str]]:
    rows = [
        (
            wording("Player"),
            wording("{player}, {serial}", player=facts.player.name, serial=serial(facts.player, wording)),
        ),
        (wording("Left with us"), wording.day(facts.taken_in, "d MMMM y")),
        (wording("Ready"), wording.day(facts.ready, "d MMMM y")),
    ]
    if facts.told is not None:
        rows.append((wording("Last message to you"), wording.day(facts.told, "d MMMM y")))
    if facts.things:
        rows.append((wording("With it"), "; ".join(worded(thing, wording) for thing in facts.things)))
    if facts.open is not None and facts.open.minor > 0:
        rows.append((wording("Open on the invoice"), wording.money(facts.open)))
    if facts.earlier:
        days = "; ".join(wording.day(day, "d MMMM y") for day in facts.earlier)
        rows.append((wording("Earlier notices"), days))
    return rows
