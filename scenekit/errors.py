"""Every error that bad input can raise.

SceneKitError
├── ProjectError        project and scene files
├── ImageReadError      pictures and archives of pictures
├── SliceError          cutting a sheet
├── PaletteError        colours, palettes, cycles
├── MachineError        machine profiles, display modes, timings
├── EncodingError       tables
├── DialectError        dialects and generated code
├── ExportError         writing results
├── VerifyError         running and comparing
└── UnknownNameError    a name that is not in a list; suggests the nearest

A message is one line: where, what, got, allowed; lower case, no exclamation mark.
"""

from collections.abc import Iterable


class SceneKitError(Exception):
    """Something outside the program is wrong; the message is for the user."""

    def __init__(self, message: str) -> None:
        super().__init__(one_line(message))


class ProjectError(SceneKitError):
    """A project or scene file says something impossible."""


class ImageReadError(SceneKitError):
    """A picture cannot be read."""


class SliceError(SceneKitError):
    """A sheet cannot be cut as asked."""


class PaletteError(SceneKitError):
    """Colours do not fit."""


class MachineError(SceneKitError):
    """A machine profile or display mode says something impossible."""


class EncodingError(SceneKitError):
    """A table cannot be encoded or decoded."""


class DialectError(SceneKitError):
    """A dialect cannot say what the program needs."""


class ExportError(SceneKitError):
    """Results cannot be written."""


class VerifyError(SceneKitError):
    """A program cannot be run or its output cannot be read."""


class TimeLimitError(VerifyError):
    """A program was still running when its time was over."""


class StoppedError(SceneKitError):
    """The work was stopped because somebody wished it."""


class UnknownNameError(SceneKitError):
    """A name is not among the known ones."""

    def __init__(self, where: str, got: str, known: Iterable[str]) -> None:
        from difflib import get_close_matches

        names = sorted(known)
        near = get_close_matches(got[:200], names, 1)
        hint = f"; did you mean {near[0]!r}" if near else ""
        shown = ", ".join(names[:12]) + (", ..." if len(names) > 12 else "")
        named = repr(got if len(got) <= 60 else got[:57] + "...")
        super().__init__(f"{where}: unknown name {named}{hint}; known: {shown or 'none'}")
        self.got = got


def one_line(text: str) -> str:
    """Turn control characters into visible escapes, so that no text of a stranger moves the cursor."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)
