"""Time until a game can start: reading its files."""

from collections.abc import Mapping

from scenekit.machines.machine import Machine


def load_ms(machine: Machine, files: Mapping[str, bytes]) -> float | None:
    """Return the time to read an export's files from storage, without unpacking; None while unknown."""
    if machine.storage is None:
        return None
    size = sum(len(data) for data in files.values())
    return len(files) * machine.storage.per_file_ms + size / machine.storage.bytes_per_s * 1000
