"""The box in which the customer answers an estimate: it can stand alone on a sheet of its own."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Stack
from app.papers.estimate_facts import EstimateFacts, EstimateOption
from app.papers.facts import Tick
from app.papers.frames import Framed
from app.papers.said import amount, serial
from app.papers.signatures import signature_lines
from app.papers.text import FINE, FINE_GREY, RIGHT, SECTION, set_text
from app.papers.ticks import tick_block
from app.trade.sentence import Sentence, Value
from app.trade.wording import Wording

INSIDE = 4.0
SIGNING = 13.0


@dataclass(frozen=True)
class AnswerBox(Framed):
    """The frame, a little wider inside than that of a limit."""

    pad: float = INSIDE
    above: float = 2.2
    below: float = 2.6


def answer_box(facts: EstimateFacts, width: float, wording: Wording, *, alone: bool = False) -> AnswerBox:
    """Options with their amounts, none of them with its fee, how to answer, and room to sign. ``alone``: the
    columns stand on another sheet, so that it names the player, too."""
    room = width - 2 * INSIDE
    note = set_text(wording("Nothing further is done before we have it."), FINE_GREY, room * 0.6, RIGHT)
    title = set_text(wording("Your answer"), SECTION, room - note.widest - 4)
    parts: list[Block] = [Beside(((0.0, title), (room - note.width, note))), Gap(0.9)]
    if alone:
        player = wording(
            "{player}, {serial}.", player=facts.player.name, serial=serial(facts.player, wording)
        )
        parts += [set_text(player, FINE, room), Gap(0.9)]
    for option in facts.options:
        parts += [tick_block(Tick(_choice(option, len(facts.options), wording)), room, wording), Gap(1.2)]
    parts += [tick_block(Tick(_neither(facts, wording)), room, wording), Gap(1.8)]
    parts.append(set_text(_how(facts, wording), FINE_GREY, room))
    third = room / 165.0 * 1.05
    lines = (
        (0.0, 76 * third, wording("signature")),
        (82 * third, 27 * third, wording("date")),
        (115 * third, room - 115 * third, wording("by telephone: when, noted by")),
    )
    parts.append(signature_lines(lines, SIGNING - 2))
    return AnswerBox(Stack(tuple(parts)), width)


def _choice(option: EstimateOption, count: int, wording: Wording) -> str:
    values: dict[str, Value] = {"letter": option.letter, "amount": option.total}
    if count == 1:
        if option.design:
            return wording(Sentence("Yes, {amount}; I agree to the change of the maker’s design", values))
        return wording(Sentence("Yes, {amount}", values))
    if option.design:
        return wording(
            Sentence("Option {letter}, {amount}; I agree to the change of the maker’s design", values)
        )
    return wording(Sentence("Option {letter}, {amount}", values))


def _neither(facts: EstimateFacts, wording: Wording) -> str:
    said = {
        1: Sentence("No: return it unrepaired"),
        2: Sentence("Neither: return it unrepaired"),
    }.get(len(facts.options), Sentence("None of them: return it unrepaired"))
    words = wording(said)
    if facts.fee is None:
        return f"{words} ({wording('nothing is charged for looking')})"
    fee = f"{amount(facts.fee, wording)}\u00a0{facts.fee.currency}"
    told = wording("{fee} with VAT for looking", fee=fee)
    if facts.fee_told is not None:
        told = wording("{fee} with VAT for looking, told on {day}", fee=fee, day=facts.fee_told)
    if facts.deposit:
        told = f"{told}; {wording('what you paid counts')}"
    return f"{words} ({told})"


def _how(facts: EstimateFacts, wording: Wording) -> str:
    """By which ways the answer reaches the shop, and until when."""
    shop = facts.sheet.shop
    day = wording.day(facts.valid_until, "d MMMM y")
    match bool(shop.phone), bool(shop.email):
        case True, True:
            return wording(
                "Until {day}: bring or send this sheet, ring {phone}, or write to {email}.",
                day=day,
                phone=shop.phone.replace(" ", "\u00a0"),
                email=shop.email,
            )
        case True, False:
            phone = shop.phone.replace(" ", "\u00a0")
            return wording("Until {day}: bring or send this sheet, or ring {phone}.", day=day, phone=phone)
        case False, True:
            return wording(
                "Until {day}: bring or send this sheet, or write to {email}.", day=day, email=shop.email
            )
        case _:
            return wording("Until {day}: bring or send this sheet.", day=day)
