"""The listening pages in a real browser: a recording loads and plays, by mouse, by keyboard, and without script."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from click.testing import CliRunner

from cardgen.cli import overview
from tests.outside.browser import CHROMIUM, HOW_TO_INSTALL, Browser
from tests.sources.clip_samples import clip, folder, tone

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason=HOW_TO_INSTALL)

ENDED = """new Promise((done, failed) => {
  const audio = document.querySelector("audio");
  const tell = () => done([audio.currentTime, audio.duration, audio.paused]);
  if (audio.error) failed(audio.error.message);
  if (audio.ended) tell();
  audio.addEventListener("ended", tell);
  audio.addEventListener("error", () => failed(audio.error.message));
})"""
LOADED = """new Promise((done, failed) => {
  const audio = document.querySelector("audio");
  if (audio.readyState >= 1) done(audio.duration);
  audio.addEventListener("loadedmetadata", () => done(audio.duration));
  audio.addEventListener("error", () => failed(audio.error.message));
})"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("clips")
    sound = tone(0.5)
    files = {"m.m4a": clip("m4a", sound), "s.mp3": clip("mp3", sound), "family-es.ogg": clip("ogg", sound)}
    files |= {"t.wav": clip("wav", sound), "b.flac": clip("flac", sound)}
    folder(path / "voice", files)
    made = CliRunner().invoke(
        overview,
        ["clips", "pages", str(path / "voice"), *"mstb", "--words", "0", "--family", "es", "--out", str(path / "site")],
    )
    assert made.exit_code == 0, made.output
    return path / "site"


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with Browser(tmp_path_factory.mktemp("profile")) as browser:
        yield browser


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: Any) -> None:
        """Say nothing."""


@contextmanager
def served(path: Path) -> Iterator[str]:
    """Serve a folder on this machine, and yield its address."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(path)))
    Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()


def asked(browser: Browser) -> set[str]:
    """The addresses that the pages asked for, without what lies in the pages and in the browser itself."""
    return {address for address in browser.requests if not address.startswith("data:")}


@pytest.mark.parametrize("name", ["m", "s", "t", "b", "family-es"])
def test_a_recording_of_every_kind_plays_to_its_end_from_a_stick(site: Path, browser: Browser, name: str) -> None:
    browser.requests.clear()
    browser.open((site / f"{name}.html").as_uri())
    place = browser.run(
        "(b => [b.x + b.width / 2, b.y + b.height / 2])(document.querySelector('button').getBoundingClientRect())"
    )
    browser.click(*place)
    at, duration, paused = browser.run(ENDED)
    assert duration == pytest.approx(0.5, abs=0.06)
    assert at == pytest.approx(duration, abs=0.05)
    assert paused
    assert browser.errors == []
    assert asked(browser)
    assert all(address.startswith(site.as_uri()) for address in asked(browser))


def test_from_a_web_space_nothing_else_is_asked_for(site: Path, browser: Browser) -> None:
    with served(site) as address:
        browser.requests.clear()
        for page in ("index.html", "lesson-m-s-t-b.html", "m.html"):
            browser.open(f"{address}/{page}")
        assert browser.run(LOADED) == pytest.approx(0.5, abs=0.06)
        assert browser.run("document.cookie + localStorage.length") == "0"
        assert browser.run("document.fonts.load('40px \"Card letters\"').then(fonts => fonts.length)") == 1
    assert {request.removeprefix(f"{address}/") for request in asked(browser)} == {
        "index.html", "lesson-m-s-t-b.html", "m.html", "style.css", "m.m4a",
    }  # fmt: skip
    assert browser.errors == []


@pytest.mark.parametrize("key", ["Enter", " "])
def test_the_keyboard_reaches_the_button_and_sees_where_it_is(site: Path, browser: Browser, key: str) -> None:
    browser.open((site / "m.html").as_uri())
    browser.press("Tab")
    assert browser.run("document.activeElement.getAttribute('aria-label')") == "Play: mmm"
    width, style = browser.run("(s => [s.outlineWidth, s.outlineStyle])(getComputedStyle(document.activeElement))")
    assert (width, style) == ("4px", "solid")
    browser.press(key)
    assert browser.run(ENDED)[2]


def test_a_screen_reader_is_told_what_plays(site: Path, browser: Browser) -> None:
    browser.open((site / "m.html").as_uri())
    names = browser.names()
    assert ("button", "Play: mmm") in names
    assert ("Audio", "Recording: mmm") in names
    assert ("heading", "M m") in names
    assert any(role == "image" and name for role, name in names)


def test_it_fits_a_narrow_phone_and_large_letters(site: Path, browser: Browser) -> None:
    """WCAG 2.2, 1.4.10: no scrolling sideways at 320 CSS pixels."""
    browser.resize(320, 600)
    try:
        for page in ("index", "lesson-m-s-t-b", "m", "family-es"):
            browser.open((site / f"{page}.html").as_uri())
            assert browser.run("document.documentElement.scrollWidth") <= 320
    finally:
        browser.resize(800, 900)


def test_without_script_the_players_own_controls_are_there(site: Path, tmp_path: Path) -> None:
    with Browser(tmp_path) as plain:
        plain.open((site / "m.html").as_uri())
        plain.without_script()
        plain.open((site / "s.html").as_uri())
        # The tools of the browser still look into the page, though its own script does not run.
        names = plain.names()
        assert ("button", "Play: sss") not in names
        assert ("button", "play") in names
        assert plain.run(LOADED) == pytest.approx(0.5, abs=0.06)
