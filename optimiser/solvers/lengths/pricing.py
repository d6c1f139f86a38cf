"""Finds the best patterns for given weights of the parts, exactly, over every kind of stock.

Weights are whole numbers at a scale that keeps all products inside int64, so that the same search
serves column generation and the proof. Branch and bound goes first; where its node limit trips, one
table at the longest stock answers for all that are left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from optimiser.solvers.lengths import kernels
from optimiser.solvers.lengths.prepare import Items, Ready

Array = Any  # numpy arrays of int64

# Measured: more finds a stock and round make fewer rounds, beyond 8 the LP slows instead.
KEPT_FINDS = 8
# A table entry costs about as much as a third of a node of the search.
NODES_PER_ENTRY = 3
# About half a second of looking through patterns.
COLLECT_NODES = 3_000_000


@dataclass(frozen=True, slots=True, order=True)
class Find:
    """One pattern on a kind of stock, with its value at the weights asked for."""

    kind: int
    items: Items
    value: int


@dataclass(frozen=True, slots=True)
class Answer:
    """`best[k]`: the greatest value on kind k, or the threshold where none exceeds it.

    Where the search was cut short (not `exact`) there may be better.
    """

    best: list[int]
    finds: list[Find]
    exact: bool = True


class Pricer:
    """Holds the arrays of one prepared problem between calls."""

    def __init__(self, ready: Ready) -> None:
        self._ready = ready
        self._weights = np.array(ready.weights, np.int64)
        self._stocks = np.array([(k.capacity, k.usable) for k in ready.kinds], np.int64)
        longest = max((kind.capacity for kind in ready.kinds), default=0)
        self._longest = longest
        self._top_cost = max((abs(kind.cost) for kind in ready.kinds), default=1) + max(
            (ready.earned(k, 0) for k in range(len(ready.kinds))), default=0
        )
        self._kept_values = np.zeros((len(ready.kinds), KEPT_FINDS), np.int64)

    def scale_for(self, top_weight: float) -> int:
        """Return the greatest power of two at which weights up to `top_weight` stay in range."""
        top = max(float(self._top_cost), top_weight, 1.0) * (self._longest + 1)
        room = 60 - int(np.ceil(np.log2(top)))
        return int(1 << max(0, min(room, 40)))

    def credit_row(self, scale: int) -> Array:
        """Return the credit's terms as the kernels take them; scale 0 means without credit."""
        ready = self._ready
        numerator, denominator = ready.credit.numerator, ready.credit.denominator
        if scale == 0:
            numerator, denominator = 0, 1
        slope = scale * numerator // denominator
        return np.array(
            [numerator, denominator, ready.keep, ready.unit, scale, slope], dtype=np.int64
        )

    def search(
        self,
        values: Array,
        limits: Array,
        scale: int,
        thresholds: Sequence[int],
        kinds: Sequence[int] | None = None,
        node_limit: int | None = None,
    ) -> Answer:
        """Find patterns whose value plus scaled credit exceeds the threshold of their kind.

        `values` and `limits` are int64 by type. With `node_limit` the answer may fall short of the
        best; without it the answer is exact.
        """
        which = list(range(len(self._ready.kinds))) if kinds is None else list(kinds)
        order = np.flatnonzero((values > 0) & (limits > 0))
        order = order[np.argsort(-(values[order] / self._weights[order]), kind="stable")]
        if len(order) == 0 or not which:
            return Answer(list(thresholds), [])
        order = _sorted_exactly(order, values, self._weights)
        v, w, m = values[order], self._weights[order], limits[order]
        lightest = np.append(np.minimum.accumulate(w[::-1])[::-1], np.iinfo(np.int64).max)
        best = np.array(thresholds, np.int64)
        kept = np.zeros((len(which), KEPT_FINDS, len(order)), np.int64)
        found = np.zeros(len(which), np.int64)
        nodes = np.zeros(len(which), np.int64)
        copies = np.minimum(m, self._longest // w)
        entries = int(np.ceil(np.log2(copies + 1)).sum()) * self._longest
        patience = max(2000, entries // (NODES_PER_ENTRY * len(which)))
        limit = patience if node_limit is None else node_limit
        kernels.search_stocks(
            v, w, m, lightest, self._stocks[which], self.credit_row(scale), best, limit,
            kept, self._kept_values, found, nodes,
        )  # fmt: skip
        finds = []
        for row, kind in enumerate(which):
            slots = min(int(found[row]), KEPT_FINDS)
            for slot, items in enumerate(_all_items(order, kept[row, :slots])):
                finds.append(Find(kind, items, int(self._kept_values[row, slot])))
        if node_limit is None:
            rows = [row for row in range(len(which)) if nodes[row] > limit]
            self._answer_by_table(
                order, (v, w, copies), scale, [(r, which[r]) for r in rows], best, finds
            )
        is_exact = node_limit is None or bool((nodes <= limit).all())
        return Answer([int(b) for b in best], finds, is_exact)

    def collect(
        self, values: Array, limits: Array, scale: int, least: Sequence[int], most: int
    ) -> list[tuple[int, Items]] | None:
        """Return every (kind, pattern) whose value plus scaled credit is at least `least[kind]`.

        Without credit only maximal patterns are returned: the others cost the same and hold less.
        None when there are more than `most`, or too many nodes to look through.
        """
        order = np.flatnonzero(limits > 0)
        order = order[np.argsort(-(values[order] / self._weights[order]), kind="stable")]
        order = _sorted_exactly(order, values, self._weights)
        v, w, m = values[order], self._weights[order], limits[order]
        lightest = np.append(np.minimum.accumulate(w[::-1])[::-1], np.iinfo(np.int64).max)
        patterns: list[tuple[int, Items]] = []
        for kind in range(len(self._ready.kinds)):
            kept = np.zeros((most + 1 - len(patterns), len(order)), np.int32)
            limit = COLLECT_NODES
            _, finds, nodes = kernels.tree(
                v, w, m, lightest, self._stocks[kind], self.credit_row(scale), least[kind] - 1,
                limit, kept, np.zeros(len(kept), np.int64), 1,
            )  # fmt: skip
            if nodes > limit:
                return None
            patterns += [(kind, items) for items in _all_items(order, kept[: int(finds)])]
        return patterns

    def by_table(
        self, values: Array, limits: Array, scale: int, thresholds: Sequence[int]
    ) -> Answer:
        """Answer as `search` does, from the table alone; one find a kind."""
        order = np.flatnonzero((values > 0) & (limits > 0))
        w = self._weights[order]
        copies = np.minimum(limits[order], self._longest // w)
        best = np.array(thresholds, np.int64)
        finds: list[Find] = []
        kinds = [(k, k) for k in range(len(self._ready.kinds))]
        self._answer_by_table(order, (values[order], w, copies), scale, kinds, best, finds)
        return Answer([int(b) for b in best], finds)

    def _answer_by_table(
        self,
        order: Array,
        entries: tuple[Array, Array, Array],
        scale: int,
        rows: list[tuple[int, int]],
        best: Array,
        finds: list[Find],
    ) -> None:
        """Answer for the (row, kind) pairs from one table; raise `best`, append to `finds`.

        `entries` are the values, weights and most copies in the order of `order`.
        """
        if not rows:
            return
        v, w, copies = entries
        entry, times = _split(copies)
        capacity = max(self._ready.kinds[kind].capacity for _, kind in rows)
        values, bits = kernels.table(v[entry] * times, w[entry] * times, capacity)
        taken = np.zeros(len(entry), np.int64)
        for row, kind in rows:
            within = values[: self._ready.kinds[kind].capacity + 1]
            gains = np.where(within > 0, within + scale * self._earned(kind, len(within)), 0)
            fill = int(gains.argmax())
            if gains[fill] > best[row] and within[fill] > 0:
                best[row] = gains[fill]
                kernels.trace(w[entry] * times, bits, fill, taken)
                counts = np.bincount(entry, weights=taken * times, minlength=len(order))
                finds.append(Find(kind, _items(order, counts), int(gains[fill])))

    def _earned(self, kind: int, length: int) -> Array:
        """Return the credit for each fill below `length`."""
        ready = self._ready
        if not ready.credit:
            return np.zeros(length, np.int64)
        left = ready.kinds[kind].usable - np.arange(length, dtype=np.int64) * ready.unit
        earned = np.maximum(left, 0) * ready.credit.numerator // ready.credit.denominator
        return np.where(left >= ready.keep, earned, 0)


def _sorted_exactly(order: Array, values: Array, weights: Array) -> Array:
    """Repair the rare neighbours that float division put in the wrong order.

    The search's bound needs value a length to fall; cross products in Python integers decide.
    """
    v, w = values[order], weights[order]
    if bool((v[:-1] * w[1:] >= v[1:] * w[:-1]).all()):
        return order
    ranked = [int(t) for t in order]
    for i in range(1, len(ranked)):
        j = i
        while j and int(values[ranked[j]]) * int(weights[ranked[j - 1]]) > int(
            values[ranked[j - 1]]
        ) * int(weights[ranked[j]]):
            ranked[j - 1], ranked[j] = ranked[j], ranked[j - 1]
            j -= 1
    return np.array(ranked, np.int64)


def _split(copies: Array) -> tuple[Array, Array]:
    """Split each limit into 1, 2, 4, … and a rest, so that a 0/1 table serves bounded items."""
    entry: list[int] = []
    times: list[int] = []
    for index, limit in enumerate(copies):
        left, size = int(limit), 1
        while left > 0:
            part = min(size, left)
            entry.append(index)
            times.append(part)
            left -= part
            size *= 2
    return np.array(entry, np.int64), np.array(times, np.int64)


def _all_items(order: Array, counts: Array) -> list[Items]:
    """Turn rows of counts in search order into sorted (type, count) pairs, many rows at once."""
    slots, columns = np.nonzero(counts)
    pairs: list[list[tuple[int, int]]] = [[] for _ in range(len(counts))]
    types, times = order[columns].tolist(), counts[slots, columns].tolist()
    for slot, t, n in zip(slots.tolist(), types, times, strict=True):
        pairs[slot].append((t, n))
    return [tuple(sorted(pair)) for pair in pairs]


def _items(order: Array, counts: Array) -> Items:
    """Turn counts in search order into sorted (type, count) pairs."""
    pairs = [(int(order[i]), int(counts[i])) for i in np.flatnonzero(counts)]
    return tuple(sorted(pairs))
