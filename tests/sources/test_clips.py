import math
from array import array
from contextlib import suppress
from importlib import import_module
from io import BytesIO
from random import Random
from typing import Any

import av
import mutagen
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.sources.clips import CLIPPED_SHARE, QUIET_DB, SHORTEST, bare_copy, read_clip, sniff
from tests.sources.clip_samples import KINDS, RATE, clip, tone, wav

SECRETS = {
    "artist": "Ann Teacher",
    "title": "12 Elm Street",
    "album": "Oakhill School",
    "comment": "for little Tom",
    "location": "+51.5007-000.1246/",
}
WORDS = [b"Ann Teacher", b"Elm Street", b"Oakhill", b"little Tom", b"51.5007", b"secret place"]


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_read_by_its_content(kind: str) -> None:
    found = read_clip(clip(kind), "x.xyz")
    names = {
        "wav": "WAV (pcm_s16le)",
        "mp3": "MP3",
        "m4a": "M4A (aac)",
        "ogg": "OGG (opus)",
        "flac": "FLAC",
        "aac": "AAC",
    }
    assert found.format == names[kind]
    assert found.is_playable
    # A lossy codec adds up to two frames of silence: 1024 samples each for AAC.
    assert 0.8 <= found.seconds <= 0.8 + 2 * 1024 / RATE
    assert found.clipped == 0
    assert found.tags.found == ()


def test_the_loudest_moment_is_measured_in_dbfs() -> None:
    """A sine of amplitude a has the level 20·log10(a/√2); this one has two, of 0.8 and 0.2 of the level."""
    meant = 20 * math.log10(0.3 * math.sqrt((0.8**2 + 0.2**2) / 2))
    assert read_clip(wav(tone(level=0.3)), "x").loudest_db == pytest.approx(meant, abs=0.2)
    for kind in KINDS:
        assert read_clip(clip(kind), "x").loudest_db == pytest.approx(meant, abs=1.0)
    quiet, loud = tone(1.0, 0.003), tone(0.1, 0.3)
    assert read_clip(wav(quiet + loud + quiet), "x").loudest_db == pytest.approx(meant, abs=0.3)


@pytest.mark.parametrize("kind", ["wav", "flac", "m4a", "mp3", "ogg"])
def test_what_was_too_loud_is_seen_by_the_samples_at_the_limit(kind: str) -> None:
    assert read_clip(clip(kind, tone(level=2.5)), "x").clipped > 2 * CLIPPED_SHARE
    assert read_clip(clip(kind, tone(level=0.9)), "x").clipped < CLIPPED_SHARE / 2


@pytest.mark.parametrize(
    ("samples", "seconds", "loudest"),
    [
        (tone(level=0), 0.8, -120),
        (tone(0.1), 0.1, -14.4),
        ([], 0, -120),
        (tone(0.001), 0.001, -20),
        (tone(12, rate=8000), 12, -14.4),
    ],
)
def test_lengths_and_silence(samples: list[int], seconds: float, loudest: float) -> None:
    rate = 8000 if seconds == 12 else RATE
    found = read_clip(wav(samples, rate), "x")
    assert found.seconds == pytest.approx(seconds, abs=0.001)
    assert found.loudest_db == pytest.approx(loudest, abs=8)


def test_a_long_recording_is_not_decoded_to_its_end(monkeypatch: pytest.MonkeyPatch) -> None:
    import cardgen.sources.clips as clips

    lengths: list[int] = []
    real = clips._loudest

    def loudest(samples: "array[int]", window: int) -> float:
        lengths.append(len(samples))
        return real(samples, window)

    monkeypatch.setattr(clips, "_loudest", loudest)
    assert read_clip(wav([0, 900] * 8000 * 60, 8000), "x").seconds == pytest.approx(120)
    assert lengths[0] <= 12 * 8000


DAMAGED = [
    ("hello.m4a", b"This is a letter to the parents.", "no recording"),
    ("empty head", b"\0" * 300, "no recording"),
    ("cut m4a", clip("m4a")[:3000], "damaged"),
    ("cut mp3", clip("mp3")[:300], "damaged"),
    ("cut ogg", clip("ogg")[:60], "damaged"),
    ("bare riff", b"RIFF\0\0\0\0WAVE", "damaged"),
    ("endless tag", b"ID3\x04\0\0\x7f\x7f\x7f\x7f" + b"x" * 50, "damaged"),
    ("playlist", b"#EXTM3U\n#EXTINF:1,\nhttp://127.0.0.1:9/a.aac\n", "no recording"),
    ("concat", b"ffconcat version 1.0\nfile /etc/passwd\n", "no recording"),
    ("webm", b"\x1aE\xdf\xa3" + b"\0" * 60, "kind WebM"),
    ("caf", b"caff" + b"\0" * 60, "kind CAF"),
    ("aiff", b"FORM\0\0\0\0AIFF", "kind AIFF"),
    ("amr", b"#!AMR\n" + b"\0" * 60, "kind AMR"),
]


@pytest.mark.parametrize(("name", "data", "why"), DAMAGED, ids=[row[0] for row in DAMAGED])
def test_what_cannot_be_read_is_told_with_its_name(name: str, data: bytes, why: str) -> None:
    for read in (read_clip, bare_copy):
        with pytest.raises(TeacherError, match=why) as found:
            read(data, name)
        assert name in found.value.message
        assert found.value.hint


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(KINDS)), st.integers(0, 2**32), st.integers(1, 40))
def test_damage_never_ends_in_a_crash(kind: str, seed: int, holes: int) -> None:
    rng = Random(seed)
    data = bytearray(SAMPLES[kind])
    for _ in range(holes):
        data[rng.randrange(len(data))] = rng.randrange(256)
    for read in (read_clip, bare_copy):
        with suppress(TeacherError):
            read(bytes(data), "x")


SAMPLES = {kind: clip(kind, tone(0.2)) for kind in KINDS}


def test_only_the_reader_of_its_kind_is_let_at_a_file(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of itself FFmpeg would try them all, and some open the files and addresses that a playlist names."""
    real: Any = av.open
    readers: list[str] = []

    def spy(file: Any, mode: str, **more: Any) -> Any:
        if mode == "r":
            readers.append(more["format"])
        return real(file, mode, **more)

    monkeypatch.setattr(av, "open", spy)
    for data in (*SAMPLES.values(), b"ID3\x04\0\0\0\0\0\0#EXTM3U\n#EXTINF:1,\nhttp://127.0.0.1:9/a.aac\n"):
        for read in (read_clip, bare_copy):
            with suppress(TeacherError):
                read(data, "x")
    assert set(readers) == {"wav", "mp3", "mp4", "ogg", "flac", "aac"}


def film() -> bytes:
    file = BytesIO()
    with av.open(BytesIO(wav()), "r") as source, av.open(file, "w", format="mp4") as out:
        sound = out.add_stream("aac", rate=RATE)
        picture = out.add_stream("mpeg4", rate=5)
        assert isinstance(picture, av.VideoStream)
        assert isinstance(sound, av.AudioStream)
        picture.width, picture.height, picture.pix_fmt = 64, 64, "yuv420p"
        out.mux(picture.encode(av.VideoFrame(64, 64, "yuv420p")))
        out.mux(picture.encode(None))
        for frame in source.decode(audio=0):
            out.mux(sound.encode(frame))
        out.mux(sound.encode(None))
    return file.getvalue()


def test_a_film_is_no_recording() -> None:
    for read in (read_clip, bare_copy):
        with pytest.raises(TeacherError, match="is a film"):
            read(film(), "m.mp4")


def lossless_m4a() -> bytes:
    file = BytesIO()
    with av.open(BytesIO(wav()), "r") as source, av.open(file, "w", format="ipod") as out:
        stream = out.add_stream("alac", rate=RATE, layout="mono")
        assert isinstance(stream, av.AudioStream)
        for frame in source.decode(audio=0):
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    return file.getvalue()


def test_a_codec_that_not_every_browser_plays_is_told() -> None:
    found = read_clip(lossless_m4a(), "m.m4a")
    assert found.format == "M4A (alac)"
    assert not found.is_playable


# Its parts are typed only here and there.
FLAC: Any = import_module("mutagen.flac")
ID3: Any = import_module("mutagen.id3")
MP4: Any = import_module("mutagen.mp4")


def full_of_secrets(kind: str) -> bytes:
    """A recording with names and a place in every tag that its kind has room for, and a picture on its cover."""
    file = BytesIO(clip(kind, tags=SECRETS))
    tagged: Any = mutagen.File(file)
    if tagged is None:
        return file.getvalue()
    if kind == "flac":
        picture = FLAC.Picture()
        picture.data = b"secret place"
        tagged.add_picture(picture)
    elif kind == "m4a":
        tagged["covr"] = [MP4.MP4Cover(b"secret place")]
        tagged["----:com.apple.iTunes:where"] = [b"secret place"]
        tagged["\xa9xyz"] = ["+51.5007-000.1246/"]
    elif kind == "ogg":
        tagged["metadata_block_picture"] = ["secret place"]
    else:
        if tagged.tags is None:
            tagged.add_tags()
        tagged.tags.add(ID3.APIC(data=b"secret place", mime="image/jpeg"))
        tagged.tags.add(ID3.PRIV(owner="x", data=b"secret place"))
        tagged.tags.add(ID3.GEOB(data=b"secret place"))
        tagged.tags.add(ID3.TXXX(desc="where", text="secret place"))
    file.seek(0)
    tagged.save(file)
    return file.getvalue()


@pytest.mark.parametrize("kind", KINDS)
def test_names_and_places_are_found_and_none_is_copied(kind: str) -> None:
    data = full_of_secrets(kind)
    found = read_clip(data, "x")
    if kind != "aac":
        assert {"artist", "title"} <= set(found.tags.names)
        assert any(word in data for word in WORDS)
        assert "picture" in found.tags.names
    if kind in ("m4a", "mp3", "wav"):
        assert "where" in found.tags.names
    # A WAV has no tag for a place, and an ADTS stream has none at all.
    assert bool(found.tags.places) == (kind not in ("wav", "aac"))
    copy = bare_copy(data, "x")
    assert not [word for word in WORDS if word in copy]
    assert read_clip(copy, "x").tags.found == ()
    reread = mutagen.File(BytesIO(copy))
    assert not (reread and reread.tags)
    assert not getattr(reread, "pictures", [])
    assert bare_copy(data, "x") == copy


@pytest.mark.parametrize("kind", KINDS)
def test_the_copy_sounds_the_same(kind: str) -> None:
    data = full_of_secrets(kind)
    old, new = samples(data), samples(bare_copy(data, "x"))
    assert len(old) == len(new) > 30_000
    assert old == new


def samples(data: bytes) -> list[int]:
    resampler = av.AudioResampler(format="s16", layout="mono")
    found = array("h")
    with av.open(BytesIO(data), "r") as source:
        for frame in source.decode(audio=0):
            for part in resampler.resample(frame):
                found.frombytes(bytes(part.planes[0])[: part.samples * 2])
    return found.tolist()


def test_a_tag_before_the_sound_does_not_hide_its_kind() -> None:
    tag = b"ID3\x04\0\0\0\0\0\x05aaaaa"
    for kind in ("mp3", "flac", "aac"):
        found = sniff(tag + clip(kind, tone(0.1)).removeprefix(b""))
        assert found is not None
        assert found.name == {"mp3": "MP3", "flac": "FLAC", "aac": "AAC"}[kind] or kind == "mp3"


def test_thresholds_leave_room_for_a_voice() -> None:
    assert SHORTEST == 0.3
    assert -60 < QUIET_DB < -25
