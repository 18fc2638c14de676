"""Joins sentences: what a person typed without a full stop does not run into what follows, nor get two."""

from __future__ import annotations

import re

_CLOSED = re.compile(r"[.?!…][\"'”“’»«)\]]*$")
_STOP = re.compile(r"\{(\w+)\}\.(?=\s|$)")


def is_closed(text: str) -> bool:
    """Whether a text ends as a sentence does, also inside quotes or brackets."""
    return _CLOSED.search(text.rstrip()) is not None


def closed(text: str) -> str:
    """The text ended as a sentence, so that another can follow it; nothing stays nothing."""
    text = text.strip()
    if not text or is_closed(text):
        return text
    return f"{text.rstrip(' ,;:')}." if text.rstrip(" ,;:") else text


def filled(template: str, values: dict[str, str]) -> str:
    """The template with its braces filled; a full stop behind a value that has its own is left out."""
    if "}." in template:
        template = _STOP.sub(
            lambda found: found[0][:-1] if is_closed(values.get(found[1], "")) else found[0], template
        )
    return template.format(**values)
