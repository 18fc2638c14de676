"""The repairs that a question is about, each with its label, and where each stands under the definition."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING, Any

from sqlalchemy.orm import Session

from app.book.door import Book
from app.trade.sentence import Sentence, Value
from app.trade.statistics.comebacks import UNKNOWN, By, Standing
from app.trade.statistics.returns import NONE, STANDINGS, standings
from app.work.statistics.labels import Labels, labels_of
from app.work.statistics.passing import in_period, passing
from app.work.statistics.question import Question
from app.work.statistics.steps import COUNTING, READING, Steps
from app.work.statistics.visits import OUTCOMES, Returns, Visits, visits_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Whole = NDArray[np.int64]
    Marks = NDArray[np.bool_]

AS_THEY_ARE = (
    By.TRANSPORT_TYPE,
    By.MAKER,
    By.MODEL,
    By.TECHNICIAN,
)  # names of the shop's own, in no catalogue


@dataclass(frozen=True, eq=False)
class Ground:
    """The repairs handed back that pass the filters. ``rows`` are their places in ``visits``, the latest visit of each
    unit first. ``first`` and ``last`` are the days of handing back that the book has, whatever was asked; ``wrong`` is how
    many pass the filters, but were handed back before they were taken in, and are not among the rows."""

    question: Question
    visits: Visits
    passes: Marks | None  # of all visits, those that pass the filters beside period and modification
    returns: Returns
    labels: Labels
    rows: Whole
    today: date
    first: date | None
    last: date | None
    wrong: int

    @cached_property
    def job(self) -> Whole:
        """The key of each repair."""
        return self.visits.job[self.rows]

    @cached_property
    def left(self) -> Whole:
        """The day of handing back of each, as `date.toordinal`."""

        return self.visits.left[self.rows]

    @cached_property
    def back(self) -> Whole:
        """The day on which each came back, NONE for those that did not."""
        return _day_of(self.visits, self.returns.back[self.rows])

    @cached_property
    def denied(self) -> Whole:
        """The day of the visit that would count had the shop not denied it, NONE for none."""
        return _day_of(self.visits, self.returns.denied[self.rows])

    @cached_property
    def confirmed(self) -> Marks:
        """Whether a person said that the return of each is its comeback."""
        at = self.returns.back[self.rows]
        said: Marks = (at != NONE) & (self.visits.confirmed[at] == self.job)
        return said

    @cached_property
    def counts(self) -> Marks:
        """Whether the outcome of each is one that can come back."""
        import numpy as np

        counted = self.question.definition.counted
        return np.array([outcome in counted for outcome in OUTCOMES])[self.visits.outcome[self.rows]]

    @cached_property
    def standings(self) -> NDArray[np.int8]:
        """Where each stands under the question's definition, as places in `STANDINGS`."""
        return standings(self.left, self.back, self.counts, self.today.toordinal(), self.question.window)

    def stand(self, standing: Standing) -> Marks:
        """Which of them stand so."""
        held: Marks = self.standings == STANDINGS.index(standing)
        return held

    def tally(self, at: Whole) -> dict[Standing, int]:
        """How many of these (places in ``rows``) stand how."""
        import numpy as np

        counts = np.bincount(self.standings[at], minlength=len(STANDINGS))
        return dict(zip(STANDINGS, counts.tolist(), strict=True))

    @property
    def names(self) -> Mapping[str, Sentence]:
        """What labels mean that are ids."""
        return self.labels.names

    @cached_property
    def groups(self) -> Mapping[str, Whole]:
        """The places in ``rows`` of each label's repairs, in the order of the labels."""
        return parted(self.labels.code[self.rows], self.labels.texts)

    def name(self, label: str) -> Value:
        """A label as people say it: words for the catalogue as a sentence, the shop's own names as they stand."""
        if label in self.labels.names:
            return self.labels.names[label]
        if label != UNKNOWN and (self.question.by in AS_THEY_ARE or self.question.by is By.CHANGE):
            return label
        return Sentence(label)


def ground_of(book: Book, question: Question, steps: Steps | None = None) -> Ground:
    """The repairs that the question is about."""
    with book.ask() as session:
        return ground_in(session, book, question, steps or Steps(None, 1))


def ground_in(session: Session, book: Book, question: Question, steps: Steps) -> Ground:
    """The same for an answer that asks for more in the same transaction, so that all of it is of one moment."""
    steps.next(READING)
    visits = visits_of(session, book.zone, steps)
    labels = labels_of(session, question.by, visits, steps)
    steps.next(READING)
    passes = passing(session, question, visits, steps)
    steps.next(COUNTING)
    returns = visits.returns(same_group=question.same_group, followed=question.followed)
    rows = visits.in_order(question.followed)
    for marks in (*in_period(question, visits), *(() if passes is None else (passes,))):
        rows = rows[marks[rows]]
    steps.next(COUNTING)
    first, last = visits.span() or (None, None)
    right = rows[visits.handed_back[rows] >= visits.taken_in[rows]]
    return Ground(
        question,
        visits,
        passes,
        returns,
        labels,
        right,
        book.today(),
        first,
        last,
        len(rows) - len(right),
    )


def parted(codes: NDArray[Any], texts: tuple[str, ...]) -> dict[str, Whole]:
    """The places of the rows of each code, in the order of the texts that the codes stand for, each as they came."""
    import numpy as np

    order = np.argsort(codes, kind="stable")
    ordered = codes[order]
    there = {texts[code]: code for code in np.unique(ordered).tolist()}
    return {
        text: order[slice(*np.searchsorted(ordered, (there[text], there[text] + 1)))]
        for text in sorted(there)
    }


def _day_of(visits: Visits, places: Whole) -> Whole:
    import numpy as np

    return np.where(places == NONE, NONE, visits.came[places])
