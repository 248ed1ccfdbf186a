"""Which codes a request's sheets carry: from her link and table to each recording, and which recording is missing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from cardgen.errors import TeacherError
from cardgen.games.pieces import Link
from cardgen.request import Codes, SheetRequest
from cardgen.sources import codes
from cardgen.sources.clips import missing
from cardgen.sources.link_list import read_links
from cardgen.words.clip_names import clip_name
from cardgen.words.links import INDEX, address_of, check_folder, shown, too_fine, warnings

MOST_NAMED = 12


@dataclass(slots=True)
class Links:
    """Where codes lead: `base` is the folder's link, `listed` the addresses of her table by word or recording.

    It notes which codes were asked for, so that at the end it can be told what is missing.
    """

    base: str | None
    listed: Mapping[str, str]
    codes: Codes
    taken: dict[str, Link] = field(default_factory=dict)
    without: list[str] = field(default_factory=list)
    recorded: list[str] = field(default_factory=list)

    def of_clip(self, key: str, word: str | None = None) -> Link | None:
        """Return the link to the recording of a sound or one of its words; None where she gave no address for it."""
        name = clip_name(key, word)
        by_name = self.listed.get(name.casefold()) or (self.listed.get(word.casefold()) if word else None)
        return self._take(name, by_name)

    def of_pack(self, family: str | None = None) -> Link | None:
        """Return the link of a whole pack: how to play in a home language, or else the first of the listening pages."""
        if family:
            return self._take(family, self.listed.get(family))
        index = self.listed.get(INDEX)
        if index is None and self.base is not None:
            index = address_of(self.base, INDEX)
            # Who types it needs the folder only: sites answer with this page.
            self.taken[INDEX] = Link(index, codes.modules(index), shown(self.base.rstrip("/")))
        return self._noted(INDEX, index)

    def _take(self, name: str, by_name: str | None) -> Link | None:
        if by_name is None and self.base is not None and name not in self.recorded:
            self.recorded.append(name)
        return self._noted(name, by_name or (address_of(self.base, name) if self.base is not None else None))

    def _noted(self, name: str, address: str | None) -> Link | None:
        if address is None:
            if name not in self.without:
                self.without.append(name)
            return None
        if name not in self.taken:
            self.taken[name] = Link(address, codes.modules(address), shown(address))
        return self.taken[name]


def open_links(request: SheetRequest, default: Codes) -> Links | None:
    """Return where the codes of a request lead, None where there are none; `default` is where they stand by themselves.

    TeacherError for a link that cannot be printed and a table that cannot be read.
    """
    base = check_folder(request.link) if request.link is not None else None
    listed = read_links(request.links) if request.links is not None else {}
    chosen = request.codes or default
    if (base is None and not listed) or chosen is Codes.NONE:
        return None
    return Links(base, listed, chosen)


def check_clips(links: Links | None, request: SheetRequest) -> tuple[str, ...]:
    """Return what to look out for in the codes that were taken; TeacherError for one whose recording is not there."""
    if links is None:
        return ()
    lines = list(warnings([link.address for link in links.taken.values()]))
    if links.without:
        lines.append(f"No link, so no code, for {_some(links.without)}.")
    absent = missing(request.clips, links.recorded) if request.clips is not None else ()
    if absent and not request.codes_anyway:
        raise TeacherError(
            f"There is no recording yet of {_some(absent)}: the code would lead nowhere.",
            "Record what is missing (`cardgen clips test` shows it), or print the codes all the same with "
            "--codes-anyway.",
        )
    if absent:
        lines.append(f"Not recorded yet, so these codes lead nowhere until it is: {_some(absent)}.")
    return tuple(lines)


def fine_codes(modules: Sequence[tuple[Link, float]]) -> tuple[str, ...]:
    """Return a warning for the finest of some codes, given the size of a module of each in mm; empty if all are fit."""
    if not modules:
        return ()
    link, module = min(modules, key=lambda pair: pair[1])
    line = too_fine(link.address, module)
    return (line,) if line else ()


def _some(names: Sequence[str]) -> str:
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return ", ".join(names[:MOST_NAMED]) + more
