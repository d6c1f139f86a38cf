"""What the library promises: every public name loads, lightly, and the README's examples run."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

import optimiser
from optimiser.homes import HOMES

ROOT = Path(__file__).parents[1]
BLOCK = re.compile(r"^```python\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize("name", optimiser.__all__)
def test_every_promised_name_is_there(name: str) -> None:
    assert getattr(optimiser, name) is not None
    assert name in dir(optimiser)


def test_a_name_that_is_not_promised_is_refused() -> None:
    with pytest.raises(AttributeError, match="no_such_name"):
        getattr(optimiser, "no_" + "such_name")


def test_promises_are_sorted_and_each_is_said_once() -> None:
    homes = [name for names in HOMES.values() for name in names]

    assert sorted(homes) == sorted(optimiser.__all__)
    assert len(set(homes)) == len(homes)


def test_importing_the_library_loads_nothing_heavy() -> None:
    code = (
        "import sys, optimiser; "
        "print([m for m in ('ortools', 'numba', 'numpy', 'pydantic') if m in sys.modules])"
    )

    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert done.stdout.strip() == "[]"


def test_checking_a_plan_loads_no_solver() -> None:
    code = (
        "import sys, optimiser; optimiser.check_plan; optimiser.read_plan; "
        "print([m for m in sys.modules if m.startswith(('ortools', 'numba', 'optimiser.solvers'))])"
    )

    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert done.stdout.strip() == "[]"


def test_the_examples_of_the_readme_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    blocks = BLOCK.findall((ROOT / "README.md").read_text(encoding="utf-8"))
    monkeypatch.chdir(tmp_path)

    assert blocks, "README.md has no block of python"
    for block in blocks:
        # Each stands on its own: a reader copies one.
        exec(compile(block, "README.md", "exec"), {"__name__": "__main__"})  # noqa: S102 - our own README
