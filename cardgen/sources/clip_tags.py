"""What a recording tells besides its sound: names, a place, a picture. Phones call recordings after the street."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from cardgen.errors import TeacherError

# Tags that say nothing of a person: what the file is, and which program made it.
_HARMLESS = frozenset({
    "major_brand", "minor_version", "compatible_brands", "encoder", "encoding", "language", "handler_name", "vendor_id",
    "tsse", "tlen", "©too", "iswh", "isft",
})  # fmt: skip
# What the kinds of file call the same thing (ID3 frames, MP4 atoms).
_SAME = {
    "TPE1": "artist", "TPE2": "album_artist", "TIT2": "title", "TALB": "album", "TCOM": "composer", "TCOP": "copyright",
    "TDRC": "date", "TENC": "encoded_by", "TPUB": "publisher", "COMM": "comment", "APIC": "picture", "PIC": "picture",
    "USLT": "lyrics", "©ART": "artist", "aART": "album_artist", "©nam": "title", "©alb": "album", "©wrt": "composer",
    "©day": "date", "©cmt": "comment", "cprt": "copyright", "desc": "description", "covr": "picture",
    "©xyz": "location", "metadata_block_picture": "picture",
}  # fmt: skip
_PLACE = re.compile(r"(?<![a-z])(location|gps|latitude|longitude|(place|geo|city|country|xyz)(?![a-z]))")
_TIMES = frozenset({"date", "creation_time", "year", "time", "originaldate", "com.apple.quicktime.creationdate"})


@dataclass(frozen=True, slots=True)
class Tags:
    """The tags that are more than technical, by what they are called: ("artist", "title", "location")."""

    found: tuple[str, ...]

    @property
    def places(self) -> tuple[str, ...]:
        """The tags that tell a place."""
        return tuple(tag for tag in self.found if _PLACE.search(tag))

    @property
    def names(self) -> tuple[str, ...]:
        """The tags that hold words or pictures, and so perhaps a name."""
        return tuple(tag for tag in self.found if tag not in self.places and tag not in _TIMES)


def read_tags(data: bytes, known: Mapping[str, str]) -> Tags:
    """Return the tags of a recording: those that its decoder met (`known`), and all that a reader of tags finds."""
    names = [name for name, value in known.items() if value.strip()]
    names += _read(data)
    plain = (_plain(name) for name in names)
    return Tags(tuple(dict.fromkeys(name for name in plain if name not in _HARMLESS)))


def _plain(name: str) -> str:
    """Return one name for what the kinds of file call by many."""
    head, _, rest = name.partition(":")
    if head == "TXXX" or head == "----":
        return rest.rpartition(":")[2].lower() or head.lower()
    found = _SAME.get(head, head).lower()
    return "location" if found.startswith("location") else found


def _read(data: bytes) -> Iterator[str]:
    try:
        import mutagen
    except ImportError as error:
        raise not_installed() from error
    try:
        file: Any = mutagen.File(BytesIO(data))
    except Exception:  # damaged tags: the decoder tells whether the recording itself can be read
        return
    if file is None:
        return
    if getattr(file, "pictures", None):
        yield "picture"
    for tag in file.tags or ():
        yield str(tag[0] if isinstance(tag, tuple) else tag)


def not_installed() -> TeacherError:
    """Return the error about the part of the program that is installed only where recordings are used."""
    return TeacherError(
        "The part of cardgen that reads recordings is not installed.", 'Install it: pip install "cardgen[clips]"'
    )
