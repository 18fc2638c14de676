"""Handing back: who collects, what goes back, what is paid; the receipt is printed and signed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtWidgets import QApplication, QWidget

from app.screens.bench.inline_form import InlineForm
from app.screens.bench.job_words import player_words
from app.screens.counter.failures import tell
from app.screens.counter.hand_back_fields import HandBackFields
from app.screens.counter.messages_panel import MessagesPanel
from app.screens.counter.old_part_form import OldPartForm
from app.screens.counter.papers import show_newest, show_paper, with_staff
from app.screens.counter.payment_form import PaymentForm
from app.screens.counter.unsafe_form import UnsafeForm
from app.screens.desk import Desk
from app.screens.form_page import FormPage
from app.screens.kit.boxes import Column, Flow, clear_layout, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.foot import Foot
from app.screens.kit.form import Form
from app.screens.kit.gates import GateFacts, GateRow
from app.screens.language import moment, say
from app.trade.bench.gates import Gate, GateState
from app.trade.bench.stages import Stage
from app.trade.counter.hand_back import HandBack
from app.trade.refusal import FieldRefusal, Held
from app.work.counter.hand_back import HandedBack, hand_back
from app.work.counter.hand_back_view import HandBackView, hand_back_view
from app.work.papers.kinds import Kind
from app.work.shop_book import Done

FIELDS_AT = 214  # where the fields of a form begin
# Steps that are ticked on this page itself.
DONE_HERE = frozenset({"disc_inside", "unsafe_signed", "unsafe_tagged"})


class HandBackPage(FormPage):
    """Registered as ``hand_back`` with the job's id. Ctrl+Enter hands back and shows the receipt."""

    help_topic = "hand_back"

    def __init__(self, desk: Desk, job_id: int, parent: QWidget | None = None) -> None:
        super().__init__(desk, say("Hand back"), parent)
        self.job_id = job_id
        self.draft_key = f"job {job_id} hand back"
        self.view: HandBackView | None = None
        self.fields: HandBackFields | None = None
        self.open: InlineForm | None = None
        self._saving = False
        self._asked: Any = None
        self.stops = FlagBar(say("What holds this player"))
        self.gates = GateRow()
        self.gates.acted.connect(lambda _: desk.open_job(job_id))
        self.heading.add(self.stops, self.gates)
        self._deeds = QWidget()
        self._deed_row = Flow(self._deeds, gap=18)
        self._forms = Column()
        deeds = Column(margins=(FIELDS_AT, 0, 0, 0))
        deeds.add(self._deeds)
        self.sheet.addLayout(deeds)
        self.sheet.addLayout(self._forms)
        self.said = MessagesPanel(desk, job_id)
        self.said.failed.connect(partial(tell, self.trouble))
        self.sheet.add(self.said)
        self._make_foot()

    def _make_foot(self) -> None:
        self.save_button = Button(
            say("Hand back and print the receipt"), self.save, kind="main", key="Ctrl+Return"
        )
        self.save_button.held.connect(self._go_to_what_holds)
        leave = Button(say("Leave, keep the draft"), self.leave_form, kind="quiet", key="Esc")
        self.foot.add(Foot(self.save_button, leave=leave))

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask for the job anew when an action touched it."""
        if changes is None or self.job_id in changes.jobs:
            self._ask()
            self.said.load()

    def _ask(self) -> None:
        if self._asked is not None:
            self._asked.cancel()
        outcome = self.fields.chosen() if self.fields is not None else None
        self._asked = self.desk.doors.look_up(
            self,
            partial(hand_back_view, self.desk.book, self.job_id, outcome),
            self.show_view,
            partial(tell, self.trouble),
        )

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {
            **super().commands(),
            "save": self.save_open,
            "leave": self.leave_open,
            "add_message": self.said.add_message,
            "add_agreement": self.said.add_agreement,
            "invoice": lambda: self.desk.open("invoice", self.job_id),
            "receipt": partial(self._paper, Kind.HAND_BACK_RECEIPT),
            "unsafe_paper": partial(self._paper, Kind.UNSAFE_RETURN),
        }

    def values(self) -> dict[str, Any]:
        return self.fields.values() if self.fields is not None else {}

    def fill(self, values: Mapping[str, Any]) -> None:
        if self.fields is not None:
            self.fields.fill(values)

    # showing

    def show_view(self, view: HandBackView) -> None:
        """Show the job. What is typed stays; the rows are made anew where things or the decision changed."""
        before, self.view = self.view, view
        player = player_words("", view.player, view.serial)
        self.set_title(say("Hand back {number}", number=str(view.number)))
        self.head.set_words(player, number=str(view.number), above=say("Hand back"))
        self.set_below(f"{view.customer}  {view.phone}".strip())
        self._show_what_holds(view)
        if before is None or _rows(before) != _rows(view):
            self._make_rows(view)
        assert self.fields is not None
        self.fields.view = view
        self.said.customer = view.customer
        self.fields.show_what_matters()
        self._show_deeds(view)
        self._show_closed(view)

    def _show_what_holds(self, view: HandBackView) -> None:
        self.stops.set_flags([FlagFacts("stop", say("Stop"), say(stop)) for stop in view.stops])
        self.gates.set_gates([_gate(gate) for gate in view.gates if gate.state is not GateState.NOT_NEEDED])
        holds = [say(gate.words) for gate in view.gates if gate.open and gate.rule not in DONE_HERE]
        if view.stops and view.decision is None and view.reasons:
            self.save_button.block(", ".join([say("a stop"), *holds]), "stop")
        elif holds:
            self.save_button.block(", ".join(holds))
        else:
            self.save_button.free()

    def _make_rows(self, view: HandBackView) -> None:
        kept = self.values() if self.fields is not None else None
        now = QApplication.focusWidget()
        focus = now is not None and self.form.isAncestorOf(now)
        place = self.sheet.indexOf(self.form)
        self.sheet.removeWidget(self.form)
        self.form.hide()
        self.form.deleteLater()
        self.form = Form()
        self.form.typed.connect(self._typed)
        self.form.save_asked.connect(self.save)
        self.form.leave_asked.connect(self.leave_form)
        self.sheet.insertWidget(place, self.form)
        self.fields = HandBackFields(self.form, view)
        self.fields.outcome.changed.connect(lambda _: self._ask())
        self.named = self.fields.named
        if kept is not None:
            self._filling = True
            self.fields.fill(kept)
            self._filling = False
        else:
            self.take_draft()
        if focus or (kept is None and self.isVisible()):
            self.form.first()

    def _show_deeds(self, view: HandBackView) -> None:
        clear_layout(self._deed_row)
        if view.stage is Stage.HANDED_BACK:
            return
        links = [Button(say("Take a payment"), self.take_payment, kind="quiet")]
        if not view.invoiced:
            to_invoice = partial(self.desk.open, "invoice", self.job_id)
            links.append(Button(say("Write the invoice"), to_invoice, kind="quiet", key="Ctrl+I"))
        links.append(Button(say("Note an old part"), self.note_old_part, kind="quiet"))
        if view.facts.safety_stop and not view.facts.made_by_us:
            words = (
                say("Decide anew that it goes back unsafe")
                if view.decision is not None
                else say("Return it unrepaired and unsafe")
            )
            links.append(Button(words, self.decide_unsafe, kind="quiet"))
        self._deed_row.add(*links)

    def _show_closed(self, view: HandBackView) -> None:
        closed = view.stage is Stage.HANDED_BACK
        set_shown(self.save_button, not closed)
        set_shown(self.form, not closed)
        if closed:
            self.set_below(say("{customer}. Handed back.", customer=view.customer))
        elif view.decision is not None:
            told = say(
                "Goes back unsafe: decided by {owner}, {when}.",
                owner=view.decision.owner,
                when=moment(view.decision.at),
            )
            self.set_below(f"{view.customer}  {view.phone}  {told}")

    # forms in the page

    def take_payment(self) -> InlineForm:
        """Open the form that takes money."""
        assert self.view is not None
        return self._open(PaymentForm(self.desk, self.job_id, self.view.facts.balance))

    def note_old_part(self) -> InlineForm:
        """Open the form that notes an old part to go back."""
        return self._open(OldPartForm(self.desk, self.job_id))

    def decide_unsafe(self) -> InlineForm:
        """Open the form by which the owner decides."""
        form = UnsafeForm(self.desk, self.job_id)
        form.sheet_issued.connect(partial(show_paper, self))
        return self._open(form)

    def _open(self, form: InlineForm) -> InlineForm:
        self._close()
        form.take_draft()
        form.saved.connect(lambda _: self._close())
        form.left.connect(self._close)
        form.failed.connect(partial(tell, self.trouble))
        self._forms.addWidget(form)
        self.open = form
        form.show()  # the layout would show it later, and what is not in sight takes no focus
        form.focus_first()
        return form

    def _close(self) -> None:
        if self.open is not None:
            self._forms.removeWidget(self.open)
            self.open.hide()
            self.open.deleteLater()
            self.open = None
            self.form.first()

    def _with_focus(self) -> InlineForm | None:
        """The form in the page that is being filled in."""
        now = QApplication.focusWidget()
        forms = (self.open, self.said.open)
        return next((form for form in forms if form is not None and now and form.isAncestorOf(now)), None)

    def save_open(self) -> None:
        """Ctrl+Enter: what is being filled in, else the page itself."""
        form = self._with_focus()
        (form.save if form is not None else self.save)()

    def leave_open(self) -> None:
        """Esc: leave what is being filled in, else the page."""
        form = self._with_focus()
        (form.leave if form is not None else self.leave_form)()

    # saving

    def save(self) -> None:
        """Ctrl+Enter: hand back and show the receipt."""
        if self._saving or self.fields is None:
            return
        self.trouble.clear()
        self.clear_errors()
        self.keep_draft()
        with_staff(self.desk, self, partial(self._hand_back, self.fields.hand_back()))

    def _hand_back(self, form: HandBack, who: int) -> None:
        self._saving = True
        self.desk.change(
            self, partial(hand_back, self.desk.book, who, self.job_id, form), self._handed_back, self._refused
        )

    def _handed_back(self, done: Done[HandedBack]) -> None:
        self._saving = False
        self._touched = False
        self.saved()
        self.desk.open_job(self.job_id)
        if done.value.receipt_id is not None:
            show_paper(self, done.value.receipt_id)

    def _refused(self, error: Exception) -> None:
        self._saving = False
        if isinstance(error, FieldRefusal):
            self.refuse(error)
        elif isinstance(error, Held):
            actions = [(say("Open the job sheet"), lambda: self.desk.open_job(self.job_id))]
            reasons = " ".join(say(reason) for reason in error.reasons)
            self.trouble.show_trouble(say(error.sentence), reasons, actions)
        else:
            tell(self.trouble, error, self.save)

    def _go_to_what_holds(self) -> None:
        self.desk.open_job(self.job_id)

    def _paper(self, kind: Kind) -> None:
        show_newest(self, kind, self.job_id)


def _rows(view: HandBackView) -> Any:
    """What the rows of the form are made from."""
    return view.things, view.decision is not None, view.stage is Stage.HANDED_BACK


def _gate(gate: Gate) -> GateFacts:
    done = gate.state is GateState.DONE
    return GateFacts(
        say(gate.words),
        done,
        say(gate.how) if gate.how is not None else "",
        say(gate.link) if gate.link is not None and not done else "",
        gate.rule,
    )
