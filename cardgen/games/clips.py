"""From sounds and words to the list of recordings, sound by sound, each with the name of its file."""

from collections.abc import Sequence
from dataclasses import replace

from cardgen.games.pieces import Clip
from cardgen.words.clip_names import FAMILY, clip_name, family_name
from cardgen.words.pool import Pool
from cardgen.words.sounds import Sound


def clips_of(sounds: Sequence[Sound], pool: Pool, languages: Sequence[str]) -> tuple[Clip, ...]:
    """Return the recordings in the order of recording: each sound, then its words; at the end the home languages."""
    found: list[Clip] = []
    for sound in sounds:
        found.append(Clip(0, clip_name(sound.key), sound.say, _how(sound), sound.key, sound.letter))
        for entry in pool.entries:
            if entry.key == sound.key:
                word = entry.word.word
                found.append(Clip(0, clip_name(sound.key, word), word, "", sound.key, sound.letter, word))
    for language in languages:
        name = family_name(language)
        tag = name.removeprefix(f"{FAMILY}-")
        found.append(Clip(0, name, "how to play", f"in the family's language ({tag})", language=tag))
    return tuple(replace(clip, number=number) for number, clip in enumerate(found, start=1))


def _how(sound: Sound) -> str:
    """Return what helps to say a sound right, after the sound itself."""
    return sound.say_line.removeprefix(f"{sound.say}: ")
