"""The start-up ladder: its twelve rungs, and for each what it shows and proves and who is under suspicion
when a player stops before it. Common practice, no source; every weight is the shop's to change."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass
from decimal import Decimal

from app.trade.bench.data_record import ARRANGEMENTS, BOTH, Record, unique
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.bench.quantities import HIGHEST_RUNG
from app.trade.sentence import Sentence

OTHER = "other"
OTHER_WEIGHT = Decimal("0.05")

_ByArrangement = Mapping[Arrangement | None, str]


@dataclass(frozen=True)
class Rung:
    """One rung, 1 to 12. Its words and the sentence for stopping before it may differ with the arrangement;
    the key None serves both, or one that is not known."""

    number: int
    words: _ByArrangement
    stopped: _ByArrangement

    def name(self, arrangement: Arrangement | None) -> Sentence:
        """Its words: arm home."""
        return Sentence(self.words.get(arrangement) or self.words[None])

    def stop(self, arrangement: Arrangement | None) -> Sentence:
        """What a player does that stops before it: It plays, but stalls on a long seek."""
        return Sentence(self.stopped.get(arrangement) or self.stopped[None])


@dataclass(frozen=True)
class Suspect:
    """What may be wrong. ``arrangement`` None: on both."""

    id: str
    words: str
    group: FaultGroup
    arrangement: Arrangement | None
    short: str = ""

    @property
    def name(self) -> Sentence:
        """Its words."""
        return Sentence(self.words)

    @property
    def short_name(self) -> Sentence:
        """A word or two, to stand among others in a sentence; its words where it has none."""
        return Sentence(self.short or self.words)


@dataclass(frozen=True)
class Separating:
    """A quantity that parts the suspects, and how to read it where that matters."""

    quantity: str
    how: str


@dataclass(frozen=True)
class LadderRow:
    """One rung on one arrangement (None: both). ``weights`` are the shares of the suspects when it is the first
    rung not reached; they sum to 1. ``works``: of which fault groups the parts work, to that extent, once it is
    reached."""

    rung: int
    arrangement: Arrangement | None
    shows: str
    proves: str
    works: tuple[FaultGroup, ...]
    weights: Mapping[str, Decimal]
    readings: tuple[Separating, ...]
    changes: tuple[str, ...]
    tools: str
    caution: str


@dataclass(frozen=True)
class Ladder:
    """The whole ladder as data."""

    rungs: tuple[Rung, ...]
    suspects: Mapping[str, Suspect]
    rows: tuple[LadderRow, ...]

    def rung(self, number: int) -> Rung:
        """The rung with this number, 1 to 12."""
        return self.rungs[number - 1]

    def row(self, rung: int, arrangement: Arrangement) -> LadderRow:
        """What the ladder says of a rung on an arrangement."""
        return next(r for r in self.rows if r.rung == rung and r.arrangement in (None, arrangement))

    def weights(
        self, rung: int, arrangement: Arrangement, not_testable: Container[int] = ()
    ) -> dict[str, Decimal]:
        """Weights of the suspects when ``rung`` is the first not reached. A rung that cannot be tested on the
        type takes the mean of its row and the next one's."""
        own = dict(self.row(rung, arrangement).weights)
        if rung not in not_testable or rung == HIGHEST_RUNG:
            return own
        above = self.row(rung + 1, arrangement).weights
        return {
            suspect: (own.get(suspect, Decimal(0)) + above.get(suspect, Decimal(0))) / 2
            for suspect in [*own, *(s for s in above if s not in own)]
        }


def read_ladder(data: object) -> Ladder:
    """The ladder from parsed JSON (assets/bench/ladder.json). Refusal where the data are wrong: weights that do
    not sum to 1, ``other`` not 0.05, a suspect nobody knows or of the other arrangement, a rung left out."""
    whole = Record(data, "ladder")
    rungs = tuple(_rung(record) for record in whole.records("rungs", "rung"))
    if [rung.number for rung in rungs] != list(range(1, HIGHEST_RUNG + 1)):
        whole.refuse(Sentence("the rungs are not 1 to 12 in their order"))
    listed = [_suspect(record) for record in whole.records("suspects")]
    unique([suspect.id for suspect in listed], whole)
    suspects = {suspect.id: suspect for suspect in listed}
    rows = tuple(_row(record, suspects) for record in whole.records("rows", "rung"))
    whole.done()
    for rung in rungs:
        for arrangement in Arrangement:
            found = [r for r in rows if r.rung == rung.number and r.arrangement in (None, arrangement)]
            if len(found) != 1:
                whole.refuse(
                    Sentence(
                        "rung {rung} has {n} rows for {arrangement}, not one",
                        {"rung": rung.number, "n": len(found), "arrangement": Sentence(arrangement.value)},
                    )
                )
    return Ladder(rungs, suspects, rows)


def _rung(record: Record) -> Rung:
    number = record.whole("rung", 1, HIGHEST_RUNG)
    return Rung(number, _by_arrangement(record.record("words")), _by_arrangement(record.record("stopped")))


def _by_arrangement(record: Record) -> _ByArrangement:
    words: dict[Arrangement | None, str] = {None: record.text(BOTH)}
    for code, arrangement in ARRANGEMENTS.items():
        if record.has(code):
            words[arrangement] = record.text(code)
    record.done()
    return words


def _suspect(record: Record) -> Suspect:
    group = record.text("group")
    if group not in list(FaultGroup):
        record.refuse(Sentence("{group} is no fault group", {"group": group}))
    return Suspect(
        record.text("id"),
        record.text("words"),
        FaultGroup(group),
        record.arrangement(),
        record.optional_text("short"),
    )


def _works(record: Record) -> tuple[FaultGroup, ...]:
    groups = record.texts("works")
    for group in groups:
        if group not in list(FaultGroup):
            record.refuse(Sentence("{group} is no fault group", {"group": group}))
    return tuple(map(FaultGroup, groups))


def _row(record: Record, suspects: Mapping[str, Suspect]) -> LadderRow:
    arrangement = record.arrangement()
    return LadderRow(
        rung=record.whole("rung", 1, HIGHEST_RUNG),
        arrangement=arrangement,
        shows=record.text("shows"),
        proves=record.text("proves"),
        works=_works(record),
        weights=_weights(record, arrangement, suspects),
        readings=tuple(
            Separating(reading.text("quantity"), reading.optional_text("how"))
            for reading in record.records("readings", "quantity")
        ),
        changes=record.texts("changes"),
        tools=record.optional_text("tools"),
        caution=record.optional_text("caution"),
    )


def _weights(
    record: Record, arrangement: Arrangement | None, suspects: Mapping[str, Suspect]
) -> dict[str, Decimal]:
    priors = record.record("priors")
    weights = {suspect: priors.decimal(suspect) for suspect, _ in priors.items()}
    for suspect, weight in weights.items():
        known = suspects.get(suspect)
        if known is None or known.arrangement not in (None, arrangement):
            priors.refuse(Sentence("{suspect} is no suspect here", {"suspect": suspect}))
        if not 0 < weight < 1:
            priors.refuse(Sentence("the weight of {suspect} is not between 0 and 1", {"suspect": suspect}))
    if sum(weights.values()) != 1:
        priors.refuse(Sentence("the weights do not sum to 1"))
    if weights.get(OTHER) != OTHER_WEIGHT:
        priors.refuse(Sentence("the weight of other is not {weight}", {"weight": OTHER_WEIGHT}))
    return weights
