"""`scantling frame --new`: a wall file to start from, which frames at once and is never lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from api.cli import main

PRICES = Path(__file__).parents[2] / "api" / "demo" / "price-book.toml"


def test_a_new_wall_file_frames_as_it_stands(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, out = tmp_path / "new.toml", tmp_path / "out"

    assert main(["frame", "--new", str(path)]) == 0
    assert main(["frame", str(path), "--prices", str(PRICES), "--out", str(out)]) == 0

    told = capsys.readouterr().out
    assert "TAKEN WHERE NOTHING WAS SAID" in told
    assert "fire.base_height: 300 mm" in told
    assert {file.name for file in out.iterdir()} >= {"new-pictorial.svg", "new-set-out.txt"}


def test_a_file_that_is_there_is_not_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("job = 'mine'\n", encoding="utf-8")

    assert main(["frame", "--new", str(path)]) == 2

    assert "is there already" in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "job = 'mine'\n"


def test_a_wall_without_a_price_book_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "new.toml"
    main(["frame", "--new", str(path)])

    assert main(["frame", str(path)]) == 2

    assert "--prices" in capsys.readouterr().err
