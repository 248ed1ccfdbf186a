import json
from typing import Any

import pytest
from click.testing import CliRunner, Result

from cardgen.cli import overview


def run(*args: str) -> Result:
    return CliRunner().invoke(overview, args)


def records(*args: str) -> list[dict[str, Any]]:
    return [json.loads(line) for line in run(*args).stdout.splitlines()]


def test_sounds_is_a_table_a_teacher_can_read() -> None:
    shown = run("sounds")
    assert shown.exit_code == 0
    head, *lines = shown.stdout.splitlines()
    assert head.split()[:4] == ["sound", "letter", "words", "good"]
    assert len([line for line in lines if not line.startswith(" ")]) == 46
    assert max(map(len, lines)) <= 100
    column = head.index("say")
    assert all(line[column - 1] == " " for line in lines)
    assert any(line.startswith("qu ") and "Qu qu" in line for line in lines)


def test_sounds_as_json() -> None:
    found = {record["key"]: record for record in records("sounds", "--json")}
    assert len(found) == 46
    assert found["m"]["letter"] == "m"
    assert found["m"]["capital"] == "M"
    assert found["m"]["say"] == "mmm"
    assert found["m"]["key_picture"] == "mouse"
    assert found["m"]["words"] >= found["m"]["good"] > 0
    assert found["long-a"]["letter"] == "a"
    assert found["x"]["at"] == "end"


def test_words_with_their_cautions() -> None:
    shown = run("words", "m", "s")
    assert shown.exit_code == 0
    assert "mmm: lips closed, voice on; not em, not muh" in shown.stdout
    assert "Children may well say glove for mitten." in shown.stdout
    assert "mouse (key picture)" in shown.stdout
    assert "mountain" not in shown.stdout
    assert "--all shows why" in shown.stdout
    everything = run("words", "m", "s", "--all").stdout
    assert "A child may say snow, which begins with the sound of s." in everything.replace("\n", " ").replace("  ", " ")
    assert "--all shows why" not in everything


def test_words_as_json() -> None:
    plain, everything = records("words", "m", "s", "--json"), records("words", "m", "s", "--all", "--json")
    moon = next(record for record in plain if record["word"] == "moon")
    assert moon == {
        "word": "moon",
        "key": "m",
        "verdict": "good",
        "reasons": [],
        "picture": "moon",
        "key_picture": False,
        "left_out": [],
    }
    assert not any(record["left_out"] for record in plain)
    assert any(record["left_out"] for record in everything)


def test_words_warn_of_close_sounds() -> None:
    assert "Look out: m and n sound close" in run("words", "m", "n").stdout
    assert "Look out: Often hard for speakers of Korean" in run("words", "l", "r", "--home-language", "korean").stdout


def test_word_as_json_is_one_object_a_line() -> None:
    (giraffe, moon) = records("word", "giraffe", "moon", "--for", "g", "--json")
    assert list(giraffe) == ["word", "key", "verdict", "first_sound", "readings", "reasons"]
    assert giraffe == {
        "word": "giraffe",
        "key": "g",
        "verdict": "wrong",
        "first_sound": "j",
        "readings": ["JH ER0 AE1 F"],
        "reasons": ["giraffe begins with the sound of j, not g."],
    }
    assert moon["verdict"] == "wrong"


def test_an_unknown_word_is_told_after_the_last_and_leaves_with_one() -> None:
    shown = run("word", "blorf", "moon", "--json")
    assert shown.exit_code == 1
    unknown, moon = map(json.loads, shown.stdout.splitlines())
    assert unknown["verdict"] is None
    assert unknown["first_sound"] is None
    assert moon["verdict"] == "good"
    assert run("word", "moon", "--json").exit_code == 0


def test_word_in_plain_words() -> None:
    shown = run("word", "giraffe", "ice cream", "blorf", "--for", "g")
    assert "giraffe    begins with j       wrong for g" in shown.stdout
    assert "begins with long-i" in shown.stdout
    assert "check the" in shown.stdout


def test_accent_and_spelling() -> None:
    assert records("word", "sofa", "--accent", "gb", "--json")[0]["verdict"] == "good"
    assert records("word", "sofa", "--json")[0]["verdict"] == "caution"
    assert records("word", "giraffe", "--for", "j", "--any-spelling", "--json")[0]["verdict"] == "good"


@pytest.mark.parametrize(
    "args", [("words", "mm"), ("word", "moon", "--for", "mm"), ("words", "m", "--home-language", "x")]
)
def test_what_a_teacher_can_mend_is_one_sentence_and_a_hint(args: tuple[str, ...]) -> None:
    shown = run(*args)
    assert shown.exit_code == 1
    assert shown.stderr.startswith("Error: ")
    assert len(shown.stderr.splitlines()) == 2
    assert shown.stdout == ""


@pytest.mark.parametrize("command", ["sounds", "words", "word"])
def test_help_has_an_example(command: str) -> None:
    shown = run(command, "--help")
    assert shown.exit_code == 0
    assert f"cardgen {command}" in shown.stdout.partition("Example")[2]


def test_wrong_usage_leaves_with_two() -> None:
    assert run("words").exit_code == 2
    assert run("word", "moon", "--accent", "scots").exit_code == 2
