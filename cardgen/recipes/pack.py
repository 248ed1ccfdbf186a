"""Take-home packs: from sounds to one sheet a child, or larger packs that come off the guillotine pile by pile."""

import random
from collections.abc import Mapping
from dataclasses import dataclass, replace

from cardgen.errors import TeacherError
from cardgen.games import pack_text as text
from cardgen.games import take_home as game_of
from cardgen.games.paper_text import count
from cardgen.games.pieces import Backs, Card, CardFace, Cover, FamilyLetter, SayLine, StripField
from cardgen.games.saying import say_lines
from cardgen.games.take_home import LinkOf, Makeup
from cardgen.recipes.again import once_more
from cardgen.recipes.common import close_sounds, key_pictures
from cardgen.recipes.library import Library
from cardgen.recipes.links import Links, check_clips, fine_codes, open_links
from cardgen.recipes.pack_paper import STRIP, PackPaper, backs_of, on_paper
from cardgen.recipes.pack_plan import pack_plan
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import Codes, PackRequest
from cardgen.sheets import card_faces, pack, teacher
from cardgen.sheets import cover as cover_of
from cardgen.sheets.marks import Document, Page
from cardgen.sources.layouts import strip_format
from cardgen.units import Typeface
from cardgen.words.bank import Word
from cardgen.words.clip_names import family_name
from cardgen.words.contrast import check_by_ear
from cardgen.words.pool import Pool, PoolWord, choose_pool, part_of_pool
from cardgen.words.sounds import Sound


@dataclass(frozen=True, slots=True)
class Packed:
    """Packs before they have a place on paper; `words` and `packs` hold one of them where all are the same.

    `letter` is what a page for the family says, None without one.
    """

    made: Makeup
    says: tuple[SayLine, ...]
    pool: Pool
    words: tuple[tuple[PoolWord, ...], ...]
    packs: tuple[tuple[Card, ...], ...]
    cover: Cover
    letter: Cover | None
    strip: Card | None


def pack_sheets(request: PackRequest, library: Library, rng: random.Random, split: bool) -> Sheets:
    """Return the sheets of take-home packs; TeacherError where the request cannot be met, saying what can."""
    # 2 words, 3 games: what is in every pack, and who gets which words.
    in_use = key_pictures(request, library)
    links = open_links(request, Codes.CARD if request.is_large and request.backs is not Backs.NONE else Codes.PACK)
    packed = _packed(request, replace(library, sounds=in_use.sounds), dict(in_use.words), links, rng)
    # 4 sheets: where everything lies on paper.
    keys = request.keys + packed.made.comebacks
    paper = on_paper(request, packed.packs, packed.strip, keys, library.widths, split=split)
    paper.check_only(request.only)
    look_out = (
        *close_sounds(request, library),
        *in_use.notes,
        *packed.pool.notes,
        *([" ".join(packed.pool.we_say)] if packed.pool.we_say else []),
        *text.thin(packed.made, len(request.keys)),
        *check_clips(links, request),
        *_fine(packed, paper),
    )
    use = paper.use(request.ink)
    again = once_more(request, "pack")
    own = _for_you(request, packed, paper, paper.lines(use), look_out, again)
    shown = paper.pages(len(own) + 1, request.only)
    pages = shown if request.only else (*own, *shown)
    title, language = text.title(packed.says), LANGUAGES[request.accent]
    if request.only:
        told = f"Only {', '.join(request.only)}, as in the whole set: {count(len(shown), 'page')}."
    else:
        whole = text.summary(request, packed.made)
        told = f"{whole}; {paper.in_short(use)}, and {count(len(own), 'page')} for you."
    return Sheets(
        paper.split(own, title, language) if split else (("", Document(title, language, pages)),),
        (told, f"The same sheets again: {again[0]}"),
        look_out,
        pack_plan(request, packed.made.comebacks, packed.pool.entries, paper, use, pages),
    )


def _packed(
    request: PackRequest, library: Library, key_words: Mapping[str, Word], links: Links | None, rng: random.Random
) -> Packed:
    made = game_of.makeup(request)
    keys = request.keys + made.comebacks
    check_by_ear(library.sounds, keys)
    sounds = library.sounds.several(keys)
    strip = _strip(library.sounds.several(request.keys), key_words) if request.is_large else None
    words, pool = _words(request, made, library, rng, with_key_pictures=strip is None)
    says = say_lines(library.sounds.several(request.keys))
    cover, letter = _cover(request, library, links, says)
    coded: LinkOf = links.of_clip if links and links.codes is Codes.CARD else lambda _key, _word: None
    backs = backs_of(request) is not Backs.NONE
    packs = tuple(game_of.pack_cards(made, sounds, chosen, cover, request, coded, backs=backs) for chosen in words)
    return Packed(made, says, pool, words, packs, cover, letter, strip)


def _words(
    request: PackRequest, made: Makeup, library: Library, rng: random.Random, *, with_key_pictures: bool
) -> tuple[tuple[tuple[PoolWord, ...], ...], Pool]:
    """Return the words of each pack (of one, if all are the same), and all of them with what is said of them."""
    new, earlier = game_of.quotas(made.new, request.keys), game_of.quotas(made.earlier, made.comebacks)
    most = max([*new.values(), *earlier.values()])
    sounds = library.sounds.several(request.keys + made.comebacks)
    pool = choose_pool(
        library.bank,
        library.sounds,
        request.keys + made.comebacks,
        per_key=most * (game_of.WORDS_APART if request.vary else 1),
        fewer=True,
        key_pictures=with_key_pictures,
        accent=request.accent,
        rng=rng,
        careful=request.careful,
        drawable=library.is_drawn,
    )
    if request.vary:
        parts = ((request.keys, made.new), (made.comebacks, made.earlier))
        words = game_of.varied_words(pool.entries, parts, request.children, rng)
    else:
        words = [game_of.same_words(pool.entries, new) + game_of.same_words(pool.entries, earlier)]
    in_play = {entry.word.word for chosen in words for entry in chosen}
    if not in_play:
        raise TeacherError("There is no picture word for these sounds.", "`cardgen words` shows what there is.")
    taken = part_of_pool([entry for entry in pool.entries if entry.word.word in in_play], sounds)
    return tuple(map(tuple, words)), taken


def _cover(
    request: PackRequest, library: Library, links: Links | None, says: tuple[SayLine, ...]
) -> tuple[Cover, Cover | None]:
    """Return the cover, and what a page for the family says where the teacher's text is too long for it."""
    own = request.font is not None
    face = Typeface.OWN if own else Typeface.TEXT
    told = text.family_text(request.text, face, library.widths) if request.text else ""
    link = links.of_pack(family_name(request.family) if request.family else None) if links else None
    code = f"code to hear {'how to play' if request.family else 'the sounds and words'}: {link.shown}" if link else ""
    cover = Cover(link, code, says, told, own)
    if cover_of.fits(cover, library.widths):
        return cover, None
    return replace(cover, text=""), cover if told else None


def _strip(sounds: tuple[Sound, ...], key_words: Mapping[str, Word]) -> Card | None:
    """Return the sorting strip; None for one sound alone, and for more than it has room for."""
    if not 2 <= len(sounds) <= strip_format(STRIP).most_sides:
        return None
    sides = []
    for sound in sounds:
        word = key_words.get(sound.key)
        letters = (sound.capital, sound.letter)
        sides.append(StripField(sound.key, letters, word.picture if word else None, word.alt if word else ""))
    return Card(STRIP, CardFace(strip=tuple(sides)))


def _fine(packed: Packed, paper: PackPaper) -> tuple[str, ...]:
    """Return a warning if a code is too fine for a phone."""
    card = paper.book.block.card
    found = [(code, card_faces.code_module(code, card)) for one in paper.book.every_card if (code := one.back.code)]
    if packed.cover.link:
        found.append((packed.cover.link, cover_of.module(packed.cover, paper.widths)))
    return fine_codes(found)


def _for_you(
    request: PackRequest,
    packed: Packed,
    paper: PackPaper,
    hands: tuple[str, ...],
    look_out: tuple[str, ...],
    again: tuple[str, ...],
) -> tuple[Page, ...]:
    """Return the teacher's page, and the page for the family if there is one."""
    blocks = text.blocks(
        request,
        packed.made,
        packed.words,
        packed.cover.link,
        hands,
        look_out,
        again,
        apart=paper.book.apart,
        strip=packed.strip is not None,
        letter=packed.letter is not None,
    )
    content = teacher.TeacherPage(text.title(packed.says), text.summary(request, packed.made), packed.says, blocks)
    size, imprint, widths = request.paper.size, paper.book.imprint, paper.widths
    pages = teacher.teacher_pages(content, size, imprint=imprint, widths=widths, first_page=1)
    if not packed.letter:
        return pages
    told = FamilyLetter(packed.letter, "copy it for every family")
    return (*pages, pack.letter_page(told, size, imprint=imprint, widths=widths, number=len(pages) + 1))
