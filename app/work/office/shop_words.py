"""The texts that a shop may word itself, as a paper says them."""

from __future__ import annotations

from collections.abc import Mapping

from app.papers.facts import Said
from app.trade.sentence import Sentence, Value
from app.trade.settings.setting import Setting
from app.trade.settings.shop_settings import ShopSettings
from app.trade.settings.terms import fill
from app.trade.wording import Wording


def shop_words(
    settings: ShopSettings, setting: Setting[str], values: Mapping[str, Value], wording: Wording
) -> Said:
    """A text from the settings with its places filled; ours is translated while it is unedited."""
    text = settings[setting]
    if text == setting.default:
        return Sentence(text, values)
    return fill(text, {name: wording.value(value) for name, value in values.items()})
