"""The page that lists every command, written by the commands themselves."""

from collections.abc import Iterator

import click

from cardgen.cli import COMMANDS, DAY, load, overview

WIDTH = 100  # columns


def reference() -> str:
    """Return Markdown with the help of every command, in the order of the overview."""
    lines = ["# Every command", "", "Made by `cardgen demo` from what each command says with `--help`.", ""]
    for heading, names in DAY.items():
        lines += [f"## {heading}", ""]
        for name in names:
            lines += [f"### cardgen {name}", "", COMMANDS[name][1], ""]
            for text in helps(name, load(name)):
                lines += ["```text", text, "```", ""]
    return "\n".join(lines[:-1]) + "\n"


def helps(name: str, command: click.Command) -> Iterator[str]:
    """Yield the help of a command, then that of its own commands, 100 columns wide."""
    above = overview.make_context("cardgen", [], resilient_parsing=True, terminal_width=WIDTH)
    context = command.make_context(name, [], above, resilient_parsing=True)
    yield command.get_help(context)
    if isinstance(command, click.Group):
        for inner, sub in command.commands.items():
            yield sub.get_help(sub.make_context(inner, [], context, resilient_parsing=True))
