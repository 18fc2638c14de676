"""How an error that belongs to no field is told: what happened, why, what to do."""

from __future__ import annotations

import logging
from collections.abc import Callable

from app.screens.kit.trouble import TroubleBar
from app.screens.language import say
from app.screens.log_file import as_text
from app.screens.versions import versions
from app.trade.refusal import FieldRefusal, Held, Refusal, StaleRow

_log = logging.getLogger(__name__)


def tell(trouble: TroubleBar, error: Exception, again: Callable[[], object] | None = None) -> None:
    """Show an error of app.work in the bar of a page; what is no refusal is ours, and goes to the log too."""
    if isinstance(error, Held):
        trouble.show_trouble(say(error.sentence), " ".join(say(reason) for reason in error.reasons))
    elif isinstance(error, StaleRow):
        trouble.show_trouble(say(error.sentence), say("What you typed is kept on this page."))
    elif isinstance(error, FieldRefusal):
        trouble.show_trouble(
            say("This cannot be saved yet."), " ".join(say(sentence) for sentence in error.fields.values())
        )
    elif isinstance(error, Refusal):
        step = say(error.next_step) if error.next_step is not None else ""
        actions = [(say("Save again"), again)] if again is not None else []
        kept = say("What you typed is kept on this page.") if again is not None else ""
        trouble.show_trouble(say(error.sentence), f"{step} {kept}".strip(), actions)
    else:
        actions = [(say("Try again"), again)] if again is not None else []
        trouble.show_trouble(
            say("Something went wrong that is not your doing."),
            say(
                "What you typed is kept on this page. Copy the details for those who look after the program."
            ),
            actions,
            details=f"{versions()}\n{as_text(error)}",  # places in the program, nothing that was typed
        )
        _log.error("a change or question of the bench failed", exc_info=error)
