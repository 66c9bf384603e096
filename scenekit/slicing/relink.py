"""Links pieces of an old sheet with pieces of a new one: equal ones first, then the most alike."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from scenekit.slicing.cut import Box, Pair
from scenekit.slicing.likeness import (
    MANY_TRIES,
    Art,
    best_fit,
    colour_likeness,
    outline_key,
    pattern_key,
    same_key,
)

LEAST_SCORE = 400
CANDIDATES = 16


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """A frame with its art."""

    box: Box
    content: Box
    art: Art


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """How an old piece became a new one.

    shift   (x, y) of the old content's top left from the new one's
    """

    kind: str
    shift: Pair = (0, 0)
    score: int = 1000


Pieces = dict[int, Piece]
"""Pieces by index."""

Links = dict[int, tuple[int, Link]]
"""New index and link by old index."""


def link_pieces(olds: Pieces, news: Pieces) -> Links:
    """Return for old pieces the new one, and how they are linked."""
    links: Links = {}
    for stay in (True, False):
        _link_by_key(olds, news, links, "same", same_key, stay=stay)
    for stay in (True, False):
        _link_by_key(olds, news, links, "recoloured", pattern_key, stay=stay)
    _link_by_key(olds, news, links, "recoloured", outline_key, stay=True)
    _link_by_likeness(olds, news, links)
    _link_by_key(olds, news, links, "recoloured", outline_key, stay=False)
    _link_by_place(olds, news, links)
    return links


def _left(olds: Pieces, news: Pieces, links: Links) -> tuple[list[int], list[int]]:
    taken = {new for new, _ in links.values()}
    return [old for old in olds if old not in links], [new for new in news if new not in taken]


def _link_by_key(
    olds: Pieces,
    news: Pieces,
    links: Links,
    kind: str,
    key: Callable[[Art], bytes | None],
    *,
    stay: bool,
) -> None:
    """Link pieces of one key in order; with stay only those whose content stayed in its place."""
    old_left, new_left = _left(olds, news, links)
    waiting: dict[bytes, list[int]] = {}
    for new in new_left:
        found = key(news[new].art)
        if found is not None:
            waiting.setdefault(found, []).append(new)
    for old in old_left:
        found = key(olds[old].art)
        group = waiting.get(found, []) if found is not None else []
        fitting = [new for new in group if not stay or news[new].content == olds[old].content]
        if fitting:
            group.remove(fitting[0])
            score = 1000 if kind == "same" else best_fit(olds[old].art, news[fitting[0]].art, [(0, 0)]).score
            links[old] = fitting[0], Link(kind=kind, score=score)


def _link_by_likeness(olds: Pieces, news: Pieces, links: Links) -> None:
    """Link the most alike pieces first."""
    old_left, new_left = _left(olds, news, links)
    if not old_left or not new_left:
        return
    likeness = colour_likeness([olds[old].art for old in old_left], [news[new].art for new in new_left])
    ranked = []
    for row, old in enumerate(old_left):
        order = np.argsort(-likeness[row], kind="stable")[:CANDIDATES]
        near = [new_left[column] for column in order]
        near += [new for new in new_left if _overlap(olds[old].box, news[new].box)]
        for new in dict.fromkeys(near):
            fit = best_fit(olds[old].art, news[new].art, _spots(olds[old], news[new]))
            if fit.score >= LEAST_SCORE:
                stayed = olds[old].box == news[new].box
                ranked.append((-fit.score, not stayed, abs(old - new), old, new, fit.shift))
    taken: set[int] = set()
    for _, _, _, old, new, shift in sorted(ranked):
        if old not in links and new not in taken:
            taken.add(new)
            fit = best_fit(olds[old].art, news[new].art, [shift], tries=MANY_TRIES)
            kind = "redrawn" if olds[old].art.shape == news[new].art.shape else "grown"
            links[old] = new, Link(kind=kind, shift=fit.shift, score=fit.score)


def _link_by_place(olds: Pieces, news: Pieces, links: Links) -> None:
    """Link what is left in the same box."""
    old_left, new_left = _left(olds, news, links)
    places = {news[new].box: new for new in reversed(new_left)}
    for old in old_left:
        new = places.pop(olds[old].box, None)
        if new is not None:
            shift = _spots(olds[old], news[new])[0]
            score = best_fit(olds[old].art, news[new].art, [shift]).score
            links[old] = new, Link(kind="redrawn", shift=shift, score=score)


def _spots(old: Piece, new: Piece) -> tuple[Pair, Pair]:
    """Return the shifts of content that keep its place in the box, and on the sheet."""
    x, y = old.content[0] - new.content[0], old.content[1] - new.content[1]
    return (x - old.box[0] + new.box[0], y - old.box[1] + new.box[1]), (x, y)


def _overlap(first: Box, second: Box) -> bool:
    """Say whether boxes share more than half of the smaller one."""
    w = min(first[0] + first[2], second[0] + second[2]) - max(first[0], second[0])
    h = min(first[1] + first[3], second[1] + second[3]) - max(first[1], second[1])
    return w > 0 and h > 0 and 2 * w * h > min(first[2] * first[3], second[2] * second[3])
