"""The bench tag that stays with the player: on a roll 62 mm wide, or a sheet label of 70 x 36 mm."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Block, Gap, Whole
from app.papers.codes import QUIET, bars_width, draw_bars, draw_qr, job_code, qr_side
from app.papers.facts import Player, TagSize
from app.papers.flags import flag_block, level_word, worst
from app.papers.flow import Page
from app.papers.job_number import draw_job_number
from app.papers.labels_facts import BenchTagFacts
from app.papers.line_breaks import Run
from app.papers.modified_label import QR_SMALL, SIDE, SMALL, SMALL_LABEL
from app.papers.pen import INK, Pen
from app.papers.said import together, worded
from app.papers.sheet import Format, made
from app.papers.signs import draw_level
from app.papers.text import CENTRE, RIGHT, TABLE, Style, cut, fitted, natural, one_line, set_text
from app.trade.wording import Wording

ROLL_WIDTH, ROLL_SIDE = 62.0, 3.5

SMALL_NAME = Style(10.5, 4.6, bold=True)
SIGN = 9.0
QR_ROLL = 0.70
BAR, BAR_HEIGHT = 0.42, 11.0


def bench_tag(facts: BenchTagFacts, wording: Wording) -> bytes:
    """The PDF of a bench tag, one page of the size of its stock; the roll's length follows its content."""
    title = wording("Bench tag {job}", job=str(facts.job))
    if facts.size is TagSize.SHEET_70X36:
        page = Page()
        page.put(SmallTag(facts, wording), 0, 0)
        return made([page], SMALL_LABEL, title, facts.sheet, wording)
    tag = RollTag(facts, wording)
    page = Page()
    page.put(tag, 0, 0)
    return made([page], Format(ROLL_WIDTH, tag.height), title, facts.sheet, wording)


def last_four(player: Player, wording: Wording) -> str:
    """ "… 0158": the last four letters or figures of the serial number."""
    plain = "".join(letter for letter in player.serial if letter.isalnum())
    return f"…\u00a0{plain[-4:]}" if plain else wording("no serial")


@dataclass(frozen=True)
class RollTag(Whole):
    """62 mm wide: number and code, player, fault, the worst flag, dates, bars."""

    facts: BenchTagFacts
    wording: Wording

    @property
    def _width(self) -> float:
        return ROLL_WIDTH - 2 * ROLL_SIDE

    @property
    def height(self) -> float:
        """Where the drawing ends, with the white at the foot."""
        return self._lay(None) + 2.6

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the tag."""
        self._lay(pen)

    def _lay(self, pen: Pen | None) -> float:
        """Draws from top to bottom, or only measures; returns where it ends."""
        facts, wording, left, width = self.facts, self.wording, ROLL_SIDE, self._width
        code = job_code(facts.job)
        side = qr_side(code, QR_ROLL)
        if pen:
            draw_job_number(pen, facts.job, left, 16.3, 50, width - side - QUIET * QR_ROLL)
            draw_qr(pen, code, left + width - side, 3.6, QR_ROLL)
            pen.rule(left, 21.4, width, 1.2, INK)
        at = 22.6
        for block in self._texts(width):
            if pen:
                block.draw(pen, left, at)
            at += block.height
        at += 2.0
        flag = worst(facts.flags)
        if flag:
            framed = flag_block(flag, width, wording, Style(10.5, 5.0), SIGN)
            if pen:
                framed.draw(pen, left, at)
            at += framed.height + 2.2
        for begin, end in self._pairs():
            pair = (set_text(begin, TABLE, width), set_text(end, TABLE, width, RIGHT))
            if natural(begin, TABLE) + natural(end, TABLE) + 2 > width:
                for block in pair:
                    if pen:
                        block.draw(pen, left, at)
                    at += block.height
                continue
            if pen:
                for block in pair:
                    block.draw(pen, left, at)
            at += 5.0
        at += 1.6
        if pen:
            quiet = 3.4
            bars = bars_width(code, BAR)
            draw_bars(pen, code, left + quiet, at, BAR, BAR_HEIGHT)
            words = fitted(Run(code, bold=True), Style(10.5, 4.7), width - bars - 2 * quiet, 1, RIGHT)
            words.draw(pen, left + width - words.width, at + BAR_HEIGHT - 4.0)
        return at + BAR_HEIGHT

    def _texts(self, width: float) -> list[Block]:
        facts = self.facts
        second = short_serial(facts.player, self.wording)
        name = cut(Run(facts.player.name, bold=True), Style(12, 5.4, bold=True), width, 2)
        fault = cut(facts.fault, Style(11, 5.1), width, 2)
        return [name, cut(second, Style(10, 5.0), width, 2), Gap(1.0), fault]

    def _pairs(self) -> list[tuple[str, str]]:
        facts, wording = self.facts, self.wording
        begin = [wording("in {day}", day=facts.taken_in)]
        end = (
            [wording("promised {day}", day=wording.day(facts.promised, "EEE d MMM"))]
            if facts.promised
            else [""]
        )
        begin.append(wording("shelf {shelf}", shelf=together(facts.shelf)) if facts.shelf else "")
        end.append(wording("limit {amount}", amount=facts.limit) if facts.limit else wording("no limit: ask"))
        return list(zip(begin, end, strict=True))


def short_serial(player: Player, wording: Wording) -> str:
    """ "serial … 0158 · Velk A1"."""
    serial = (
        wording("serial {serial}", serial=last_four(player, wording))
        if player.serial
        else last_four(player, wording)
    )
    return " · ".join(part for part in (serial, player.transport_type) if part)


@dataclass(frozen=True)
class SmallTag(Whole):
    """70 x 36 mm: number, worst flag with one word, code; player; fault; date, shelf, transport."""

    facts: BenchTagFacts
    wording: Wording

    height: float = 36.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the tag."""
        facts, wording, left = self.facts, self.wording, SIDE
        width = SMALL_LABEL.width - 2 * SIDE
        code = job_code(facts.job)
        side = qr_side(code, QR_SMALL)
        across = draw_job_number(pen, facts.job, left, 13.3, 38, 34)
        qr_at = left + width - side
        draw_qr(pen, code, qr_at, SIDE, QR_SMALL)
        flag = worst(facts.flags)
        if flag:
            middle = (left + across + qr_at) / 2
            draw_level(pen, flag.level, middle - SIGN / 2, 3.0, SIGN)
            room = qr_at - left - across - QUIET * QR_SMALL
            short = worded(flag.short, wording) or level_word(flag.level, wording).rstrip(".")
            words = fitted(Run(short, bold=True), Style(9.5, 4.0, bold=True), room, 1, CENTRE)
            one_line(Run(short, bold=True), words.style, room, CENTRE).draw(pen, middle - room / 2, 12.6)
        pen.rule(left, 18.9, width, 0.9, INK)
        name = f"{facts.player.name} · {last_four(facts.player, wording)}"
        one_line(Run(name, bold=True), SMALL_NAME, width).draw(pen, left, 19.9)
        one_line(facts.fault, SMALL, width).draw(pen, left, 24.6)
        right = one_line(facts.player.transport_type, SMALL, width * 0.45, RIGHT)
        parts = [wording("in {day}", day=wording.day(facts.taken_in, "d MMM"))]
        if facts.shelf:
            parts.append(wording("shelf {shelf}", shelf=together(facts.shelf)))
        one_line(" · ".join(parts), SMALL, width - right.widest - 2).draw(pen, left, 29.2)
        right.draw(pen, left + width - right.width, 29.2)
