"""`scantling replan`: what it prints and writes, and how it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from api.cli import main

REQUEST = {
    "seconds": 0.5,
    "lengths": [
        {
            "material": "timber",
            "kerf_mm": 1,
            "stock": [{"id": "S", "length_mm": 240, "price": "3.60"}],
            "parts": [
                {"id": "long", "job": "A", "length_mm": 150, "quantity": 2},
                {"id": "short", "job": "A", "length_mm": 70, "quantity": 2},
            ],
        }
    ],
}
MARKS = '[[marks]]\nmaterial = "timber"\nlayout = 1\nstate = "started"\ncuts = 1\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "request.json").write_text(json.dumps(REQUEST), encoding="utf-8")
    assert main(["cut", str(tmp_path / "request.json"), "--out", str(tmp_path / "cut")]) == 0
    return tmp_path


def replan(folder: Path, marks: str, *more: str) -> int:
    (folder / "marks.toml").write_text(marks, encoding="utf-8")
    names = [folder / "request.json", folder / "cut" / "plan.json", folder / "marks.toml"]
    return main(["replan", *map(str, names), *more])


def test_the_rest_is_written_and_passes_the_check(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rest = folder / "rest"

    assert replan(folder, MARKS + 'spoiled = ["long"]\n', "--out", str(rest)) == 0

    assert "buy 1 × S" in capsys.readouterr().out
    assert list((rest / "diagrams").glob("*.svg"))
    assert main(["check", str(rest / "request.json"), str(rest / "plan.json")]) == 0


def test_json_says_where_a_remnant_comes_from(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()

    assert replan(folder, MARKS, "--json") == 0

    document = json.loads(capsys.readouterr().out)
    (piece,) = document["rest"]["floor"]
    assert (piece["layout"], piece["piece"], piece["name"]) == (1, 1, "rest")
    assert document["finished"] == [{"part": "long", "count": 1}]


def test_all_cut_and_good_leaves_nothing_to_do(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    marks = MARKS.replace('"started"\ncuts = 1', '"cut"\npieces = 2')

    assert replan(folder, marks) == 0

    assert "Nothing is left to do" in capsys.readouterr().out


def test_marks_that_contradict_the_plan_are_bad_input(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert replan(folder, MARKS.replace("cuts = 1", "cuts = 7")) == 2
    assert "marks[0].cuts" in capsys.readouterr().err
