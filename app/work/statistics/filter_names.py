"""The names that filters are asked with: as the book writes them, and what is said of one that it does not have."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from app.book.door import Book
from app.trade.sentence import Sentence
from app.work.statistics.choices import choices

MOST = 24  # names in a sentence

_NONE = MappingProxyType(
    {
        "transport_type": Sentence("No transport type of the book is called {name}."),
        "maker": Sentence("No player of the book has the maker {name}."),
        "model": Sentence("No player of the book has the model {name}."),
        "change": Sentence("No kind of change that was tried has the id {name}."),
    }
)


def filter_names(book: Book, asked: Mapping[str, str]) -> tuple[dict[str, str], tuple[Sentence, ...]]:
    """The names of ``transport_type``, ``maker``, ``model`` and ``change`` as the book writes them, whatever the capital
    letters and blanks of ``asked``; one that it does not have stays as it is, and sentences say so. "" asks for nothing."""
    there = choices(book)
    has = {
        "transport_type": there.transport_types,
        "maker": tuple(maker for maker, _ in there.players),
        "model": tuple(model for _, model in there.players),
        "change": tuple(key for key, _ in there.changes),
    }
    found, said = dict(asked), list[Sentence]()
    for what, name in asked.items():
        known = {_plain(one): one for one in has[what] if one}
        if not name or not known:  # of an empty book is said that it is empty
            continue
        if _plain(name) in known:
            found[what] = name if name in has[what] else known[_plain(name)]
        else:
            said += [Sentence(_NONE[what].key, {"name": name}), _these(known.values())]
    return found, tuple(said)


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


def _these(known: Iterable[str]) -> Sentence:
    names = sorted(known)
    if len(names) <= MOST:
        return Sentence("These are: {names}", {"names": tuple(names)})
    return Sentence("{count} are, among them: {names}", {"count": len(names), "names": tuple(names[:MOST])})
