"""The program's command line: ``spindlebook [--book PATH] [COMMAND]``."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Mapping, Sequence
from datetime import UTC
from pathlib import Path

from app import __version__
from app.book.door import system_clock
from app.commands import backup, check, demo, export, figures, invoice_check, paper, restore, tour, window
from app.commands.argparse_words import speaking
from app.commands.command import DONE, FAILED, Command, Doors, Surroundings, complain
from app.trade.refusal import Fault, Refusal
from app.trade.wording import Wording
from app.work.language import wording_for
from app.work.shop_book import Clock

COMMANDS = {
    "demo": demo,
    "tour": tour,
    "backup": backup,
    "restore": restore,
    "check": check,
    "export": export,
    "figures": figures,
    "invoice-check": invoice_check,
    "paper": paper,
}


def main(
    words: Sequence[str],
    doors: Doors,
    *,
    clock: Clock = system_clock,
    environment: Mapping[str, str] = os.environ,
) -> int:
    """Do what the words say. Gives 0 when done, 1 when it failed; wrong usage exits with 2."""
    language = language_of(environment)
    wording = wording_for(language, UTC)
    with speaking(wording):
        asked = parser(wording).parse_args(words)
    run: Command = asked.run
    try:
        return run(Surroundings(asked, language, clock, doors))
    except Refusal as refusal:
        return complain(wording, refusal)
    except Fault as fault:
        print(
            wording("This is a mistake of the program itself: {details}", details=str(fault)), file=sys.stderr
        )
        return FAILED
    except BrokenPipeError:  # whoever read our words has heard enough
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115
        return DONE


def language_of(environment: Mapping[str, str]) -> str:
    """The language that the system speaks, by the usual variables; English when they say nothing."""
    for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        if said := environment.get(name):
            return said.partition(":")[0].partition(".")[0].partition("_")[0] or "en"
    return "en"


def parser(wording: Wording) -> argparse.ArgumentParser:
    """The parser with all commands. ``--book`` may stand before or behind the command."""
    common = argparse.ArgumentParser(add_help=False, argument_default=argparse.SUPPRESS)
    common.add_argument(
        "--book",
        type=Path,
        metavar=wording("PATH"),
        help=wording("the book to work on; without it, the shop's own, in your data folder"),
    )
    whole = argparse.ArgumentParser(
        prog="spindlebook",
        parents=[common],
        description=wording(
            "The shop's book for a workshop that mends optical-disc players. Without a command the window "
            "opens on the shop's own book, which is made the first time."
        ),
        epilog=wording("Exit code: 0 done, 1 failed (the reason is said), 2 wrong usage."),
    )
    whole.add_argument(
        "--version",
        action="version",
        version=f"Spindlebook {__version__}",
        help=wording("say which version this is"),
    )
    whole.add_argument(
        "--new", action="store_true", help=wording("make an empty book at PATH when there is none")
    )
    whole.set_defaults(run=window.run)
    commands = whole.add_subparsers(title=wording("commands"), metavar=wording("COMMAND"))
    for name, module in COMMANDS.items():
        one = commands.add_parser(
            name,
            parents=[common],
            help=wording(module.HELP),
            description=wording(module.ABOUT),
            formatter_class=argparse.RawDescriptionHelpFormatter
            if "\n" in module.ABOUT
            else argparse.HelpFormatter,
        )
        module.arguments(one, wording)
        one.set_defaults(run=module.run)
    return whole
