"""A book that a program builds: many actions in one transaction, which nobody relies on before it is closed."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy.orm import Session

from app.book.door import Asking, Book, Change, Writing, in_words
from app.book.kept import End, Standing
from app.trade.refusal import Fault
from app.trade.sentence import Sentence

AT_ONCE = 1000  # actions in one transaction


class DraftBook(Book):
    """The same door with the same rules, history and settling for each action; only the disk waits longer.

    An action that fails takes the whole draft with it. For one thread: there is one session behind it, which
    keeps the rows that were asked for.
    """

    def __init__(self, *args: Any) -> None:
        super().__init__(*args)
        self._session: Writing | None = None
        self._held: dict[tuple[type, int], object] = {}
        self._end: End | None = None
        self._waiting = 0  # actions since the last commit
        self._given_up = False

    @contextmanager
    def ask(self) -> Iterator[Session]:
        """A question about the draft as it stands now, with what is not on the disk yet."""
        connection = self._open().connection()
        info = {"standing": Standing(self._keeper, end=self._end)}
        # Closing the session of a question leaves the transaction that it joined as it is.
        with in_words(), Asking(connection, autoflush=False, info=info) as session:
            yield session

    @contextmanager
    def change(self, who: int | None, why: Sentence) -> Iterator[Change]:
        """One action with its history. Leaving by an error gives the whole draft up."""
        session = self._open()
        change = Change(session, self.clock(), self._zone, who, why, self._held)
        standing = Standing(self._keeper, lambda: change.touched.rows.keys(), self._end)
        session.info.update(change=change, standing=standing)
        try:
            with in_words():
                yield change
                self._end = change.finish(self._settle)
                self._waiting += 1
                if self._waiting >= AT_ONCE:
                    self._commit()
        except BaseException:
            self._given_up = True
            session.rollback()
            raise
        standing.move_on(self._end)
        change.changes = change.touched.changes()
        self.changed_since_backup = True

    def close(self) -> None:
        """Put what is left on the disk and let go of the file. A draft that was given up stays as it was."""
        try:
            if self._session is not None:
                if not self._given_up:
                    self._commit()
                self._session.close()
        finally:
            super().close()

    def _open(self) -> Writing:
        if self._given_up:
            raise Fault("an action failed, and the draft was given up with it")
        if self._session is None:
            self._session = Writing(self._writer, expire_on_commit=False)
        return self._session

    def _commit(self) -> None:
        assert self._session is not None
        self._session.commit()
        self._waiting = 0
