"""What the command line refuses: told by name, nothing written, never a traceback."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import optimiser as lib
from tests.api.bodies import a_request_body
from tests.api.command_line import (
    PARTS,
    PRICES,
    WALL,
    a_request_file,
    planned,
    refusal,
    run,
    wall_a,
    write,
)


@pytest.mark.parametrize("missing", ["job", "prices", "rack"])
def test_a_file_that_is_not_there_is_named(
    missing: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    absent = tmp_path / f"no-{missing}.{'csv' if missing == 'rack' else 'toml'}"
    out = tmp_path / "out"

    code = planned(
        absent if missing == "job" else PARTS,
        out=out,
        prices=absent if missing == "prices" else PRICES,
        rack=absent if missing == "rack" else None,
    )

    assert code == 2
    assert absent.name in refusal(capsys)
    assert not out.exists()


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("wall.toml", 'job = "A\n[site', "wall.toml"),
        ("prices.json", "{}", "'.json'"),
        ("parts.csv", "Mark,Material,Length,Qty\nU1,c16-38x63,2281.5,4\nU2,c16-38x63,94 in,2\n",
         "row 3"),
        ("parts.csv", "Mark,Material,Length,Qty\nU1,oak-20,2281.5,4\n", "'oak-20'"),
        ("parts.csv", "", "parts.csv"),
    ],
    ids=["unreadable TOML", "unknown ending", "a broken row", "unknown material", "empty"],
)  # fmt: skip
def test_a_file_that_cannot_be_used_is_refused_and_nothing_is_written(
    name: str, text: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"

    assert planned(write(tmp_path / name, text), out=out) == 2

    assert said in refusal(capsys)
    assert not out.exists()


def test_a_broken_row_is_named_with_its_column(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = "Mark;Material;Length (mm);Qty\nU1;c16-38x63;2281,5;four\n"

    assert planned(write(tmp_path / "parts.csv", rows), out=tmp_path / "out") == 2

    said = refusal(capsys)
    assert "row 2" in said
    assert "Qty" in said
    assert "'four'" in said


def test_faults_of_several_files_are_told_at_once(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first = write(tmp_path / "first.toml", "job =")
    second = write(tmp_path / "second.csv", "Mark,Length\nU1,5\n")

    assert planned(first, second, out=tmp_path / "out") == 2

    said = refusal(capsys)
    assert "first.toml" in said
    assert "second.csv" in said


def test_an_opening_larger_than_its_wall_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wall = wall_a(tmp_path, "opening_width_mm = 1250", "opening_width_mm = 4000")
    wall = write(wall, wall.read_text().replace("body_width_mm = 1270", "body_width_mm = 4020"))

    assert planned(wall, out=tmp_path / "out") == 2

    assert "fire" in refusal(capsys)
    assert not (tmp_path / "out").exists()


def test_a_finding_that_stops_a_wall_stops_the_batch(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # So heavy at the end of its bracket that the top screws pull out.
    wall = wall_a(tmp_path, "mass_kg = 24", "mass_kg = 240")

    assert planned(wall, out=tmp_path / "out") == 1
    assert "check.tv.withdrawal" in refusal(capsys)
    assert not (tmp_path / "out").exists()

    assert run("frame", wall, "--prices", PRICES) == 1
    assert "STOP A: " in capsys.readouterr().out


def test_a_shortage_of_stock_is_no_plan(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    body = a_request_body()
    body["lengths"][0]["stock"][0]["available"] = 1
    path, out = write(tmp_path / "request.json", json.dumps(body)), tmp_path / "out"

    assert run("cut", path, "--out", out) == 1

    said = refusal(capsys)
    assert said.startswith("scantling: no plan:")
    assert "A/upright-1" in said
    assert not out.exists()


@pytest.mark.parametrize("content", [b"{", b"\xff\xfe\xfd", b"[]"])
def test_a_request_that_is_no_json_object_is_refused(
    content: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "request.json"
    path.write_bytes(content)

    assert run("cut", path) == 2
    assert "request.json" in refusal(capsys)


def test_a_folder_that_cannot_be_made_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    in_the_way = write(tmp_path / "out", "a file of this name")

    assert run("cut", a_request_file(tmp_path), "--out", in_the_way) == 2

    assert str(in_the_way) in capsys.readouterr().err


def test_a_plan_that_fails_its_check_is_our_fault_and_is_not_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object, **__: object) -> None:
        raise lib.PlanRefused((lib.Problem("lengths[0]", "a part is missing", "Report it"),))

    monkeypatch.setattr(lib, "plan_cutting", refused, raising=False)

    assert run("cut", a_request_file(tmp_path), "--out", tmp_path / "out") == 3
    assert "a part is missing" in refusal(capsys)
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("--seconds", "nan"),
        ("--seconds", "-1"),
        ("--seed", "-1"),
        ("--keep-length", "long"),
        ("--credit", "1.5"),
    ],
)
def test_a_rule_that_makes_no_sense_is_refused(
    option: str, value: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"

    assert run("plan", PARTS, "--prices", PRICES, "--out", out, f"{option}={value}") == 2

    assert option.removeprefix("--").split("-")[-1] in refusal(capsys)
    assert not out.exists()


def test_a_part_that_cannot_be_carried_in_is_named_with_its_job_and_limit(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run("plan", WALL, "--prices", PRICES, "--access", "A=2000,900x600") == 2

    said = refusal(capsys)
    assert "job 'A' lets in 2000 at most" in said
    assert "lets in 900 × 600 at most" in said


def test_an_access_that_is_no_size_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("plan", WALL, "--prices", PRICES, "--access", "A=long") == 2

    assert "access[0].length_mm" in refusal(capsys)
