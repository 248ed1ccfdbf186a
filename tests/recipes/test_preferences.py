"""Words a teacher would rather have, or not: her own pictures, her recordings, --prefer and --avoid."""

from pathlib import Path

import pytest
from PIL import Image

from cardgen.build import prepare
from cardgen.errors import TeacherError
from cardgen.request import BingoRequest, FlashcardsRequest, PackRequest

HAT, FROG = "hat", "frog"


def words(request: FlashcardsRequest) -> set[str]:
    return {str(card["id"]).partition("-")[2] for card in prepare(request).sheets.plan["cards"]}


@pytest.mark.parametrize("seed", range(4))
def test_preferred_words_come_first_and_avoided_ones_never(seed: int) -> None:
    plain = FlashcardsRequest(keys=("h", "f"), seed=seed, words=3)
    wanted = FlashcardsRequest(keys=("h", "f"), seed=seed, words=3, prefer=("horse", "feather"), avoid=("house",))
    assert {"horse", "feather"} <= words(wanted)
    assert "house" in words(plain)  # the key picture
    assert "house" not in words(wanted)


@pytest.mark.parametrize("seed", range(4))
def test_words_of_her_own_pictures_come_first(seed: int, tmp_path: Path) -> None:
    for name in (HAT, FROG):
        Image.new("RGB", (900, 900), "#88AA44").save(tmp_path / f"{name}.jpg")
    made = prepare(PackRequest(keys=("h", "f"), seed=seed, children=2, pictures=str(tmp_path)))
    assert {HAT, FROG} <= set(made.drawings)
    assert not any("Not used" in warning for warning in made.warnings)


def test_a_picture_of_hers_that_is_not_used_is_named(tmp_path: Path) -> None:
    for name in ("hat", "horse", "hand", "hammer"):
        Image.new("RGB", (900, 900), "#88AA44").save(tmp_path / f"{name}.jpg")
    made = prepare(FlashcardsRequest(keys=("h", "f"), seed=1, words=2, pictures=str(tmp_path)))
    (told,) = (warning for warning in made.warnings if "Not used" in warning)
    unused = {"hat", "horse", "hand", "hammer"} - set(made.drawings)
    assert unused
    assert all(name in told for name in unused)


def test_words_she_recorded_come_first(tmp_path: Path) -> None:
    for name in ("h", "f", "h-horse", "h-hammer", "h-hand", "f-feather", "f-fish", "f-fence"):
        (tmp_path / f"{name}.wav").write_bytes(b"RIFF")
    request = PackRequest(keys=("h", "f"), seed=3, children=1, link="https://example.org/h-f", clips=str(tmp_path))
    assert {"horse", "hammer", "hand", "feather", "fish", "fence"} == set(prepare(request).drawings)


@pytest.mark.parametrize(
    ("more", "told", "hint"),
    [
        ({"prefer": ("hors",)}, '"hors" is not one of the words', "Did you mean horse"),
        ({"avoid": ("hamer",)}, '"hamer" is not one of the words', "Did you mean hammer"),
        ({"prefer": ("hen",)}, "no picture of hen yet", "--pictures"),
        ({"prefer": ("hat",), "avoid": ("hat",)}, "preferred and avoided", "one of the two"),
    ],
)
def test_what_cannot_be_preferred_or_avoided_is_told(more: dict[str, tuple[str, ...]], told: str, hint: str) -> None:
    with pytest.raises(TeacherError, match=told) as caught:
        prepare(BingoRequest(keys=("h", "f"), seed=1, **more))  # type: ignore[arg-type]
    assert hint in caught.value.hint
