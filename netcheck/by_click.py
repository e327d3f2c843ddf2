"""A call that is not plain: help, completion, mistakes. click reads it, from the same data as a plain one."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from types import MappingProxyType

import click

from netcheck import __version__
from netcheck.cli_help import chassis_names, completion, man, netlists, rule_names
from netcheck.core.errors import UsageFault
from netcheck.options import Command, Given, Option
from netcheck.system import screen
from netcheck.system.delivery import CLEAN, INTERRUPTED, NOT_DONE

__all__ = ["as_click", "called"]

_OFFERS: Mapping[str, Callable[..., list[click.shell_completion.CompletionItem]]] = MappingProxyType(
    {"netlists": netlists, "rules": rule_names, "chassis": chassis_names}
)


def called(commands: Iterable[Command], argv: Sequence[str] | None) -> int:
    """Runs the command of a call and returns the exit status. Raises UsageFault for a call with a mistake."""
    group = _group(commands)
    try:
        status = group.main(args=None if argv is None else list(argv), prog_name="netcheck", standalone_mode=False)
    except click.exceptions.NoArgsIsHelpError as fault:
        screen.tell(fault.format_message() + "\n")
        return NOT_DONE
    except click.ClickException as fault:
        raise UsageFault(_in_our_words(fault)) from None
    except click.Abort:
        screen.tell("netcheck: stopped\n")
        return INTERRUPTED
    except OSError as error:
        if error.filename is not None:
            raise
        raise screen.unwritable(error) from None  # click's own help
    except SystemExit:  # the same, whose reader went away, which is no fault of the run: click has quieted the stream
        return CLEAN
    return status if isinstance(status, int) else CLEAN


def _group(commands: Iterable[Command]) -> click.Group:
    @click.group(name="netcheck", context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
    @click.version_option(__version__, message="netcheck %(version)s")
    def group() -> None:
        """Find the lead on the wrong lug before you plug the set in.

        Exit status: 0 nothing grave, 1 something found, 2 the job could not be done.
        """

    group.add_command(completion)
    group.add_command(man)
    for command in commands:
        group.add_command(as_click(command))
    return group


def as_click(command: Command) -> click.Command:
    """The command as click has it."""
    parameters = [_argument(command.given), *map(_option, command.options)]
    return click.Command(
        command.name, callback=command.run, params=parameters, help=command.text, short_help=command.short
    )


def _argument(given: Given) -> click.Argument:
    return click.Argument(
        [given.name],
        nargs=-1 if given.many else 1,
        required=given.required,
        metavar=given.metavar or None,
        shell_complete=_OFFERS[given.offers],
    )


def _option(option: Option) -> click.Option:
    said = [*option.flags, option.to]
    if option.is_flag:
        value = {"flag_value": option.sets} if option.sets else {"is_flag": True}
        return click.Option(said, help=option.help, **value)
    kind = click.IntRange(option.least) if option.least is not None else click.Choice(option.choices)
    return click.Option(
        said,
        help=option.help,
        multiple=option.multiple,
        metavar=option.metavar or None,
        type=kind if option.choices or option.least is not None else str,
        default=option.usual,
        show_default=option.usual is not None,
        shell_complete=_OFFERS.get(option.offers),
    )


def _in_our_words(fault: click.ClickException) -> str:
    said = fault.format_message().rstrip(".")
    context = getattr(fault, "ctx", None)
    where = context.command_path if context else "netcheck"
    return f"{said[:1].lower()}{said[1:]}; `{where} --help` shows how it is called"
