"""The picture library on paper: every sound with its pictures and cautions, and sheets to have them named."""

import random

from cardgen import ask, plan
from cardgen.games.pieces import CatalogueEntry, CataloguePart
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import CatalogueRequest
from cardgen.sheets.catalogue import catalogue_pages, naming_pages
from cardgen.sheets.marks import Document
from cardgen.sheets.style import Style


def catalogue(request: CatalogueRequest, library: Library, rng: random.Random, _split: bool) -> Sheets:
    """Return the catalogue of some sounds, and naming sheets in an order of chance; TeacherError for an unknown sound.

    On the naming sheets the sounds must not come in rows: a child would guess the next word from the last.
    """
    # 2 words: all that are drawn, under each sound they serve.
    parts = []
    for sound in library.sounds.several(request.all_keys):
        entries = []
        for line in ask.words((sound.key,), request.accent).words:
            word = library.bank.get(line.word)
            if line.picture and word and not line.left_out and library.is_drawn(line.picture):
                cautions = line.verdict.cautions
                entries.append(CatalogueEntry(line.word, line.picture, word.alt, cautions, line.is_key_picture))
        if entries:
            parts.append(CataloguePart(sound.key, f"{sound.capital} {sound.letter}", sound.say, tuple(entries)))
    # 4 sheets: there is no game between words and sheets.
    size, style = request.paper.size, Style.of(request.ink)
    pages = catalogue_pages(parts, size, library.widths)
    each = {entry.picture: entry for part in parts for entry in part.entries}
    pages += naming_pages(rng.sample(list(each.values()), len(each)), size, style, len(pages) + 1)
    title = "Picture words by sound"
    summary = f"{len(each)} pictures of {len(parts)} sounds on {len(pages)} pages."
    document = Document(title, LANGUAGES[request.accent], pages)
    return Sheets((("", document),), (summary,), (), plan.head(request, "sounds"))
