"""Reads the likelihoods from their data, and refuses what cannot be right."""

from __future__ import annotations

from collections.abc import Container, Mapping
from fractions import Fraction

from app.trade.bench.changes import Grade
from app.trade.bench.data_record import Record, unique
from app.trade.bench.ladder import OTHER, OTHER_WEIGHT
from app.trade.bench.likelihoods import (
    LEAST,
    MOST,
    Entrants,
    Likelihoods,
    ReadingRatios,
    SymptomWord,
    TrialChances,
)
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.bench.stages import TrialOutcome
from app.trade.sentence import Sentence

MOST_MINUTES = 600
MOST_WORTH = 1000
MOST_ENTRANTS = 20
LEAST_RATIO, MOST_RATIO = 1, 1000  # that lets a suspect in


def read_likelihoods(data: object, suspects: Container[str], quantities: Container[str]) -> Likelihoods:
    """The likelihoods from parsed JSON (assets/bench/likelihoods.json). Refusal where the data are wrong: an id
    twice or not known, chances that do not sum to 1, a ratio beyond 0.1 to 10, given or following from one."""
    whole = Record(data, "likelihoods")
    readings = [_reading(record, suspects, quantities) for record in whole.records("readings")]
    unique([reading.id for reading in readings], whole)
    symptoms = [_symptom(record, suspects) for record in whole.records("symptoms")]
    unique([symptom.id for symptom in symptoms], whole)
    by_id = {reading.id: reading for reading in readings}
    for reading in readings:
        if reading.unless_outside and reading.unless_outside not in by_id:
            whole.refuse(Sentence("{reading} is no reading here", {"reading": reading.unless_outside}))
    unaddressed = _chances(whole.record("unaddressed"))
    grades_record = whole.record("grades")
    grades = {grade: _grade(grades_record.record(grade.value), unaddressed) for grade in Grade}
    grades_record.done()
    worth = whole.whole("ladder_worth", 1, MOST_WORTH)
    entrants = _entrants(whole.record("entrants"))
    whole.text("source")  # for those who edit it
    whole.done()
    words = {symptom.id: symptom for symptom in symptoms}
    return Likelihoods(by_id, words, grades, unaddressed, worth, entrants)


def _reading(record: Record, suspects: Container[str], quantities: Container[str]) -> ReadingRatios:
    measured = record.texts("quantities")
    if not measured:
        record.refuse(Sentence("it names no quantity"))
    for quantity in measured:
        if quantity not in quantities:
            record.refuse(Sentence("{quantity} is no quantity", {"quantity": quantity}))
    reading = ReadingRatios(
        id=record.text("id"),
        words=record.optional_text("words"),
        arrangement=record.arrangement(),
        family=record.text("family"),
        quantities=measured,
        minutes=record.whole("minutes", 1, MOST_MINUTES),
        background_high=_share(record, "background_high"),
        background_low=_share(record, "background_low"),
        outside_high=_ratios(record, "outside_high", suspects),
        outside_low=_ratios(record, "outside_low", suspects),
        why=record.text("why"),
        rung_itself=record.whole("rung_itself", 1, HIGHEST_RUNG) if record.has("rung_itself") else None,
        unless_outside=record.optional_text("unless_outside"),
        by_size=record.truth("by_size"),
    )
    if not 0 < reading.background_high + reading.background_low < 1:
        record.refuse(Sentence("how often it is outside by itself is not between 0 and 1"))
    for side, often, ratios in (
        ("outside_high", reading.background_high, reading.outside_high),
        ("outside_low", reading.background_low, reading.outside_low),
    ):
        if ratios and not often:
            record.refuse(Sentence("{field} has ratios, but is said never to happen", {"field": side}))
    for suspect in sorted(reading.suspects):
        _check_ratio(record, reading.ratio_within(suspect), suspect)
    return reading


def _symptom(record: Record, suspects: Container[str]) -> SymptomWord:
    word = SymptomWord(
        id=record.text("id"),
        words=record.text("words"),
        background=_share(record, "background"),
        said=_ratios(record, "said", suspects),
        why=record.text("why"),
    )
    if not word.background:
        record.refuse(Sentence("how often it is said by itself is not between 0 and 1"))
    for suspect, ratio in word.said.items():
        _check_ratio(record, (1 - word.background * ratio) / (1 - word.background), suspect)
    return word


def _chances(record: Record) -> TrialChances:
    cured, better, none = (
        _share(record, outcome.name.lower())
        for outcome in (TrialOutcome.CURED, TrialOutcome.BETTER, TrialOutcome.NO_DIFFERENCE)
    )
    record.done()
    if not (cured and better and none) or cured + better + none != 1:
        record.refuse(Sentence("the chances are not above 0, or do not sum to 1"))
    return TrialChances(cured, better, none)


def _grade(record: Record, unaddressed: TrialChances) -> TrialChances:
    chances = _chances(record)
    for outcome, chance in chances.all.items():
        _check_ratio(record, chance / unaddressed.of(outcome), outcome.value)
    return chances


def _entrants(record: Record) -> Entrants:
    entrants = Entrants(
        weight=_share(record, "weight"),
        ratio=Fraction(record.decimal("ratio")),
        most=record.whole("most", 0, MOST_ENTRANTS),
    )
    record.done()
    if not LEAST_RATIO <= entrants.ratio <= MOST_RATIO:
        record.refuse(
            Sentence(
                "{field} is no number from {low} to {high}",
                {"field": "ratio", "low": LEAST_RATIO, "high": MOST_RATIO},
            )
        )
    if not entrants.weight or entrants.most * entrants.weight >= Fraction(OTHER_WEIGHT):
        record.refuse(Sentence("who comes in takes nothing, or all that other has"))
    return entrants


def _share(record: Record, key: str) -> Fraction:
    share = Fraction(record.decimal(key))
    if not 0 <= share < 1:
        record.refuse(Sentence("{field} is no share of 1", {"field": key}))
    return share


def _ratios(record: Record, key: str, suspects: Container[str]) -> Mapping[str, Fraction]:
    inside = record.record(key)
    ratios = {suspect: Fraction(inside.decimal(suspect)) for suspect, _ in inside.items()}
    for suspect, ratio in ratios.items():
        if suspect not in suspects or suspect == OTHER:
            inside.refuse(Sentence("{suspect} is no suspect here", {"suspect": suspect}))
        _check_ratio(inside, ratio, suspect)
    return ratios


def _check_ratio(record: Record, ratio: Fraction, name: str) -> None:
    if not LEAST <= ratio <= MOST:
        record.refuse(Sentence("the ratio of {name} is not from 0.1 to 10", {"name": name}))
