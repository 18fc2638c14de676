"""Tooltips show words as they stand."""

from __future__ import annotations


def plain_tip(text: str) -> str:
    """The text for a tooltip, shown as it stands: Qt would obey <b> and <img> in what a customer said."""
    if "<" not in text:  # without one Qt takes nothing for markup
        return text
    from html import escape  # seldom needed, and it brings the names of all letters along

    return f"<qt>{escape(text)}</qt>".replace("\n", "<br>")
