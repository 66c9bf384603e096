"""Says how the words of a BASIC did in their tests, and what it lacks."""

from collections import Counter
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from scenekit.dialects.lacking import Lack
    from scenekit.dialects.selftest import Grade

MOST_NAMED = 3


def asked(word: str) -> str:
    """Return a word with the key of its answer, where that has another name or there is none."""
    from scenekit.dialects.answers import answer_of
    from scenekit.routines.words import WORDS

    key = answer_of(word)
    if key and key != word:
        return f"{word} (answer {key})"
    return word if key or word not in WORDS else f"{word} (not asked; see scenekit list words)"


def tell(grade: "Grade") -> None:
    """Say how a test ended as soon as it did; which word is to blame is known when all have."""
    click.echo(f"{'passed' if grade.grade == 'passed' else 'not passed'}: {asked(grade.word)}", err=True)


def describe(
    missing: "tuple[Lack, ...]", features: tuple[str, ...], grades: "tuple[Grade, ...]", tried: bool
) -> None:
    for lack in missing:
        if lack.needed:
            click.echo(f"missing: {asked(lack.name)}: without it no {lack.costs[0]}")
    for feature in dict.fromkeys(cost for lack in missing if not lack.needed for cost in lack.costs):
        words = [lack.name for lack in missing if feature in lack.costs]
        more = f" and {len(words) - MOST_NAMED} more" if len(words) > MOST_NAMED else ""
        click.echo(f"it cannot do: {feature}: no {', '.join(asked(w) for w in words[:MOST_NAMED])}{more}")
    click.echo("it can do: " + ("; ".join(features) or "tables and the scene's arithmetic, as numbers"))
    count = Counter(grade.grade for grade in grades)
    click.echo(f"words: {count['passed']} passed, {count['failed']} failed, {count['unproven']} unproven")
    for grade in grades:
        if grade.grade == "failed" or (tried and grade.grade == "unproven"):
            click.echo(f"  {grade.grade}: {asked(grade.word)}: {grade.why}")
    if not tried:
        click.echo("nothing was run yet: use --trust, or --write FOLDER and later --from LOG")
