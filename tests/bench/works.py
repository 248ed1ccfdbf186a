"""Single pieces of work, each to be measured in a process of its own: `python -m tests.bench.works NAME FILE`.

A work is prepared first; only what it does then is timed. Prints seconds and bytes as JSON, null where a package is
not installed.
"""
# ruff: noqa: T201

import json
import sys
import time
from collections.abc import Callable
from pathlib import Path

from cardgen.sheets.marks import Document, Picture, marks_of

Work = Callable[[Path], object]


def _written(document: Document) -> Work:
    """Return the paper step for a document whose pictures have been read."""
    from cardgen.paper import pdf
    from cardgen.sources import codes
    from tests.bench.jobs import drawing, fonts

    marks = (mark for page in document.pages for mark in marks_of(page.items))
    drawings = {mark.name: drawing(mark.name) for mark in marks if isinstance(mark, Picture)}
    return lambda file: pdf.write(document, drawings.__getitem__, codes.matrix, fonts(), file)


def packs(count: int) -> Work:
    """Return the paper step for so many packs of 24 cards."""
    from tests.bench import jobs

    return _written(jobs.packs(count))


def boards(count: int) -> Work:
    """Return the paper step for so many boards."""
    from tests.bench import jobs

    return _written(jobs.boards(count))


def proof(file: Path) -> Work:
    """Return the proof of 720 codes."""
    from cardgen.paper.proof import prove
    from tests.bench import jobs

    document = jobs.packs(with_codes=True)
    _written(document)(file)
    return lambda file: prove(file, document)


def bank() -> Work:
    """Return the reading of the word bank."""
    from cardgen.sources.bank_file import read_bank

    return lambda _: read_bank()


def pictures() -> Work:
    """Return the reading of 24 pictures."""
    from tests.bench import jobs

    jobs.drawing("sunflower")  # what is read once for all pictures
    return lambda _: [jobs.drawing(word) for word in jobs.WORDS]


def prepared(name: str, file: Path) -> Work:
    """Return a work by its name: one of ours, or of the rivals; ImportError if what it needs is not installed."""
    from tests.bench import jobs, raw, rivals

    kind, _, count = name.partition("-")
    match kind:
        case "packs":
            return packs(int(count))
        case "boards":
            return boards(int(count))
        case "proof":
            return proof(file)
        case "bank":
            return bank()
        case "pictures":
            return pictures()
        case "raw":
            for word in jobs.WORDS:
                jobs.drawing(word)
            return raw.raw(jobs.packs())
    rival: Callable[[Document], Work] = getattr(rivals, kind)
    return rival(jobs.packs())


def main() -> None:
    """Print what one work took."""
    name, file = sys.argv[1], Path(sys.argv[2])
    try:
        work = prepared(name, file)
    except ImportError:
        print("null")
        return
    start = time.perf_counter()
    work(file)
    seconds = time.perf_counter() - start
    print(json.dumps({"seconds": seconds, "bytes": file.stat().st_size if file.exists() else 0}))


if __name__ == "__main__":
    main()
