"""The ranked suspects of a job, explained, with the reading or trial expected to tell most next."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.knowledge_data import BenchKnowledge, knowledge_of
from app.book.door import Book
from app.book.tables import Fitting, Job, Transport, TransportType
from app.trade.bench.changes import BenchChange
from app.trade.bench.figures import as_decimal
from app.trade.bench.ladder import OTHER
from app.trade.bench.next_step import NextSteps, comes_last, next_steps, still_to_try
from app.trade.bench.ranking import Ranking, RankingCase, rank
from app.trade.bench.ranking_words import (
    explanation,
    first_look,
    no_clear_leader,
    ranking_sentence,
    share_words,
    strongest,
)
from app.trade.bench.start_up import StartUpResult, ladder_sentence
from app.trade.bench.weighing import Evidence
from app.trade.sentence import Sentence
from app.trade.statistics.proportions import wilson
from app.work.bench.past_causes import counts_of
from app.work.bench.ranking_facts import (
    climbs_of,
    readings_seen,
    standing_climb,
    trials_of,
    trials_seen,
)
from app.work.bench.symptoms import answers_of

NO_CLIMB = Sentence("Nothing to rank yet: record how far it starts up in normal use.")
NO_TRANSPORT = Sentence("Nothing to rank: the transport in this player is not known.")


@dataclass(frozen=True, slots=True)
class RankedLine:
    """One suspect. ``share`` 0 to 1, for a bar; ``words`` as it is said; ``because``: what moves it most; ``why``:
    the whole path to it. It was the cause in ``jobs`` of ``all_jobs`` closed ones, with the 95 % interval of that
    share (Wilson), 0 to 1 without any."""

    id: str
    name: Sentence
    share: float
    words: Sentence
    entered: bool  # from outside the ladder's row
    other: bool
    jobs: int
    all_jobs: int
    interval: tuple[float, float]
    because: tuple[Sentence, ...]
    why: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class RankingCard:
    """What the job page shows. ``rung``: the first not reached; ``jobs``: closed ones that were counted."""

    rung: int
    sentence: Sentence
    standing: Sentence
    first_look: Sentence
    clear_leader: bool
    lines: tuple[RankedLine, ...]
    moves_nothing: tuple[Sentence, ...]
    steps: NextSteps
    jobs: int
    bits: float  # how open it still is


def ranking_of(book: Book, job_id: int) -> RankingCard | Sentence:
    """The ranking of a job as it stands now; a sentence where there is nothing to rank, and why."""
    with book.ask() as session:
        case = _case(session, job_id)
        return case if isinstance(case, Sentence) else _card(session, case)


def first_before(session: Session, job_id: int, change_id: str) -> tuple[BenchChange, ...]:
    """The reversible changes that come before this one in a job as it stands now; none where it leaves no
    modification and is easily undone, or where there is nothing to rank."""
    known = knowledge_of(session).knowledge.changes.get(change_id)
    if known is None or not comes_last(known):
        return ()
    case = _case(session, job_id)
    if isinstance(case, Sentence):
        return ()
    tried = {trial.change for trial in trials_of(session, job_id)}
    return still_to_try(case.ranking, case.evidence, case.known.knowledge, tried)


@dataclass(frozen=True, slots=True)
class _Case:
    """A job that has something to rank."""

    job: Job
    kind: TransportType
    result: StartUpResult
    stop: int
    known: BenchKnowledge
    evidence: Evidence
    ranking: Ranking
    jobs: int


def _case(session: Session, job_id: int) -> _Case | Sentence:
    job = session.get_one(Job, job_id)
    inside = session.execute(
        select(Transport.id, TransportType)
        .join(Fitting, Fitting.transport_id == Transport.id)
        .join(TransportType, TransportType.id == Transport.type_id)
        .where(Fitting.unit_id == job.unit_id, Fitting.removed_at.is_(None))
    ).first()
    climbs = climbs_of(session, job_id)
    climb = standing_climb(climbs)
    if climb is None:
        return NO_CLIMB
    if inside is None:
        return NO_TRANSPORT
    transport_id, kind = inside
    known = knowledge_of(session)
    result = StartUpResult(rung=climb.rung, tries=climb.tries, stopped_in=climb.stopped_in)
    stop = result.first_not_reached
    if stop is None:
        return ladder_sentence(result, known.ladder, kind.arrangement)
    knowledge, trials = known.knowledge, trials_of(session, job.id)
    evidence = Evidence(
        arrangement=kind.arrangement,
        rung=stop,
        symptoms=answers_of(session, job.id),
        readings=readings_seen(
            session, job, transport_id, trials, climbs, knowledge.likelihoods, quantities(session)
        ),
        trials=trials_seen(session, trials, climbs, knowledge.changes),
    )
    weights = known.ladder.weights(stop, kind.arrangement, frozenset(kind.not_testable))
    counts = counts_of(session, kind.id, result.rung, knowledge.changes)
    ranking = rank(RankingCase(weights=weights, evidence=evidence, counts=counts), knowledge)
    return _Case(job, kind, result, stop, known, evidence, ranking, sum(counts.values()))


def _card(session: Session, case: _Case) -> RankingCard:
    ranking, knowledge = case.ranking, case.known.knowledge
    shares = {suspect: as_decimal(share) for suspect, share in ranking.shares.items()}
    tried = {trial.change for trial in trials_of(session, case.job.id)}
    return RankingCard(
        rung=case.stop,
        sentence=ranking_sentence(ranking),
        standing=ladder_sentence(
            case.result,
            case.known.ladder,
            case.kind.arrangement,
            frozenset(case.kind.not_testable),
            shares,
        ),
        first_look=first_look(),
        clear_leader=not no_clear_leader(ranking) and ranking.lines[0].suspect.id != OTHER,
        lines=_lines(ranking),
        moves_nothing=ranking.moves_nothing,
        steps=next_steps(ranking, case.evidence, knowledge, quantities(session), tried),
        jobs=case.jobs,
        bits=ranking.entropy,
    )


def _lines(ranking: Ranking) -> tuple[RankedLine, ...]:
    return tuple(
        RankedLine(
            id=line.suspect.id,
            name=line.suspect.name,
            share=float(line.share),
            words=share_words(line.share),
            entered=line.entered,
            other=line.suspect.id == OTHER,
            jobs=line.jobs,
            all_jobs=line.all_jobs,
            interval=wilson(line.jobs, line.all_jobs) if line.all_jobs else (0.0, 1.0),
            because=strongest(line),
            why=explanation(line),
        )
        for line in ranking.lines
    )
