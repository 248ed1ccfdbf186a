import pytest

from cardgen.cli import COMMANDS, main


def run(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as left:
        main(list(args))
    shown = capsys.readouterr()
    return int(left.value.code or 0), shown.out, shown.err


def test_the_overview_lists_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "--help")
    assert code == 0
    assert all(f"  {name}" in out for name in COMMANDS)
    assert "Example:" in out


@pytest.mark.parametrize("name", list(COMMANDS))
def test_every_command_helps_with_an_example(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, name, "--help")
    assert code == 0
    assert f"cardgen {name}" in out.partition("Example")[2]


def test_a_wrong_command_is_answered_with_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "bingoo")
    assert code == 2
    assert "Did you mean bingo?" in err


def test_a_wrong_option_is_a_usage_error(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, "bingo", "m", "--nonsense")[0] == 2
    assert run(capsys, "bingo")[0] == 2


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "--version")
    assert code == 0
    assert out.startswith("cardgen, version ")
