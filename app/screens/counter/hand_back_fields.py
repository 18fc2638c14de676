"""The fields of the hand-back page: outcome, who collects, what goes back, what is paid."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.screens.kit import measure
from app.screens.kit.boxes import set_shown
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.form import Form
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import money, say
from app.trade.bench.stages import STAYS_HERE, Collector, Outcome
from app.trade.counter.hand_back import HandBack, LeftKind, LeftThing, UnsafeWay
from app.trade.counter.things import thing_said
from app.work.counter.hand_back_view import HandBackView, ThingHere


class HandBackFields:
    """Makes the rows of ``form`` for a view of the job, and reads them."""

    def __init__(self, form: Form, view: HandBackView) -> None:
        self.form, self.view = form, view
        self.named: dict[str, Any] = {}
        self._outcome(form)
        self._collector(form)
        self._things(form)
        self._money(form)
        self._safety(form)
        self.show_what_matters()

    def _outcome(self, form: Form) -> None:
        form.section(say("How"))
        outcomes = [(str(one), say(one.value)) for one in Outcome]
        chosen = str(self.view.outcome) if self.view.outcome else self._proposed()
        self.outcome = Combo(say("Outcome"), outcomes, chosen, width=260)
        form.row(say("Outcome"), self.outcome)
        self.told = Tick(say("shown playing and told what was done"))
        self._told_row = form.row("", self.told)
        self.outcome.changed.connect(lambda _: self.show_what_matters())
        self.named["outcome"] = self.outcome

    def _proposed(self) -> str:
        return str(Outcome.MENDED_MODIFIED if self.view.facts.changes_left else Outcome.MENDED)

    def _collector(self, form: Form) -> None:
        form.section(say("Who"))
        people = [(str(one), say(one.value)) for one in Collector]
        self.collector = Choice(say("Who collects"), people, str(Collector.CUSTOMER))
        self._who_rows = [form.row(say("Who collects"), self.collector)]
        self.collector_name = Field(say("Name"))
        self._name_row = form.row(say("Name"), self.collector_name)
        self.proof = Field(say("Shown instead"), hint=say("passport, the player described, ..."))
        self._proof_row = form.row(say("Shown instead"), self.proof)
        self.collector.changed.connect(lambda _: self.show_what_matters())
        self.named.update(collector=self.collector, collector_name=self.collector_name, proof=self.proof)

    def _things(self, form: Form) -> None:
        if not self.view.things:
            self.things: list[tuple[ThingHere, Tick, Field]] = []
            return
        form.section(say("Given back"))
        self.things = []
        for at, thing in enumerate(self.view.things):
            box = Tick(thing_words(thing), on=thing.returned)
            note = Field(
                say("Why it stays: {thing}", thing=thing_words(thing)), hint=say("stays, because"), width=300
            )
            form.row("", box, note)
            box.toggled.connect(lambda _: self.show_what_matters())
            self.things.append((thing, box, note))
            self.named[f"things.{at}"] = note

    def _money(self, form: Form) -> None:
        form.section(say("Money"))
        self.money = Label(money_words(self.view), wrap=True)
        measure.fix(self.money, min_height=32)
        form.row("", self.money, stretch_last=True)
        self.paid_words = Field(say("Agreed how"), hint=say("transfer on Friday"))
        self._agreed_row = form.row(say("Agreed how"), self.paid_words)
        self.named["paid_words"] = self.paid_words

    def _safety(self, form: Form) -> None:
        self.signed = Tick(say("the customer has signed the warning"), parent=form)
        self.tagged = Tick(say("the tag is on the plug"), parent=form)
        self.shut = Tick(say("the case is shut"), parent=form)
        boxes = (self.signed, self.tagged, self.shut)
        if self.view.decision is None:
            for box in boxes:
                box.hide()  # asked only once the owner has decided
            return
        form.section(say("Unsafe"))
        for box in boxes:
            form.row("", box)
        self.signed.setChecked(self.view.decision.signed)
        self.tagged.setChecked(self.view.decision.plug_tagged)

    # showing

    def show_what_matters(self) -> None:
        """Rows that the outcome and the person who collects make needless are not in sight."""
        self.money.setText(money_words(self.view))
        stays = self.stays_here
        who = self.collector.value()
        show = self.form.show_rows
        show([*self._who_rows, self._told_row], not stays)
        show([self._name_row], not stays and who in (str(Collector.TICKET), str(Collector.NAMED)))
        show([self._proof_row], not stays and who == str(Collector.TICKET_LOST))
        balance = self.view.facts.balance
        show([self._agreed_row], balance is not None and balance.minor > 0)
        for _, box, note in self.things:
            set_shown(note, not box.isChecked())

    @property
    def stays_here(self) -> bool:
        """Whether the player stays with this outcome."""
        return bool(self.outcome.value()) and Outcome(self.outcome.value()) in STAYS_HERE

    def chosen(self) -> Outcome | None:
        """The outcome that is chosen now."""
        return Outcome(self.outcome.value()) if self.outcome.value() else None

    # reading

    def hand_back(self) -> HandBack:
        """What stands in the form."""
        outcome = self.outcome.value()
        decision = self.view.decision
        return HandBack(
            outcome=Outcome(outcome) if outcome else None,
            collector=None if self.stays_here else Collector(self.collector.value() or Collector.CUSTOMER),
            collector_name=self.collector_name.text(),
            proof=self.proof.text(),
            things=tuple(
                LeftThing(thing.kind, thing.words, box.isChecked(), note.text())
                for thing, box, note in self.things
            ),
            paid_words=self.paid_words.text(),
            shown_and_told=self.told.isChecked(),
            unsafe=UnsafeWay(
                reason=decision.reason,
                law_looked_at=True,
                signed=self.signed.isChecked(),
                plug_tagged=self.tagged.isChecked(),
                case_shut=self.shut.isChecked(),
            )
            if decision is not None
            else None,
        )

    # drafts

    def values(self) -> dict[str, Any]:
        """What stands in the form, as JSON can hold it."""
        return {
            "outcome": self.outcome.value(),
            "told": self.told.isChecked(),
            "collector": self.collector.value(),
            "collector_name": self.collector_name.text(),
            "proof": self.proof.text(),
            "things": {str(t.id): [box.isChecked(), note.text()] for t, box, note in self.things},
            "paid_words": self.paid_words.text(),
            "unsafe": [self.signed.isChecked(), self.tagged.isChecked(), self.shut.isChecked()],
        }

    def fill(self, values: Mapping[str, Any]) -> None:
        """Put a draft's values into the fields."""
        if values.get("outcome"):
            self.outcome.set_value(values["outcome"])
        self.told.setChecked(bool(values.get("told")))
        if values.get("collector"):
            self.collector.set_value(values["collector"])
        for name in ("collector_name", "proof", "paid_words"):
            getattr(self, name).set_text(str(values.get(name) or ""))
        kept = values.get("things") or {}
        for thing, box, note in self.things:
            ticked, words = kept.get(str(thing.id), (box.isChecked(), ""))
            box.setChecked(bool(ticked))
            note.set_text(str(words))
        for box, on in zip((self.signed, self.tagged, self.shut), values.get("unsafe") or (), strict=False):
            box.setChecked(bool(on))
        self.show_what_matters()


def thing_words(thing: ThingHere) -> str:
    """One thing in words: usual things in the language of the window, a disc with its place."""
    if thing.kind is LeftKind.DISC:
        return say("the disc that was inside: {place}", place=thing.words)
    name = thing_said(thing.words)
    words = name if isinstance(name, str) else say(name)
    return say("old part: {part}", part=words) if thing.kind is LeftKind.OLD_PART else words


def money_words(view: HandBackView) -> str:
    """What was paid and what is open."""
    balance = view.facts.balance
    if balance is not None and balance.minor > 0:
        return say("Open: {balance}. Paid so far: {paid}.", balance=money(balance), paid=money(view.paid))
    if view.paid.minor:
        paid = money(view.paid)
        return (
            say("Paid: {paid}. Nothing is open.", paid=paid)
            if view.invoiced
            else say("Paid: {paid}.", paid=paid)
        )
    return say("Nothing is open.") if view.invoiced else say("No invoice was issued.")
