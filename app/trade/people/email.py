"""Whether an e-mail address can be right: a plain sieve for slips of the hand, no proof that it exists."""

from __future__ import annotations

from app.trade.sentence import Sentence

LONGEST = 254  # RFC 5321's path limit of 256 with its angle brackets taken off (from memory)


def check_email(text: str) -> Sentence | None:
    """Why this cannot be an e-mail address, or None. Empty is allowed: not everybody has one."""
    address = text.strip()
    if not address:
        return None
    if any(letter.isspace() or not letter.isprintable() for letter in address):
        return Sentence("An e-mail address has no space inside.")
    if any(letter in ',;<>()"' for letter in address):
        return Sentence("Write one e-mail address and nothing else.")
    local, at, domain = address.rpartition("@")
    if not at or not local or not domain:
        return Sentence("An e-mail address has something before and behind its @.")
    if "@" in local:
        return Sentence("An e-mail address has one @ only.")
    parts = domain.split(".")
    if len(parts) < 2 or not all(parts) or any(p[0] == "-" or p[-1] == "-" for p in parts):
        return Sentence("Behind the @ stands a name with a dot in it, such as example.org.")
    if len(parts[-1]) < 2 or parts[-1].isdecimal():
        return Sentence("An e-mail address ends with letters, such as .org.")
    if local[0] == "." or local[-1] == "." or ".." in local:
        return Sentence("The part before the @ has no dot at its ends and no two in a row.")
    if len(address) > LONGEST:
        return Sentence("At most {most} letters have room here.", {"most": LONGEST})
    return None
