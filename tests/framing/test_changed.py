"""A changed part is a new one, equal to what the standard library's `replace` makes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.framing.changed import changed
from tests.framing.builders import framed


def test_a_changed_part_equals_the_standard_librarys_and_leaves_the_first_alone() -> None:
    frame = framed()

    for member in frame.members:
        before = replace(member)
        assert changed(member, mark="Z9") == replace(member, mark="Z9")
        assert member == before
    for board in frame.boards:
        assert changed(board, mark="Z9") == replace(board, mark="Z9")
        assert hash(changed(board, mark="Z9")) == hash(replace(board, mark="Z9"))


def test_a_field_that_a_part_has_not_is_refused() -> None:
    with pytest.raises(TypeError):
        changed(framed().members[0], colour="red")
