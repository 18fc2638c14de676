"""Parts, working time and charges of a job, with what they come to."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.order_form import OrderForm
from app.screens.bench.ordered_rows import ordered_columns, ordered_row
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.strike_form import StrikeForm
from app.screens.bench.work_forms import ChargeForm, LabourForm, PartForm
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.heading import FactLine
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import clock_time, moment, money, number, say
from app.trade.office.invoice import unit_words
from app.trade.office.on_the_bill import OnBill
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import OrderedPart, WorkLine
from app.work.bench.work_done import put_part_back

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

STRUCK_KINDS = {"labour": "labour"}  # everything else but parts is a charge


class WorkSection(SheetSection):
    """Lines in the order of time; the marked one can be struck out, a part put back into stock."""

    key = "work"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Parts and time"))
        self.makers = {
            "part": lambda: PartForm(page, self.draft_key("part")),
            "order": lambda: OrderForm(page.desk, self.draft_key("order"), job=page.facts.number),
            "labour": lambda: LabourForm(page, self.draft_key("labour")),
            "charge": lambda: ChargeForm(page, self.draft_key("charge")),
            "strike work": lambda: StrikeForm(page, self.draft_key("strike work")),
        }
        self.part_link = self.link(say("Use a part"), page.add_part, "Ctrl+Shift+A")
        self.order_link = self.link(say("Order a part"), page.order_part)
        self.time_link = self.link(say("Note time"), page.add_labour, "Ctrl+Shift+W")
        self.charge_link = self.link(say("Add a charge"), page.add_charge)
        self.strike_link = self.link(say("Strike out…"), self.strike_marked)
        self.undo_link = self.link(say("Take the strike-out back"), self.undo_marked)
        self.back_link = self.link(say("Put the part back"), self.put_back_marked)
        self.estimate_link = self.link(
            say("Estimate"), lambda: page.desk.open("estimate", page.job_id), "Ctrl+E"
        )
        self.set_links(
            self.strike_link,
            self.undo_link,
            self.back_link,
            self.part_link,
            self.order_link,
            self.time_link,
            self.charge_link,
            self.estimate_link,
        )
        columns = (
            Column("what", say("What"), least=160),
            Column("kind", say("Kind"), 110),
            Column("much", say("How much"), 110, number=True),
            Column("net", say("Without VAT"), 140, number=True),
            Column("by", say("By"), 220),
        )
        self.table = SmallTable(say("Parts, time and charges"), columns, leaving=(Leave("by"), Leave("kind")))
        self.table.marked.connect(lambda _: self._show_links())
        self.sums = FactLine()
        self._sums_line = indented(self.sums)
        self.nothing = indented(
            Label(say("What is used and how long it takes stands here."), "soft", wrap=True)
        )
        self.ordered = SmallTable(
            say("Ordered for this job"),
            ordered_columns(),
            leaving=(Leave("supplier"),),
            opened=self._open_part,
        )
        self.column.add(self.table, self._sums_line, self.nothing, self.ordered)
        self._lines: tuple[WorkLine, ...] = ()
        self._ordered: tuple[OrderedPart, ...] = ()

    def facts(self, sheet: JobSheet) -> Any:
        sums = (sheet.work_so_far, sheet.agreed, sheet.paid, sheet.balance)
        return sheet.work, sums, sheet.ordered, self.desk.today(), self.page.works

    def draw(self, sheet: JobSheet) -> None:
        self._lines = sheet.work
        self.table.set_rows([_row(at, line) for at, line in enumerate(sheet.work)])
        set_shown(self.table, bool(sheet.work))
        set_shown(self.nothing, not sheet.work)
        sums = [(say("So far"), money(sheet.work_so_far))]
        sums.append(
            (say("Agreed"), money(sheet.agreed) if sheet.agreed is not None else say("no limit named"))
        )
        if sheet.paid.minor:
            sums.append((say("Paid"), money(sheet.paid)))
        if sheet.balance.minor:
            sums.append((say("Open"), money(sheet.balance)))
        self.sums.set_facts(sums)
        set_shown(self._sums_line, bool(sheet.work) or bool(sheet.paid.minor))
        lines = len([line for line in sheet.work if line.struck is None])
        if not lines:
            self.set_summary(say("none yet"))
        else:
            counted = say("1 line") if lines == 1 else say("{n} lines", n=lines)
            self.set_summary(f"{counted}, {money(sheet.work_so_far)}")
        today = self.desk.today()
        self.ordered.set_rows([ordered_row(at, part, today) for at, part in enumerate(sheet.ordered)])
        self._ordered = sheet.ordered
        set_shown(self.ordered, bool(sheet.ordered))
        for link in (self.part_link, self.order_link, self.time_link, self.charge_link):
            set_shown(link, self.page.works)
        self._show_links()

    def _marked(self) -> WorkLine | None:
        at = self.table.marked_key()
        return self._lines[at] if isinstance(at, int) and at < len(self._lines) else None

    def _show_links(self) -> None:
        line = self._marked() if self.page.works else None
        part = line is not None and line.kind == "part"
        struck = line is not None and line.struck is not None
        set_shown(self.strike_link, line is not None and not part and not struck)
        set_shown(self.undo_link, struck)
        set_shown(self.back_link, part and line is not None and line.quantity > 0)

    def _open_part(self, at: int) -> None:
        self.desk.open("part", self._ordered[at].part_id)

    def strike_marked(self) -> None:
        """Open the form that strikes the marked line out."""
        line = self._marked()
        if line is not None and line.struck is None and line.kind != "part":
            form = self.open_form("strike work", focus=False)
            kind = STRUCK_KINDS.get(line.kind, "charge")
            form.hidden_values.update(kind=kind, row=line.id, what=line.words)
            form.changed()
            form.focus_first()

    def undo_marked(self) -> None:
        """Take the strike-out of the marked line back."""
        line = self._marked()
        if line is not None and line.struck is not None:
            self.page.undo_strike(STRUCK_KINDS.get(line.kind, "charge"), line.id)

    def put_back_marked(self) -> None:
        """Give the marked part back to stock."""
        line = self._marked()
        who = self.page.who()
        if line is not None and line.kind == "part" and who is not None:
            self.desk.change(
                self,
                partial(put_part_back, self.desk.book, who, line.id),
                None,
                lambda error: self.page.tell_failure(error, None),
            )

    def form_saved(self, result: Any) -> None:
        assumed = getattr(result.value, "assumed", None)
        super().form_saved(result)
        if assumed is not None:
            self.page.tell_note(say(assumed))


def _row(at: int, line: WorkLine) -> Row:
    unit = say(unit_words(line.unit, line.quantity))
    back = line.kind == "part" and line.quantity < 0
    kind = say("put back") if back else say(line.kind)
    charged = line.kind != "text"
    cells = (
        Words(line.words, tip=line.words),
        Words(kind, soft=True),
        Figure(number(line.quantity), unit) if charged and line.kind not in tuple(OnBill) else None,
        Figure(number(line.net.amount), line.net.currency, strong=True) if charged else None,
        Words(line.by, moment(line.at, "d MMM HH:mm")),
    )
    if line.struck is None:
        return Row(at, cells)
    rest = say(
        "struck out {time}, {name}: {reason}",
        time=clock_time(line.struck.at),
        name=line.struck.by,
        reason=line.struck.reason,
    )
    return Row(at, cells, struck=True, rest=rest, rest_from=4)
