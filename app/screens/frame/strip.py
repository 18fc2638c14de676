"""The strip over the sheet: the find box, and who is working now."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QPoint, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QMenu, QSizePolicy, QWidget

from app.screens.desk import StaffNow
from app.screens.frame.dividers import WIDTH
from app.screens.frame.find_box import LEAST, FindBox
from app.screens.kit import measure
from app.screens.kit.boxes import Row
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.language import say

HEIGHT = 44


class Strip(QWidget):
    """``staff`` lists who may work here; choosing one takes two keys: Ctrl+U and a figure."""

    chosen = Signal(object)

    def __init__(self, staff: Callable[[], Sequence[StaffNow]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._staff = staff
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        measure.fix(self, height=HEIGHT)
        self.find_box = FindBox(self)
        self._name = Label("", "strong")
        self.change = Button(say("Change"), self.choose, kind="quiet", key="Ctrl+U")
        row = Row(self, gap=9, margins=(WIDTH, 4, 18, 9))
        row.add(self.find_box, stretch=1000)
        row.add(18)
        row.addStretch(1)
        self._now = Label(say("Working now"), "soft")
        row.add(self._now, self._name, 7, self.change)
        self.set_staff(None)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """Large words on a small screen: the find box shrinks to 320, then "Working now" leaves."""
        beside = self._name.sizeHint().width() + self.change.sizeHint().width() + px(18 + 36 + 7 + 18)
        need = px(WIDTH) + px(LEAST) + beside + self._now.sizeHint().width()
        self._now.setVisible(self.width() >= need)

    def set_staff(self, staff: StaffNow | None) -> None:
        """Show who works now."""
        self._name.setText(staff.name if staff is not None else say("nobody yet"))
        self._name.setAccessibleName(say("Working now: {name}", name=self._name.text()))
        self._make_room()

    def menu(self) -> QMenu:
        """The people to choose from, each with a figure to press."""
        menu = QMenu(self)
        for i, person in enumerate(self._staff(), start=1):
            name = person.name.replace("&", "&&")
            action = menu.addAction(f"&{i}  {name}" if i < 10 else name)
            action.triggered.connect(lambda _=False, person=person: self.chosen.emit(person))
        return menu

    def choose(self) -> None:
        """Open the list of people."""
        menu = self.menu()
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(self.change.mapToGlobal(QPoint(0, self.change.height())))
        actions = menu.actions()
        if actions:
            menu.setActiveAction(actions[0])
