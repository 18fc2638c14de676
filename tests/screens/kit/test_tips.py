"""A tooltip never obeys what somebody wrote."""

from __future__ import annotations

from PySide6.QtGui import Qt, QTextDocument

from app.screens.kit.tips import plain_tip


def shown(tip: str) -> str:
    """What a tooltip of these words shows: rich text is laid out, plain text stands."""
    if not Qt.mightBeRichText(tip):
        return tip
    document = QTextDocument()
    document.setHtml(tip)
    return document.toPlainText()


def test_ordinary_words_stay_as_they_are() -> None:
    assert plain_tip("Reads no disc, skips & stops") == "Reads no disc, skips & stops"
    assert shown(plain_tip("3 < 4 & so on")) == "3 < 4 & so on"


def test_marks_that_qt_would_obey_are_shown(qapp: object) -> None:
    for said in ("<b>loud</b>", '<img src="file:///etc/passwd">', "two\n<i>lines</i>", "<qt>&lt;x</qt>"):
        assert shown(plain_tip(said)) == said
