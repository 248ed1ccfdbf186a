"""Small files that unpack to a lot are refused, or read in little memory and time."""

from pathlib import Path

import pytest

from tests.hostile.bombs import BOMBS, RESIDENT_MB, set_off

SECONDS = 10


@pytest.mark.parametrize("name", BOMBS)
def test_a_bomb_does_no_harm(name: str, tmp_path: Path) -> None:
    blast = set_off(name, tmp_path)
    assert "Traceback" not in blast.said
    assert blast.code in (0, 1, 2)
    assert blast.seconds < SECONDS
    assert blast.peak_mb < RESIDENT_MB
    assert blast.file in blast.said
