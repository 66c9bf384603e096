"""Records: frozen data classes whose methods are shared instead of compiled for each class.

Every command needs some fifty of them, and `dataclasses` compiles six methods for each, which takes longer
than reading a project.  To a type checker a record is a data class; `replace`, `fields` and `asdict` take it
as one.
"""

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, fields
from operator import attrgetter
from typing import TYPE_CHECKING, Any, NoReturn

__all__ = ["record"]

if TYPE_CHECKING:
    from dataclasses import dataclass as record
else:

    def record(*, frozen, slots, kw_only, eq=True):
        """Make a class a record, which is always frozen, with slots, and made from keywords alone.

        eq   whether records with equal fields are equal; else only one and the same is
        """
        if not (frozen and slots and kw_only):
            raise TypeError("a record is frozen, has slots, and is made from keywords")

        def make(cls):
            made = dataclass(init=False, repr=False, eq=False, slots=True, kw_only=True)(cls)
            for name, method in {**_shared(made), **(_compared(made) if eq else {})}.items():
                if name not in cls.__dict__:
                    setattr(made, name, method)
            return made

        return make


def _shared(cls: Any) -> dict[str, Callable[..., Any]]:
    """Return how a record is made, shown and kept as it is."""
    plan = [
        (field.name, cls.__dict__[field.name].__set__, field.default, _maker(cls, field))
        for field in fields(cls)
        if field.init
    ]
    shown = [field.name for field in fields(cls) if field.repr]
    finish = cls.__dict__.get("__post_init__")

    def __init__(self: Any, **given: Any) -> None:
        for name, put, default, make in plan:
            value = given.pop(name, default)
            put(self, make() if value is MISSING else value)
        if given:
            raise TypeError(f"{cls.__name__}: no field {', '.join(given)}")
        if finish is not None:
            finish(self)

    def __repr__(self: Any) -> str:
        return f"{cls.__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in shown)})"

    return {"__init__": __init__, "__repr__": __repr__, "__setattr__": _refuse, "__delattr__": _refuse}


def _compared(cls: Any) -> dict[str, Callable[..., Any]]:
    """Return how records with equal fields are equal."""
    key = attrgetter(*(field.name for field in fields(cls) if field.compare))

    def __eq__(self: Any, other: Any) -> Any:
        return key(self) == key(other) if other.__class__ is cls else NotImplemented

    def __hash__(self: Any) -> int:
        return hash(key(self))

    return {"__eq__": __eq__, "__hash__": __hash__}


def _maker(cls: type, field: Any) -> Callable[[], Any]:
    """Return what makes the value of a field that is not given."""
    if field.default_factory is not MISSING:
        made: Callable[[], Any] = field.default_factory
        return made

    def missing() -> NoReturn:
        raise TypeError(f"{cls.__name__}: field {field.name} is missing")

    return missing


def _refuse(self: Any, name: str, value: Any = None) -> NoReturn:
    raise FrozenInstanceError(f"cannot set field {name!r}: a record stays as it was made")
