"""Fills the labels: the tag that stays with the player, and the one inside the cover of a modified player."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy.orm import Session

from app.book.bench.job_facts import facts_of
from app.book.bench.modification_facts import fact_of
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Job, Modification, Unit
from app.papers.facts import TagSize
from app.papers.labels_facts import BenchTagFacts, ModifiedLabelFacts
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.modification_words import effect_in_words, way_back, what_it_is
from app.trade.calendar.promise import local_day
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TAG_SIZE
from app.work.papers.intake_ticket import fault_words_of
from app.work.papers.issuing import issue_paper
from app.work.papers.sheet_facts import flag_facts, money, player_facts, sheet_of, wording_of
from app.work.shop_book import Done


def issue_bench_tag(book: Book, who: int, job_id: int) -> Done[int]:
    """Issue the tag as the job stands now. Gives the id of the paper; `paper_pdf` shows it."""
    with book.change(who, Sentence("issued a bench tag")) as change:
        job = change.get(Job, job_id)
        facts = bench_tag_facts(change.session, book, job)
        paper = issue_paper(change, job_id, facts, number=str(job.number))
    return Done(paper.id, change.changes)


def bench_tag_facts(session: Session, book: Book, job: Job) -> BenchTagFacts:
    """The tag of a job: number, player, fault, worst flag, promise, shelf; nothing of the customer."""
    settings = settings_of(session)
    facts = facts_of(session, job, book.today())
    sheet = sheet_of(book.files, settings, session.get_one(Customer, job.customer_id))
    return BenchTagFacts(
        sheet=sheet,
        job=job.number,
        player=player_facts(session, session.get_one(Unit, job.unit_id)),
        fault=job.fault or ", ".join(map(wording_of(sheet), fault_words_of(session, job))),
        taken_in=local_day(job.taken_in_at, book.zone),
        flags=flag_facts(session, facts),
        promised=job.promised_on,
        shelf=job.shelf,
        limit=money(job.go_ahead_limit, settings),
        size=TagSize(settings[TAG_SIZE]),
    )


def issue_modified_label(book: Book, who: int, modification_id: int) -> Done[int]:
    """Issue the label of one modification that stays inside. Raises Refusal for one that was put back."""
    with book.change(who, Sentence("issued the label of a modification")) as change:
        row = change.get(Modification, modification_id)
        if row.reversed_at is not None or row.struck_at is not None:
            raise Refusal(Sentence("This modification is not in the player any more."))
        job = change.get(Job, row.job_id)
        facts = modified_label_facts(change.session, book.files, job, row, book)
        paper = issue_paper(
            change,
            job.id,
            facts,
            number=str(job.number),
            names_modifications=(),  # a label has no room for what `told` asks for
        )
    return Done(paper.id, change.changes)


def modified_label_facts(
    session: Session, files: Path, job: Job, row: Modification, book: Book
) -> ModifiedLabelFacts:
    """What the label says: what was changed, the factors against the maker's value, how to undo it."""
    change = fact_of(row, job.number, "", "", {})
    effects = [effect_in_words(ratio) for ratio in circuit_ratios((change,))]
    return ModifiedLabelFacts(
        sheet=sheet_of(files, settings_of(session), session.get_one(Customer, job.customer_id)),
        job=job.number,
        day=local_day(row.at, book.zone),
        what=what_it_is(change),
        factors=next((effect for effect in effects if effect is not None), ""),
        undo=way_back(change),
    )
