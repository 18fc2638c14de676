"""``tour``: one player's whole way through the real window, as pictures and papers."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from app.commands.command import Surroundings
from app.trade.sentence import words
from app.trade.wording import Wording

HELP = words("save pictures of every screen and paper on one player's way")
ABOUT = words(
    "Drives the window, with or without a screen, through one player's whole way: taken in, measured, modified, "
    "agreed, tested, invoiced, handed back and recognised on the next visit. Saves every screen, light and "
    "dark, every paper as PDF and its pages as pictures, and an e-invoice with what its check says, and lists "
    "them. Fails when a step fails."
)


def arguments(parser: ArgumentParser, wording: Wording) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "--to",
        type=Path,
        required=True,
        metavar=wording("FOLDER"),
        help=wording("where pictures and papers go; the folder is made"),
    )


def run(around: Surroundings) -> int:
    """Run the tour."""
    return around.doors.run_tour(around.asked.to)
