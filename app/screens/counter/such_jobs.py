"""How long such jobs took, under the day that is promised, and the day that this would be by one key."""

from __future__ import annotations

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.actions import key_of
from app.screens.kit.boxes import Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.day_field import DayField
from app.screens.kit.label import Label
from app.screens.kit.measure import fix
from app.screens.language import day, say
from app.work.counter.promise_offer import PromiseOffer


class SuchJobs(QWidget):
    """Hidden while the book has too few such jobs. ``button`` stands beside the field: only it puts the day in."""

    def __init__(self, field: DayField) -> None:
        super().__init__()
        self._field = field
        self.offer: PromiseOffer | None = None
        self.words = Label("", "soft", wrap=True)
        self.button = Button("", self.take, kind="quiet", key=key_of("promise_such"))
        fix(self.button, min_height=32)
        Row(self).add(self.words, stretch=1)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        field.day_changed.connect(lambda _: self._show_button())
        self.show_offer(None)

    def show_offer(self, offer: PromiseOffer | None) -> None:
        """Say what such jobs took, or nothing."""
        self.offer = offer
        if offer is not None:
            self.words.setText(
                say("{said} ({jobs}).", said=say(offer.help.sentence), jobs=say(offer.of_what))
            )
            self.button.setText(say("Promise {day}", day=day(offer.day, "EEE d MMM")))
        set_shown(self, offer is not None)
        self._show_button()

    def take(self) -> None:
        """Promise the day that eight of ten such jobs needed."""
        if self.offer is not None:
            self._field.set_day(self.offer.day)
            self._field.setFocus()

    def _show_button(self) -> None:
        set_shown(self.button, self.offer is not None and self._field.day() != self.offer.day)
