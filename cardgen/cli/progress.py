"""How far a long print has come: a bar on the terminal, and only where it takes longer than a second."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager

import click

from cardgen.cli.manners import is_quiet

PATIENCE = 1.0  # seconds


@contextmanager
def progress_bar(clock: Callable[[], float] = time.monotonic) -> Iterator[Callable[[int, int], None]]:
    """Yield what is to be told, after every page, how many of how many are done; the bar is gone when the block ends.

    It is drawn on the error stream, so that what the command says can be piped on; never where that is no terminal.
    """
    begun = bar = None
    with ExitStack() as end:

        def show(done: int, total: int) -> None:
            nonlocal begun, bar
            begun = clock() if begun is None else begun
            if bar is None and clock() - begun > PATIENCE and sys.stderr.isatty() and not is_quiet():
                bar = end.enter_context(click.progressbar(length=total, label="Printing", file=sys.stderr))
            if bar is not None:
                bar.update(done - bar.pos)

        yield show
