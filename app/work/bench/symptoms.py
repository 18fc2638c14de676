"""Symptom words asked at the bench: each said, denied or not asked."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.tables import Symptom
from app.trade.bench.evidence import Asked
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job
from app.work.shop_book import Done


def answers_of(session: Session, job_id: int) -> dict[str, Asked]:
    """What was asked in a job, by symptom word; a word that nobody asked is not in it."""
    rows = session.execute(select(Symptom.word, Symptom.said).where(Symptom.job_id == job_id))
    return {word: Asked.SAID if said else Asked.DENIED for word, said in rows if said is not None}


def symptom_answers(book: Book, job_id: int) -> dict[str, Asked]:
    """What was asked in a job, by symptom word; a word that nobody asked is not in it."""
    with book.ask() as session:
        return answers_of(session, job_id)


def answer_symptoms(book: Book, who: int, job_id: int, answers: Mapping[str, Asked]) -> Done[int]:
    """Keep the answers given, by symptom word. One that is not named stays as it was."""
    with book.change(who, Sentence("asked about the fault")) as change:
        job = open_job(change, job_id)
        kept = {
            row.word: row for row in change.session.scalars(select(Symptom).where(Symptom.job_id == job.id))
        }
        for word, answer in answers.items():
            said = None if answer is Asked.NOT_ASKED else answer is Asked.SAID
            row = kept.get(word)
            if row is None and said is not None:
                change.add(Symptom(job_id=job.id, word=word, said=said, at=change.now, by=change.by))
            elif row is not None and row.said is not said:
                row.said, row.at, row.by = said, change.now, change.by
    return Done(job_id, change.changes)
