"""What several recipes need: key pictures, what tells close sounds apart, whether asked pieces are there."""

from collections.abc import Collection, Sequence

from cardgen.errors import TeacherError
from cardgen.recipes.library import Library
from cardgen.request import SheetRequest
from cardgen.words.contrast import By, contrasts
from cardgen.words.key_pictures import KeyPictures
from cardgen.words.key_pictures import key_pictures as key_pictures_of

MOST_EXPLAINED = 4


def key_pictures(request: SheetRequest, library: Library) -> KeyPictures:
    """Return the key pictures of the request's sounds as they suit its first language; TeacherError for that."""
    return key_pictures_of(
        library.sounds,
        request.all_keys,
        library.bank,
        library.contrasts,
        request.home_language,
        library.is_drawn,
        request.accent,
    )


def close_sounds(request: SheetRequest, library: Library) -> list[str]:
    """Return what tells close sounds and letters apart; many pairs are only named, or they would fill the page."""
    every = contrasts(library.sounds, library.contrasts, request.all_keys, request.home_language)
    at_home = [contrast.text for contrast in every if contrast.by is By.HOME]
    found = [contrast for contrast in every if contrast.by is not By.HOME]
    if len(found) <= MOST_EXPLAINED:
        return [contrast.text for contrast in found] + at_home
    heads = {By.SOUND: "Same sound", By.EAR: "Close by ear", By.EYE: "Close by eye"}
    lines = []
    for by, head in heads.items():
        pairs = dict.fromkeys("–".join(contrast.keys) for contrast in found if contrast.by is by)
        if pairs:
            lines.append(f"{head}: {', '.join(pairs)}.")
    return lines + at_home


def and_list(words: Sequence[str]) -> str:
    """Return some words as a list in a sentence: a, b and c."""
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))


def check_there(wanted: Collection[int] | Collection[str], there: Sequence[int] | Sequence[str], what: str) -> None:
    """Refuse pieces of `--only` that are not in the set, by TeacherError naming those that are."""
    for name in wanted:
        if name not in there:
            some = ", ".join(map(str, there[:30])) + (" …" if len(there) > 30 else "")
            raise TeacherError(
                f"There is no {what} {name} in this set.",
                f"The {what}s are {some}. Give the same sounds, options and --seed as on the sheet.",
            )
