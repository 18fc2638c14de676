"""``figures``: the shop's own statistics, so that each number can be checked without a window."""

from __future__ import annotations

import argparse
import json
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from app.commands.command import DONE, WRONG_USAGE, Surroundings, complain
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence, words
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Followed
from app.trade.statistics.picture import ENDINGS
from app.trade.statistics.questions import FOLLOWING, OF_COMEBACKS, PARTED, QUESTIONS
from app.trade.upkeep.csv_text import sheet_text
from app.trade.wording import Wording
from app.work.language import wording_for
from app.work.shop_book import peek_shop

if TYPE_CHECKING:
    from app.book.door import Book
    from app.work.statistics.answer import Answer

HELP = words("answer a question about the shop's own jobs")
ABOUT = words(
    "Answers one of eight questions from the book, as text, JSON, CSV or a picture; “figures --list” names them. "
    "The window may be open meanwhile."
)
_BY = {by.name.lower().replace("_", "-"): by for by in By}
_ARRANGEMENTS = {"swing-arm": Arrangement.SWING_ARM, "sled": Arrangement.SLED}
_FOLLOWED = {"player": Followed.UNIT, "transport": Followed.TRANSPORT}
_YES_NO = {"yes": True, "no": False}


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "--list", action="store_true", help=wording("print the names of the questions, one a line")
    )
    parser.set_defaults(figure="")
    questions = parser.add_subparsers(title=wording("questions"), metavar=wording("QUESTION"))
    for name, about in QUESTIONS.items():
        one = questions.add_parser(name, help=wording(about), description=wording(about))
        _declare(one, wording, name)
        one.set_defaults(figure=name)


def _declare(parser: ArgumentParser, wording: Wording, question: str) -> None:
    def day(text: str) -> date:
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise argparse.ArgumentTypeError(
                wording("{text} is no day. Write year, month, day: 2026-01-31.", text=text)
            ) from None

    def days(text: str) -> int:
        if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= 3660:
            raise argparse.ArgumentTypeError(wording("From {least} to {most}.", least=1, most=3660))
        return int(text)

    def picture_file(text: str) -> Path:
        path = Path(text)
        if path.suffix.lower() not in ENDINGS:
            raise argparse.ArgumentTypeError(
                wording("{name} ends with none of {endings}.", name=path.name, endings=ENDINGS)
            )
        return path

    def told(help_: str, where: frozenset[str]) -> str:
        """Its own help names only what bears on the question; the rest is taken, and it is said that it changes nothing."""
        return wording(help_) if question in where else argparse.SUPPRESS

    add, a_day, a_name = parser.add_argument, wording("DAY"), wording("NAME")
    add(
        "--book",
        type=Path,
        metavar=wording("PATH"),
        default=argparse.SUPPRESS,
        help=wording("the book to work on; without it, the shop's own, in your data folder"),
    )
    add("--by", choices=list(_BY), help=told(words("what jobs are parted by"), PARTED))
    add("--from", dest="since", type=day, metavar=a_day, help=wording("handed back on this day or later"))
    add("--to", dest="until", type=day, metavar=a_day, help=wording("handed back on this day or before"))
    add("--type", default="", metavar=a_name, help=wording("only this transport type"))
    add("--arrangement", choices=list(_ARRANGEMENTS), help=wording("only transports of this arrangement"))
    add("--maker", default="", metavar=a_name, help=wording("only players of this maker"))
    add("--model", default="", metavar=a_name, help=wording("only players of this model"))
    add("--fault-group", choices=[group.value for group in FaultGroup], help=wording("only this fault group"))
    add(
        "--change",
        default="",
        metavar=wording("ID"),
        help=wording("only jobs in which this kind of change was tried"),
    )
    add("--technician", metavar=a_name, help=wording("only jobs that this person tried or worked on"))
    add("--modified", choices=list(_YES_NO), help=wording("only with, or without, a modification inside"))
    within = words("a comeback comes in again within so many days")
    add("--window", type=days, metavar=wording("DAYS"), help=told(within, OF_COMEBACKS))
    follow = words("what is followed from its repair to its return")
    add("--follow", choices=list(_FOLLOWED), help=told(follow, FOLLOWING))
    any_fault = words("count a return with any fault, not only the same group")
    add("--any-fault", action="store_true", help=told(any_fault, OF_COMEBACKS))
    shape = parser.add_mutually_exclusive_group()
    shape.add_argument("--json", action="store_true", help=wording("everything, as JSON"))
    shape.add_argument("--csv", action="store_true", help=wording("the rows of the table, as CSV"))
    shape.add_argument(
        "--picture",
        type=picture_file,
        metavar=wording("FILE"),
        help=wording("the picture, as .pdf, .svg or .png by its ending; a file that is there is replaced"),
    )


def run(around: Surroundings) -> int:
    """Answer, or name the questions."""
    asked = around.asked
    if asked.list:
        for name in QUESTIONS:
            around.tell(name)
        return DONE
    if not asked.figure:
        around.tell(around.wording("Say which question: spindlebook figures QUESTION, or --list."))
        return WRONG_USAGE
    if asked.since is not None and asked.until is not None and asked.since > asked.until:
        return _wrong(around, Refusal(Sentence("The first day comes after the last one.")))
    # not for those who only want the window
    from app.work.statistics.question import shop_question
    from app.work.statistics.questions import ANSWERS, technician_named

    book = peek_shop(around.book, clock=around.clock)
    try:
        try:
            technician = None if asked.technician is None else technician_named(book, asked.technician)
        except Refusal as refusal:
            return _wrong(around, refusal)
        question = shop_question(book, technician=technician, **_filters(around, book))
        answer = ANSWERS[asked.figure](book, question)
        wording = wording_for(around.language, book.zone)
        if asked.picture is not None:
            _draw(around, book, answer, asked.picture, wording)
    finally:
        book.close()
    if asked.picture is None:
        _tell(around, asked, answer, wording)
    return DONE


def _wrong(around: Surroundings, refusal: Refusal) -> int:
    """Say what was asked wrongly."""
    complain(around.wording, refusal)
    return WRONG_USAGE


def _note(around: Surroundings, sentence: Sentence) -> None:
    """Say something beside the answer, whatever shape that has."""
    print(around.wording(sentence), file=sys.stderr)


def _draw(around: Surroundings, book: Book, answer: Answer, path: Path, wording: Wording) -> None:
    """Write the picture, and say where it is."""
    from app.work.papers.answers import save_picture
    from app.work.statistics.asked import asked_words
    from app.work.statistics.pictures import picture_of

    asked = [wording(sentence) for sentence in asked_words(book, answer)]
    save_picture(picture_of(answer), path, wording, asked)
    around.tell(wording(answer.headline))
    around.tell(around.wording("The picture was written to {file}.", file=str(path)))


def _filters(around: Surroundings, book: Book) -> dict[str, Any]:
    """The words of the person as parts of a question; what was not said is left to the shop's settings. Notes what
    changes nothing in this answer, and names that the book does not have."""
    from app.work.statistics.filter_names import filter_names

    asked = around.asked
    names = {
        "transport_type": asked.type,
        "maker": asked.maker,
        "model": asked.model,
        "change": asked.change,
    }
    names, said = filter_names(book, names)
    for sentence in (*_idle(asked), *said):
        _note(around, sentence)
    found: dict[str, Any] = {
        **names,
        "since": asked.since,
        "until": asked.until,
        "arrangement": _ARRANGEMENTS.get(asked.arrangement),
        "group": FaultGroup(asked.fault_group) if asked.fault_group else None,
        "modified": _YES_NO.get(asked.modified),
    }
    if asked.by is not None:
        found["by"] = _BY[asked.by]
    if asked.window is not None:
        found["window"] = asked.window
    if asked.follow is not None:
        found["followed"] = _FOLLOWED[asked.follow]
    if asked.any_fault:
        found["same_group"] = False
    return found


def _idle(asked: Namespace) -> Iterator[Sentence]:
    """What was asked for and bears on other questions only."""
    for option, said, where in (
        ("--by", asked.by is not None, PARTED),
        ("--window", asked.window is not None, OF_COMEBACKS),
        ("--follow", asked.follow is not None, FOLLOWING),
        ("--any-fault", asked.any_fault, OF_COMEBACKS),
    ):
        if said and asked.figure not in where:
            yield Sentence("{option} changes nothing in this answer.", {"option": option})


def _tell(around: Surroundings, asked: Namespace, answer: Answer, wording: Wording) -> None:
    from app.work.statistics.as_data import as_data, as_rows

    if asked.json:
        around.tell(
            json.dumps({"figure": asked.figure, **as_data(answer, wording)}, ensure_ascii=False, indent=1)
        )
        return
    if asked.csv:
        print(sheet_text(*as_rows(answer, wording)), end="")
        return
    why = answer.why
    around.tell(wording(answer.headline))
    for sentence in answer.said:
        around.tell(wording(sentence))
    around.tell(
        wording(
            "{n} {counted}; {what}: {events}.",
            n=why.n,
            counted=why.counted,
            what=why.events_are,
            events=why.events,
        )
    )
    for sentence in why.method:
        around.tell(wording(sentence))
    if why.source:
        around.tell(wording("Source: {source}.", source="; ".join(why.source)))
