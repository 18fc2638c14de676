"""``demo``: an invented shop to try everything on."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from app.commands.command import Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording

HELP = words("open a fresh copy of the demo shop")
ABOUT = words(
    "Opens a fresh copy of an invented shop, so that everything can be tried; nothing of yours is touched. "
    "Without a screen it runs the tour and names the folder with its pictures."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "--build",
        type=Path,
        metavar=wording("FOLDER"),
        help=wording("only write FOLDER/book.sqlite and what belongs to it"),
    )


def run(around: Surroundings) -> int:
    """Show or build the demo shop."""
    if around.asked.build is not None:
        return around.doors.build_demo(around.asked.build)
    return around.doors.show_demo()
