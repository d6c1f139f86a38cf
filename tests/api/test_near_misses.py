"""`scantling ease`: which dimension would save stock, told for people and for machines."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from api.cli import main
from api.near_misses import near_misses_text, part_names, told_runs
from optimiser import Easing, NearMiss, Pence, Tenths

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
        ([], "--ease: is missing, and no part has an ease"),
    ],
)
def test_a_slip_is_bad_input(
    files: list[str], more: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ease", *files, *more]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize(
    ("ids", "told"),
    [
        (("A/s3",), "A/s3"),
        (("A/s9", "A/s10", "A/s8"), "3 parts A/s8 to A/s10"),
        (("A/s1", "A/s2"), "2 parts A/s1, A/s2"),
        (("A/s1", "A/s2", "A/s3", "A/s7", "B/s4"), "5 parts A/s1 to A/s3, A/s7, B/s4"),
        (("A/top", "A/foot"), "2 parts A/foot, A/top"),
    ],
)
def test_parts_whose_marks_count_on_are_told_as_a_run(ids: tuple[str, ...], told: str) -> None:
    assert part_names(ids) == told


def test_like_easings_are_one_line_with_the_field_of_the_wall(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # By hand: 240 holds one of 120.5; with a cut of 1 it holds 120.5 and 118.5, three times.
    parts = [
        {
            "id": f"A/s{number}",
            "job": "A",
            "length_mm": 120.5,
            "quantity": 1,
            "name": "stud",
            "ease_mm": 3,
            "dimension_from": {"length": ["wall.ceiling"]},
        }
        for number in range(1, 7)
    ]
    request = json.loads(json.dumps(REQUEST))
    request["lengths"][0]["parts"] = parts
    (tmp_path / "request.json").write_text(json.dumps(request), encoding="utf-8")
    assert main(["cut", str(tmp_path / "request.json"), "--out", str(tmp_path / "cut")]) == 0
    files = [str(tmp_path / "request.json"), str(tmp_path / "cut" / "plan.json")]
    capsys.readouterr()

    assert main(["ease", *files, "--saving", "10.80"]) == 0

    told = capsys.readouterr().out
    assert "saves 10.80 for 6 mm in all" in told
    assert (
        "job A: length of 3 parts A/s1, A/s3, A/s5 (stud) 120.5 -> 118.5 (2 less each), "
        "from wall.ceiling" in told
    )
    assert told.count("job A") == 1


def a_miss(place: int, runs: int = 1) -> NearMiss:
    """A near miss of a wall's parts, `runs` of them each of its own name."""
    easings = tuple(
        Easing(
            part=f"A/{place}-{run}",
            job="A",
            name=f"piece {run}",
            dimension="length",
            asked=Tenths(1_000),
            eased=Tenths(990 - run),
            fields=("wall.width",),
        )
        for run in range(runs)
    )
    unread: Any = None
    return NearMiss(
        material=f"timber {place}",
        easings=easings,
        purchase=Pence(100),
        saving=Pence(50),
        certain=True,
        fewest=True,
        request=unread,
        plan=unread,
    )


def test_the_best_few_sets_are_told_and_how_many_more_there_are() -> None:
    told = near_misses_text(tuple(a_miss(place) for place in range(8)))

    assert "timber 4" in told
    assert "timber 5" not in told
    assert "and 3 more that save less per mm" in told


def test_one_more_is_told_as_one() -> None:
    told = near_misses_text(tuple(a_miss(place) for place in range(6)))

    assert "and 1 more that saves less per mm" in told
    assert told_runs(a_miss(0, runs=7))[-1] == "and 1 more part, 1 mm: the saving needs it too"


def test_of_a_set_of_dozens_those_that_ask_for_most_are_told_with_their_fields() -> None:
    told = told_runs(a_miss(0, runs=24))

    assert len(told) == 7
    assert "piece 23" in told[0]
    assert all("from wall.width" in line for line in told[:-1])
    # 18 smaller easings of 1.0 to 2.7 mm: 18 · 1.85.
    assert told[-1] == "and 18 more parts, 33.3 mm in all: the saving needs them too"
