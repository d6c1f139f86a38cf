"""Where things lie on a drawing, for a page that points at them: the drawing itself stays plain.

A drawing holds rectangles and text and no names, so that every converter gives the same picture.
What a finger or a list points at is told beside it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from optimiser.domain.finding import Finding
from optimiser.domain.frame import Board, Frame
from optimiser.drawing.scene import Area, View

_MARK = re.compile(r"\b[A-Z]{1,3}[0-9]{1,4}[a-z]?\b")
# What a rule is about, by the word after "check.": kinds of openings.
_OPENINGS = {
    "fire": ("fire",),
    "tv": ("tv",),
    "soundbar": ("soundbar", "slot"),
    "niche": ("niche",),
    "shelf": ("niche",),
    "opening": ("fire", "tv", "soundbar", "slot", "niche"),
}
# What a rule is about: kinds of members.
_MEMBERS = {
    "check.site.level": ("sole plate",),
    "check.fit": ("upright",),
    "check.timber.noggin": ("noggin",),
    "check.site.studs": ("ledger",),
    "check.site.cables": ("ledger",),
}


@dataclass(frozen=True, slots=True)
class Place:
    """The mark of a part, or the name of an opening, and the paper it takes, in mm."""

    mark: str
    area: Area


def opening_places(frame: Frame, view: View) -> tuple[Place, ...]:
    """Return the openings of the front by name."""
    return tuple(
        Place(o.name, view.area(o.x, o.z, o.width, o.height))
        for o in sorted(frame.openings, key=lambda o: -o.width * o.height)
    )


def concerned(frame: Frame, finding: Finding) -> tuple[str, ...]:
    """Return the marks and the names of openings that a finding is about, as far as it says.

    By the marks and names in its words first; else by its rule. Empty for what concerns the wall
    as a whole.
    """
    known = {m.mark for m in frame.members} | {b.mark for b in frame.boards}
    named = [mark for mark in _MARK.findall(finding.trouble) if mark in known]
    named += [
        o.name for o in frame.openings if re.search(rf"\b{re.escape(o.name)}\b", _said(finding))
    ]
    if named:
        return tuple(dict.fromkeys(named))
    topic = finding.rule.removeprefix("check.").partition(".")[0]
    kinds = _OPENINGS.get(topic, ())
    found = [o.name for o in frame.openings if o.kind in kinds]
    wanted = _MEMBERS.get(finding.rule, ())
    found += [m.mark for m in frame.members if any(kind in m.kind for kind in wanted)]
    if topic == "mass":
        found += [b.mark for b in frame.boards if finding.trouble.startswith(b.material)]
    if topic == "board":
        found += [b.mark for b in frame.boards if _is_front(b)]
    return tuple(dict.fromkeys(found))


def _said(finding: Finding) -> str:
    return f"{finding.trouble} {finding.remedy}"


def _is_front(board: Board) -> bool:
    return board.face.rpartition(".")[2] == "front"
