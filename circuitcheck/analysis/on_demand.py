"""A row of answers, each worked out when it is first asked for."""

from collections.abc import Callable, Iterator
from typing import Generic, TypeVar

Answer = TypeVar("Answer")


class OnDemand(Generic[Answer]):
    """`length` answers, number n made by `make(n)` once. To the reader it is a tuple."""

    def __init__(self, length: int, make: Callable[[int], Answer]) -> None:
        self._make = make
        self._known: dict[int, Answer] = {}
        self._length = length

    def __len__(self) -> int:
        return self._length

    def __getitem__(self, number: int) -> Answer:
        if not 0 <= number < self._length:
            raise IndexError(number)
        if number not in self._known:
            self._known[number] = self._make(number)
        return self._known[number]

    def __iter__(self) -> Iterator[Answer]:
        return (self[number] for number in range(self._length))
