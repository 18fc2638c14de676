"""Where the estimate of a job stands, in words: apart from those of a job, as lists of jobs do not tell it."""

from __future__ import annotations

from app.screens.language import say
from app.work.bench.sheet_estimate import SheetEstimate, Standing

TITLE = 32  # letters of an option's title in the heading; the whole of it stands on its page


def estimate_words(estimate: SheetEstimate) -> str:
    """Where the estimate stands, e.g. ``0412: B, modified, yours kept, up to 250.00 EUR``."""
    number = estimate.number
    match estimate.standing:
        case Standing.WRITTEN:
            return say("being written")
        case Standing.WAITS if estimate.unanswered is not None:
            return say("{number}: no answer for {n} days", number=number, n=estimate.unanswered)
        case Standing.WAITS:
            return say("{number} waits for the answer", number=number)
        case Standing.DECLINED:
            return say("{number} declined", number=number)
        case Standing.LEFT:
            return say("{number}, never answered", number=number)
    chosen = say("agreed")
    if estimate.letter:
        title = estimate.title if len(estimate.title) <= TITLE else f"{estimate.title[: TITLE - 1].rstrip()}…"
        chosen = say("{letter}, {title}", letter=estimate.letter, title=title)
    assert estimate.up_to is not None
    return say("{number}: {chosen}, up to {amount}", number=number, chosen=chosen, amount=estimate.up_to)
