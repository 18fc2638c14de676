"""The service report, the paper that goes with the player: what was complained of, found, tried, fitted and left."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Quote, Stack, Whole, section, section_head
from app.papers.flags import flag_blocks
from app.papers.flow import Flow, stack
from app.papers.intake_words import quoted
from app.papers.letter import LEFT_MARGIN, RIGHT_MARGIN, ShopHead
from app.papers.line_breaks import Run
from app.papers.modification import clause_runs, modification_block
from app.papers.pen import HAIRLINE, LABEL, POINT, Pen
from app.papers.report_ladder import ladder_pair
from app.papers.report_photos import photo_rows
from app.papers.report_ratios import ratios_section
from app.papers.report_readings import readings_table
from app.papers.report_safety import pour_safety
from app.papers.report_trials import BETWEEN, parts_section, pour_trials
from app.papers.safety import safety_pair
from app.papers.said import serial, together, worded
from app.papers.service_report_facts import ServiceReportFacts
from app.papers.sheet import FORMATS, Format, made, page_of
from app.papers.tables import pour_rows
from app.papers.text import (
    ASCENT,
    BODY,
    FINE,
    FINE_GREY,
    RIGHT,
    TABLE,
    TITLE,
    Style,
    TextBlock,
    fitted,
    one_line,
    set_text,
)
from app.trade.wording import Wording

TOP = 12.0
LATER = 19.1
STRIP = (40.0, 26.0, 60.0, 39.0)  # of 165: player, serial, transport, for whom
MOST_IN_STRIP = 3  # lines
FOOT = 13.2  # from the foot's rule to the edge
ABOVE = 3.0


def service_report(facts: ServiceReportFacts, wording: Wording) -> bytes:
    """The PDF of a service report, A4 or Letter."""
    paper = FORMATS[facts.sheet.size]
    width = paper.width - LEFT_MARGIN - RIGHT_MARGIN
    head = ReportHead(facts, width, wording)
    flow = Flow(LEFT_MARGIN, width, TOP + head.height, LATER, paper.height - FOOT - 2.3)
    flow.pages[0].put(head, LEFT_MARGIN, TOP)
    _complaint(facts, flow, wording)
    _found(facts, flow, wording)
    _readings(facts, flow, wording)
    if facts.trials:
        pour_trials(flow, facts.trials, [worded(line, wording) for line in facts.trials_fine_print], wording)
    if facts.parts:
        flow.put(parts_section(facts.parts, width, wording), ABOVE)
    _modifications(facts, flow, wording)
    _photos(facts, flow, wording)
    if facts.safety or facts.safety_missing:
        missing = worded(facts.safety_missing, wording)
        pour_safety(flow, facts.safety, missing, class_ii=facts.player.class_ii, wording=wording)
    if facts.guarantee:
        words = set_text(worded(facts.guarantee, wording), BODY, width)
        flow.put(section(wording("Guarantee"), width, words, note=wording("as on the invoice")), ABOVE)
    pair = safety_pair(facts.cautions_user, facts.cautions_technician, width, wording)
    if pair.height:
        flow.put(pair, 5.0)
    title = wording("Service report {job}", job=str(facts.job))
    return made(
        flow.pages,
        paper,
        title,
        facts.sheet,
        wording,
        lambda pen, page, pages: _dress(pen, facts, paper, page, pages, wording),
    )


@dataclass(frozen=True)
class ReportHead(Whole):
    """Shop and paper, then the strip: player, serial, transport, for whom."""

    facts: ServiceReportFacts
    width: float
    wording: Wording

    def _title(self) -> Stack:
        facts, wording = self.facts, self.wording
        room = self.width * 0.5
        job = wording("job {job}", job=str(facts.job))
        runs = [Run(wording("Service report"), bold=True), Run(f" {job}")]
        about = [wording.day(facts.day, "d MMMM y")]
        if facts.bench:
            about.append(wording("bench: {name}", name=facts.bench))
        return Stack(
            (fitted(runs, TITLE, room, 1, RIGHT), set_text(" · ".join(about), FINE_GREY, room, RIGHT))
        )

    def _strip(self) -> Block:
        """Four columns, or one below the other where a name is so long that it would hang down in its column."""
        player, wording = self.facts.player, self.wording
        kind = worded(player.transport_kind, wording)
        fields = (
            (wording("Player"), Run(player.name, bold=True)),
            (wording("Serial"), Run(together(player.serial) or wording("not readable"))),
            (wording("Transport"), Run(", ".join(part for part in (kind, player.transport) if part) or "–")),
            (wording("For"), Run(self.facts.customer_name)),
        )
        columns: list[tuple[float, Block]] = []
        across, most = 0.0, 0
        for (label, value), share in zip(fields, STRIP, strict=True):
            room = share * self.width / sum(STRIP)
            shown = set_text(value, TABLE, room - 2)
            most = max(most, len(shown.lines))
            columns.append((across, Stack((set_text(label, FINE_GREY, room - 2), shown))))
            across += room
        if most <= MOST_IN_STRIP:
            return Beside(tuple(columns))
        names = max(set_text(label, FINE_GREY, self.width).widest for label, _ in fields) + 4
        rows = [
            Beside(
                (
                    (0.0, set_text(label, FINE_GREY, names)),
                    (names, set_text(value, TABLE, self.width - names)),
                )
            )
            for label, value in fields
        ]
        return Stack(tuple(rows))

    @property
    def _rule(self) -> float:
        return max(17.0, self._shop().height + 3.0, self._title().height + 3.0)

    def _shop(self) -> ShopHead:
        title = max(part.widest for part in self._title().parts if isinstance(part, TextBlock))
        return ShopHead(self.facts.sheet.shop, self.width - title - 5.0, mark=12.0)

    @property
    def height(self) -> float:
        """Down to the first section."""
        return self._rule + 1.2 + self._strip().height + 1.9

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Head, hairline, strip."""
        title = self._title()
        title.draw(pen, x + self.width * 0.5, top + 0.6)
        self._shop().draw(pen, x, top)
        pen.rule(x, top + self._rule, self.width)
        self._strip().draw(pen, x, top + self._rule + 1.2)


def _dress(
    pen: Pen, facts: ServiceReportFacts, paper: Format, page: int, pages: int, wording: Wording
) -> None:
    width = paper.width - LEFT_MARGIN - RIGHT_MARGIN
    if page > 1:
        top = 15.4 - ASCENT * FINE.size * POINT
        job = wording("job {job}", job=str(facts.job))
        player = f"{facts.player.name}, {serial(facts.player, wording)}"
        about = f"{wording('Service report')} · {job} · {player}"
        block = one_line(about, _fitting(about, width * 0.72), width * 0.72, RIGHT)
        fitted(facts.sheet.shop.name, FINE.but(bold=True), width - block.widest - 4).draw(
            pen, LEFT_MARGIN, top
        )
        block.draw(pen, LEFT_MARGIN + width - block.width, top)
    foot = paper.height - FOOT
    pen.rule(LEFT_MARGIN, foot, width, 0.4, HAIRLINE)
    number = set_text(page_of(wording, page, pages), FINE, 40, RIGHT)
    number.draw(pen, LEFT_MARGIN + width - 40, foot + 1.2)
    said = wording("Readings hold for the day, disc and instruments named. They promise no remaining life.")
    one_line(said, _fitting(said, width - number.widest - 4), width - number.widest - 4).draw(
        pen, LEFT_MARGIN, foot + 1.2
    )


def _fitting(text: str, room: float) -> Style:
    """Fine grey type, smaller where the text would need a second line."""
    return fitted(text, FINE_GREY, room).style


def _complaint(facts: ServiceReportFacts, flow: Flow, wording: Wording) -> None:
    body: list[Block] = []
    if facts.complaint.strip():
        body.append(Quote(set_text(quoted(facts.complaint, wording), BODY, flow.width - Quote.INDENT)))
    if facts.complaint_words:
        said = ", ".join(worded(word, wording) for word in facts.complaint_words)
        body += [Gap(0.6)] if body else []
        body.append(set_text(wording("Noted at the counter: {words}", words=said), FINE_GREY, flow.width))
    if not body:
        body.append(set_text(wording("Nothing was noted."), FINE_GREY, flow.width))
    flow.run(section(wording("Complaint, in the customer’s words"), flow.width, *body))
    if facts.flags:
        flow.put(flag_blocks(facts.flags, flow.width, wording), ABOVE)


def _found(facts: ServiceReportFacts, flow: Flow, wording: Wording) -> None:
    ladder = facts.ladder
    if ladder and (ladder.arrival or ladder.final):
        head = section_head(wording("Start-up ladder"), flow.width, worded(ladder.conditions, wording))
        flow.put(Stack((head, ladder_pair(ladder, facts.finding, flow.width, wording))), ABOVE)
    elif facts.finding:
        words = [set_text(clause_runs(clause, wording), BODY, flow.width) for clause in facts.finding]
        flow.run(section(wording("What was found"), flow.width, stack(words, 1.6)), ABOVE)


def _readings(facts: ServiceReportFacts, flow: Flow, wording: Wording) -> None:
    if facts.readings:
        head, rows = readings_table(facts.readings, flow.width, wording)
        title = section_head(wording("Readings"), flow.width, text_from=6.6)
        pour_rows(flow, head, rows, opening=title, above=ABOVE)
        for clause in facts.reading_notes:
            flow.run(set_text(clause_runs(clause, wording), FINE, flow.width), 0.5)
    for at, struck in enumerate(facts.struck):
        lead = Run(wording("Struck out:") + " ", bold=True)
        words = [lead, Run(worded(struck.what, wording), ink=LABEL, struck=True)]
        words.append(Run(" " + worded(struck.why, wording)))
        flow.run(set_text(words, FINE, flow.width), 0.5 if facts.readings or at else ABOVE)
    if facts.readings:
        key = wording(
            "± is the standard uncertainty; the bar through a dot is twice that (about 95 in 100). Where it "
            "crosses a limit: too close to call. Grey: within. Arrow head: off the scale."
        )
        sources = worded(facts.reading_sources, wording)
        flow.run(set_text(f"{key} {sources}".rstrip(), FINE_GREY, flow.width), 0.5)
    pairs = [
        (wording("Instruments"), worded(facts.instruments, wording)),
        (wording("Captures attached, in the book"), worded(facts.captures, wording)),
    ]
    _side_by_side([(title, words) for title, words in pairs if words], flow)


def _side_by_side(parts: list[tuple[str, str]], flow: Flow) -> None:
    if not parts:
        return
    room = (flow.width - BETWEEN) / 2 if len(parts) > 1 else flow.width
    columns = [section(title, room, set_text(words, TABLE, room)) for title, words in parts]
    flow.put(Beside(tuple((at * (room + BETWEEN), block) for at, block in enumerate(columns))), ABOVE)


def _modifications(facts: ServiceReportFacts, flow: Flow, wording: Wording) -> None:
    count = len(facts.modifications)
    for number, modification in enumerate(facts.modifications, 1):
        head = ""
        if count > 1:
            head = wording(
                "Modification {number} of {count}: this player differs from its maker’s design",
                number=number,
                count=count,
            )
        flow.put(modification_block(modification, flow.width, wording, head), ABOVE)
    if facts.ratios:
        flow.put(ratios_section(facts.ratios, flow.width, wording), ABOVE)


def _photos(facts: ServiceReportFacts, flow: Flow, wording: Wording) -> None:
    for at, row in enumerate(photo_rows(facts.photos, flow.width)):
        if at:
            flow.put(row, 2.4)
        else:
            flow.put(Stack((section_head(wording("Photos"), flow.width), Gap(0.6), row)), ABOVE)
