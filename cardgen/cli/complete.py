"""What the Tab key can complete: sounds, layouts, files and folders. Nothing that draws or writes is loaded for it."""

from pathlib import Path

import click
from click.shell_completion import CompletionItem

from cardgen import names


def sounds(ctx: click.Context, _: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Return the sounds that begin so, but for those that were typed; of a list (t,p) its last part is completed."""
    before, comma, last = incomplete.rpartition(",")
    typed = {*before.split(","), *(ctx.params.get("keys") or ())}
    return [
        CompletionItem(before + comma + key, help=say)
        for key, say in names.sounds().items()
        if key.startswith(last.lower()) and key not in typed
    ]


def layouts(_: click.Context, __: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Return the layouts that begin so, and files of her own."""
    ours = [CompletionItem(name) for name in names.layouts() if name.startswith(incomplete)]
    return ours + _toml_files(incomplete)


def lessons(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Return the sounds that begin so, and lesson files."""
    return sounds(ctx, param, incomplete) + _toml_files(incomplete)


def files(_: click.Context, __: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Return the word by which the shell completes the name of a file itself."""
    return [CompletionItem(incomplete, type="file")]


def folders(_: click.Context, __: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Return the word by which the shell completes the name of a folder itself."""
    return [CompletionItem(incomplete, type="dir")]


def _toml_files(incomplete: str) -> list[CompletionItem]:
    """Return the files NAME.toml that begin so, in the folder that was typed; none where it cannot be read."""
    folder, _, name = incomplete.replace("\\", "/").rpartition("/")
    try:
        found = sorted(path.name for path in Path(folder or ("/" if incomplete[:1] == "/" else ".")).iterdir())
    except OSError:
        return []
    typed = incomplete[: len(incomplete) - len(name)]
    return [CompletionItem(typed + file) for file in found if file.startswith(name) and file.lower().endswith(".toml")]
