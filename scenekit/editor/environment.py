"""What must be so before a window can open."""

from importlib.metadata import PackageNotFoundError, version

from scenekit.errors import SceneKitError


def installed(name: str) -> bool:
    """Say whether a package is installed."""
    try:
        version(name)
    except PackageNotFoundError:
        return False
    return True


def check_environment() -> None:
    """Refuse to go on where two packages share one folder and overwrite each other.

    raises   SceneKitError: pygame and pygame-ce are both installed
    """
    if installed("pygame") and installed("pygame-ce"):
        raise SceneKitError(
            "pygame and pygame-ce are both installed and overwrite each other; "
            "keep one: pip uninstall pygame pygame-ce, then pip install pygame"
        )
