"""Records: classes of named values that stay as they were made; and closed lists of words. Knows nothing of what they
hold."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, fields
from enum import StrEnum
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """A slotted data class that compares and hashes by its fields, and that nobody may change.

    The type checker refuses a change. Python itself does not: guarding each field as it is set makes a record of
    thirty fields cost ten times as much, and a book is made of tens of thousands of them. And its methods are not
    compiled for each class by itself, which a command would wait for longer than for all the rest of its start.
    """
    made: Any = dataclass(slots=True, eq=False, repr=False, match_args=False)(cls)
    told = fields(made)
    values = _values([f.name for f in told if f.compare])
    shown = [f.name for f in told if f.repr]

    def same(self: Any, other: object) -> bool:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    def number(self: Any) -> int:
        return hash(values(self))

    def words(self: Any) -> str:
        return f"{type(self).__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in shown)})"

    for name, method in (("__eq__", same), ("__hash__", number), ("__repr__", words)):
        if name not in cls.__dict__:
            setattr(made, name, method)
    return made  # type: ignore[no-any-return]


def _values(names: list[str]) -> Callable[[Any], Any]:
    """What gives the values of these fields."""
    return attrgetter(*names) if names else lambda _: ()


class Word(StrEnum):
    """One of a closed list of words, looked up in sets as quickly as the text it is: an enum looks itself up by name,
    in Python, each time."""

    __hash__ = str.__hash__
