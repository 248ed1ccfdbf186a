from random import Random

import pytest

from cardgen.errors import TeacherError
from cardgen.games.clips import clips_of
from cardgen.games.clips_text import how_to_record, summary
from cardgen.request import ClipListRequest
from cardgen.sources.bank_file import read_bank, read_sounds
from cardgen.words.pool import Pool, choose_pool

SOUNDS, BANK = read_sounds(), read_bank()


def pool(keys: tuple[str, ...], per_key: int, *, fewer: bool = True) -> Pool:
    return choose_pool(BANK, SOUNDS, keys, per_key=per_key, fewer=fewer, rng=Random(1))


def test_a_sound_comes_before_its_words_and_the_families_last() -> None:
    clips = clips_of(SOUNDS.several(("m", "s")), pool(("m", "s"), 2), ("es", "uk"))
    assert [clip.number for clip in clips] == list(range(1, 9))
    assert [clip.name.partition("-")[0] for clip in clips] == ["m", "m", "m", "s", "s", "s", "family", "family"]
    assert [clip.word is None for clip in clips] == [True, False, False, True, False, False, True, True]
    assert (clips[0].say, clips[0].how) == ("mmm", "lips closed, voice on; not em, not muh")
    assert clips[-1].language == "uk"


def test_a_scarce_sound_gives_what_it_has() -> None:
    counts = {key: sum(entry.key == key for entry in pool(("m", "qu"), 9).entries) for key in ("m", "qu")}
    assert counts["m"] == 9
    assert 0 < counts["qu"] < 9
    assert "do not have the same number" in " ".join(pool(("m", "qu"), 9).notes)
    with pytest.raises(TeacherError, match="every sound needs 9"):
        pool(("m", "qu"), 9, fewer=False)


def test_the_head_of_the_list_tells_how() -> None:
    with_family = " ".join(how_to_record(("es",), "cardgen clips name FOLDER"))
    assert "family-es: tell the family how to play" in with_family
    assert "never a child" in with_family
    assert "cardgen clips name FOLDER" in with_family
    assert "family" not in " ".join(how_to_record((), ""))
    assert summary(clips_of(SOUNDS.several(("m",)), Pool((), ()), ()), 1).startswith("1 recording, about 1 minute of")


@pytest.mark.parametrize(("field", "value"), [("words", 21), ("words", -1), ("family", ("es", "es")), ("keys", ())])
def test_a_request_that_cannot_be_met_is_refused(field: str, value: object) -> None:
    fields = {"keys": ("m",), field: value}
    with pytest.raises(TeacherError):
        ClipListRequest(**fields)  # type: ignore[arg-type]
