"""The command line: finds the command, and turns every way of ending into an exit status and plain words."""

from __future__ import annotations

import os
import traceback
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module

import click

from tilespec import __version__
from tilespec.cli import completion, output
from tilespec.cli.status import ReaderGone, Status, Stop
from tilespec.diagnostics.json_report import Failure
from tilespec.diagnostics.json_report import render as report
from tilespec.diagnostics.printable import printable
from tilespec.resources import Incomplete
from tilespec.workspace.host import Unreadable

# Command, and the module of this package that holds it as `command`.
COMMANDS = {
    "print": "print", "set-out": "set_out", "take-off": "take_off", "programme": "programme", "check": "check",
    "compare": "compare", "watch": "watch", "start": "start", "survey": "survey", "explain": "explain", "tidy": "tidy",
    "editor": "editor", "completion": "completion", "git-setup": "git_setup",
}

EPILOG = (
    "Exit status: 0 fine, 1 the spec has errors, 2 wrong usage, 3 file system or something missing on this machine, "
    "4 a fault in tilespec, 130 interrupted."
)


def manner() -> list[click.Parameter]:
    """Options of every command: how it speaks. They set it at once, so that they hold for what is wrong with the others."""

    def colour(_ctx: click.Context, _option: click.Parameter, asked: str | None) -> None:
        if asked is not None:
            output.MANNER.colour = asked

    def quiet(_ctx: click.Context, _option: click.Parameter, asked: bool) -> None:
        output.MANNER.quiet = output.MANNER.quiet or asked

    return [
        click.Option(
            ["--color"], type=click.Choice(("auto", "always", "never")), expose_value=False, is_eager=True, callback=colour,
            help="Colour; auto: on a terminal, unless NO_COLOR is set.",
        ),
        click.Option(
            ["-q", "--quiet", "quiet"], is_flag=True, expose_value=False, is_eager=True, callback=quiet,
            help="Only results, and what is wrong.",
        ),
    ]


class Commands(click.Group):
    """Loads a command's module only when the command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"tilespec.cli.{COMMANDS[cmd_name]}").command
        assert isinstance(command, click.Command)
        if not any(p.name == "quiet" for p in command.params):
            command.params += manner()
        return command

    def resolve_command(self, ctx: click.Context, args: list[str]) -> tuple[str | None, click.Command | None, list[str]]:
        word = args[0]
        if word not in COMMANDS and not word.startswith("-"):
            raise click.UsageError(f"there is no command {word!r}." + _hint(word), ctx)
        return super().resolve_command(ctx, args)


def _hint(word: str) -> str:
    from tilespec.diagnostics.suggest import nearest

    if word.endswith(".tilespec"):
        return f" To print that spec: tilespec print {word}"
    near = nearest(word, COMMANDS)
    return f" Did you mean {near}?" if near else f" The commands are {', '.join(COMMANDS)}."


def _version(ctx: click.Context, _option: click.Parameter, asked: bool) -> None:
    if not asked:
        return
    from tilespec.cli import system

    output.out(f"tilespec {__version__}\n{system.words()}")
    ctx.exit()


@click.group(cls=Commands, epilog=EPILOG, context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "--version", is_flag=True, expose_value=False, is_eager=True, callback=_version,
    help="Say the version, and what the machine lacks for making a PDF.",
)
def door() -> None:
    """A wet-room tiling job, written once in plain text, compiled to a method statement that a crew can work from.

    Begin with `tilespec start`, then `tilespec check` and `tilespec print`.
    """


def run(argv: Sequence[str]) -> Status:
    """Run one command. Everything that can happen ends here, as a status and a message; nothing is raised."""
    output.MANNER.colour, output.MANNER.quiet = "auto", False
    try:
        # Not `door.main`: it has its own ideas of Ctrl-C, of closed pipes and of exit statuses.
        if completion.VARIABLE in os.environ:
            return output.finish(Status(completion.answer(door)))
        with door.make_context("tilespec", list(argv)) as context:
            ended = door.invoke(context)
        status = Status(ended) if isinstance(ended, int) else Status.FINE
    except click.exceptions.Exit as ended:      # after --help and --version
        status = Status.FINE if not ended.exit_code else Status.USAGE
    except click.exceptions.NoArgsIsHelpError as fault:
        output.say(fault.message + "\n")
        status = Status.USAGE
    except click.UsageError as fault:
        where = f"Help: {fault.ctx.command_path} --help" if fault.ctx else ""
        status = _fail(argv, Status.USAGE, "usage", fault.format_message(), where)
    except click.ClickException as fault:
        status = _fail(argv, Status.ENVIRONMENT, "environment", fault.format_message())
    except Stop as fault:
        status = _fail(argv, Status.ENVIRONMENT, "environment", fault.message, fault.help)
    except Unreadable as fault:
        status = _fail(argv, Status.ENVIRONMENT, "environment", str(fault), fault.help)
    except Incomplete as fault:
        status = _fail(argv, Status.ENVIRONMENT, "environment", str(fault))
    except (ReaderGone, BrokenPipeError):
        status = Status.ENVIRONMENT
    except OSError as fault:
        about = f"{fault.filename}: " if fault.filename else ""
        status = _fail(argv, Status.ENVIRONMENT, "environment", f"{about}{fault.strerror or fault}")
    except (KeyboardInterrupt, click.Abort):
        status = _fail(argv, Status.INTERRUPTED, "interrupted", "interrupted")
    except BaseException as fault:
        status = _fail(
            argv, Status.BUG, "bug", _crash(fault),
            "This is a fault in tilespec, not in your spec. Please report it, with the spec and these lines.",
        )
    return output.finish(status)


def _crash(fault: BaseException) -> str:
    """The fault and the way to it through tilespec, without the quoted code of a whole traceback."""
    words = str(fault) if not isinstance(fault, KeyError) else f"no entry {fault}"
    lines = [f"{type(fault).__name__}: {words}"]
    home = os.path.dirname(os.path.dirname(__file__))
    for frame in traceback.extract_tb(fault.__traceback__):
        if frame.filename.startswith(home):
            name = frame.filename[len(home) :].replace("\\", "/")
            lines.append(f"  at tilespec{name}:{frame.lineno} in {frame.name}")
    return "\n".join(lines[:1] + lines[-8:] if len(lines) > 9 else lines)


def _fail(argv: Sequence[str], status: Status, kind: str, message: str, help: str = "") -> Status:
    words = list(argv)
    words = words[: words.index("--")] if "--" in words else words
    # Asked of the raw words: the options may be what could not be understood.
    only_report = "--json" in words
    to_json = "--to=json" in words or any(pair == ("--to", "json") for pair in zip(words, words[1:], strict=False))
    if only_report or to_json:
        with suppress(Stop, ReaderGone):
            output.out(report((), {}, status, (Failure(kind, message, help),)))
    if not only_report:
        shown = [printable(line) for line in f"{message}\n{help}".strip().split("\n")]
        output.say(f"tilespec: {chr(10).join(shown)}\n")
    return status


