"""Where an export goes: a folder, a card, beside it the user's own program; and what is said of it."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from scenekit.dialects.dialect import Dialect
    from scenekit.transfer import Shipment

STEM = re.compile(r"[a-z0-9][a-z0-9_-]{0,30}")
LARGEST_BYTES = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Where exported files go: a folder, a board's card, with a program that checks them there."""

    out: Path | None
    to: Path | None
    check: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """What became of an export.

    changed   files that were written into the folder, or None where there is none
    own       the user's own files; written: those of them that were not there yet
    carried   files that were written to the card, of the user's own too
    """

    way: Way
    changed: tuple[str, ...] | None
    own: Mapping[str, bytes]
    written: tuple[str, ...]
    shipment: "Shipment | None"
    carried: tuple[str, ...]

    def as_dict(self) -> dict[str, object]:
        """Return it as plain JSON data."""
        way = self.way
        sent: dict[str, object] | None = None
        if self.shipment is not None and way.to is not None:
            sent = _shipment_data(way.to, self.shipment, self.carried)
        return {
            "folder": None if way.out is None else str(way.out),
            "transfer": sent,
            "own": [
                {"name": name, "written": name in self.written}
                for name in (self.own if way.out is not None else ())
            ],
        }

    def describe(self) -> None:
        """Say which of the user's own files were written and which kept, and what went to a board."""
        for name, data in self.own.items() if self.way.out is not None else ():
            new = name in self.written
            what = f"{len(data):>9} bytes  yours from now on" if new else "yours, kept as it is"
            click.echo(f"  {name:<24} {what}")
        if self.shipment is not None and self.way.to is not None:
            _describe_shipment(self.way.to, self.shipment, self.carried)


def deliver(files: Mapping[str, bytes], own: Mapping[str, bytes], dialect: "Dialect", way: Way) -> Delivery:
    """Write exported files where they go; nothing is written where any of them cannot be.

    The user's own files are brought to a card as they stand in the folder, unless they were edited there;
    without a folder they are written to the card once.
    raises   ExportError
    """
    from scenekit.export import check_own, write_export, write_own
    from scenekit.transfer import ship

    shipment = None
    if way.out is not None:
        check_own(way.out, own)
    if way.to is not None:
        shipment = ship(files, dialect, way.check, _as_it_stands(way.out, own))
        check_own(way.to, shipment.own)
    return Delivery(
        way=way,
        changed=write_export(way.out, files) if way.out is not None else None,
        own=own,
        written=write_own(way.out, own) if way.out is not None else (),
        shipment=shipment,
        carried=_carry(way, shipment) if shipment is not None else (),
    )


def _as_it_stands(folder: Path | None, own: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return the user's own files as they stand in a folder, or as they would be written."""
    from scenekit.errors import ExportError

    found = dict(own)
    for name in own if folder is not None else ():
        path = Path(str(folder)) / name
        if path.is_file():
            if path.stat().st_size > LARGEST_BYTES:
                raise ExportError(f"{path}: too large; must be at most {LARGEST_BYTES} bytes")
            found[name] = path.read_bytes()
    return found


def _carry(way: Way, shipment: "Shipment") -> tuple[str, ...]:
    """Write a shipment to the card and return the names of those files that changed there."""
    from scenekit.export import unedited, write_export, write_own

    assert way.to is not None
    if way.out is None:
        return (*write_export(way.to, shipment.files), *write_own(way.to, shipment.own))
    return write_export(way.to, {**shipment.files, **unedited(way.to, shipment.own)})


def read_program(path: Path) -> tuple[str, str]:
    """Return the name without its ending and the text of a program in neutral words.

    raises   ExportError: it cannot be read, or its name cannot be an exported file's
    """
    from scenekit.errors import ExportError

    if not STEM.fullmatch(path.stem):
        raise ExportError(f"program {path.name}: must be named by small letters, digits, - and _")
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise ExportError(f"program {path}: cannot be read: {error.strerror}") from None
    if len(data) > LARGEST_BYTES:
        raise ExportError(f"program {path}: too large; must be at most {LARGEST_BYTES} bytes")
    return path.stem, data.decode("latin-1")


def _shipment_data(to: Path, shipment: "Shipment", carried: tuple[str, ...]) -> dict[str, object]:
    """Return what goes to a board as plain JSON data."""
    return {
        "folder": str(to),
        "files": [
            {"name": name, "bytes": len(data), "changed": name in carried}
            for name, data in (*shipment.files.items(), *shipment.own.items())
        ],
        "names": dict(shipment.names),
        "bytes": shipment.size_bytes,
        "seconds": None if shipment.seconds is None else round(shipment.seconds, 1),
    }


def _describe_shipment(to: Path, shipment: "Shipment", carried: tuple[str, ...]) -> None:
    """Print what goes to a board."""
    exported = {there: name for name, there in shipment.names.items()}
    both = {**shipment.files, **shipment.own}
    for name, data in both.items():
        renamed = f"  from {exported[name]}" if exported.get(name, name) != name else ""
        left = "" if name in carried else "  yours, kept as it is" if name in shipment.own else "  unchanged"
        click.echo(f"  {name:<24} {len(data):>9} bytes{left}{renamed}")
    time = "" if shipment.seconds is None else f"; {shipment.seconds:.0f} s over the serial line"
    click.echo(f"{to}: {len(carried)} of {len(both)} files written, {shipment.size_bytes} bytes{time}")
