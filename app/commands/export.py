"""``export``: everything in open formats, or a period's journal and papers for the bookkeeper."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, ArgumentTypeError
from datetime import date
from pathlib import Path

from app.commands.command import DONE, FAILED, WRONG_USAGE, Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording
from app.work.shop_book import peek_shop

HELP = words("write everything as CSV and JSON, or the journal of a period for the bookkeeper")
ABOUT = words(
    "Writes one CSV file for each table (jobs.csv, readings.csv, history.csv and so on) and one JSON file of "
    "everything. PINs stay inside. With --for-bookkeeper it writes the journal of a period instead: invoices, credit "
    "notes and payments as CSV, a file that explains its columns, and all invoices and credit notes as PDFs in one "
    "folder. The window may be open meanwhile."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""

    def day(text: str) -> date:
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise ArgumentTypeError(
                wording("{text} is no day. Write year, month, day: 2026-01-31.", text=text)
            ) from None

    parser.add_argument(
        "--to",
        type=Path,
        required=True,
        metavar=wording("FOLDER"),
        help=wording("where the files go; the folder is made, files of the same name are replaced"),
    )
    parser.add_argument(
        "--for-bookkeeper", action="store_true", help=wording("the journal and the papers of a period")
    )
    parser.add_argument(
        "--from",
        dest="first",
        type=day,
        metavar=wording("DAY"),
        help=wording("its first day; without it, the month before this one"),
    )
    parser.add_argument(
        "--until", dest="last", type=day, metavar=wording("DAY"), help=wording("its last day")
    )
    parser.add_argument(
        "--decimal-comma",
        action="store_true",
        help=wording("1234,50 with semicolons between cells, for a spreadsheet that wants it so"),
    )


def run(around: Surroundings) -> int:
    """Write the files and say how many. Ctrl+C takes away what is half written."""
    asked = around.asked
    if not asked.for_bookkeeper and (asked.first or asked.last or asked.decimal_comma):
        # Written out whole in its place, it would look like the period that was meant.
        told = around.wording("--from, --until and --decimal-comma belong to --for-bookkeeper.")
        print(told, file=sys.stderr)
        return WRONG_USAGE
    try:
        return _for_bookkeeper(around) if around.asked.for_bookkeeper else _everything(around)
    except KeyboardInterrupt:
        told = around.wording("Stopped. What was half written was taken away again.")
        print(f"\n{told}" if sys.stderr.isatty() else told, file=sys.stderr)
        return FAILED


def _everything(around: Surroundings) -> int:
    from app.work.upkeep.export import export_everything  # not for those who only want the window

    book = peek_shop(around.book, clock=around.clock)
    try:
        files = export_everything(book, around.asked.to)
    finally:
        book.close()
    around.tell(
        around.wording("{count} files written to {folder}", count=len(files), folder=str(around.asked.to))
    )
    return DONE


def _for_bookkeeper(around: Surroundings) -> int:
    """The journal and the papers of a period. A paper that is not whole is told, and makes it fail at the end."""
    from app.trade.calendar.period import month_of, period_of
    from app.trade.upkeep.csv_text import Mark
    from app.work.office.for_bookkeeper import write_for_bookkeeper

    asked = around.asked
    wording = around.wording_by_the_shop()
    book = peek_shop(around.book, clock=around.clock)
    try:
        if asked.first is None and asked.last is None:
            period = month_of(book.today(), 1)
        else:
            period = period_of(asked.first, asked.last)
        mark = Mark.COMMA if asked.decimal_comma else Mark.POINT
        written = write_for_bookkeeper(book, asked.to, period, wording, mark=mark, watch=_Counter(wording))
    finally:
        book.close()
    sums = written.sums
    around.tell(wording("{first} to {last}", first=period.first, last=period.last))
    around.tell(wording("{count} rows in {file}", count=sums.rows, file=str(written.journal)))
    around.tell(wording("Invoiced less credited: {sum}, VAT in it {vat}", sum=sums.turnover, vat=sums.vat))
    around.tell(wording("Taken less given back: {sum}", sum=sums.paid))
    around.tell(wording("{count} invoices and credit notes as PDF", count=written.papers))
    for name, why in written.lacking:
        print(f"{name}: {wording(why)}", file=sys.stderr)
    return FAILED if written.lacking else DONE


class _Counter:
    """Says on a terminal how far it is; a file that standard error goes to stays clean."""

    def __init__(self, wording: Wording) -> None:
        self._wording = wording

    def __call__(self, done: int, of: int, name: str) -> None:
        if of and sys.stderr.isatty():
            end = "\n" if done == of else ""
            print(
                f"\r{self._wording('{done} of {of}', done=done, of=of)}", end=end, file=sys.stderr, flush=True
            )
