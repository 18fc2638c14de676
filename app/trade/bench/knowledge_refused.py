"""What the readers of the bench data refuse in one record, said under the field in which a person typed it."""

from __future__ import annotations

from collections.abc import Mapping

from app.trade.bench.stages import TrialOutcome
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence

# By the words with which a reader refuses: the field (empty: the one that the reader names), and what is said.
_TOLD: Mapping[str, tuple[str, Sentence]] = {
    "the chances are not above 0, or do not sum to 1": (
        "cured",
        Sentence("Each chance has to be above 0 %, and all three together are 100 %."),
    ),
    "the weights do not sum to 1": ("priors", Sentence("The weights have to sum to 100 %.")),
    "the weight of other is not {weight}": (
        "priors",
        Sentence("“None of these” keeps 5 %: what nobody thought of is always possible."),
    ),
    "the weight of {suspect} is not between 0 and 1": (
        "priors",
        Sentence("The weight of “{suspect}” has to be from 1 to 99 %."),
    ),
    "{suspect} is no suspect here": ("", Sentence("“{suspect}” is no suspect here.")),
    "{suspect} is no suspect": ("addresses", Sentence("“{suspect}” is no suspect here.")),
    "the ratio of {name} is not from 0.1 to 10": (
        "",
        Sentence("The ratio of “{name}” has to be from 0.1 to 10."),
    ),
    "{field} is no text": ("", Sentence("Write something here.")),
    "{field} is no number in quotes": ("", Sentence("Write a number, such as 1.5.")),
    "{field} is no whole number from {low} to {high}": (
        "",
        Sentence("Write a whole number from {low} to {high}."),
    ),
    "{field} is no number from {low} to {high}": ("", Sentence("Write a number from {low} to {high}.")),
    "who comes in takes nothing, or all that other has": (
        "weight",
        Sentence(
            "All of them together have to take less than the 5 % that “none of these” has, and each of them some."
        ),
    ),
    "{field} is no share of 1": ("", Sentence("Write per cent, from 0 to below 100.")),
    "{field} is no list of different texts": ("", Sentence("One stands there twice.")),
    "how often it is outside by itself is not between 0 and 1": (
        "background_high",
        Sentence("High and low together have to be above 0 and below 100 %."),
    ),
    "how often it is said by itself is not between 0 and 1": (
        "background",
        Sentence("Write per cent, above 0 and below 100."),
    ),
    "{field} has ratios, but is said never to happen": (
        "",
        Sentence("It has ratios here, so it happens by itself at times: give more than 0 %."),
    ),
    "it names no quantity": ("quantities", Sentence("Choose what is measured.")),
    "{quantity} is no quantity": ("quantities", Sentence("Choose what is measured.")),
    "{group} is no fault group": ("group", Sentence("Choose one of these.")),
    "{leaves} is nothing that a change leaves": ("leaves", Sentence("Choose one of these.")),
    "a change that leaves a modification has no grade": (
        "addresses",
        Sentence(
            "A change that leaves a modification establishes no cause: it addresses its suspects without a grade."
        ),
    ),
}
_RATIOS = ("outside_high", "outside_low", "said")
_BEYOND = Sentence(
    "“{name}” has to be from 0.1 to 10 times as likely as with a change that addresses something else."
)
_BETTER = TrialOutcome.BETTER.value
_OUTCOMES = {outcome.value: Sentence(outcome.value) for outcome in TrialOutcome}
_CHANCES = ("unaddressed", "A", "B", "C")  # records within that of how trials weigh
_TOGETHER = Sentence(
    "Within its limit, or denied, it would say more than ten to one about “{name}”: lower the ratio, or how often it "
    "happens by itself."
)


def field_refused(refusal: Refusal, names: Mapping[str, Sentence]) -> FieldRefusal:
    """The same refusal under its field; ``names`` are the words of suspects by id. What no field can be blamed
    for comes under ``content``."""
    what, where = refusal.sentence.values.get("what"), str(refusal.sentence.values.get("where"))
    if not isinstance(what, Sentence) or what.key not in _TOLD:
        return FieldRefusal({"content": refusal.sentence})
    inside = where.rpartition(", ")[2]  # the record within the record
    field, said = _TOLD[what.key]
    field = field or str(what.values.get("field", inside))
    if where.startswith("rungs "):
        field = f"{inside}.{field}"  # words.S
    elif inside == "entrants":
        field = f"{inside}.{field}"
    elif inside in _CHANCES:
        field = f"{inside}.{_BETTER if _BETTER in what.values.values() else 'cured'}"
        said = _BEYOND if what.key == "the ratio of {name} is not from 0.1 to 10" else said
    elif what.key == "the ratio of {name} is not from 0.1 to 10" and inside not in _RATIOS:
        said = _TOGETHER  # worked out from the ratios outside, or from those of the word said
        field = "said" if where.startswith("symptoms") else "outside_high"
    elif what.key == "{field} has ratios, but is said never to happen":
        field = field.replace("outside", "background")
    named = {
        name: names.get(value, _OUTCOMES.get(value, value)) if isinstance(value, str) else value
        for name, value in what.values.items()
        if f"{{{name}}}" in said.key
    }
    return FieldRefusal({field: Sentence(said.key, named)})
