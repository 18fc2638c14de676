"""The wording of a language: its gettext catalogue where there is one, else the English templates themselves."""

from __future__ import annotations

import gettext
from collections.abc import Callable
from datetime import tzinfo
from functools import cache

from app.book.shipped import ASSETS
from app.trade.wording import Wording

DOMAIN = "spindlebook"
# The CLDR name under which a language writes numbers and dates, by the code that settings keep.
LOCALES = {"en": "en_GB", "de": "de"}


def locale_of(language: str) -> str:
    """The CLDR name of a language code; one that is not known is written as English."""
    return LOCALES.get(language, LOCALES["en"])


def wording_for(language: str, zone: tzinfo) -> Wording:
    """How a language says things. ``language`` is a code of the settings or a CLDR name: ``de``, ``en_GB``."""
    code = language.partition("_")[0]
    return Wording(_translate(code), locale_of(code), zone)


@cache
def _translate(code: str) -> Callable[[str], str]:
    catalogue = gettext.translation(DOMAIN, ASSETS / "translations", [code], fallback=True)
    # Nothing stays nothing: to gettext the empty key is the head of the catalogue.
    return lambda key: catalogue.gettext(key) if key else ""
