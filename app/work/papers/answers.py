"""Answers on paper and as pictures in a file: nothing is filed, as nothing was issued."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from types import MappingProxyType

from app.book.disk import write_whole
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.papers.answer_facts import AnswerColumn, AnswerFacts, AnswerTable
from app.papers.list_facts import ListLine
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.statistics.picture import ENDINGS, Picture
from app.trade.statistics.table import Shape, Table
from app.trade.statistics.table_words import cell_words
from app.trade.wording import Wording
from app.work.papers.sheet_facts import sheet_in, wording_of
from app.work.statistics.answer import Answer
from app.work.statistics.pictures import picture_of
from app.work.statistics.tables.answer_tables import tables_of

_NO_NUMBERS = (Shape.WORDS, Shape.DAY)


def print_answer(book: Book, title: str, answer: Answer, asked: Sequence[str], language: str) -> bytes:
    """The PDF of an answer. ``title`` is its question and ``asked`` of which jobs, both as they are worded in
    ``language``; the rest is worded here."""
    from app.papers.answer_paper import answer_paper

    with book.ask() as session:
        sheet = sheet_in(book.files, settings_of(session), language)
    wording = wording_of(sheet)
    why, tables = answer.why, tables_of(answer)
    rests = wording(
        "{n} {counted}; {what}: {events}.",
        n=why.n,
        counted=why.counted,
        what=why.events_are,
        events=why.events,
    )
    facts = AnswerFacts(
        question=title,
        headline=wording(answer.headline),
        day=book.today(),
        asked=tuple(asked),
        picture=picture_of(answer),
        table=_table(tables[0], wording) if tables else None,
        said=tuple(wording(sentence) for sentence in answer.said),
        why=(rests, *(wording(sentence) for sentence in why.method)),
        sources=why.source,
    )
    return answer_paper(facts, sheet, wording)


def _table(content: Table, wording: Wording) -> AnswerTable:
    columns = tuple(
        AnswerColumn(wording(column.name), column.shape not in _NO_NUMBERS, column.least_wanted)
        for column in content.columns
    )
    lines = tuple(
        ListLine(tuple(cell_words(*pair, wording) for pair in zip(content.columns, line.cells, strict=True)))
        for line in content.lines
    )
    return AnswerTable(wording(content.title), columns, lines)


def save_picture(picture: Picture, path: Path, wording: Wording, asked: Sequence[str] = ()) -> None:
    """Write a picture under its headline, of the kind that the ending of ``path`` says; a file that is there is
    replaced. Raises Refusal for another ending, a picture of nothing, a place where nothing can be written."""
    make = _MAKERS.get(path.suffix.lower())
    if make is None:
        raise Refusal(
            Sentence("A picture cannot be written as {name}.", {"name": path.name}),
            Sentence("The name ends with {endings}.", {"endings": ENDINGS}),
        )
    if not picture.panels:
        raise Refusal(
            Sentence("There is nothing to draw."),
            picture.title,
        )
    data = make(picture, wording, asked)
    try:
        write_whole(path, data)
    except OSError as error:
        raise Refusal(
            Sentence("The file {path} could not be written.", {"path": str(path)}),
            Sentence("Choose another folder, or free some space."),
        ) from error


def _made(kind: str, picture: Picture, wording: Wording, asked: Sequence[str]) -> bytes:
    from app.papers.plots.picture_page import picture_pdf, picture_png, picture_svg

    return {".pdf": picture_pdf, ".svg": picture_svg, ".png": picture_png}[kind](picture, wording, asked)


_MAKERS: Mapping[str, Callable[[Picture, Wording, Sequence[str]], bytes]] = MappingProxyType(
    {ending: partial(_made, ending) for ending in ENDINGS}
)
