"""The picture of any answer."""

from __future__ import annotations

from app.trade.statistics.picture import Picture
from app.work.statistics.after_modification import AfterModification
from app.work.statistics.answer import Answer
from app.work.statistics.comeback_rate import ComebackRates
from app.work.statistics.cost import Cost
from app.work.statistics.how_long import HowLong
from app.work.statistics.keep_coming import KeepComing
from app.work.statistics.over_time import OverTime
from app.work.statistics.pictures.after_modification import panels_after_modification
from app.work.statistics.pictures.comeback_rate import panels_of_comeback_rate
from app.work.statistics.pictures.cost import panels_of_cost
from app.work.statistics.pictures.how_long import panels_of_how_long
from app.work.statistics.pictures.keep_coming import panels_of_keep_coming
from app.work.statistics.pictures.over_time import panels_over_time
from app.work.statistics.pictures.shop import panels_of_shop
from app.work.statistics.pictures.what_fails import panels_of_what_fails
from app.work.statistics.shop import Shop
from app.work.statistics.what_fails import WhatFails


def picture_of(answer: Answer) -> Picture:
    """The picture under its headline; without panels where nothing fits what was asked."""
    match answer:
        case ComebackRates():
            panels = panels_of_comeback_rate(answer)
        case HowLong():
            panels = panels_of_how_long(answer)
        case KeepComing():
            panels = panels_of_keep_coming(answer)
        case OverTime():
            panels = panels_over_time(answer)
        case WhatFails():
            panels = panels_of_what_fails(answer)
        case AfterModification():
            panels = panels_after_modification(answer)
        case Cost():
            panels = panels_of_cost(answer)
        case Shop():
            panels = panels_of_shop(answer)
        case _:
            raise TypeError(f"no picture of {type(answer).__name__}")
    return Picture(title=answer.headline, panels=panels)
