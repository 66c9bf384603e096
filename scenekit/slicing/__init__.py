"""Cutting sheets into frames."""

from scenekit.model.arrays import Pixels
from scenekit.registry import choose, load_plugins
from scenekit.slicing.cut import Cut, SliceOptions, SlicingMethod

__all__ = ["MODULES", "cut_sheet", "slicing_methods"]

MODULES = [
    "guess",
    "cells",
    "islands",
    "boxes",
]


def slicing_methods() -> dict[str, SlicingMethod]:
    """Return every slicing method by name."""
    return load_plugins("scenekit.slicing", SlicingMethod)


def cut_sheet(pixels: Pixels, options: SliceOptions, *, method: str | None = None) -> Cut:
    """Cut a sheet with the named method, or the one that the options call for.

    pixels   (H, W, 4) uint8
    raises   SliceError: it cannot be cut so; UnknownNameError: no such method
    """
    methods = slicing_methods()
    return choose("slicing method", method or default_method(options, methods), methods).cut(pixels, options)


def default_method(options: SliceOptions, methods: dict[str, SlicingMethod]) -> str:
    """Return the method that is taken when none is named."""
    if options.boxes or options.box_file is not None:
        return "boxes"
    if options.cell is not None:
        return "cells"
    return "guess" if "guess" in methods else "islands"
