"""Joins two sets of changes to one document, record by record, and says where both changed the same."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, cast

from scenekit.model.project import Project

KEYS = ("name", "direction")
"""What a record is known by among others of its kind."""

_NONE = object()


@dataclass(frozen=True, slots=True, kw_only=True)
class Merge:
    """Two sets of changes in one document.

    mine, theirs  the document with this side's value wherever both sides changed the same
    taken         what only the others changed, in words
    clashes       what both changed, each in another way, in words
    """

    mine: Project
    theirs: Project
    taken: tuple[str, ...]
    clashes: tuple[str, ...]


@dataclass(slots=True)
class _Joiner:
    """Joins three versions of a value, and writes down where."""

    prefers_mine: bool
    taken: list[str]
    clashes: list[str]

    def join(self, base: Any, mine: Any, theirs: Any, where: str) -> Any:
        if mine == theirs or base == theirs:
            return mine
        known = is_dataclass(base) and not isinstance(base, type)
        if known and type(base) is type(mine) is type(theirs):
            return self._record(base, mine, theirs, where)
        if _named(base) and _named(mine) and _named(theirs):
            return self._records(base, mine, theirs, where)
        if base == mine:
            self.taken.append(where)
            return theirs
        self.clashes.append(where)
        return mine if self.prefers_mine else theirs

    def _record(self, base: Any, mine: Any, theirs: Any, where: str) -> Any:
        changed = {}
        for field in fields(base):
            old, own, other = (getattr(one, field.name) for one in (base, mine, theirs))
            changed[field.name] = self.join(
                old, own, other, f"{where}, {field.name}" if where else field.name
            )
        return replace(mine, **changed)

    def _records(self, base: Any, mine: Any, theirs: Any, where: str) -> tuple[Any, ...]:
        olds, owns, others = ({_key(item): item for item in items} for items in (base, mine, theirs))
        found: dict[str, Any] = {}
        for name in dict.fromkeys((*owns, *others)):
            old, own, other = (items.get(name, _NONE) for items in (olds, owns, others))
            kept = self.join(old, own, other, f"{where.removesuffix('s')} {name}")
            if kept is not _NONE:
                found[name] = kept
        return tuple(found[name] for name in _order(list(olds), list(owns), list(others)) if name in found)


def merge(base: Project, mine: Project, theirs: Project) -> Merge:
    """Join what two sides made of one document."""
    joined = []
    for prefers_mine in (True, False):
        joiner = _Joiner(prefers_mine, [], [])
        joined.append((cast(Project, joiner.join(base, mine, theirs, "")), joiner))
    (own, joiner), (other, _) = joined
    return Merge(mine=own, theirs=other, taken=tuple(joiner.taken), clashes=tuple(joiner.clashes))


def _key(record: Any) -> str:
    return next((str(getattr(record, key)) for key in KEYS if hasattr(record, key)), "")


def _named(items: Any) -> bool:
    """Say whether a value is a tuple of records that are told apart by name."""
    if not isinstance(items, tuple):
        return False
    keys = [_key(item) if is_dataclass(item) else "" for item in items]
    return all(keys) and len(set(keys)) == len(keys)


def _order(base: Sequence[str], mine: Sequence[str], theirs: Sequence[str]) -> list[str]:
    """Return all names in the order of the side that moved some; what is new stands after its neighbour."""
    common = [name for name in base if name in mine and name in theirs]
    kept = [name for name in mine if name in common]
    first, second = (mine, theirs) if kept != common else (theirs, mine)
    names = list(first)
    for place, name in enumerate(second):
        if name not in names:
            before = next((names.index(n) + 1 for n in reversed(second[:place]) if n in names), 0)
            names.insert(before, name)
    return names
