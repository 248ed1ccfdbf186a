"""How recordings are called: the sound alone, the sound and a word, or a home language's "how to play".

Names are made of unreserved characters only (RFC 3986, 2.3), so that a link to a recording is the name as it is read.
"""

import re
from unicodedata import combining, normalize

from cardgen.errors import TeacherError

FAMILY = "family"

_OTHERS = re.compile(r"[^a-z0-9]+")
_LANGUAGE = re.compile(r"[a-z]{2,3}(-[a-z0-9]{2,8})*")  # the shape of a language tag (BCP 47)


def clip_name(key: str, word: str | None = None) -> str:
    """Return the name of the recording of a sound ("m"), or of one of its words ("m-moon"), without a suffix.

    TeacherError for a word that has no letter or figure of the Latin alphabet to name a file by.
    """
    if word is None:
        return key
    # The apostrophe goes, other signs become hyphens, accents are dropped.
    letters = normalize("NFKD", word.casefold().replace("'", "").replace("’", ""))
    name = _OTHERS.sub("-", "".join(letter for letter in letters if not combining(letter))).strip("-")
    if not name:
        raise TeacherError(f'No file can be named after "{word}".', "Write the word in Latin letters.")
    return f"{key}-{name}"


def family_name(language: str) -> str:
    """Return the name of the recording "how to play" in a home language: "family-es"; TeacherError if it is none."""
    tag = language.strip().lower().replace("_", "-")
    if not _LANGUAGE.fullmatch(tag):
        raise TeacherError(
            f'"{language}" is not a language as the web writes it.',
            "Use its short tag: es for Spanish, pl for Polish, uk for Ukrainian, zh for Chinese; --family es",
        )
    return f"{FAMILY}-{tag}"
