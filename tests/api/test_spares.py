"""`scantling spares`: the table, the chart, and how it refuses."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from api.cli import main

REQUEST = {
    "seconds": 0.5,
    "lengths": [
        {
            "material": "timber",
            "stock": [{"id": "S", "length_mm": 240, "price": "3.60"}],
            "parts": [{"id": "rail", "job": "A", "length_mm": 150, "quantity": 4}],
        }
    ],
}


@pytest.fixture
def files(tmp_path: Path) -> list[str]:
    (tmp_path / "request.json").write_text(json.dumps(REQUEST), encoding="utf-8")
    assert main(["cut", str(tmp_path / "request.json"), "--out", str(tmp_path / "cut")]) == 0
    return [str(tmp_path / "request.json"), str(tmp_path / "cut" / "plan.json")]


def test_the_table_names_spares_and_their_cost_and_the_chart_is_drawn(
    files: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "spares"

    assert main(["spares", *files, "--rate", "timber=5,0", "--out", str(out)]) == 0

    # 0.95 ** 4 keeps all four whole; one spare, broken as seldom, leaves 2.26 %.
    told = capsys.readouterr().out
    assert "without spares: 18.5 %" in told
    assert "at most 5 %: 3.60, leaves 2.26 %\n      1 × S" in told
    drawn = ElementTree.parse(out / "spares.svg").getroot()
    texts = [item.text for item in drawn.iter() if item.text]
    assert "at most 5 %" in texts
    assert "3.60" in texts


def test_json_has_the_levels_asked_for(
    files: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()

    assert main(["spares", *files, "--level", "3", "--handling", "rough", "--json"]) == 0

    document = json.loads(capsys.readouterr().out)
    assert [level["level"] for level in document["levels"]] == [0.03]
    assert document["exposures"][0]["piece_rate"] == 0.02


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--rate", "oak=1,1"], "no material 'oak'"),
        (["--rate", "timber=1"], "has not two rates"),
        (["--rate", "timber=1,x"], "not a number of percent"),
        (["--rate", "timber=100,0"], "no chance"),
        (["--level", "0"], "no chance"),
    ],
)
def test_a_slip_is_bad_input(
    files: list[str], more: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["spares", *files, *more]) == 2
    assert said in capsys.readouterr().err
