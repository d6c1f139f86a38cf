"""`scantling deliver`: what it tells and writes, and how it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from api.cli import main
from api.demo_run import SCENARIO
from optimiser.errors import InvalidInput
from optimiser.formats.terms import read_terms

PRICES = SCENARIO / "price-book.toml"
TERMS = """
charge = "35.00"
free_over = "600.00"
vehicle_mass_kg = 1200
vehicle_length_mm = 4800
by_length = [{ over_mm = 3600, charge = "12.00" }]
[needed]
A = "2026-12-04"
B = "2026-12-07"
"""
PARTS = "Job;Mark;Material;Length (mm);Qty\nA;U1;c16-38x63;1150;1\nB;U1;c16-38x63;1150;1\n"


def deliver(folder: Path, terms: str, *more: str) -> int:
    (folder / "parts.csv").write_text(PARTS, encoding="utf-8")
    (folder / "terms.toml").write_text(terms, encoding="utf-8")
    names = ["--prices", str(PRICES), "--terms", str(folder / "terms.toml")]
    return main(["deliver", str(folder / "parts.csv"), *names, "--today", "2026-11-25", *more])


def test_jobs_that_share_a_length_come_together_and_their_order_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert deliver(tmp_path, TERMS, "--out", str(tmp_path / "out")) == 0

    told = capsys.readouterr().out
    assert "in all 38.58; one delivery for each job 77.16; one for all 38.58" in told
    (folder,) = (tmp_path / "out").iterdir()
    assert folder.name == "1-2026-12-04"
    assert "c16-38x63-2400" in (folder / "order.csv").read_text(encoding="utf-8")


def test_json_has_the_deliveries(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert deliver(tmp_path, TERMS.replace("2026-12-07", "2026-12-21"), "--json") == 0

    document = json.loads(capsys.readouterr().out)
    assert [one["jobs"] for one in document["deliveries"]] == [["A"], ["B"]]
    assert document["together"] is None


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('A = "2026-12-04"', 'Z = "2026-12-04"', "job 'Z'"),
        ('A = "2026-12-04"', 'A = "2026-11-01"', "before today"),
        ("1200", "-1", "vehicle_mass_kg"),
        ('"35.00"', "35", "money is written as text"),
        ('"2026-12-07"', '"7 December"', "is not a date"),
    ],
)
def test_a_slip_is_bad_input(
    old: str, new: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert deliver(tmp_path, TERMS.replace(old, new, 1)) == 2
    assert said in capsys.readouterr().err


def test_terms_left_out_have_their_usual_values() -> None:
    terms, needed = read_terms('charge = "0.00"\nweekdays = ["fri", "mon"]', name="t")

    assert (terms.storage_days, terms.weekdays, needed) == (7, (0, 4), {})
    with pytest.raises(InvalidInput, match="weekdays"):
        read_terms('charge = "0.00"\nweekdays = ["someday"]', name="t")
