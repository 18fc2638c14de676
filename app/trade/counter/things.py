"""Things that come with a player so often that they are ticked, not typed."""

from __future__ import annotations

from app.trade.sentence import Sentence, words

MAINS_LEAD = words("mains lead")
REMOTE = words("remote control")
SUPPLY = words("supply unit")
BOX = words("box")
# In the order of the form. The book keeps the English word; every paper and screen says it in its language.
USUAL_THINGS = (MAINS_LEAD, REMOTE, SUPPLY, BOX)


def thing_said(thing: str) -> Sentence | str:
    """A usual thing as a sentence, anything else as it was typed."""
    return Sentence(thing) if thing in USUAL_THINGS else thing
