"""The owner's questions: which repairs come back, the jobs behind it, its paper, and the seven questions beside it."""

from __future__ import annotations

from app.screens.language import say
from app.screens.office.figures.comeback_rate_page import FIGURE, ComebackRatePage
from app.screens.office.figures.figure_kinds import KINDS
from app.screens.office.figures.figure_page import FigurePage
from app.screens.office.jobs_behind_page import JobsBehindPage
from app.screens.paper_page import PaperPage
from app.screens.tour.hands import Steps, Until
from app.screens.tour.waits import Waits

FIRST = 33  # of the pictures of the other questions


class FiguresSteps(Waits):
    """The steps through the pages of figures, in their order."""

    def questions(self) -> Steps:
        """All of them."""
        yield from self.comebacks()
        yield from self.other_questions()

    def comebacks(self) -> Steps:
        """Which repairs come back, as a paper too, and the jobs behind the first number where there are any."""
        self.works("Ine")
        hands = self.hands
        hands.press("Ctrl+Shift+B")
        yield self.page_is(ComebackRatePage)
        hands.press("Ctrl+P")
        yield self.page_is(PaperPage)
        self.keep_paper("which-repairs-come-back")
        hands.press("Alt+Left")
        yield self.page_is(ComebackRatePage)
        if self.came_back():
            hands.click(hands.named("Show these"))
            yield self.page_is(JobsBehindPage)
            hands.picture("32-jobs-behind")
            hands.press("Alt+Left")
            yield self.page_is(ComebackRatePage)

    def other_questions(self) -> Steps:
        """From question to question by the row at their foot."""
        hands = self.hands
        for number, kind in enumerate((kind for kind in KINDS.values() if kind.name != FIGURE), FIRST):
            hands.click(say(kind.short))
            yield self.answers(kind.name)
            hands.picture(f"{number}-{kind.name}")

    def came_back(self) -> bool:
        """Whether a repair came back in what the page in sight answers."""
        page = self.hands.window.page
        found = page.found if isinstance(page, ComebackRatePage) else None
        return found is not None and found.answer.why.events > 0

    def answers(self, question: str) -> Until:
        """The page of a question in sight, and its answer come."""

        def there() -> bool:
            page = self.hands.window.page
            return (
                isinstance(page, FigurePage)
                and page.kind.name == question
                and page.found is not None
                and self.idle()
            )

        there.__doc__ = f"the answer to {question}"
        return there
