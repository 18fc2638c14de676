"""One entry of a list of the shop: a form with its draft, saved under the version that was seen."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.bench.inline_form import put_value, value_of
from app.screens.desk import Desk
from app.screens.form_page import FormPage
from app.screens.kit.buttons import Button
from app.screens.kit.foot import Foot
from app.screens.language import moment, say
from app.screens.office.former_texts import FormerTexts
from app.screens.office.stale_view import Differing, StaleView
from app.trade.refusal import FieldRefusal, StaleRow
from app.trade.sentence import Sentence
from app.work.office.former_lines import FormerLine

VERSION = "version seen"


class RecordPage(FormPage):
    """A record overrides ``fetch`` (away from the window), ``put``, ``entry``, ``deed`` and ``facts``; its key is
    the entry's own, None for a new one. Fields are made in ``__init__`` and named with ``add``."""

    kind = ""  # of its drafts
    new_words = Sentence("")
    save_words = Sentence("Save")

    def __init__(
        self, desk: Desk, key: Any, parent: QWidget | None = None, *, label_width: float = 170
    ) -> None:
        super().__init__(desk, say(self.new_words), parent, label_width=label_width)
        self.key = key
        self.draft_key = f"{self.kind} {'new' if key is None else key}"
        self.line: Any = None  # the entry as it was last read
        self.version = 1
        self._asked: Any = None
        self._known = False
        self._blank: dict[str, Any] = {}
        self.stale = StaleView()
        self.stale.kept.connect(self._keep_mine)
        self.stale.taken.connect(self._take_theirs)
        self.heading.add(4, self.stale)
        self.save_button = Button(say(self.save_words), self.save, kind="main", key="Ctrl+Return")
        self.leave_button = Button(say("Leave, keep the draft"), self.leave_form, kind="quiet", key="Esc")
        self.empty_button = Button(say("Forget what was typed"), self.throw_away, kind="quiet")
        self.former_texts: FormerTexts | None = None  # made with the first one
        self.foot.add(Foot(self.save_button, self.empty_button, leave=self.leave_button))

    # for records to override

    def fetch(self) -> Any:
        """The entry and whatever the form offers. Run away from the window."""
        raise NotImplementedError

    def show_found(self, found: Any) -> Any:
        """Take what `fetch` gave: fill the lists of choices, and hand back the entry, None for a new one."""
        return found

    def put(self, line: Any) -> None:
        """Put the entry into the fields."""
        raise NotImplementedError

    def entry(self) -> Any:
        """What stands in the fields. Raises FieldRefusal for what cannot be read."""
        raise NotImplementedError

    def deed(self, who: int, entry: Any) -> Callable[[], Any]:
        """What saving does."""
        raise NotImplementedError

    def facts(self, line: Any) -> Sequence[tuple[str, str]]:
        """Label and words of every field, to compare two versions."""
        raise NotImplementedError

    def named_title(self, line: Any) -> str:
        """The title of an entry that is there."""
        return say(self.new_words)

    def changed(self) -> None:
        """Something was typed: show what follows from it."""

    def former_lines(self) -> Sequence[FormerLine[Any]]:
        """How the entry stood before each change, newest first. Run away from the window."""
        return ()

    # fields

    def add(self, name: str, field: Any) -> Any:
        """Name a field for drafts and refusals; put it into a row as well."""
        self.named[name] = field
        return field

    def values(self) -> dict[str, Any]:
        return {VERSION: self.version, **{name: value_of(field) for name, field in self.named.items()}}

    def fill(self, values: Mapping[str, Any]) -> None:
        self.version = int(values.get(VERSION, self.version))
        for name, field in self.named.items():
            if name in values:
                put_value(field, values[name])

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Read the entry; what is being typed stays."""
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(self, self.fetch, self._show, partial(tell, self.trouble))

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def _show(self, found: Any) -> None:
        line = self.show_found(found)
        if not self._blank:
            self._blank = {name: value_of(field) for name, field in self.named.items()}
        if not self._known or not self._touched:
            self._put(line)
        if not self._known:
            self._known = True
            self._touched = self.take_draft()
        self.changed()
        if self.key is not None:
            self.desk.doors.look_up(self, self.former_lines, self._show_former, partial(tell, self.trouble))

    def _show_former(self, lines: Sequence[FormerLine[Any]]) -> None:
        """What each change took away, in words, below the form."""
        texts = [(line.before, text) for line in lines if (text := self._taken_away(line))]
        if self.former_texts is None:
            if not texts:
                return
            self.former_texts = FormerTexts(self.take_former)
            self.sheet.add(self.former_texts)
        self.former_texts.set_texts(texts)

    def _taken_away(self, line: FormerLine[Any]) -> str:
        after = dict(self.facts(line.after))
        gone = [f"{label}: {words}" for label, words in self.facts(line.before) if after.get(label) != words]
        head = say("Until {when}, {name}:", when=moment(line.at), name=line.by)
        return "\n".join([head, *gone]) if gone else ""

    def take_former(self, line: Any) -> None:
        """Put a former text into the fields; saving keeps it."""
        self._filling = True
        try:
            self.put(line)
        finally:
            self._filling = False
        self._typed()
        self.form.first()

    def _put(self, line: Any) -> None:
        self.line = line
        self._filling = True
        try:
            if line is None:
                self.fill(self._blank)
            else:
                self.version = line.version
                self.put(line)
        finally:
            self._filling = False
        self.clear_errors()
        title = say(self.new_words) if line is None else self.named_title(line)
        self.set_title(title)
        self.head.set_words(title)

    def _typed(self) -> None:
        super()._typed()
        if not self._filling:
            self.changed()

    # saving

    def save(self) -> None:
        """Check what can be checked here, then hand it to the book."""
        staff = self.desk.staff
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        self.clear_errors()
        try:
            deed = self.deed(staff.id, self.entry())
        except FieldRefusal as refusal:
            self.refuse(refusal)
            return
        self.keep_draft()
        self.desk.change(self, deed, self._was_saved, self._not_saved)

    def _was_saved(self, _: Any) -> None:
        self._touched = False
        self.stale.clear()
        self.trouble.clear()
        self.saved()
        self._known = False  # read anew when it is opened again
        self.desk.back()

    def _not_saved(self, error: Exception) -> None:
        if isinstance(error, StaleRow):
            self._read_theirs(self._compare)
        elif isinstance(error, FieldRefusal):
            self.refuse(error)
        else:
            tell(self.trouble, error, self.save)

    def throw_away(self) -> None:
        """Forget what was typed: the entry stands there as the book has it."""
        self._touched = False
        self.desk.drafts.drop(self.draft_key)
        self.stale.clear()
        if self.key is None:
            self._put(None)
            self.changed()
            self.desk.back()
        else:
            self._read_theirs(self._put)

    # two savers

    def _read_theirs(self, then: Callable[[Any], object]) -> None:
        def read(found: Any) -> None:
            then(self.show_found(found))
            self.changed()

        self.desk.doors.look_up(self, self.fetch, read, partial(tell, self.trouble))

    def _compare(self, theirs: Any) -> None:
        self.line = theirs
        try:
            mine = self.facts(self.entry())
        except FieldRefusal as refusal:
            self.refuse(refusal)
            return
        self.stale.compare(
            [
                Differing(label, here, there)
                for (label, here), (_, there) in zip(mine, self.facts(theirs), strict=True)
                if here != there
            ]
        )

    def _keep_mine(self) -> None:
        """Theirs was seen: what is typed here goes over it."""
        self.version = self.line.version
        self.stale.clear()
        self.save()

    def _take_theirs(self) -> None:
        self._touched = False
        self.desk.drafts.drop(self.draft_key)
        self.stale.clear()
        self._put(self.line)
        self.changed()
        self.form.first()
