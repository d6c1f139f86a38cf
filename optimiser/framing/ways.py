"""A frame from the ways chosen for its boxes: what each way says of pieces, quantities, findings.

Boxes of a wall are framed apart from one another, so any way of one stands beside any of another.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from optimiser.domain.finding import Finding
from optimiser.domain.frame import Frame, FrameChoice, Quantity

BOARDING, PLATES = "boarding", "plates"


def frame_of(shell: Frame, choices: Sequence[FrameChoice], taken: Sequence[int]) -> Frame:
    """Return the frame that takes one way of each choice, by its number, without any other way.

    Everything that no way changes is the shell's. The ways' findings follow those of the shell
    that are said of no way.
    """
    ways = [choice.ways[number] for choice, number in zip(choices, taken, strict=True)]
    said = {found for choice in choices for way in choice.ways for found in way.findings}
    findings: dict[Finding, None] = dict.fromkeys(f for f in shell.findings if f not in said)
    for way in ways:
        findings.update(dict.fromkeys(way.findings))
    return replace(
        shell,
        members=tuple(one for way in ways for one in way.members),
        boards=tuple(one for way in ways for one in way.boards),
        beads=tuple(one for way in ways for one in way.beads),
        faces=tuple(one for way in ways for one in way.faces),
        tapes=tuple(one for way in ways for one in way.tapes),
        fixings=tuple(one for way in ways for one in way.fixings),
        packing=tuple(one for way in ways for one in way.packing),
        quantities=summed(
            (choice.box, one)
            for choice, way in zip(choices, ways, strict=True)
            for one in way.quantities
        ),
        findings=tuple(findings),
        boarding=_named(choices, taken),
        alternatives=(),
        choices=(),
    )


def summed(quantities: Iterable[tuple[str, Quantity]]) -> tuple[Quantity, ...]:
    """Add up quantities of the same item over the boxes that they are named with."""
    found: dict[str, list[tuple[str, Quantity]]] = {}
    for box, one in quantities:
        found.setdefault(one.item, []).append((box, one))
    return tuple(
        replace(
            entries[0][1],
            amount=sum(one.amount for _, one in entries),
            working="; ".join(
                f"{box}: {one.working}" if box else one.working for box, one in entries
            ),
        )
        for entries in found.values()
    )


def more_of(
    quantities: Iterable[Quantity], first: Iterable[Quantity], what: str
) -> tuple[Quantity, ...]:
    """Return by how much quantities differ from the first way's, each item that does."""
    before = {one.item: one.amount for one in first}
    return tuple(
        replace(one, amount=more, working=f"{more:+d} for {what}")
        for one in quantities
        if (more := one.amount - before.get(one.item, 0))
    )


def _named(choices: Sequence[FrameChoice], taken: Sequence[int]) -> str:
    chosen = [(c.name, c.box, c.ways[i].name, i) for c, i in zip(choices, taken, strict=True)]
    boards = [(box, name) for kind, box, name, _ in chosen if kind == BOARDING]
    names = dict.fromkeys(name for _, name in boards)
    text = "; ".join(f"{box}: {name}" for box, name in boards) if len(names) > 1 else "".join(names)
    plates = [box for kind, box, _, number in chosen if kind == PLATES and number]
    if plates:
        of = f" of {', '.join(plates)}" if len(boards) > len(plates) else ""
        text += f", plates{of} joined"
    for kind, box, _, number in chosen:
        if kind not in (BOARDING, PLATES) and number:
            text += f", {kind} of {box} joined" if box else f", {kind} joined"
    return text
