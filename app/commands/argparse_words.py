"""The words that argparse itself says, in the program's language: its headings, its help, its errors."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from contextlib import contextmanager

from app.trade.sentence import words
from app.trade.wording import Wording

# As the library writes them from Python 3.11 on, as far as our commands can make it say them.
OWN = (
    words("usage: "),
    words("positional arguments"),
    words("options"),
    words("show this help message and exit"),
    words("%(prog)s: error: %(message)s\n"),
    words("argument %(argument_name)s: %(message)s"),
    words("expected one argument"),
    words("expected at least one argument"),
    words("ignored explicit argument %r"),
    words("not allowed with argument %s"),
    words("one of the arguments %s is required"),
    words("the following arguments are required: %s"),
    words("unrecognized arguments: %s"),
    words("ambiguous option: %(option)s could match %(matches)s"),
    words("invalid choice: %(value)r (choose from %(choices)s)"),
    words("unknown parser %(parser_name)r (choices: %(choices)s)"),
)


@contextmanager
def speaking(wording: Wording) -> Iterator[None]:
    """Let argparse take its words from our catalogue. It asks the names ``_`` and ``ngettext`` of its module for
    each of them, when a parser is made and when it speaks; they are put back at the end."""
    its_own = {name: vars(argparse)[name] for name in ("_", "ngettext")}

    def many(one: str, several: str, count: int) -> str:
        return wording(one) if count == 1 else wording(several)

    vars(argparse).update({"_": wording, "ngettext": many})
    try:
        yield
    finally:
        vars(argparse).update(its_own)
