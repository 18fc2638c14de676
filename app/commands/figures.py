"""``figures``: the shop's own statistics, so that each number can be checked without a window."""

from __future__ import annotations

import argparse
import json
from argparse import ArgumentParser, Namespace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from app.commands.command import DONE, WRONG_USAGE, Surroundings
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.sentence import words
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Followed
from app.trade.statistics.picture import ENDINGS
from app.trade.statistics.questions import QUESTIONS
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
        _declare(one, wording)
        one.set_defaults(figure=name)


def _declare(parser: ArgumentParser, wording: Wording) -> None:
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

    add = parser.add_argument
    add(
        "--book",
        type=Path,
        metavar="PATH",
        default=argparse.SUPPRESS,
        help=wording("the book to work on; without it, the shop's own, in your data folder"),
    )
    add("--by", choices=list(_BY), default="transport-type", help=wording("what jobs are parted by"))
    add("--from", dest="since", type=day, metavar="DAY", help=wording("handed back on this day or later"))
    add("--to", dest="until", type=day, metavar="DAY", help=wording("handed back on this day or before"))
    add("--type", default="", metavar="NAME", help=wording("only this transport type"))
    add("--arrangement", choices=list(_ARRANGEMENTS), help=wording("only transports of this arrangement"))
    add("--maker", default="", metavar="NAME", help=wording("only players of this maker"))
    add("--model", default="", metavar="NAME", help=wording("only players of this model"))
    add("--fault-group", choices=[group.value for group in FaultGroup], help=wording("only this fault group"))
    add(
        "--change", default="", metavar="ID", help=wording("only jobs in which this kind of change was tried")
    )
    add("--technician", metavar="NAME", help=wording("only jobs that this person tried or worked on"))
    add("--modified", choices=list(_YES_NO), help=wording("only with, or without, a modification inside"))
    add("--window", type=days, metavar="DAYS", help=wording("a comeback comes in again within so many days"))
    add("--follow", choices=list(_FOLLOWED), help=wording("what is followed from its repair to its return"))
    add(
        "--any-fault",
        action="store_true",
        help=wording("count a return with any fault, not only the same group"),
    )
    shape = parser.add_mutually_exclusive_group()
    shape.add_argument("--json", action="store_true", help=wording("everything, as JSON"))
    shape.add_argument("--csv", action="store_true", help=wording("the rows of the table, as CSV"))
    shape.add_argument(
        "--picture",
        type=picture_file,
        metavar="FILE",
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
    # not for those who only want the window
    from app.work.statistics.question import shop_question
    from app.work.statistics.questions import ANSWERS, technician_named

    book = peek_shop(around.book, clock=around.clock)
    try:
        technician = technician_named(book, asked.technician) if asked.technician else None
        question = shop_question(book, technician=technician, **_filters(asked))
        answer = ANSWERS[asked.figure](book, question)
        wording = wording_for(around.language, book.zone)
        if asked.picture is not None:
            _draw(around, book, answer, asked.picture, wording)
    finally:
        book.close()
    if asked.picture is None:
        _tell(around, asked, answer, wording)
    return DONE


def _draw(around: Surroundings, book: Book, answer: Answer, path: Path, wording: Wording) -> None:
    """Write the picture, and say where it is."""
    from app.work.papers.answers import save_picture
    from app.work.statistics.asked import asked_words
    from app.work.statistics.pictures import picture_of

    asked = [wording(sentence) for sentence in asked_words(book, answer)]
    save_picture(picture_of(answer), path, wording, asked)
    around.tell(wording(answer.headline))
    around.tell(around.wording("The picture was written to {file}.", file=str(path)))


def _filters(asked: Namespace) -> dict[str, Any]:
    """The words of the person as parts of a question; what was not said is left to the shop's settings."""
    found: dict[str, Any] = {
        "by": _BY[asked.by],
        "since": asked.since,
        "until": asked.until,
        "transport_type": asked.type,
        "arrangement": _ARRANGEMENTS.get(asked.arrangement),
        "maker": asked.maker,
        "model": asked.model,
        "group": FaultGroup(asked.fault_group) if asked.fault_group else None,
        "change": asked.change,
        "modified": _YES_NO.get(asked.modified),
    }
    if asked.window is not None:
        found["window"] = asked.window
    if asked.follow is not None:
        found["followed"] = _FOLLOWED[asked.follow]
    if asked.any_fault:
        found["same_group"] = False
    return found


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
