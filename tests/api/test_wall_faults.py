"""What contradicts itself only once a wall is framed is told with the line of the wall's file."""

from __future__ import annotations

from pathlib import Path

import pytest

from api.cli import main
from api.demo_run import SCENARIO

PRICES = SCENARIO / "price-book.toml"


def a_wall_file(path: Path, name: str, **lines: str) -> Path:
    """Write one of the demo's walls with some lines changed: those that begin with the field."""
    text = (SCENARIO / name).read_text(encoding="utf-8").splitlines()
    for field, value in lines.items():
        number = next(i for i, line in enumerate(text) if line.startswith(f"{field} ="))
        text[number] = f"{field} = {value}"
    path.write_text("\n".join(text), encoding="utf-8")
    return path


def said(capsys: pytest.CaptureFixture[str], *arguments: object) -> str:
    assert main([str(argument) for argument in arguments]) != 0
    return capsys.readouterr().err


def line_of(path: Path, text: str) -> str:
    number = path.read_text(encoding="utf-8").splitlines().index(text) + 1
    return f"line {number}: {text}"


def test_a_framed_wall_too_shallow_quotes_the_line_of_its_depth(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wall = a_wall_file(tmp_path / "shallow.toml", "wall-a.toml", depth_mm="150")

    err = said(capsys, "frame", wall, "--prices", PRICES)

    assert "shallow.toml: wall.depth 150 is less than" in err
    assert line_of(wall, "depth_mm = 150") in err


def test_a_batch_tells_the_faults_of_all_its_walls_with_their_files_lines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first = a_wall_file(tmp_path / "first.toml", "wall-a.toml", depth_mm="150")
    second = a_wall_file(tmp_path / "second.toml", "wall-b.toml", base_height_mm="100")

    err = said(capsys, "plan", first, second, "--prices", PRICES)

    assert "first.toml: wall.depth 150 is less than" in err
    assert line_of(first, "depth_mm = 150") in err
    assert "second.toml: fire.base_height" in err
    assert line_of(second, "base_height_mm = 100") in err


def test_a_slip_of_spelling_is_led_to_the_field_that_is_meant(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wall = tmp_path / "slip.toml"
    wall.write_text(
        'job = "A"\n[site]\nclear_width_mm = 3600\nheight_left_mm = 2400\nfloorfall_mm = 6\n'
        '[wall]\noffset = 30\ndepth_mm = 300\ncolour = "red"\n'
    )

    code = main(["frame", str(wall), "--prices", str(PRICES)])

    told = capsys.readouterr().err.splitlines()
    assert code == 2
    assert any("line 5: floorfall_mm = 6. Write floor_fall_mm, if that is meant" in t for t in told)
    assert any("line 7: offset = 30. Write offset_mm, if that is meant" in t for t in told)
    assert any('line 9: colour = "red". Take it out or correct its spelling' in t for t in told)


def test_a_field_that_is_not_known_and_what_framing_refuses_come_in_one_answer(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wall = a_wall_file(tmp_path / "both.toml", "wall-a.toml", depth_mm="150")
    text = wall.read_text(encoding="utf-8").replace("floor_fall_mm", "flor_fall_mm")
    wall.write_text(text, encoding="utf-8")

    for command in (
        ("frame", wall, "--prices", PRICES),
        ("plan", wall, "--prices", PRICES),
    ):
        err = said(capsys, *command)

        assert "site.flor_fall_mm" in err
        assert "is not a field here" in err
        assert "both.toml: wall.depth 150 is less than" in err
        assert line_of(wall, "depth_mm = 150") in err
