"""The service report of a job: previewed as a draft, then issued with the photos that were chosen."""

from __future__ import annotations

import base64
import io
import json
from collections import Counter
from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import attachments
from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.tables import Attachment, Customer, Job, Paper, Unit
from app.papers.facts import Clause, FlagLevel, Said
from app.papers.invoice_facts import InvoiceFacts
from app.papers.press import read_facts
from app.papers.service_report_facts import Photo, ServiceReportFacts
from app.trade.bench.facts import JobFacts
from app.trade.bench.ladder import Ladder
from app.trade.bench.modifications import live
from app.trade.bench.report_words import Passage, TrialTold, done, known, not_known, since
from app.trade.bench.safety_notes import Reader
from app.trade.bench.start_up import StartUpResult
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.bench.safety_notes import safety_notes_of
from app.work.bench.sheet_lists import readings_of, start_ups_of, trials_of
from app.work.papers.intake_ticket import fault_words_of
from app.work.papers.issuing import issue_paper, preview_paper
from app.work.papers.kinds import Kind
from app.work.papers.modification_block import modification_blocks, modification_ids
from app.work.papers.report_parts import (
    climb_facts,
    first_and_last,
    part_rows,
    ratio_rows,
    safety_of,
    trial_rows,
)
from app.work.papers.report_readings import instruments_of, notes_of, reading_rows, sources_of, struck_rows
from app.work.papers.sheet_facts import cautions_of, flag_facts, player_facts, sheet_of
from app.work.shop_book import Done

MOST_PHOTOS = 8
PHOTO_SIDE = 1100  # pixels: 80 mm on paper at about 300 to an inch
PHOTO_QUALITY = 82


def issue_service_report(book: Book, who: int, job_id: int, photos: Sequence[int] = ()) -> Done[int]:
    """Issue the report as the job stands now; it names every modification that stays inside. Gives the id of the
    paper; `paper_pdf` shows it. ``photos`` are ids of files of the job, in the order of print. Raises Refusal."""
    with book.change(who, Sentence("issued a service report")) as change:
        job = change.get(Job, job_id)
        rows = JobRows(change.session, job)
        facts = facts_of(change.session, job, change.today, rows)
        paper = issue_paper(
            change,
            job_id,
            service_report_facts(book, rows, facts, photos),
            number=str(job.number),
            names_modifications=modification_ids(facts),
        )
    return Done(paper.id, change.changes)


def preview_service_report(book: Book, job_id: int, photos: Sequence[int] = ()) -> bytes:
    """The PDF of the report as it would be issued now, with "draft" behind every page."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        rows = JobRows(session, job)
        facts = facts_of(session, job, book.today(), rows)
        paper = service_report_facts(book, rows, facts, photos)
    return preview_paper(paper)


def service_report_facts(
    book: Book, rows: JobRows, facts: JobFacts, photos: Sequence[int] = ()
) -> ServiceReportFacts:
    """Everything that stands on the report, as the job is now."""
    session, job = rows.session, rows.job
    customer = session.get_one(Customer, job.customer_id)
    ladder = knowledge_of(session).ladder
    arrangement = rows.fitted.arrangement if rows.fitted is not None else None
    first, last = first_and_last(start_ups_of(rows))
    readings, trials = readings_of(rows), [trial for trial in trials_of(rows) if trial.struck is None]
    told = [TrialTold(t.words, t.outcome, t.left, t.came_back) for t in trials]
    ours = [m for m in live(facts.modifications) if m.ours and m.job == job.number]
    climbs = (first.result if first else None, last.result if last else None)
    record, missing = safety_of(rows, facts)
    return ServiceReportFacts(
        sheet=sheet_of(book.files, rows.settings, customer),
        job=job.number,
        day=book.today(),
        customer_name=customer.name,
        player=player_facts(session, session.get_one(Unit, job.unit_id)),
        complaint=job.fault,
        complaint_words=fault_words_of(session, job),
        bench=_worked_on(rows),
        ladder=climb_facts(ladder, arrangement, book.zone, first, last),
        finding=tuple(_finding(rows, ladder, climbs, told, len(ours))),
        flags=tuple(flag for flag in flag_facts(session, facts) if flag.level is FlagLevel.STOP),
        readings=reading_rows(rows, readings, climbs[0]),
        struck=struck_rows(readings),
        reading_notes=notes_of(rows, readings, climbs[0]),
        reading_sources=sources_of(readings),
        instruments=instruments_of(rows, readings),
        captures=_captures(rows),
        trials=trial_rows(trials, told),
        trials_fine_print=tuple(
            Sentence(
                "Trial {n} was done before gentler ones; reason: “{reason}” ({by}).",
                {"n": trial.number, "reason": trial.order_reason, "by": trial.by},
            )
            for trial in trials
            if trial.order_reason
        ),
        parts=part_rows(rows),
        modifications=modification_blocks(rows, facts),
        ratios=ratio_rows(facts, rows.settings),
        photos=_photos(book, session, job.id, photos),
        safety=record,
        safety_missing=missing,
        cautions_user=cautions_of(safety_notes_of(rows, facts, Reader.USER)),
        cautions_technician=cautions_of(safety_notes_of(rows, facts, Reader.TECHNICIAN)),
        guarantee=_guarantee(session, job.id),
    )


def _worked_on(rows: JobRows) -> str:
    """Who tried and measured most."""
    by = Counter(row.by for row in (*rows.trials, *rows.readings, *rows.start_ups) if row.struck_at is None)
    return rows.staff[by.most_common(1)[0][0]] if by else ""


def _finding(
    rows: JobRows,
    ladder: Ladder,
    climbs: tuple[StartUpResult | None, StartUpResult | None],
    told: Sequence[TrialTold],
    staying: int,
) -> list[Clause]:
    arrangement = rows.fitted.arrangement if rows.fitted is not None else None
    not_testable = frozenset(rows.fitted.not_testable if rows.fitted is not None else ())
    paragraphs: list[Passage] = [known(*climbs, ladder, arrangement, not_testable)]
    if told or rows.labour or rows.part_moves:
        paragraphs.append(done(told, staying))
    paragraphs.append(not_known(rows.job.cause, rows.job.cause_note, told))
    if rows.latest_job_id != rows.job.id:
        latest = rows.session.get_one(Job, rows.latest_job_id)
        paragraphs.append(since(latest.number))
    return [Clause(*paragraph) for paragraph in paragraphs]


def _captures(rows: JobRows) -> Said:
    """Files that are no pictures: traces and recordings are named, not drawn."""
    named = tuple(
        row.note or row.name
        for row in rows.files
        if row.struck_at is None and not row.media_type.startswith("image/")
    )
    return Sentence("{list}. Copies on request.", {"list": named}) if named else ""


def _guarantee(session: Session, job_id: int) -> Said:
    """As it was promised on the invoice; before there is one, nothing is promised here."""
    row = session.scalars(
        select(Paper)
        .where(Paper.job_id == job_id, Paper.kind == Kind.INVOICE.value)
        .order_by(Paper.id.desc())
        .limit(1)
    ).first()
    if row is None or not row.facts:
        return ""
    invoice = read_facts(Kind.INVOICE, json.dumps(row.facts))
    assert isinstance(invoice, InvoiceFacts)
    return invoice.guarantee


def _photos(book: Book, session: Session, job_id: int, chosen: Sequence[int]) -> tuple[Photo, ...]:
    if len(chosen) > MOST_PHOTOS:
        raise Refusal(
            Sentence("A report has room for {most} photos.", {"most": MOST_PHOTOS}),
            Sentence("Choose those that show most."),
        )
    photos = []
    for file_id in dict.fromkeys(chosen):
        row = session.get(Attachment, file_id)
        if row is None or row.job_id != job_id or row.struck_at is not None:
            raise Refusal(Sentence("One of the photos is not with this job any more."))
        picture = _as_printed(attachments.read(book.files, row.sha256), row.name)
        photos.append(Photo(base64.b64encode(picture).decode("ascii"), row.note))
    return tuple(photos)


def _as_printed(content: bytes, name: str) -> bytes:
    """The picture upright, no larger than it is printed, as JPEG. Raises Refusal for what is none."""
    import warnings

    from PIL import Image, ImageOps

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(content)) as picture:
                upright = ImageOps.exif_transpose(picture).convert("RGB")
                upright.thumbnail((PHOTO_SIDE, PHOTO_SIDE))
                out = io.BytesIO()
                upright.save(out, "JPEG", quality=PHOTO_QUALITY)
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombWarning) as error:
        raise Refusal(
            Sentence("{file} is no picture that papers can print.", {"file": name}),
            Sentence("Take it out of the photos that are chosen."),
        ) from error
    return out.getvalue()
