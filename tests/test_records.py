"""Records behave as the data classes of the standard library do, which they stand for."""

from dataclasses import FrozenInstanceError, asdict, dataclass, field, fields, is_dataclass, replace
from typing import Any

import pytest

from scenekit.records import record


def made_by(decorator: Any, **options: Any) -> Any:
    """Return the same class, made by either decorator."""

    @decorator(frozen=True, slots=True, kw_only=True, **options)
    class Thing:
        """A thing."""

        name: str
        size: tuple[int, int] = (1, 2)
        parts: list[int] = field(default_factory=list)
        area: int = field(init=False, repr=False, compare=False)

        def __post_init__(self) -> None:
            object.__setattr__(self, "area", self.size[0] * self.size[1])

    return Thing


PAIR = [made_by(record), made_by(dataclass)]


def test_it_shows_compares_and_counts_as_the_standard_one() -> None:
    ours, theirs = (cls(name="a", parts=(1,)) for cls in PAIR)
    assert repr(ours) == repr(theirs)
    assert (ours.area, ours.size) == (theirs.area, theirs.size) == (2, (1, 2))
    assert asdict(ours) == asdict(theirs)
    assert [f.name for f in fields(ours)] == [f.name for f in fields(theirs)]
    assert is_dataclass(ours)
    assert hash(ours) == hash(theirs)
    assert ours != theirs


@pytest.mark.parametrize("cls", PAIR)
def test_equal_fields_make_equal_things(cls: Any) -> None:
    one, same, other = cls(name="a", parts=()), cls(name="a", parts=()), cls(name="a", parts=(), size=(2, 2))
    assert one == same
    assert one != other
    assert len({one, same, other}) == 2
    assert replace(one, size=(2, 2)) == other
    assert cls(name="a").parts is not cls(name="a").parts


@pytest.mark.parametrize("decorator", [record, dataclass])
def test_without_equality_only_the_same_one_is_equal(decorator: Any) -> None:
    cls = made_by(decorator, eq=False)
    one = cls(name="a", parts=())
    assert one == one
    assert one != cls(name="a", parts=())


@pytest.mark.parametrize("cls", PAIR)
def test_it_stays_as_it_was_made(cls: Any) -> None:
    thing = cls(name="a")
    with pytest.raises(FrozenInstanceError):
        thing.name = "b"
    with pytest.raises(FrozenInstanceError):
        del thing.name
    with pytest.raises((FrozenInstanceError, AttributeError, TypeError)):
        thing.other = 1
    assert not hasattr(thing, "__dict__")


@pytest.mark.parametrize("cls", PAIR)
@pytest.mark.parametrize("given", [{}, {"name": "a", "colour": 1}, {"name": "a", "area": 3}])
def test_wrong_fields_are_refused(cls: Any, given: dict[str, Any]) -> None:
    with pytest.raises(TypeError):
        cls(**given)
    with pytest.raises(TypeError):
        cls("a")
