"""What to record, as a sheet: from sounds to words, names of files, and the list that lies beside the phone."""

import random
from dataclasses import replace

from cardgen.games import clips_text as text
from cardgen.games.clips import clips_of
from cardgen.games.pieces import ClipList, Imprint
from cardgen.recipes.again import command
from cardgen.recipes.clips_plan import clips_plan
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import ClipListRequest, Paper
from cardgen.sheets.clips import clip_pages
from cardgen.sheets.marks import Document
from cardgen.words.pool import Pool, choose_pool


def clips(request: ClipListRequest, library: Library, rng: random.Random, _split: bool) -> Sheets:
    """Return the recording list of some sounds; TeacherError for an unknown sound or language."""
    # 2 words, 3 games: the pieces are the recordings.
    listed, pool = to_record(request, library, rng)
    # 4 sheets
    imprint = Imprint("clips list", request.all_keys, request.seed)
    pages = clip_pages(listed, request.paper.size, imprint=imprint, widths=library.widths)
    document = Document(text.TITLE, LANGUAGES[request.accent], pages)
    summary = text.summary(listed.clips, len(pages))
    return Sheets((("", document),), (summary,), pool.notes, clips_plan(request, listed, pool, pages))


def to_record(request: ClipListRequest, library: Library, rng: random.Random) -> tuple[ClipList, Pool]:
    """Return the recordings that a request asks for and the words among them; TeacherError where there is none.

    The words are those that a game of these sounds takes; a scarce sound gives what it has.
    """
    sounds = library.sounds.several(request.all_keys)
    pool = Pool((), ())
    if request.words:
        pool = choose_pool(
            library.bank,
            library.sounds,
            request.all_keys,
            per_key=request.words,
            fewer=True,
            accent=request.accent,
            rng=rng,
            careful=request.careful,
            drawable=library.is_drawn,
        )
    # The options of the page are not those of the other commands.
    naming = command(replace(request, paper=Paper.A4), "clips name FOLDER --in-order")
    return ClipList(clips_of(sounds, pool, request.family), text.how_to_record(request.family, naming)), pool
