"""Every paper of the story, printed once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from typing import Any

import pytest

from app.papers.facts import PaperSize
from app.papers.press import printed
from tests.papers import story, story_after, story_credit, story_estimate, story_report

PAPERS: dict[str, Any] = {
    "ticket": story.TICKET,
    "roll tag": story.TAG,
    "small tag": story.SMALL_TAG,
    "modified label": story.LABEL,
    "receipt": story.RECEIPT,
    "estimate": story_estimate.ESTIMATE,
    "invoice": story.INVOICE,
    "credit note": story_credit.CREDIT_NOTE,
    "unsafe": story.UNSAFE,
    "report": story_report.REPORT,
    "reminder": story_after.REMINDER,
    "payment receipt": story_after.PAYMENT_RECEIPT,
    "uncollected notice": story_after.UNCOLLECTED_NOTICE,
}
# Those that come in A4 and Letter.
SHEETS = [
    "ticket",
    "receipt",
    "invoice",
    "credit note",
    "estimate",
    "unsafe",
    "report",
    "reminder",
    "payment receipt",
    "uncollected notice",
]


@lru_cache(maxsize=64)
def pdf_of(name: str, letter: bool = False, long_words: bool = False) -> bytes:
    """A paper of the story."""
    facts = PAPERS[name]
    if letter:
        facts = replace(facts, sheet=replace(facts.sheet, size=PaperSize.LETTER))
    return printed(facts, story.LONG_WORDS if long_words else story.ENGLISH)


@pytest.fixture(params=sorted(PAPERS))
def paper(request: pytest.FixtureRequest) -> tuple[str, bytes]:
    """Each paper of the story in turn: its name and its PDF."""
    return request.param, pdf_of(request.param)


@pytest.fixture(
    params=[
        (name, letter, longer) for name in SHEETS for letter in (False, True) for longer in (False, True)
    ],
    ids=str,
)
def sheet(request: pytest.FixtureRequest) -> bytes:
    """Each sheet in A4 and Letter, with English and with long words."""
    return pdf_of(*request.param)


@pytest.fixture
def press() -> Callable[..., bytes]:
    """Prints facts in English."""
    return lambda facts: printed(facts, story.ENGLISH)
