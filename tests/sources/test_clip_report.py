from pathlib import Path

import pytest

from cardgen.sources.clip_files import open_clips
from cardgen.sources.clip_report import ClipLine, State, report
from tests.sources.clip_samples import clip, folder, tone, wav
from tests.sources.test_clips import film, full_of_secrets, lossless_m4a


def lines(path: Path, files: dict[str, bytes], wanted: tuple[str, ...] = ()) -> dict[str, ClipLine]:
    found = list(report(open_clips(str(folder(path / "f", files))), wanted))
    return {line.file or line.name: line for line in found}


STATES = [
    ("fine", clip("m4a"), State.FINE, ""),
    ("silent", wav(tone(level=0)), State.SILENT, "record it again"),
    ("hiss", wav(tone(level=0.002)), State.SILENT, "record it again"),
    ("quiet", wav(tone(level=0.012)), State.QUIET, "nearer"),
    ("soft but clear", wav(tone(level=0.06)), State.FINE, ""),
    ("short", wav(tone(0.29)), State.SHORT, "0.29 seconds"),
    ("just long enough", wav(tone(0.3)), State.FINE, ""),
    ("long", wav(tone(10.2, rate=8000), 8000), State.LONG, "10 are the most"),
    ("ten seconds", wav(tone(10, rate=8000), 8000), State.FINE, ""),
    ("crackling", wav(tone(level=1.5)), State.CLIPPED, "further away"),
    ("full but clean", wav(tone(level=0.99)), State.FINE, ""),
    ("text", b"Dear parents", State.UNREADABLE, "no recording"),
    ("film", film(), State.UNREADABLE, "is a film"),
    ("lossless", lossless_m4a(), State.UNPLAYABLE, "save it as M4A"),
    ("empty", b"", State.UNREADABLE, "is empty"),
]


@pytest.mark.parametrize(("data", "state", "text"), [row[1:] for row in STATES], ids=[row[0] for row in STATES])
def test_the_worst_of_a_recording_is_told(tmp_path: Path, data: bytes, state: State, text: str) -> None:
    suffix = "wav" if data[:4] == b"RIFF" else "m4a"
    (line,) = lines(tmp_path, {f"m.{suffix}": data}).values()
    assert (line.state, text in line.text) == (state, True), line
    assert line.state.is_wrong == (state is not State.FINE)
    assert bool(line.text) == line.state.is_wrong


def test_what_the_list_wants_comes_first_and_in_its_order(tmp_path: Path) -> None:
    found = list(
        lines(tmp_path, {"s.m4a": clip(), "m-moon.m4a": clip(), "other.m4a": clip()}, ("s", "m", "m-moon")).values()
    )
    assert [(line.name, line.listed) for line in found] == [
        ("s", True),
        ("m", True),
        ("m-moon", True),
        ("other", False),
    ]
    assert found[1].state is State.MISSING
    assert "m.m4a" in found[1].text


def test_two_of_a_name_are_both_told(tmp_path: Path) -> None:
    found = lines(tmp_path, {"m.m4a": clip(), "m.mp3": clip("mp3")}, ("m",))
    assert [line.state for line in found.values()] == [State.TWICE, State.TWICE]


@pytest.mark.parametrize(
    ("name", "data", "text"),
    [
        ("m.m4a", clip("mp3"), "is MP3: call it m.mp3"),
        ("M.m4a", clip("m4a"), "small letters, m"),
        ("m.opus", clip("ogg"), "Older iPhones"),
        ("m.m4a", full_of_secrets("m4a"), "tell a place (location). Its tags may hold a name ("),
    ],
)
def test_what_is_good_to_know_is_told_but_is_not_wrong(tmp_path: Path, name: str, data: bytes, text: str) -> None:
    (line,) = lines(tmp_path, {name: data}).values()
    assert (line.state, line.state.is_wrong) == (State.LOOK_OUT, False)
    assert text in line.text


def test_how_to_play_may_take_a_minute(tmp_path: Path) -> None:
    told = wav(tone(10.5, rate=8000) * 5, 8000)
    found = lines(tmp_path, {"family-es.wav": told, "m.wav": told})
    assert [line.state for line in found.values()] == [State.FINE, State.LONG]
