"""Records: classes of named values that stay as they were made; and closed lists of words. Knows nothing of what they
hold."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """A slotted data class that compares and hashes by its fields, and that nobody may change.

    The type checker refuses a change. Python itself does not: guarding each field as it is set makes a record of
    thirty fields cost ten times as much, and a book is made of tens of thousands of them.
    """
    return dataclass(slots=True, unsafe_hash=True)(cls)


class Word(StrEnum):
    """One of a closed list of words, looked up in sets as quickly as the text it is: an enum looks itself up by name,
    in Python, each time."""

    __hash__ = str.__hash__
