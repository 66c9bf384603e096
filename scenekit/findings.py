"""Facts about the work, collected rather than raised."""

from collections.abc import Iterable

from scenekit.records import record

LEVELS = ("note", "warning", "error")


@record(frozen=True, slots=True, kw_only=True)
class Finding:
    """One fact about somebody's work.

    level   "note", "warning" or "error"; an error sets exit code 1
    code    short stable name, such as "soft-alpha"
    where   what it is about, such as "sheet trolley"
    text    one sentence: what, got, allowed, way out
    """

    level: str
    code: str
    where: str
    text: str

    def __post_init__(self) -> None:
        if self.level not in LEVELS:
            raise ValueError(f"level must be one of {LEVELS}; got {self.level!r}")

    def as_dict(self) -> dict[str, str]:
        """Return the finding as plain JSON data."""
        return {"level": self.level, "code": self.code, "where": self.where, "text": self.text}

    def __str__(self) -> str:
        return f"{self.level}: {self.where}: {self.text}"


def worst_level(findings: Iterable[Finding]) -> str | None:
    """Return the highest level among findings, or None when there are none."""
    ranks = [LEVELS.index(finding.level) for finding in findings]
    return LEVELS[max(ranks)] if ranks else None
