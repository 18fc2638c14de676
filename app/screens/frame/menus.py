"""The menu bar: every action of the registry, enabled while the page or the window serves it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from app.screens.actions import ACTS, MENUS
from app.screens.kit.buttons import key_words
from app.screens.language import say

Commands = Mapping[str, Callable[[], object]]


class Menus(QObject):
    """``serve(id, call)`` for what the window does itself; ``of_page(commands)`` for what a page does. The page
    goes first where both serve the same action."""

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._own: dict[str, Callable[[], object]] = {}
        self._page: Callable[[], Commands] = dict
        self.actions: dict[str, QAction] = {}
        self.menus: dict[str, QMenu] = {}
        groups: dict[tuple[str, int], QActionGroup] = {}
        bar = window.menuBar()
        for menu_id, title in MENUS:
            menu = self.menus[menu_id] = bar.addMenu(say(title))
            menu.aboutToShow.connect(self.refresh)
            before: int | None = None
            for act in (a for a in ACTS if a.menu == menu_id):
                if before is not None and act.group != before:
                    menu.addSeparator()
                before = act.group
                shown = f"\t{key_words(act.key)}" if "Return" in act.key else ""  # people say Enter
                action = QAction(say(act.text) + shown, window)
                if act.key:
                    action.setShortcut(QKeySequence(act.key))
                    action.setShortcutContext(Qt.ShortcutContext.WindowShortcut)
                if act.choice:
                    action.setCheckable(True)
                    group = groups.setdefault((menu_id, act.group), QActionGroup(self))
                    group.addAction(action)
                if act.id == "quit":
                    action.setMenuRole(QAction.MenuRole.QuitRole)
                elif act.id == "settings":
                    action.setMenuRole(QAction.MenuRole.PreferencesRole)
                elif act.id == "about":
                    action.setMenuRole(QAction.MenuRole.AboutRole)
                else:
                    action.setMenuRole(QAction.MenuRole.NoRole)
                action.triggered.connect(lambda _=False, act_id=act.id: self.run(act_id))
                self.actions[act.id] = action
                menu.addAction(action)

    def serve(self, act_id: str, call: Callable[[], object]) -> None:
        """The window itself does this action, on every page that does not do it otherwise."""
        self._own[act_id] = call
        self.refresh()

    def of_page(self, commands: Callable[[], Commands]) -> None:
        """Another page is in sight."""
        self._page = commands
        self.refresh()

    def refresh(self) -> None:
        """Enable what is served now."""
        page = self._page()
        for act_id, action in self.actions.items():
            action.setEnabled(act_id in page or act_id in self._own)

    def run(self, act_id: str) -> None:
        """Do an action."""
        call = self._page().get(act_id) or self._own.get(act_id)
        if call is not None:
            call()

    def check(self, act_id: str) -> None:
        """Show which of a group is on."""
        self.actions[act_id].setChecked(True)
