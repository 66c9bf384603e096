"""Named kinds of memory and what an item really takes in them."""

from scenekit.records import record

KINDS = ("art", "pages", "tables", "program")
"""What a memory may hold: pictures, frame buffers, integer tables, program text and variables."""


@record(frozen=True, slots=True, kw_only=True)
class Memory:
    """One memory of a machine.

    reserve_bytes            kept for the user's own game
    overhead_bytes_per_item  bookkeeping of the machine beside every item
    holds                    out of KINDS
    """

    name: str
    capacity_bytes: int
    alignment_bytes: int = 1
    overhead_bytes_per_item: int = 0
    reserve_bytes: int = 0
    holds: tuple[str, ...] = KINDS

    @property
    def usable_bytes(self) -> int:
        """Bytes that a scene may use."""
        return self.capacity_bytes - self.reserve_bytes

    def taken_bytes(self, size_bytes: int) -> int:
        """Return what one item of a size takes: with its overhead, rounded up to the alignment."""
        whole = size_bytes + self.overhead_bytes_per_item
        return -(-whole // self.alignment_bytes) * self.alignment_bytes
