"""Records: classes of named values that stay as they were made. Knows nothing of what they hold."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """A slotted data class that compares and hashes by its fields, and that nobody may change.

    The type checker refuses a change. Python itself does not: guarding each field as it is set makes a record of
    thirty fields cost ten times as much, and a book is made of tens of thousands of them.
    """
    return dataclass(slots=True, unsafe_hash=True)(cls)
