"""Lays the items of an export into the memories of a machine."""

from collections.abc import Sequence
from dataclasses import dataclass

from scenekit.findings import Finding
from scenekit.machines.machine import Machine
from scenekit.machines.memory import Memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing that takes memory.

    kind    what kind of memory it needs: "art", "pages", "tables" or "program"
    shared  whether every scene of the game uses it
    """

    name: str
    kind: str
    size_bytes: int
    shared: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """A memory with the items in it; each takes its size, overhead and alignment."""

    memory: str
    capacity_bytes: int
    used_bytes: int
    items: tuple[tuple[Item, int], ...]

    def by_kind(self) -> dict[str, int]:
        """Return the bytes of each kind of item, in the order of first use."""
        sums: dict[str, int] = {}
        for item, taken in self.items:
            sums[item.kind] = sums.get(item.kind, 0) + taken
        return sums

    def as_dict(self) -> dict[str, object]:
        """Return the memory as plain JSON data."""
        return {
            "memory": self.memory,
            "used_bytes": self.used_bytes,
            "free_bytes": self.capacity_bytes - self.used_bytes,
            "capacity_bytes": self.capacity_bytes,
            "items": [
                {"name": item.name, "kind": item.kind, "bytes": taken, "shared": item.shared}
                for item, taken in self.items
            ],
            "kinds": self.by_kind(),
        }


Placed = dict[str, list[tuple[Item, int]]]


def lay_out(machine: Machine, items: Sequence[Item]) -> tuple[tuple[Filled, ...], tuple[Finding, ...]]:
    """Put every item into the first memory of its kind that still has room, else into the first of its kind.

    returns   each memory with its items, and a finding for each that is too small
    """
    placed: Placed = {memory.name: [] for memory in machine.memories}
    findings = []
    for item in items:
        fitting = [memory for memory in machine.memories if item.kind in memory.holds]
        if not fitting:
            text = f"no memory of {machine.name} holds {item.kind}; {item.name} needs {item.size_bytes} bytes"
            findings.append(Finding(level="error", code="no-memory", where=item.name, text=text))
            continue
        roomy = [
            memory for memory in fitting if _used(memory, placed) + item.size_bytes <= memory.capacity_bytes
        ]
        memory = (roomy or fitting)[0]
        placed[memory.name].append((item, memory.taken_bytes(item.size_bytes)))
    filled = []
    for memory in machine.memories:
        own = placed[memory.name]
        if memory.reserve_bytes:
            reserve = Item(
                name="kept for your game", kind="reserve", size_bytes=memory.reserve_bytes, shared=True
            )
            own = [(reserve, memory.reserve_bytes), *own]
        used = sum(size for _, size in own)
        filled.append(
            Filled(
                memory=memory.name, capacity_bytes=memory.capacity_bytes, used_bytes=used, items=tuple(own)
            )
        )
        if used > memory.capacity_bytes:
            text = (
                f"{used} bytes are needed, it has {memory.capacity_bytes}; "
                f"{used - memory.capacity_bytes} too many: use fewer frames, smaller planes or another mode"
            )
            findings.append(
                Finding(level="error", code="out-of-memory", where=f"memory {memory.name}", text=text)
            )
    return tuple(filled), tuple(findings)


def _used(memory: Memory, placed: Placed) -> int:
    return memory.reserve_bytes + sum(size for _, size in placed[memory.name])
