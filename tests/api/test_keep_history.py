"""Keep rules that follow from what became of offcuts: by command line and by service."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from api.cli import main
from api.demo_run import SCENARIO
from tests.api.bodies import Caller, a_batch_body, a_service, the_problem

HEADER = "material,length_mm,width_mm,height_mm,racked,ended,fate\n"


def a_history(folder: Path, rows: str) -> Path:
    path = folder / "history.csv"
    path.write_text(HEADER + rows, encoding="utf-8")
    return path


def plan_a_wall(*extra: str) -> int:
    wall, prices = SCENARIO / "wall-a.toml", SCENARIO / "price-book.toml"
    return main(["plan", str(wall), "--prices", str(prices), "--seconds", "0.2", *extra])


def test_a_plan_by_history_says_what_it_keeps_and_writes_it_into_the_request(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    thrown = "c16-38x63,700,,,2026-01-05,2026-03-05,thrown\n" * 40
    history, out = a_history(tmp_path, thrown), tmp_path / "out"

    assert plan_a_wall("--rack-history", str(history), "--out", str(out)) == 0

    assert "WORTH KEEPING, by what became of offcuts" in capsys.readouterr().out
    request = json.loads((out / "request.json").read_text(encoding="utf-8"))
    keep = {item["material"]: item["keep"] for item in request["lengths"] + request["sheets"]}
    assert all(keep.values())
    assert keep["c16-38x63"]["length_mm"] > 700


def test_a_history_that_cannot_be_read_is_refused_with_its_row(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    history = a_history(tmp_path, "c16-38x63,700,,,2031-01-05,,\n")

    assert plan_a_wall("--rack-history", str(history)) == 2

    assert "ahead of today" in capsys.readouterr().err


def test_parts_to_come_without_a_history_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert plan_a_wall("--coming", str(SCENARIO / "parts.csv")) == 2

    assert "--coming: stands without --rack-history" in capsys.readouterr().err


def test_the_service_takes_the_history_from_its_ledger() -> None:
    service = Caller(a_service())

    answer = service.post("/v1/batches", a_batch_body(keep_by_history=True)).json()

    request = service.get(f"/v1/plans/{answer['id']}").json()["request"]
    assert all(item["keep"] for item in request["lengths"] + request["sheets"])


def test_the_service_refuses_what_is_not_true_or_false() -> None:
    answer = Caller(a_service()).post("/v1/batches", a_batch_body(keep_by_history="yes"))

    problems = the_problem(answer, status=422, kind="invalid-input")["problems"]
    assert [item["field"] for item in problems] == ["body.keep_by_history"]
