"""Whose art a project holds, and what its licences ask for, in plain words."""

import re
from collections.abc import Iterator

from scenekit.model.project import Project
from scenekit.records import record

NO_ADVICE = "information, not legal advice"

NAME_THEM = "asks you to name its author and the licence"
SHARE_ALIKE = "asks that what you make of this art is passed on under the same licence"
KEEP_NOTICE = "asks you to keep its notice with the art"
GIVE_SOURCE = "asks that whoever gets the art can get its editable originals too, under the same licence"
NO_SELLING = "does not allow commercial use"
NO_CHANGES = "does not allow changed versions to be passed on; cutting and recolouring may count as changes"

LICENCES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("CC-0 CC-ZERO PUBLIC-DOMAIN PD UNLICENSE PDDL", ()),
    ("CC-BY-NC-SA", (NAME_THEM, NO_SELLING, SHARE_ALIKE)),
    ("CC-BY-NC-ND", (NAME_THEM, NO_SELLING, NO_CHANGES)),
    ("CC-BY-NC", (NAME_THEM, NO_SELLING)),
    ("CC-BY-ND", (NAME_THEM, NO_CHANGES)),
    ("CC-BY-SA", (NAME_THEM, SHARE_ALIKE)),
    ("CC-BY", (NAME_THEM,)),
    ("OGA-BY", (NAME_THEM,)),
    ("FAL FREE-ART", (NAME_THEM, SHARE_ALIKE)),
    ("GFDL", (NAME_THEM, SHARE_ALIKE)),
    ("AGPL LGPL GPL", (KEEP_NOTICE, GIVE_SOURCE)),
    ("MPL", (KEEP_NOTICE, GIVE_SOURCE)),
    ("MIT EXPAT BSD ISC ZLIB APACHE OFL ARTISTIC BSL BOOST", (KEEP_NOTICE,)),
)
"""A licence by its usual short names, and what it asks for; the first that fits counts.  From memory of the
deeds of Creative Commons and of the licence texts; names as in the SPDX License List."""


@record(frozen=True, slots=True, kw_only=True)
class Credit:
    """One sheet or plane with what is known of its origin.

    what   "sheet hero", or "scene quay, plane sky"
    """

    what: str
    file: str
    source: str
    author: str
    licence: str

    @property
    def missing(self) -> tuple[str, ...]:
        """Names of what is not on record."""
        return tuple(name for name in ("author", "licence", "source") if not getattr(self, name))

    @property
    def asks(self) -> tuple[str, ...]:
        """What the licence asks for, one phrase each."""
        return licence_asks(self.licence)


def ledger(project: Project) -> tuple[Credit, ...]:
    """Return a line for every sheet, and for every plane that has a picture of its own."""
    return tuple(_credits(project))


def _credits(project: Project) -> Iterator[Credit]:
    for sheet in project.sheets:
        yield Credit(
            what=f"sheet {sheet.name}",
            file=sheet.file,
            source=sheet.source,
            author=sheet.author,
            licence=sheet.licence,
        )
    for scene in project.scenes:
        for plane in scene.planes:
            if plane.picture:
                yield Credit(
                    what=f"scene {scene.name}, plane {plane.name}",
                    file=plane.picture,
                    source=plane.source,
                    author=plane.author,
                    licence=plane.licence,
                )


def licence_asks(text: str) -> tuple[str, ...]:
    """Return what a licence asks for; () where it asks for nothing, is not given, or is not known.

    Of several joined by "or" the one that asks least counts; of several joined otherwise all do.
    """
    choices = [_asks_of_all(part) for part in re.split(r"(?i)\s+or\s+|\|", text)]
    known = [choice for choice in choices if choice is not None]
    return min(known, key=len) if known else ()


def is_known(text: str) -> bool:
    """Say whether some licence in a text is known here."""
    return any(_asks_of_all(part) is not None for part in re.split(r"(?i)\s+or\s+|\|", text))


def _asks_of_all(text: str) -> tuple[str, ...] | None:
    asks: dict[str, None] = {}
    known = False
    for part in re.split(r"(?i)\s+and\s+|[,;&/+]", text):
        name = _parted(part)
        for short_names, wanted in LICENCES:
            if any(f"-{short}-" in name for short in short_names.split()):
                known = True
                asks |= dict.fromkeys(wanted)
                break
    return tuple(asks) if known else None


def _parted(text: str) -> str:
    """Return a licence's name in capitals, hyphens around each word and before its version: -GPL-V3-."""
    words = re.sub(r"[^A-Z0-9]+", "-", text.upper()).strip("-")
    words = re.sub(r"(?<=[A-Z])V?[0-9]", r"-\g<0>", words)
    return f"-{words}-".replace("-CREATIVE-COMMONS-", "-CC-").replace("-CCBY-", "-CC-BY-")
