"""What a trial's outcome says of the suspects by its grade, what the ladder weighs, and who comes in from outside."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.measure import fix
from app.screens.language import number, say
from app.screens.office.knowledge_record import KnowledgeRecordPage
from app.screens.office.record_words import per_cent, plain_number, said, share, shown, typed, whole_number
from app.trade.bench.changes import Grade
from app.trade.bench.kinds import KnowledgeKind
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence

UNADDRESSED = "unaddressed"
CHANCES: Mapping[str, Sentence] = {
    Grade.AIMS.value: Sentence("aims at it"),
    Grade.OFTEN.value: Sentence("often helps"),
    Grade.BY_THE_WAY.value: Sentence("by the way"),
    UNADDRESSED: Sentence("addresses something else"),
}
SHARES = ("cured", "better")


def chances_of(content: Mapping[str, Any], code: str) -> Mapping[str, str]:
    """How often a change of this grade cures, helps and does nothing."""
    chances: Mapping[str, str] = content[code] if code == UNADDRESSED else content["grades"][code]
    return chances


def chances_told(chances: Mapping[str, str]) -> str:
    """60 % cured, 20 % better, 20 % no difference."""
    return say(
        "{cured} % cured, {better} % better, {none} % no difference",
        cured=per_cent(chances["cured"]),
        better=per_cent(chances["better"]),
        none=per_cent(chances["no_difference"]),
    )


class WeighingPage(KnowledgeRecordPage):
    """Registered as ``weighing``; its key is the kind of record, as there is only one."""

    kind = "weighing"
    knowledge = KnowledgeKind.WEIGHING
    new_words = Sentence("What trials and past jobs weigh")
    save_words = Sentence("Save what they weigh")
    can_retire = False

    def make_fields(self) -> None:
        self.rest: dict[str, Label] = {}
        self.form.section(say("A trial"))
        for code, words in CHANCES.items():
            fields = [self.add(f"{code}.{name}", Field("", width=64)) for name in SHARES]
            self.rest[code] = Label("", "soft")
            fix(self.rest[code], min_height=32)  # as high as the fields that it stands beside
            self.form.row(say(words), fields[0], say("% cured"), fields[1], say("% better"), self.rest[code])
        told = say(
            "How often a change cures or helps a player whose cause it addresses so, and one whose cause is another. "
            "The rest is no difference."
        )
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.form.section(say("Past jobs"))
        self.worth: Field = self.add("ladder_worth", Field("", width=64))
        self.form.row(say("The ladder counts as"), self.worth, say("closed jobs"))
        told = say("The more, the longer the shop's own closed jobs take to move the weights of the ladder.")
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.form.section(say("Who is not on the rung"))
        ratio = self.add("entrants.ratio", Field("", width=64))
        weight = self.add("entrants.weight", Field("", width=64))
        most = self.add("entrants.most", Field("", width=64))
        self.form.row(say("Comes in at a ratio of"), ratio, say("or more"))
        self.form.row(say("Comes in with"), weight, say("% of the weights"))
        self.form.row(say("Of them at most"), most, say("suspects"))
        told = say(
            "A suspect that the rung does not name comes in when a closed job names it, or when words, readings and "
            "trials together speak for it so much. Its weight is taken from “none of these”, which has 5 %."
        )
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.form.section(say("Where it comes from"))
        source = self.add("source", Field(""))
        self.form.row(say("Source"), source)

    def changed(self) -> None:
        for code, label in self.rest.items():
            try:
                label.setText(
                    say("{none} % no difference", none=per_cent(self._chances(code)["no_difference"]))
                )
            except FieldRefusal:
                label.setText("")

    def record_title(self, content: Mapping[str, Any]) -> str:
        return say(self.new_words)

    def put_content(self, content: Mapping[str, Any], base: Mapping[str, Any]) -> None:
        for code in CHANCES:
            for name in SHARES:
                self.named[f"{code}.{name}"].set_text(per_cent(chances_of(content, code)[name]))
        self.worth.set_text(str(content["ladder_worth"]))
        entrants = content["entrants"]
        self.named["entrants.ratio"].set_text(number(Decimal(entrants["ratio"])))
        self.named["entrants.weight"].set_text(per_cent(entrants["weight"]))
        self.named["entrants.most"].set_text(str(entrants["most"]))
        self.named["source"].set_text(shown("source", content, base))

    def content(self, base: Mapping[str, Any]) -> dict[str, Any]:
        return {
            "ladder_worth": whole_number("ladder_worth", self.worth.text()),
            UNADDRESSED: self._chances(UNADDRESSED),
            "grades": {grade.value: self._chances(grade.value) for grade in Grade},
            "entrants": {
                "weight": share("entrants.weight", self.named["entrants.weight"].text()),
                "ratio": plain_number("entrants.ratio", self.named["entrants.ratio"].text()),
                "most": whole_number("entrants.most", self.named["entrants.most"].text()),
            },
            "source": typed("source", self.named["source"], base),
        }

    def _chances(self, code: str) -> dict[str, str]:
        """The chances in the fields of a grade; no difference is what the others leave. Raises FieldRefusal."""
        found = {name: share(f"{code}.{name}", self.named[f"{code}.{name}"].text()) for name in SHARES}
        rest = (1 - sum(map(Decimal, found.values()), Decimal(0))).normalize() + 0
        if not 0 < rest < 1:
            raise FieldRefusal(
                {f"{code}.cured": Sentence("Cured and better together have to be below 100 %.")}
            )
        return {**found, "no_difference": format(rest, "f")}

    def told(self, content: Mapping[str, Any]) -> Sequence[tuple[str, str]]:
        grades = [(say(words), chances_told(chances_of(content, code))) for code, words in CHANCES.items()]
        entrants = content["entrants"]
        comes = say(
            "at a ratio of {ratio} or more, with {weight} % of the weights, at most {most}",
            ratio=number(Decimal(entrants["ratio"])),
            weight=per_cent(entrants["weight"]),
            most=entrants["most"],
        )
        return (
            *grades,
            (say("The ladder counts as"), say("{n} closed jobs", n=content["ladder_worth"])),
            (say("Who is not on the rung"), comes),
            (say("Source"), said(content, "source")),
        )
