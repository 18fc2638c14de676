"""The receipt for one payment, or for money given back. Half a sheet upright, signed."""

from __future__ import annotations

from app.papers.blocks import Beside, Gap, Stack, section
from app.papers.codes import draw_qr, job_code, qr_side
from app.papers.flow import Flow, Placed
from app.papers.labelled_rows import labelled_rows
from app.papers.letter import ShopHead
from app.papers.line_breaks import Run
from app.papers.payment_receipt_facts import PaymentReceiptFacts
from app.papers.pen import INK, LABEL, Pen
from app.papers.said import serial, worded
from app.papers.sheet import HALVES, Format, made, page_of
from app.papers.signatures import signature_lines
from app.papers.text import FINE, FINE_GREY, RIGHT, TABLE, Style, fitted, set_text
from app.trade.wording import MINUS, Wording

MARGIN_LEFT, MARGIN_RIGHT = 14.0, 12.0
TOP = 10.0
QR_MODULE = 0.6
FOOT = 10.4  # from the foot's rule to the edge
SIGN_ROOM = 13.0
AMOUNT = Style(26, 10.4, bold=True)


def payment_receipt(facts: PaymentReceiptFacts, wording: Wording) -> bytes:
    """The PDF of a receipt for payment, A5 or half Letter."""
    paper = HALVES[facts.sheet.size]
    width = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    side = qr_side(job_code(facts.job), QR_MODULE)
    head = ShopHead(facts.sheet.shop, width - side - 6)
    rule = TOP + max(side, head.height) + 2.4
    flow = Flow(MARGIN_LEFT, width, rule + 3.4, 16.0, paper.height - FOOT - 2.0)
    _title(facts, flow, wording)
    _paid(facts, flow, wording)
    _stands(facts, flow, wording)
    _signed(facts, flow, wording)

    def dress(pen: Pen, page: int, pages: int) -> None:
        if page == 1:
            head.draw(pen, MARGIN_LEFT, TOP)
            draw_qr(pen, job_code(facts.job), MARGIN_LEFT + width - side, TOP, QR_MODULE)
            pen.rule(MARGIN_LEFT, rule, width, 1.1, INK)
        _foot(facts, pen, paper, page_of(wording, page, pages), wording)

    return made(flow.pages, paper, _name(facts, wording), facts.sheet, wording, dress)


def _name(facts: PaymentReceiptFacts, wording: Wording) -> str:
    if facts.back:
        return wording("Receipt for money given back {number}", number=facts.number)
    return wording("Receipt for payment {number}", number=facts.number)


def _title(facts: PaymentReceiptFacts, flow: Flow, wording: Wording) -> None:
    moment = wording.moment(facts.at, "d MMMM y, HH:mm")
    when = set_text(moment, FINE_GREY, 50, RIGHT)
    title = fitted(_name(facts, wording), Style(14, 5.4, bold=True), flow.width - when.widest - 4, 2)
    flow.put(Beside(((0.0, title), (flow.width - when.width, Stack((Gap(1.4), when))))))


def _paid(facts: PaymentReceiptFacts, flow: Flow, wording: Wording) -> None:
    """The amount is what the eye meets first."""
    flow.put(fitted(wording.money(facts.amount), AMOUNT, flow.width), 4.0)
    words = worded(facts.means, wording)
    if facts.sheet.specimen:
        words = f"{words} · {wording('specimen')}"
    flow.put(set_text(Run(words, ink=LABEL), TABLE, flow.width), 0.4)
    who = wording("Given back to") if facts.back else wording("Received from")
    rows = [
        (who, facts.customer_name),
        (
            wording("For"),
            wording("invoice {number}", number=facts.invoice)
            if facts.invoice
            else wording("job {job}, before the invoice", job=str(facts.job)),
        ),
        (
            wording("Player"),
            wording("{player}, {serial}", player=facts.player.name, serial=serial(facts.player, wording)),
        ),
        (wording("Job"), str(facts.job)),
    ]
    if facts.note:
        rows.append((wording("Note"), facts.note))
    flow.put(labelled_rows(rows, flow.width, FINE_GREY, TABLE, 5.6, ruled=True), 4.6)


def _stands(facts: PaymentReceiptFacts, flow: Flow, wording: Wording) -> None:
    """What is paid so far and what is open after it."""
    rows = []
    if facts.total is not None:
        rows.append((wording("Total of the invoice"), wording.money(facts.total)))
    if facts.paid is not None:
        rows.append((wording("Paid so far"), wording.money(facts.paid)))
    if facts.open is not None:
        if facts.open.minor < 0:
            rows.append((wording("We owe you"), wording.money(facts.open).replace(MINUS, "")))
        elif facts.open.minor:
            rows.append((wording("Still open"), wording.money(facts.open)))
        else:
            rows.append((wording("Still open"), wording("nothing")))
    if rows:
        body = labelled_rows(rows, flow.width, FINE_GREY, TABLE, 4.9)
        flow.put(section(wording("How it stands"), flow.width, body), 5.0)


def _signed(facts: PaymentReceiptFacts, flow: Flow, wording: Wording) -> None:
    """Who took the money signs; who is given money back signs beside."""
    line = flow.width * 0.574
    counter = wording("counter: {name}", name=facts.taken_by)
    names = [(0.0, line, counter)]
    if facts.back:
        names = [
            (0.0, line, wording("signature of the person who received it")),
            (line + 6, flow.width - line - 6, counter),
        ]
    block = signature_lines(names, SIGN_ROOM)
    if block.height + 2.4 > flow.room:
        flow.turn()
    flow.pages[-1].placed.append(Placed(flow.left, flow.bottom - block.height, block))


def _foot(facts: PaymentReceiptFacts, pen: Pen, paper: Format, number: str, wording: Wording) -> None:
    top = paper.height - FOOT
    width = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    pen.rule(MARGIN_LEFT, top, width)
    page = set_text(number, FINE, 30, RIGHT)
    says = wording("VAT stands on the invoice, not here.")
    fitted(says, FINE_GREY, width - page.widest - 4).draw(pen, MARGIN_LEFT, top + 0.9)
    page.draw(pen, paper.width - MARGIN_RIGHT - 30, top + 0.9)
