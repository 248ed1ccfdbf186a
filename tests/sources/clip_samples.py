"""Recordings made for a test: a tone like a voice, in every kind of file, with or without tags."""

import math
import struct
import wave
from collections.abc import Mapping, Sequence
from io import BytesIO
from pathlib import Path

import av

RATE = 48_000
# Kind of file -> (its container, codec) as PyAV names them.
KINDS = {
    "wav": ("wav", "pcm_s16le"),
    "mp3": ("mp3", "libmp3lame"),
    "m4a": ("ipod", "aac"),
    "ogg": ("ogg", "libopus"),
    "flac": ("flac", "flac"),
    "aac": ("adts", "aac"),
}


def tone(seconds: float = 0.8, level: float = 0.3, rate: int = RATE) -> list[int]:
    """A tone of 220 Hz with an overtone, as 16-bit samples; `level` is the share of full scale, over 1 is clipped."""
    wave_ = (
        math.sin(2 * math.pi * 220 * i / rate) * 0.8 + math.sin(2 * math.pi * 660 * i / rate) * 0.2
        for i in range(round(seconds * rate))
    )
    return [max(-32768, min(32767, round(32767 * level * sample))) for sample in wave_]


def wav(samples: Sequence[int] | None = None, rate: int = RATE) -> bytes:
    """Those samples as a WAV file, written by the standard library."""
    samples = tone(rate=rate) if samples is None else samples
    file = BytesIO()
    with wave.open(file, "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(rate)
        out.writeframes(struct.pack(f"<{len(samples)}h", *samples))
    return file.getvalue()


def clip(kind: str = "m4a", samples: Sequence[int] | None = None, tags: Mapping[str, str] | None = None) -> bytes:
    """Those samples as a file of that kind (of `KINDS`), encoded, with tags."""
    container, codec = KINDS[kind]
    file = BytesIO()
    with av.open(BytesIO(wav(samples)), "r") as source, av.open(file, "w", format=container) as out:
        out.metadata.update(tags or {})
        stream = out.add_stream(codec, rate=RATE, layout="mono")
        assert isinstance(stream, av.AudioStream)
        for frame in source.decode(audio=0):
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    return file.getvalue()


def folder(path: Path, files: Mapping[str, bytes]) -> Path:
    """A folder with those files in it."""
    path.mkdir(parents=True, exist_ok=True)
    for name, data in files.items():
        (path / name).write_bytes(data)
    return path
