"""Reads recordings (WAV, MP3, M4A, AAC, OGG, FLAC): how long, how loud, of which kind; and copies the bare sound.

The kind is told by content, and only its reader is let at the file: others would open further files. Everything is
read from memory, and no longer than a clip may be.
"""

from array import array
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from itertools import accumulate
from math import log10, sqrt
from operator import mul
from typing import TYPE_CHECKING

from cardgen.errors import TeacherError
from cardgen.sources.clip_files import open_clips
from cardgen.sources.clip_tags import Tags, not_installed, read_tags

if TYPE_CHECKING:
    from av.container import InputContainer

LONGEST, SHORTEST = 10.0, 0.3  # seconds
LONGEST_FAMILY = 60.0  # how to play, told in a home language
# Of full scale. Speech near a phone has its loudest moments at -25 to -10 dBFS: common practice, no source.
SILENT_DB, QUIET_DB = -50.0, -35.0
# Of the samples at the limit. A lossy codec smooths what was cut off, and overshoots a little where nothing was.
CLIPPED_SHARE = 0.003
_LIMIT, _FULL_SCALE = 32_700, 32_768
_WINDOW = 0.05  # seconds: the loudest moment, not the mean: pauses do not make a voice quiet
_MOST_CHANNELS, _MOST_RATE = 8, 192_000


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of recording: its `name` and suffix, FFmpeg's reader and writer, and the codecs browsers play in it."""

    name: str
    suffix: str
    reader: str
    writer: str
    codecs: frozenset[str]


_PCM = frozenset({"pcm_u8", "pcm_s16le", "pcm_s24le", "pcm_s32le", "pcm_f32le"})
WAV = Kind("WAV", ".wav", "wav", "wav", _PCM)
MP3 = Kind("MP3", ".mp3", "mp3", "mp3", frozenset({"mp3", "mp3float"}))
M4A = Kind("M4A", ".m4a", "mp4", "ipod", frozenset({"aac"}))
AAC = Kind("AAC", ".aac", "aac", "adts", frozenset({"aac"}))
OGG = Kind("OGG", ".ogg", "ogg", "ogg", frozenset({"opus", "vorbis", "libopus", "libvorbis"}))
FLAC = Kind("FLAC", ".flac", "flac", "flac", frozenset({"flac"}))
# What phones and programs also write, by how it begins and where.
_OTHERS = (
    (0, b"\x1aE\xdf\xa3", "WebM"),
    (0, b"caff", "CAF"),
    (0, b"FORM", "AIFF"),
    (0, b"#!AMR", "AMR"),
    (0, b"0&\xb2u", "WMA"),
)


def sniff(data: bytes) -> Kind | None:
    """Return the kind of recording by what is in the file, None if it is none of ours."""
    if data[:4] == b"RIFF" and data[8:12] == b"WAVE":
        return WAV
    if data[:4] == b"OggS":
        return OGG
    if data[4:8] == b"ftyp":
        return M4A
    tagged = data[:3] == b"ID3" and len(data) > 10
    if tagged:  # a tag before the sound: its length in four times seven bits (ID3v2.3, 3.1)
        data = data[10 + sum((byte & 127) << shift for byte, shift in zip(data[6:10], (21, 14, 7, 0), strict=True)) :]
    if data[:4] == b"fLaC":
        return FLAC
    if len(data) > 1 and data[0] == 0xFF and data[1] & 0xF6 == 0xF0:
        return AAC
    if tagged or (len(data) > 1 and data[0] == 0xFF and data[1] & 0xE0 == 0xE0):
        return MP3
    return None


@dataclass(frozen=True, slots=True)
class Clip:
    """What a recording is: its kind and codec, its length, its loudest moment in dBFS, the share cut off at the limit.

    `seconds` are those that were heard, or for what is too long those that the file tells.
    """

    kind: Kind
    codec: str
    seconds: float
    loudest_db: float
    clipped: float
    tags: Tags

    @property
    def is_playable(self) -> bool:
        """Whether browsers play it."""
        return self.codec in self.kind.codecs

    @property
    def format(self) -> str:
        """The kind as it is told, with the codec where the kind leaves it open: "M4A (aac)"."""
        return f"{self.kind.name} ({self.codec})" if self.kind in (M4A, OGG, WAV) else self.kind.name


def read_clip(data: bytes, name: str) -> Clip:
    """Return what a recording is; TeacherError naming its file if it cannot be read, or holds no sound, or a film."""
    kind = _kind(data, name)
    with _opened(data, kind, name) as source:
        stream = source.streams.audio[0]
        told = {**source.metadata, **stream.metadata}
        codec = stream.codec_context.name
        blocks = _samples(source)
        samples = array("h", b"".join(blocks))
        rate = stream.codec_context.sample_rate * stream.codec_context.layout.nb_channels
        length = (source.duration or 0) / 1_000_000
    seconds = len(samples) / rate
    return Clip(
        kind,
        codec.removesuffix("float"),
        max(seconds, length) if seconds > LONGEST else seconds,
        _loudest(samples, max(1, round(rate * _WINDOW))),
        _clipped(samples),
        read_tags(data, told),
    )


def bare_copy(data: bytes, name: str) -> bytes:
    """Return the same sound in a new file of its kind, packet by packet: nothing else of the old file is in it.

    TeacherError naming its file if it cannot be read.
    """
    kind = _kind(data, name)
    new = BytesIO()
    with _opened(data, kind, name) as source:
        import av

        with av.open(new, "w", format=kind.writer, options={"fflags": "+bitexact"}) as copy:
            stream = copy.add_stream_from_template(source.streams.audio[0])
            for packet in source.demux(source.streams.audio[0]):
                if packet.dts is not None:  # the last one is empty and only says that no more come
                    packet.stream = stream
                    copy.mux(packet)
    return new.getvalue()


def missing(folder: str, names: Iterable[str]) -> tuple[str, ...]:
    """Return those of the names (as `clip_name` makes them) of which a folder has no recording, in their order.

    TeacherError if there is no such folder.
    """
    there = open_clips(folder, may_be_empty=True).by_name
    return tuple(name for name in names if name not in there)


def _kind(data: bytes, name: str) -> Kind:
    kind = sniff(data)
    if kind is not None:
        return kind
    other = next((what for at, start, what in _OTHERS if data[at : at + len(start)] == start), None)
    if other:
        raise TeacherError(
            f"{name} is a recording of the kind {other}, which not every phone plays.", "Save it as M4A or MP3."
        )
    raise TeacherError(f"{name} is no recording: there is no sound in it that can be read.", "Record it again.")


@contextmanager
def _opened(data: bytes, kind: Kind, name: str) -> "Iterator[InputContainer]":
    """Yield a recording opened to read; TeacherError for all that goes wrong with it in the block."""
    try:
        import av
    except ImportError as error:
        raise not_installed() from error
    try:
        with av.open(BytesIO(data), "r", format=kind.reader) as source:
            _check(source, name)
            yield source
    except TeacherError:
        raise
    except Exception as error:  # a decoder fails in as many ways as a file can be damaged
        raise TeacherError(
            f"{name} is damaged: it cannot be read to its end.", "Copy it again from the phone, or record it again."
        ) from error


def _check(source: "InputContainer", name: str) -> None:
    """Raise TeacherError for what is no recording of a voice; the picture on a cover is a tag and does not count."""
    from av.stream import Disposition

    if any(not stream.disposition & Disposition.attached_pic for stream in source.streams.video):
        raise TeacherError(f"{name} is a film.", "Record the sound alone: a film shows who is there.")
    if not source.streams.audio:
        raise TeacherError(f"There is no sound in {name}.", "Record it again.")
    sound = source.streams.audio[0].codec_context
    if not (0 < sound.layout.nb_channels <= _MOST_CHANNELS and 0 < sound.sample_rate <= _MOST_RATE):
        raise TeacherError(f"{name} was recorded in a way that is not read here.", "Save it as M4A or MP3.")


def _samples(source: "InputContainer") -> Iterator[bytes]:
    """Yield the sound as 16-bit samples, channels interleaved, up to a second more than a clip may last."""
    from av import AudioResampler

    resampler = AudioResampler(format="s16")
    stream = source.streams.audio[0]
    left = round((LONGEST + 1) * stream.codec_context.sample_rate)
    for frame in source.decode(stream):
        for part in resampler.resample(frame):
            yield bytes(part.planes[0])[: part.samples * part.layout.nb_channels * 2]
            left -= part.samples
        if left < 0:
            break


def _loudest(samples: "array[int]", window: int) -> float:
    """Return the level of the loudest moment (root mean square over `window` samples), in dB of full scale."""
    sums = [0, *accumulate(map(mul, samples, samples))]
    ends = [*range(window, len(sums), max(1, window // 2))] or [len(sums) - 1]
    best = max((sums[end] - sums[max(0, end - window)]) / max(1, min(window, end)) for end in ends)
    return 20 * log10(max(sqrt(best) / _FULL_SCALE, 1e-6))


def _clipped(samples: "array[int]") -> float:
    """Return the share of samples at the limit."""
    if not samples or max(max(samples), -min(samples)) < _LIMIT:
        return 0.0
    return sum(sample >= _LIMIT or sample <= -_LIMIT for sample in samples) / len(samples)
