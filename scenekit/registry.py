"""Finds plug-ins: modules with a PLUGIN record, and TOML files in a folder."""

from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from typing import TypeVar

from scenekit.errors import UnknownNameError

T = TypeVar("T")


def load_plugins(package: str, kind: type[T]) -> dict[str, T]:
    """Return the PLUGIN of every module named in the package's MODULES list, in its order.

    raises   TypeError: a module's PLUGIN is missing or of another kind (a programming fault)
    """
    modules: list[str] = import_module(package).MODULES
    plugins: dict[str, T] = {}
    for name in modules:
        plugin = getattr(import_module(f"{package}.{name}"), "PLUGIN", None)
        if not isinstance(plugin, kind):
            raise TypeError(f"{package}.{name}: PLUGIN must be a {kind.__name__}")
        plugins[name] = plugin
    return plugins


def data_files(folder: Path) -> dict[str, Path]:
    """Return every TOML file of a folder by its stem, sorted by name."""
    return {path.stem: path for path in sorted(folder.glob("*.toml"))}


def choose(where: str, name: str, known: dict[str, T]) -> T:
    """Return known[name].

    raises   UnknownNameError: with the nearest known name
    """
    if name not in known:
        raise UnknownNameError(where, name, known)
    return known[name]


def iterate_modules(package: str) -> Iterator[str]:
    """Yield the stems of the Python files beside a package's __init__, sorted (for the contract tests)."""
    origin = import_module(package).__file__
    assert origin is not None
    for path in sorted(Path(origin).parent.glob("*.py")):
        if path.stem != "__init__":
            yield path.stem
