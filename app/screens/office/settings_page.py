"""The shop's settings, one page for each group, built from their declarations."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.form_page import FormPage
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.foot import Foot
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.editor_for import editor_for, unit_of
from app.screens.office.former_texts import FormerTexts
from app.screens.office.setting_editors import Editor
from app.screens.office.setting_words import GROUP_WORDS, former_words, value_words
from app.screens.office.stale_view import Differing, StaleView
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.trade.settings import SETTINGS, Group, Kind, Setting, ShopSettings, Who, check_changes
from app.work.office.former_lines import FormerLine
from app.work.office.former_settings import SettingLine, former_settings
from app.work.office.settings import change_settings, shop_settings

LABEL_WIDTHS = {Group.BENCH: 400, Group.COUNTER: 270, Group.MONEY: 220, Group.PARTS: 270, Group.SAFETY: 0}
USUAL_WIDTH = 170


class SettingsPage(FormPage):
    """Registered as ``settings``; its key is the value of a group, None is the shop's own."""

    help_topic = "settings"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        self.group = Group(key) if key else Group.SHOP
        super().__init__(desk, say("Settings"), parent, label_width=LABEL_WIDTHS.get(self.group, USUAL_WIDTH))
        self.draft_key = f"settings {self.group.value}"
        self.seen: ShopSettings | None = None
        self.editors: dict[Setting[Any], Editor] = {}
        self.former_texts: FormerTexts | None = None  # made with the first one
        self._former: list[SettingLine] = []
        self._asked: Any = None
        self.set_title(say("Settings: {group}", group=say(GROUP_WORDS[self.group])))
        self.groups = Choice(
            say("Group of settings"), [(g, say(words)) for g, words in GROUP_WORDS.items()], self.group
        )
        self.groups.changed.connect(self._other_group)
        self.owner_only = FlagBar(say("Who may change these"))
        self.stale = StaleView()
        self.stale.kept.connect(self._keep_mine)
        self.stale.taken.connect(self._take_theirs)
        self.heading.add(self.groups, 4, self.owner_only, self.stale)
        self.save_button = Button(say("Save the settings"), self.save, kind="main", key="Ctrl+Return")
        leave = Button(say("Leave, keep the draft"), self.leave_form, kind="quiet", key="Esc")
        self.foot.add(Foot(self.save_button, leave=leave))
        self._make()
        desk.staff_changed.connect(self._staff_changed)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Read the settings anew; what is being typed stays."""
        if changes is not None and "settings" not in changes.kinds:
            return
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(
            self, partial(shop_settings, self.desk.book), self._show, partial(tell, self.trouble)
        )

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    # the form

    def values(self) -> dict[str, Any]:
        return {setting.key: editor.draft() for setting, editor in self.editors.items()}

    def fill(self, values: Mapping[str, Any]) -> None:
        for setting, editor in self.editors.items():
            if setting.key in values:
                editor.put_draft(values[setting.key])

    def save(self) -> None:
        """Keep what differs from what was seen; what cannot be right is told under its field."""
        if self.seen is None or not self._may_save():
            return
        try:
            changes = self.wanted()
        except FieldRefusal as refusal:
            self.refuse(refusal)
            return
        staff = self.desk.staff
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        if not changes:
            self.saved()
            self.tell_below(say("Nothing was changed."))
            return
        self.clear_errors()
        work = partial(change_settings, self.desk.book, staff.id, changes, seen=self.seen)
        self.desk.change(self, work, self._was_saved, self._not_saved)

    def wanted(self) -> dict[Setting[Any], Any]:
        """The values that were changed here. Raises FieldRefusal by key."""
        assert self.seen is not None
        wanted: dict[Setting[Any], Any] = {}
        wrong = {}
        for setting, editor in self.editors.items():
            try:
                value = editor.value()
            except Refusal as refusal:
                wrong[setting.key] = refusal.sentence
                continue
            if value != self.seen[setting]:
                wanted[setting] = value
        wrong.update(check_changes(self.seen, wanted))
        if wrong:
            raise FieldRefusal(wrong)
        return wanted

    # showing

    def _show(self, now: ShopSettings) -> None:
        first = self.seen is None
        if first or not self._touched:
            self.seen = now
            self._put(now)
        if first:
            self._touched = self.take_draft()
        self._show_owner()
        self._read_former()

    def _read_former(self) -> None:
        ask = partial(former_settings, self.desk.book, self.group)
        self.desk.doors.look_up(self, ask, self._show_former, partial(tell, self.trouble))

    def _show_former(self, lines: Sequence[FormerLine[SettingLine]]) -> None:
        """What each change took away, below the form; any of it can be brought back into its field."""
        texts = former_words(lines, self.desk.shop.currency)
        if self.former_texts is None:
            if not texts:
                return
            self.former_texts = FormerTexts(self._bring_back)
            self.sheet.add(self.former_texts)
        self._former = [line for line, _ in texts]
        self.former_texts.set_texts(texts)
        self._show_owner()

    def _bring_back(self, line: SettingLine) -> None:
        """Put a former value into its field; saving keeps it."""
        setting, value = line
        editor = self.editors[setting]
        editor.set_value(value)
        self._check(setting)
        self._typed()
        editor.setFocus()

    def _make(self) -> None:
        for setting in SETTINGS.values():
            if setting.group is not self.group:
                continue
            editor = editor_for(setting, self.desk)
            self.editors[setting] = self.named[setting.key] = editor
            editor.changed.connect(partial(self._check, setting))
            label = "" if setting.kind is Kind.YES_NO else say(setting.label)
            unit = unit_of(setting, self.desk.shop.currency)
            if setting.kind is Kind.SAFETY_STANDARD:
                label = ""  # it has labels of its own
            self.form.row(label, editor, *([unit] if unit else []))
            editor.set_name(say(setting.label))
            if setting.hint is not None:
                self.form.row("", Label(say(setting.hint), "soft", wrap=True), stretch_last=True)

    def _put(self, now: ShopSettings) -> None:
        self._filling = True
        try:
            for setting, editor in self.editors.items():
                editor.set_value(now[setting])
        finally:
            self._filling = False
        self.clear_errors()

    def _check(self, setting: Setting[Any]) -> None:
        """While typing: say at once what cannot be right."""
        if self._filling or self.seen is None:
            return
        editor = self.editors[setting]
        try:
            wrong = check_changes(self.seen, {setting: editor.value()}).get(setting.key)
        except Refusal as refusal:
            wrong = refusal.sentence
        editor.set_error(say(wrong) if wrong is not None else "")

    def _staff_changed(self, _: Any) -> None:
        self._show_owner()

    def _show_owner(self) -> None:
        """What only the owner changes can be read by everybody."""
        owner = self.desk.staff is not None and Mark.OWNER in self.desk.staff.marks
        for setting, editor in self.editors.items():
            editor.set_fixed(setting.who is Who.OWNER and not owner)
        if self.former_texts is not None:
            for (setting, _), button in zip(self._former, self.former_texts.buttons, strict=True):
                button.setEnabled(owner or setting.who is Who.ANYONE)
        reserved = any(setting.who is Who.OWNER for setting in self.editors)
        free = any(setting.who is Who.ANYONE for setting in self.editors)
        flags = []
        if reserved and not owner:
            words = (
                say("What stands in a dashed frame only the owner changes.")
                if free
                else say("Only the owner changes these settings.")
            )
            more = say("Ask the owner to take over with Ctrl+U.")
            flags.append(FlagFacts("note", say("Owner"), f"{words} {more}"))
        self.owner_only.set_flags(flags)
        set_shown(self.owner_only, bool(flags))
        set_shown(self.save_button, owner or free)

    def _may_save(self) -> bool:
        return not self.save_button.isHidden()

    # what became of saving

    def _was_saved(self, done: Any) -> None:
        self._touched = False
        self.seen = done.value
        self._put(done.value)
        self.stale.clear()
        self.trouble.clear()
        self.saved()
        self.tell_below(say("Saved."))

    def _not_saved(self, error: Exception) -> None:
        if isinstance(error, StaleRow):
            currency = self.desk.shop.currency
            self.stale.compare(
                [
                    Differing(
                        say(SETTINGS[key].label),
                        value_words(SETTINGS[key], error.mine[key], currency),
                        value_words(SETTINGS[key], theirs, currency),
                    )
                    for key, theirs in error.theirs.items()
                ]
            )
        elif isinstance(error, FieldRefusal):
            self.refuse(error)
        else:
            tell(self.trouble, error, self.save)

    def _keep_mine(self) -> None:
        """Save over theirs: what they wrote has been seen now."""

        def again(now: ShopSettings) -> None:
            self._see(now)
            self.stale.clear()
            self.save()

        self.desk.doors.look_up(
            self, partial(shop_settings, self.desk.book), again, partial(tell, self.trouble)
        )

    def _take_theirs(self) -> None:
        """Put theirs into the fields that differ; the rest stays as typed."""
        keys = {row.what for row in self.stale.rows}

        def put(now: ShopSettings) -> None:
            for setting, editor in self.editors.items():
                if say(setting.label) in keys:
                    editor.set_value(now[setting])
            self._see(now)
            self.stale.clear()
            self.form.first()

        self.desk.doors.look_up(
            self, partial(shop_settings, self.desk.book), put, partial(tell, self.trouble)
        )

    def _see(self, now: ShopSettings) -> None:
        """From here on these are the values that were seen; what was not typed anew here follows them."""
        assert self.seen is not None
        for setting, editor in self.editors.items():
            try:
                untouched = editor.value() == self.seen[setting]
            except Refusal:
                continue
            if untouched:
                editor.set_value(now[setting])
        self.seen = now

    def _other_group(self, group: Group) -> None:
        if group is not self.group:
            self.groups.blockSignals(True)
            self.groups.set_value(self.group)
            self.groups.blockSignals(False)
            self.desk.open("settings", group.value)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"save": self.save, "leave": self.leave_form}
