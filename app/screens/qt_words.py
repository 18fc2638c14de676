"""Qt's own few words (names of keys, the menu of a field, the platform's dialogs) in the window's language."""

from __future__ import annotations

from PySide6.QtCore import QLibraryInfo, QLocale, QTranslator
from PySide6.QtWidgets import QApplication

_spoken: list[QTranslator] = []  # what is installed now: one, or none for English


def speak(app: QApplication, locale: str) -> None:
    """Have Qt speak the language of a CLDR locale name such as ``de``, before the window is made. A language that
    Qt does not bring stays English, as Qt itself is written."""
    for translator in _spoken:
        app.removeTranslator(translator)
    _spoken.clear()
    QLocale.setDefault(QLocale(locale))
    translator = QTranslator(app)
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    if not locale.startswith("en") and translator.load(QLocale(locale), "qtbase", "_", folder):
        app.installTranslator(translator)
        _spoken.append(translator)
