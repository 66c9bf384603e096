"""Memory: overhead, alignment, reserve, overflow."""

from dataclasses import replace

from scenekit.costs.memory import Item, lay_out
from scenekit.machines.machine import Machine
from scenekit.machines.memory import Memory
from scenekit.machines.profile import load_machine


def machine(*memories: Memory) -> Machine:
    return replace(load_machine("indexed-board"), memories=memories)


def test_items_take_overhead_and_alignment() -> None:
    board = machine(Memory(name="video", capacity_bytes=1000, alignment_bytes=64, overhead_bytes_per_item=8))
    (filled,), findings = lay_out(board, [Item(name="art", kind="art", size_bytes=100)])
    assert filled.used_bytes == 128
    assert findings == ()


def test_reserve_is_used_and_shown() -> None:
    board = machine(Memory(name="work", capacity_bytes=1000, reserve_bytes=300))
    (filled,), _ = lay_out(board, [Item(name="tables", kind="tables", size_bytes=200)])
    assert filled.used_bytes == 500
    assert [item.name for item, _ in filled.items] == ["kept for your game", "tables"]


def test_second_memory_takes_what_the_first_cannot() -> None:
    board = machine(Memory(name="fast", capacity_bytes=100), Memory(name="slow", capacity_bytes=1000))
    filled, findings = lay_out(board, [Item(name="art", kind="art", size_bytes=500)])
    assert [f.used_bytes for f in filled] == [0, 500]
    assert findings == ()


def test_overflow_is_said_with_the_number() -> None:
    board = machine(Memory(name="video", capacity_bytes=1000))
    _, (finding,) = lay_out(board, [Item(name="art", kind="art", size_bytes=1500)])
    assert finding.level == "error"
    assert "500 too many" in finding.text


def test_no_memory_of_a_kind_is_said() -> None:
    board = machine(Memory(name="work", capacity_bytes=1000, holds=("tables",)))
    _, (finding,) = lay_out(board, [Item(name="pages", kind="pages", size_bytes=10)])
    assert finding.code == "no-memory"
