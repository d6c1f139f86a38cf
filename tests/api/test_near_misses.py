"""`scantling ease`: which dimension would save stock, told for people and for machines."""

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
                {"id": "A/rail", "job": "A", "length_mm": 120.5, "quantity": 2, "name": "rail"}
            ],
        }
    ],
}


@pytest.fixture
def files(tmp_path: Path) -> list[str]:
    (tmp_path / "request.json").write_text(json.dumps(REQUEST), encoding="utf-8")
    assert main(["cut", str(tmp_path / "request.json"), "--out", str(tmp_path / "cut")]) == 0
    return [str(tmp_path / "request.json"), str(tmp_path / "cut" / "plan.json")]


def test_the_dimension_and_its_saving_are_told(
    files: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ease", *files, "--ease", "rail=3"]) == 0

    told = capsys.readouterr().out
    assert "saves 3.60 for 1 mm in all" in told
    assert "length of A/rail (rail) 120.5 -> 119.5" in told


def test_json_brings_the_eased_request_and_its_plan(
    files: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()

    assert main(["ease", *files, "--ease", "A/*=3", "--json"]) == 0

    (miss,) = json.loads(capsys.readouterr().out)
    assert (miss["saving"], miss["certain"]) == ("3.60", True)
    assert miss["request"]["lengths"][0]["parts"][0]["length_mm"] == 119.5


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--ease", "door=3"], "no part fits 'door'"),
        (["--ease", "rail=much"], "'much' is not a size"),
        (["--ease", "rail=3", "--saving", "-1"], "--saving"),
        ([], "is 0 for every part"),
    ],
)
def test_a_slip_is_bad_input(
    files: list[str], more: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ease", *files, *more]) == 2
    assert said in capsys.readouterr().err
