"""The hand-back receipt: who collected, what was given back and told, signed for. Half a sheet upright."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Rule, Stack, Whole, section
from app.papers.codes import draw_qr, job_code, qr_side
from app.papers.facts import Tick
from app.papers.flags import flag_blocks
from app.papers.flow import Flow, Placed
from app.papers.hand_back_receipt_facts import Collector, HandBackReceiptFacts
from app.papers.job_number import draw_job_number
from app.papers.letter import ShopHead
from app.papers.line_breaks import Run
from app.papers.pen import INK, Pen
from app.papers.said import serial, worded
from app.papers.sheet import HALVES, Format, made, page_of
from app.papers.signatures import signature_lines
from app.papers.text import FINE, FINE_GREY, RIGHT, TABLE, Style, TextBlock, fitted, set_text
from app.papers.ticks import tick_columns
from app.trade.wording import Wording

MARGIN_LEFT, MARGIN_RIGHT = 14.0, 12.0
QR_MODULE = 0.6
FOOT = 10.4  # from the foot's rule to the edge
SIGN_ROOM = 13.0


def hand_back_receipt(facts: HandBackReceiptFacts, wording: Wording) -> bytes:
    """The PDF of a hand-back receipt, A5 or half Letter."""
    paper = HALVES[facts.sheet.size]
    width = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    flow = _flow(facts, width, paper, 1.0, wording)
    if len(flow.pages) > 1:
        flow = _flow(facts, width, paper, 0.62, wording)
    title = wording("Hand-back receipt {job}", job=str(facts.job))

    def dress(pen: Pen, page: int, pages: int) -> None:
        _foot(pen, paper, page_of(wording, page, pages), wording)
        if page > 1:
            line = set_text(
                wording("{paper} · job {job}", paper=wording("Hand-back receipt"), job=str(facts.job)),
                FINE_GREY,
                width,
            )
            line.draw(pen, MARGIN_LEFT, 9.0)

    return made(flow.pages, paper, title, facts.sheet, wording, dress)


def _flow(facts: HandBackReceiptFacts, width: float, paper: Format, space: float, wording: Wording) -> Flow:
    """All of the receipt; ``space`` scales the gaps."""
    above, between = 3.4 * space, 1.45 * space
    head = Head(facts, width, wording)
    flow = Flow(MARGIN_LEFT, width, 10.0 + head.height, 16.0, paper.height - FOOT - 2.0)
    flow.pages[0].put(head, MARGIN_LEFT, 10.0)
    flow.top -= 3.0 * (1 - space)
    flow.put(section(wording("Who collected"), width, _collector(facts, width, between, wording)))
    given = tick_columns(facts.given_back, width, wording, between=between)
    told = tick_columns(facts.shown_told, width, wording, between=between)
    note = wording("ticked together at the counter")
    if facts.given_back:
        flow.run(section(wording("Given back"), width, given, note=note), above)
    if facts.shown_told:
        flow.run(section(wording("Shown and told"), width, told), above)
    flow.run(_still_to_do(facts, width, wording), above)
    if facts.flags:
        flow.put(flag_blocks(facts.flags, width, wording), 1.6)
    _signed(facts, flow, wording)
    return flow


@dataclass(frozen=True)
class Head(Whole):
    """Shop, paper and code over a rule; number and player below it."""

    facts: HandBackReceiptFacts
    width: float
    wording: Wording

    @property
    def _side(self) -> float:
        return qr_side(job_code(self.facts.job), QR_MODULE)

    def _title(self) -> tuple[TextBlock, TextBlock]:
        wording, room = self.wording, self.width * 0.44
        moment = wording.moment(self.facts.handed_back, "d MMMM y, HH:mm")
        title = fitted(wording("Hand-back receipt"), Style(14, 5.4, bold=True), room, 1, RIGHT)
        return title, set_text(moment, FINE_GREY, room, RIGHT)

    def _player(self) -> Stack:
        facts, wording = self.facts, self.wording
        room = self.width - 36
        about = serial(facts.player, wording)
        if facts.player.transport:
            transport = wording("transport {transport}", transport=facts.player.transport)
            about = f"{about} · {transport}"
        outcome = wording("Outcome: {outcome}", outcome=facts.outcome)
        return Stack(
            (
                fitted(facts.player.name, Style(12, 5.2, bold=True), room, 2),
                set_text(about, TABLE, room),
                set_text(Run(outcome, bold=True), TABLE, room),
            )
        )

    def _shop(self) -> ShopHead:
        title, moment = self._title()
        room = self.width - self._side - 3.3 - max(title.widest, moment.widest) - 2
        return ShopHead(self.facts.sheet.shop, room, phone=False)

    @property
    def _rule(self) -> float:
        return max(16.9, self._shop().height + 2.0)

    @property
    def height(self) -> float:
        """Down to the first section."""
        return self._rule + 1.5 + max(14.6, self._player().height + 1.6) + 3.2

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the head."""
        title, moment = self._title()
        right = x + self.width - self._side - 3.3
        title.draw(pen, right - title.width, top - 1.0)
        moment.draw(pen, right - moment.width, top + 5.9)
        draw_qr(pen, job_code(self.facts.job), x + self.width - self._side, top, QR_MODULE)
        self._shop().draw(pen, x, top)
        top += self._rule
        pen.rule(x, top, self.width, 1.1, INK)
        draw_job_number(pen, self.facts.job, x, top + 14.4, 38, 33)
        self._player().draw(pen, x + 36, top + 1.5)


def _collector(facts: HandBackReceiptFacts, width: float, between: float, wording: Wording) -> Stack:
    boxes = (
        (Collector.CUSTOMER, wording("the customer: {name}", name=facts.customer_name)),
        (Collector.WITH_TICKET, wording("somebody with the ticket")),
        (Collector.NAMED, wording("somebody named by telephone")),
        (Collector.TICKET_LOST, wording("ticket lost; proof noted")),
    )
    ticks = [Tick(words, collector is facts.collector) for collector, words in boxes]
    label = set_text(wording("name, if not the customer; proof"), FINE_GREY, width * 0.5)
    known = "; ".join(part for part in (facts.collector_name, facts.proof) if part)
    start = label.widest + 3
    written = set_text(known, TABLE, width - start)
    line = Rule(width - start, 0.6, INK)
    beside = Beside(((0.0, label), (start, Stack((written if known else Gap(4.2), line)))))
    return Stack((tick_columns(ticks, width, wording, between=between), Gap(1.0 + between * 0.4), beside))


def _still_to_do(facts: HandBackReceiptFacts, width: float, wording: Wording) -> Stack:
    title = wording("Still to do") if facts.still_to_do else wording("Still to do: nothing")
    body: list[Block] = []
    if facts.still_to_do:
        body += [tick_columns([Tick(gate) for gate in facts.still_to_do], width, wording), Gap(1.0)]
    runs = [Run(" ".join(wording(line) for line in facts.done))]
    if facts.payment:
        lead = worded(facts.payment_lead, wording)
        runs += [Run(f" {lead} " if lead else " ", bold=True), Run(worded(facts.payment, wording))]
    body.append(set_text(runs, FINE, width))
    return section(title, width, *body)


def _signed(facts: HandBackReceiptFacts, flow: Flow, wording: Wording) -> None:
    """What is signed and the lines, at the foot of the last page."""
    words = worded(facts.declaration, wording) or wording("I have received what is ticked above.")
    declaration = set_text(words, TABLE, flow.width)
    line = flow.width * 0.574
    names = (
        (0.0, line, wording("signature of the person who collects")),
        (line + 6, flow.width - line - 6, wording("counter: {name}", name=facts.counter)),
    )
    block = Stack((declaration, signature_lines(names, SIGN_ROOM - 1.2)))
    if block.height + 2.4 > flow.room:
        flow.turn()
    flow.pages[-1].placed.append(Placed(flow.left, flow.bottom - block.height, block))


def _foot(pen: Pen, paper: Format, number: str, wording: Wording) -> None:
    top = paper.height - FOOT
    width = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    pen.rule(MARGIN_LEFT, top, width)
    page = set_text(number, FINE, 30, RIGHT)
    stays = wording("The signed sheet stays in the shop; a copy is yours.")
    fitted(stays, FINE_GREY, width - page.widest - 4).draw(pen, MARGIN_LEFT, top + 0.9)
    page.draw(pen, paper.width - MARGIN_RIGHT - 30, top + 0.9)
