"""How texts are folded so that they are found again: without case, accents or separators, in any script.

The index and the question are folded by the same functions, so they agree whatever the folding does.
"""

from __future__ import annotations

import unicodedata

# Letters that no decomposition takes apart (NFKD leaves them whole), as people type them without them.
_BY_HAND = str.maketrans(
    {
        "ł": "l",
        "ø": "o",
        "đ": "d",
        "ð": "d",
        "þ": "th",
        "æ": "ae",
        "œ": "oe",
        "ħ": "h",
        "ŧ": "t",
        "ŋ": "n",
        "ı": "i",
        "ĸ": "k",
        "ɨ": "i",
        "ƀ": "b",
        "ə": "e",
    }
)
# The other way in which the same letters are typed without a key for them.
_SPELLED = str.maketrans(
    {
        "ä": "ae",
        "ö": "oe",
        "ü": "ue",
        "ø": "oe",
        "å": "aa",
        "Ä": "ae",
        "Ö": "oe",
        "Ü": "ue",
        "Ø": "oe",
        "Å": "aa",
    }
)
_APOSTROPHES = str.maketrans(dict.fromkeys("'’‘ʼ`´", ""))
# Plain ASCII folds letter by letter: most of a book is written in it.
_ASCII = {code: chr(code).lower() if chr(code).isalnum() else " " for code in range(128)}
LONGEST_WORD = 64
MOST_WORDS = 12  # of a question; more is a pasted page, not a search
SHORTEST_TAIL = 4


def fold(text: str) -> str:
    """Lower case, no accents, plain figures; everything that is no letter or figure becomes one space."""
    if text.isascii():
        return " ".join(text.translate(_ASCII).split())
    folded = text
    for _ in range(2):  # taking apart can bring capitals to light, and lowering can bring accents
        folded = unicodedata.normalize("NFKD", folded.casefold())
    letters = []
    for letter in folded.translate(_BY_HAND):
        kind = unicodedata.category(letter)
        if kind == "Nd":
            letters.append(str(unicodedata.decimal(letter)))
        elif kind[0] != "M":  # marks: accents, vowel signs
            letters.append(letter if letter.isalnum() else " ")
    return " ".join("".join(letters).split())


def _ways(word: str) -> tuple[str, ...]:
    """The folded ways to type one word: plain first, then with ae, oe, ue, and with apostrophes closed up."""
    if word.isalnum() and word.isascii():
        return (word.lower(),)
    composed = unicodedata.normalize("NFC", word)
    ways = (word, composed.translate(_SPELLED), composed.translate(_APOSTROPHES))
    return tuple(dict.fromkeys(way for way in map(fold, ways) if way))


def fold_words(text: str) -> list[str]:
    """The folded words of a text for the index, each once, with the other ways to type them."""
    return list(
        dict.fromkeys(
            word[:LONGEST_WORD] for piece in text.split() for way in _ways(piece) for word in way.split()
        )
    )


def fold_tail(text: str) -> str:
    """A number or serial run together, for finding it by its end."""
    return fold(text).replace(" ", "")


def match_words(question: str) -> str | None:
    """The question as an FTS5 expression: every word a quoted prefix, in any order; None when it has no word.

    No sign of the question reaches the expression, so nothing in it can be read as syntax.
    """
    terms = []
    for piece in question.split():
        ways = [" AND ".join(f'"{word[:LONGEST_WORD]}"*' for word in way.split()) for way in _ways(piece)]
        if len(ways) == 1:
            terms.append(ways[0])
        elif ways:
            terms.append("(" + " OR ".join(f"({way})" for way in ways) + ")")
        if len(terms) == MOST_WORDS:
            break
    return " AND ".join(terms) or None


def match_tail(question: str) -> str | None:
    """The question as an expression for a trigram index of tails; None below four letters or figures."""
    tail = fold_tail(question)[-LONGEST_WORD:]
    return f'"{tail}"' if len(tail) >= SHORTEST_TAIL else None
