"""The command line: what it prints, writes and exits with; nothing is written by half."""

from __future__ import annotations

import csv
import json
import os
import re
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

import optimiser as lib
from api.watching import Watching
from tests.api.command_line import (
    PARTS,
    PRICES,
    RACK,
    ROOT,
    WALL,
    a_request_file,
    assert_drawings,
    files_below,
    run,
    write,
)


def test_a_wall_becomes_parts_with_findings_and_drawings(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "drawings"

    assert run("frame", WALL, "--prices", PRICES, "--out", out) == 0

    text = capsys.readouterr().out
    assert text.startswith("JOB A: 3620 wide, 320 deep")
    for heading in ("FINDINGS", "TAKEN WHERE NOTHING WAS SAID"):
        assert heading in text
    names = files_below(out)
    assert {"a-frame.svg", "a-boards-1.svg"} <= names
    assert_drawings(out, names)


def test_a_plan_is_cut_at_a_height_that_is_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ("frame", WALL, "--prices", PRICES, "--out", tmp_path)

    assert run(*asked, "--section-at", "1234.5") == 0
    drawn = [path.read_text(encoding="utf-8") for path in tmp_path.glob("*-plan-*.svg")]
    assert sum("1234.5 mm above the floor datum" in svg for svg in drawn) == 1

    assert run(*asked, "--section-at", "high", "--section-at", "9000") == 2
    told = capsys.readouterr().err
    assert "'high' is not a size" in told
    assert "9000 is above the ceiling" in told


def test_a_framed_wall_is_printed_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("frame", WALL, "--prices", PRICES, "--json") == 0

    document = json.loads(capsys.readouterr().out)
    assert (document["job"], document["width_mm"]) == ("A", 3620)
    assert document["members"]
    assert document["boards"]
    # Job A stands before existing studs, on a floor that falls 6.
    assert {one["into"] for one in document["screws_into_the_house"]} == {
        "stud",
        "floor",
        "ceiling",
    }
    assert max(float(one["height_mm"]) for one in document["packing"]) == 6
    upright = next(one for one in document["members"] if one["kind"] == "upright")
    assert [(one["end"], one["item"], one["count"]) for one in upright["screws"]] == [
        ("start", "screw-80", 2),
        ("end", "screw-80", 2),
    ]


def test_walls_and_part_lists_become_one_plan_with_its_folder(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "batch"

    code = run(
        *("plan", WALL, PARTS, "--prices", PRICES, "--rack", RACK),
        *("--seconds", 0.3, "--compare", "--out", out),
    )

    assert code == 0
    text, progress = capsys.readouterr()
    for heading in ("JOBS", "CUTTING PLAN, checked", "SAVED BY PLANNING TOGETHER", "ORDER to Demo"):
        assert heading in text
    assert "net" in progress
    names = files_below(out)
    assert {"plan.json", "request.json", "order.csv", "order.json", "index.html"} <= names
    assert_drawings(out, names)
    request = json.loads((out / "request.json").read_bytes())
    jobs = {part["job"] for item in request["lengths"] for part in item["parts"]}
    assert jobs == {"A", "parts"}


def test_a_batch_is_printed_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("plan", PARTS, "--prices", PRICES, "--seconds", 0.2, "--json") == 0

    document = json.loads(capsys.readouterr().out)
    request = lib.request_from_document(document["request"], name="request")
    plan = lib.plan_from_document(document["plan"], name="plan")
    assert lib.check_plan(request, plan) == ()
    assert document["order"]["merchant"] == "Demo Merchant"
    assert document["comparison"] is None


def test_the_keep_rule_comes_from_the_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    rule = ("--keep-length", "750,5", "--credit", "0.25", "--seed", 7)

    assert run("plan", PARTS, "--prices", PRICES, "--seconds", 0.2, "--json", *rule) == 0

    request = json.loads(capsys.readouterr().out)["request"]
    assert (request["seed"], request["keep"]["length_mm"]) == (7, 750.5)
    assert request["keep"]["credit"] == "0.25"


def test_a_cutting_request_is_cut_to_the_terminal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = a_request_file(tmp_path)

    assert run("cut", path) == 0

    plan = lib.read_plan(capsys.readouterr().out)
    assert lib.check_plan(lib.read_request(path.read_bytes()), plan) == ()


def test_a_cutting_request_is_cut_to_a_folder_and_the_plan_passes_its_check(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, out = a_request_file(tmp_path), tmp_path / "cut"

    assert run("cut", path, "--out", out) == 0
    assert {"plan.json", "request.json"} <= files_below(out)
    assert_drawings(out, files_below(out))

    capsys.readouterr()
    assert run("check", path, out / "plan.json") == 0
    assert capsys.readouterr().out == "The plan is sound.\n"


def a_spoiled_plan(folder: Path) -> tuple[Path, Path]:
    request = a_request_file(folder)
    assert run("cut", request, "--out", folder) == 0
    plan: dict[str, Any] = json.loads((folder / "plan.json").read_bytes())
    plan["lengths"][0]["layouts"][0]["parts"][0]["start_mm"] += 5
    return request, write(folder / "spoiled.json", json.dumps(plan))


def test_a_spoiled_plan_fails_its_check_with_every_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    request, plan = a_spoiled_plan(tmp_path)

    capsys.readouterr()
    assert run("check", request, plan) == 1
    assert "A/upright-1" in capsys.readouterr().out

    assert run("check", request, plan, "--json") == 1
    document = json.loads(capsys.readouterr().out)
    assert document["sound"] is False
    assert document["faults"]


def test_drawings_of_an_earlier_plan_do_not_stay_in_the_folder(tmp_path: Path) -> None:
    assert run("cut", a_request_file(tmp_path), "--out", tmp_path / "cut") == 0
    before = files_below(tmp_path / "cut")

    assert run("cut", a_request_file(tmp_path, sheets=[]), "--out", tmp_path / "cut") == 0

    assert "diagrams/mdf-12-layout-1.svg" in before
    assert "diagrams/mdf-12-layout-1.svg" not in files_below(tmp_path / "cut")


def test_the_demo_writes_a_folder_that_holds_together(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "demo"

    assert run("demo", "--out", out, "--seconds", 0.5) == 0

    names = files_below(out)
    assert {"plan.json", "request.json", "order.csv", "summary.txt", "index.html"} <= names
    assert_drawings(out, names)
    assert not any(name.endswith(".part") for name in names)
    page = (out / "index.html").read_text(encoding="utf-8")
    linked = {link for link in re.findall(r'(?:src|href)="([^"#]+)"', page)}
    assert linked <= names
    assert {name for name in names if name.endswith(".svg")} <= linked
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    ids = {
        part["part"]
        for kind in ("lengths", "sheets")
        for item in plan[kind]
        for layout in item["layouts"]
        for part in layout["parts"]
    }
    assert all(f"<td>{id_}</td>" in page for id_ in ids)
    with (out / "order.csv").open(encoding="utf-8", newline="") as file:
        head, *rows = csv.reader(file)
    assert head[:4] == ["line", "item", "description", "quantity"]
    assert len(rows) > 3
    capsys.readouterr()
    assert run("check", out / "request.json", out / "plan.json") == 0


def test_an_unknown_command_is_a_wrong_use(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as leaving:
        run("saw")

    assert leaving.value.code == 2
    assert "saw" in capsys.readouterr().err


def test_help_names_every_command() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "api.cli", "--help"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )

    for command in ("demo", "frame", "plan", "cut", "check", "serve"):
        assert re.search(rf"^ +{command} ", done.stdout, re.MULTILINE)


def test_help_loads_nothing_heavy() -> None:
    code = (
        "import sys, api.cli; api.cli._parser().format_help(); "
        "heavy = ('ortools', 'numba', 'numpy', 'pydantic', 'fastapi', 'optimiser.domain.plan'); "
        "print([name for name in heavy if name in sys.modules])"
    )

    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert done.stdout.strip() == "[]"


def test_a_service_loads_what_plans_only_when_it_is_asked_to() -> None:
    code = (
        "import sys, api.app; "
        "late = ('framing', 'solvers', 'planning', 'verify', 'formats', 'domain.plan'); "
        "print([name for name in late if f'optimiser.{name}' in sys.modules])"
    )

    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert done.stdout.strip() == "[]"


def test_ctrl_c_keeps_the_best_plan_and_writes_it(tmp_path: Path) -> None:
    """A minute to think, stopped once the first complete plan has been told."""
    process = subprocess.Popen(
        [sys.executable, "-m", "api.cli", "plan", WALL, PARTS, "--prices", PRICES, "--out",
         tmp_path / "out", "--seconds", "60"],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert process.stderr is not None
    first = process.stderr.readline()
    assert "net" in first

    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=50)

    assert process.returncode == 0
    assert "stopping; the best plan so far is kept" in said
    plan = lib.read_plan((tmp_path / "out" / "plan.json").read_bytes())
    assert plan.seconds < 50
    request = lib.read_request((tmp_path / "out" / "request.json").read_bytes())
    assert lib.check_plan(request, plan) == ()


def test_what_an_engine_prints_by_itself_does_not_stand_among_the_results(
    capfd: pytest.CaptureFixture[str],
) -> None:
    with Watching():
        os.write(1, b"an engine's own line\n")
    os.write(1, b"the result\n")

    out, err = capfd.readouterr()
    assert out == "the result\n"
    assert "an engine's own line" in err


def test_a_framed_wall_lists_the_parts_of_one_way_of_boarding_and_names_the_others(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run("frame", WALL, "--prices", PRICES) == 0

    out = capsys.readouterr().out
    assert "the cutting plan may also choose" in out
    assert not re.search(r"A/[A-Z]+[0-9]+\+[a-e]", out)


def test_a_framed_wall_names_packs_and_findings_the_worst_first(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run("frame", WALL, "--prices", PRICES) == 0

    out = capsys.readouterr().out
    assert re.search(r"screw-80 +[0-9]+ each +[0-9]+ × Screws 5.0 × 80, box of 200", out)
    shown = re.findall(r"^  (STOP|WARNING|NOTE) ", out, re.MULTILINE)
    assert shown == sorted(shown, key=["STOP", "WARNING", "NOTE"].index)
    assert {"WARNING", "NOTE"} <= set(shown)


def test_results_that_nobody_reads_to_the_end_are_no_fault() -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "api.cli", "frame", WALL, "--prices", PRICES, "--json"],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()

    said = process.stderr.read()

    assert process.wait(timeout=50) == 0
    assert said == ""


def test_parts_come_from_cut_outs_where_that_is_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # By hand: the opening, 5 off each sawn side, is 990 × 590; two shelves and a cut take 583.
    parts = tmp_path / "front.csv"
    parts.write_text(
        "mark,material,width,height,quantity,turn,cut outs\n"
        "front,mdf-12,1180,2400,1,no,100 300 1000 600\n"
        "shelf,mdf-12,980,290,2,no,\n",
        encoding="utf-8",
    )
    plain = ("plan", parts, "--prices", PRICES, "--seconds", 0.3, "--json")

    assert run(*plain) == 0
    without = json.loads(capsys.readouterr().out)["plan"]["sheets"][0]
    assert run(*plain, "--use-cut-outs") == 0
    used = json.loads(capsys.readouterr().out)["plan"]["sheets"][0]

    assert all("cut_out" not in one or one["cut_out"] is None for one in without["layouts"])
    assert [one["stock"] for one in used["layouts"] if one.get("cut_out") == 0] == ["front/front"]
    assert sum(one["count"] for one in used["layouts"]) == 2
