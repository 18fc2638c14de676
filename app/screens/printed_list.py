"""Print this list: what a page shows as a table becomes one paper to look at, to print and to save."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens import language
from app.screens.bench.failures import tell
from app.screens.desk import Paper
from app.screens.kit.cells import Cell, Column, Figure, Group, Link, Row, Stage, Words
from app.screens.kit.rows import PagedModel
from app.screens.language import say
from app.screens.page import Page

if TYPE_CHECKING:
    from app.work.papers.lists import ListLine

MOST = 1000  # rows on one printed list
_NOT_IN_NAMES = re.compile(r"[\\/:*?\"<>|\s]+")


def printing(print_it: Callable[[], object]) -> dict[str, Callable[[], object]]:
    """The actions of a page that is a list: its paper is the list."""
    return {"print": print_it, "print_list": print_it}


def show_list(
    page: Page,
    title: str,
    about: Sequence[str],
    columns: Sequence[Column],
    rows: Iterable[Row | Group],
    more: int = 0,
) -> None:
    """Make the paper of these rows, as many as one list holds, and show it. ``about`` says in words which were
    asked for; ``more`` counts rows beyond ``rows``, below zero where nobody has counted them."""
    from app.work.papers.lists import ListColumn, ListFacts, print_list  # no paper is needed before

    lines, left = lines_of(rows)
    day = page.desk.today()
    facts = ListFacts(
        title,
        day,
        tuple(ListColumn(column.title, column.number or column.right) for column in columns),
        lines,
        tuple(filter(None, about)),
        more if more < 0 else more + left,
    )
    name = file_name(title, day.isoformat(), ".pdf")
    page.desk.doors.look_up(
        page,
        partial(print_list, page.desk.book, facts, language.current().language),
        lambda pdf: page.desk.show_paper(Paper(title, pdf, "list", name)),
        partial(tell, page.trouble),
    )


def file_name(title: str, day: str, ending: str) -> str:
    """What a file of this title is proposed to be called."""
    return f"{_NOT_IN_NAMES.sub(' ', title).strip()} {day}{ending}"


def show_paged(
    page: Page,
    title: str,
    about: Sequence[str],
    model: PagedModel,
    fetch: Callable[[Sequence[Any]], Callable[[], Any]],
    rows: Callable[[Any], Mapping[Any, Row]],
) -> None:
    """The same of a list whose rows come by pages: ``fetch`` makes the question for their ids, to be asked away
    from the window, and ``rows`` words the answer."""
    ids = tuple(model.ids()[:MOST])
    more = len(model.ids()) - len(ids)
    groups = list(model.groups())

    def arrived(answer: Any) -> None:
        found = rows(answer)
        show_list(page, title, about, model.columns, _in_order(ids, groups, found), more)

    page.desk.doors.look_up(page, fetch(ids), arrived, partial(tell, page.trouble))


def _in_order(
    ids: Sequence[Any], groups: Sequence[tuple[int, Group]], found: Mapping[Any, Row]
) -> Iterable[Row | Group]:
    """Groups at their places among the rows; those behind the last row are left out."""
    heads = dict(groups)
    place = 0
    for key in ids:
        while place in heads:
            yield heads[place]
            place += 1
        if key in found:
            yield found[key]
        place += 1


def lines_of(rows: Iterable[Row | Group]) -> tuple[tuple[ListLine, ...], int]:
    """Rows as a paper says them, and how many were too many for it."""
    from app.work.papers.lists import ListLine

    lines: list[ListLine] = []
    count = left = 0
    for row in rows:
        if isinstance(row, Group):
            level = f"{say(row.level)}: " if row.level else ""
            lines.append(ListLine((f"{row.word}", f"{level}{row.second}"), over=True))
        elif count < MOST:
            count += 1
            lines.append(ListLine(tuple(words_of(cell) for cell in row.cells)))
        else:
            left += 1
    while left and lines and lines[-1].over:
        lines.pop()
    return tuple(lines), left


def words_of(cell: Cell) -> str:
    """A cell in words alone: what a shape or an ink says on the screen is said on paper."""
    match cell:
        case None:
            return ""
        case Words():
            text = ", ".join(filter(None, (cell.text, cell.second)))
            return f"{say(cell.before)}: {text}" if cell.before and text else text
        case Figure():
            return f"{cell.text}\u00a0{cell.unit}" if cell.unit else cell.text
        case Link():
            return ", ".join(filter(None, (cell.text, cell.second)))
        case Stage():
            return ", ".join(filter(None, (cell.word, cell.second)))
    return cell.plain
