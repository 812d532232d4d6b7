"""`tilespec start`: a starter spec to write a job into, from a few facts or with all that may be said."""

from __future__ import annotations

import os
import re
import sys
from dataclasses import replace

import click

from tilespec.cli import output
from tilespec.cli.starter import Facts, Starter, Unfit, starter, taken
from tilespec.cli.status import Stop
from tilespec.diagnostics.printable import printable
from tilespec.practice.lookup import PARENTS
from tilespec.resources import data_bytes

NAME = "job.tilespec"


EXAMPLES = """\b
Examples:
  tilespec start
  tilespec start boathouse.tilespec --commented
  tilespec start --size 2.4x1.8 --height 2.4 --shower "D A" --heated
  tilespec start --practice US --room "Hall bath" --size "8 ft x 5 ft"
"""

# Each question of the dialogue: the fact, how it is asked, what Enter says (None: as it is taken).
_ASKED: tuple[tuple[str, str, str | None], ...] = (
    ("title", "Title of the job, for the head of every page (Enter for none)", ""),
    ("practice", f"Whose limits hold ({', '.join(PARENTS)})", "EN"),
    ("room", "Name of the room", None),
    ("size", "Size of the floor, along wall A first", None),
    ("height", "Height of the room", None),
    ("shower", "Shower in which corner (two walls such as D A; or none)", "D A"),
    ("heated", "Is the floor heated (yes or no)", "no"),
    ("tile", "Wall tile: width x height x thickness", None),
    ("floor_tile", "Floor tile: width x height x thickness", None),
)
# An answer to the question after the one that was asked.
_SIZE = re.compile(r"[0-9.,/ ]+(mm|cm|m|in|ft)?\s*[x×*]\s*[0-9].*", re.IGNORECASE)
_YES = {"y": True, "yes": True, "n": False, "no": False}


@click.command("start", short_help="Write a starter spec.", epilog=EXAMPLES)
@click.argument("path", required=False, default=NAME, type=click.Path())
@click.option("--practice", metavar="|".join(PARENTS), type=click.Choice(tuple(PARENTS)), help="Whose limits hold; else EN.")
@click.option("--title", metavar="TITLE", help="Title of the job.")
@click.option("--room", metavar="NAME", help="Name of the room.")
@click.option("--size", metavar="SIZE", help="Its floor, along wall A first: 2.4x1.8.")
@click.option("--height", metavar="LENGTH", help="Its height: 2.4.")
@click.option("--shower", metavar="CORNER", help='Where the shower stands: "D A", or "D A, 0.9 x 1.2".')
@click.option("--heated", is_flag=True, help="The floor is heated.")
@click.option("--tile", metavar="SIZE", help="The wall tile: 600x300x9; of the floor too, if nothing else is said.")
@click.option("--floor-tile", metavar="SIZE", help="The floor tile.")
@click.option("--commented", is_flag=True, help="Ask nothing: an example with comments, to be changed.")
def command(
    path: str, practice: str | None, title: str | None, room: str | None, size: str | None, height: str | None,
    shower: str | None, heated: bool, tile: str | None, floor_tile: str | None, commented: bool,
) -> None:
    """Write a starter spec to PATH (job.tilespec if none is given). A file that exists is never touched.

    With facts on the line: a spec of that room, and at its end all that is still to be asked. Without: on a terminal a few
    questions, Enter takes what stands in brackets; elsewhere, and with --commented, an example with comments.
    """
    if os.path.isdir(path):
        path = os.path.join(path, NAME)
    said = any(x is not None for x in (practice, title, room, size, height, shower, tile, floor_tile)) or heated
    if said and commented:
        raise click.UsageError("--commented writes an example as it stands: it takes no facts")
    made: Starter | None = None
    if said:
        floor_tile = tile if floor_tile is None else floor_tile
        facts = Facts(practice or "EN", room, size, height, shower or "", heated, tile, floor_tile, title)
        try:
            made = starter(facts)
        except Unfit as fault:
            words = f"{fault.message} {fault.help}".strip()
            raise click.UsageError(f"--{fault.fact.replace('_', '-')}: {printable(words)}" if fault.fact else words) from None
    elif not commented and _terminal():
        if os.path.lexists(path):     # before anyone has answered in vain
            help = "Give another name: `tilespec start NAME.tilespec`."
            raise Stop(f"{printable(path)} exists already and is left as it is", help)
        made = _dialogue()
    output.create(path, made.text.encode("utf-8") if made else data_bytes("templates/start.tilespec"))
    shown = printable(path)
    left = f"; {made.open} questions open, listed at its end" if made else ""
    output.tell(f"wrote {shown}{left}\nNext: change it to your job, then\n  tilespec check {shown}\n  tilespec print {shown}\n")


def _terminal() -> bool:
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def _dialogue() -> Starter:
    """Asks until each answer makes a spec. Nothing is written meanwhile; Ctrl-C raises click.Abort."""
    facts = Facts()
    made = starter(facts)
    output.say("Enter takes what stands in brackets. Rooms in metres, tiles in millimetres, or with their unit: 8 ft, 12 in.\n")
    for fact, question, usual in _ASKED:
        while True:
            default = usual if usual is not None else taken(facts)[fact]
            asked = f"{question} [{default}]" if default else question
            answer = str(click.prompt(asked, default="", show_default=False, err=True)).strip()
            try:
                # What was only taken stays marked as taken; not what somebody has said, even where it is the same.
                tried = _with(facts, fact, answer or usual or "") if answer or usual else facts
                made = starter(tried)
            except Unfit as fault:
                output.say(f"  {printable(f'{fault.message} {fault.help}'.strip())}\n")
            else:
                facts = tried
                break
    return made


def _with(facts: Facts, fact: str, answer: str) -> Facts:
    match fact:
        case "title":
            return replace(facts, title=answer)
        case "practice":
            if answer.upper() not in PARENTS:
                raise Unfit(fact, f"It is one of {', '.join(PARENTS)}.")
            return replace(facts, practice=answer.upper())
        case "shower":
            return replace(facts, shower="" if answer.lower() in ("none", "no") else answer)
        case "room":
            if _SIZE.fullmatch(answer):
                raise Unfit(fact, "That looks like a size.", "The size comes next; what is the room called?")
            return replace(facts, room=answer)
        case "size":
            return replace(facts, size=answer)
        case "height":
            return replace(facts, height=answer)
        case "heated":
            if answer.lower() not in _YES:
                raise Unfit(fact, "Say yes or no.")
            return replace(facts, heated=_YES[answer.lower()])
        case "tile":
            return replace(facts, tile=answer)
    return replace(facts, floor_tile=answer)
