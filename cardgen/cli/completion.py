"""The `completion` command."""

import click
from click.shell_completion import get_completion_class

from cardgen.cli import overview
from cardgen.cli.manners import Command, Spelled

VARIABLE = "_CARDGEN_COMPLETE"


@click.command(
    cls=Command,
    short_help="Words that complete themselves at the Tab key.",
    epilog='\b\nExamples:  eval "$(cardgen completion bash)"                        in ~/.bashrc\n'
    '           eval "$(cardgen completion zsh)"                         in ~/.zshrc\n'
    "           cardgen completion fish > ~/.config/fish/completions/cardgen.fish",
)
@click.argument("shell", type=Spelled(["bash", "zsh", "fish"]), metavar="bash|zsh|fish")
def completion(shell: str) -> None:
    """Print the script by which a shell completes commands, options, sounds, layouts and file names at the Tab key."""
    kind = get_completion_class(shell)
    if kind is None:
        raise TypeError(f"click does not know {shell}")
    script = kind(overview, {}, "cardgen", VARIABLE)
    click.echo(script.source_template % script.source_vars())
