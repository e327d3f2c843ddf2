"""The commands that help to call the others: completion for shells, the page for `man`; and what shells complete."""

import click
from click.shell_completion import CompletionItem, get_completion_class

from netcheck import __version__
from netcheck.system import screen

__all__ = ["chassis_names", "completion", "man", "netlists", "rule_names"]

_VARIABLE = "_NETCHECK_COMPLETE"


def netlists(_context: click.Context, _parameter: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Files, by whatever way the shell has to complete them."""
    return [CompletionItem(incomplete, type="file")]


def rule_names(_context: click.Context, _parameter: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """The pages of `why`."""
    from netcheck import api

    return [CompletionItem(name) for name in api.rule_names() if name.startswith(incomplete)]


def chassis_names(context: click.Context, _parameter: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """The chassis of the settings; none where these can't be read, as completion has nobody to tell."""
    from netcheck.core.errors import NetcheckError
    from netcheck.settings.reader import settings
    from netcheck.system.settings_file import find_settings

    try:
        said, _ = settings(find_settings(context.params.get("named"))[0])
    except NetcheckError:
        return []
    return [CompletionItem(one.name) for one in (said.chassis if said else ()) if one.name.startswith(incomplete)]


# The backspace keeps click and the page for man from breaking the line to copy.
_COMPLETION = """Print what makes a shell complete commands, options, files, rules and chassis.

\b
For bash:
  netcheck completion bash > ~/.local/share/bash-completion/completions/netcheck
"""


@click.command(short_help="Print what makes a shell complete what is typed.", help=_COMPLETION)
@click.argument("shell", type=click.Choice(("bash", "zsh", "fish")))
@click.pass_context
def completion(context: click.Context, shell: str) -> int:
    """The shell's own script, with this program's name in it."""
    made = get_completion_class(shell)
    if made is None:
        raise click.UsageError(f"click knows no shell {shell}")
    root = context.find_root()
    # The words that the shell is handed are made here; that it is a shell new enough is for it to say.
    writer = made(root.command, {}, "netcheck", _VARIABLE)
    screen.say(writer.source_template % writer.source_vars() + "\n")
    return 0


@click.command(short_help="Print the page for man.")
@click.pass_context
def man(context: click.Context) -> int:
    """Print the page for `man`: netcheck man | man -l -."""
    from netcheck.reports.man_page import Entry, man_page

    root = context.find_root()
    group = root.command
    entries = []
    for name in group.list_commands(root) if isinstance(group, click.Group) else ():
        command = group.get_command(root, name) if isinstance(group, click.Group) else None
        if command is not None and not command.hidden:
            inner = click.Context(command, info_name=name, parent=root)
            usage = " ".join((name, *command.collect_usage_pieces(inner)))
            options = tuple(
                one for one in (p.get_help_record(inner) for p in command.get_params(inner)) if one and one[1]
            )
            entries.append(Entry(usage, command.help or "", options))
    screen.say(man_page(__version__, group.help or "", entries))
    return 0
