"""A store on a real file, a clock that tests set, and the job file `tests/data/store/deck.json` (invented)."""

from collections.abc import Callable, Iterator
from copy import deepcopy
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from measure import strict_json
from measure.store import Store

DATA = Path(__file__).parents[2] / "data" / "store"


class SetClock:
    """Shows a minute more at every look."""

    def __init__(self) -> None:
        self.at = datetime(2026, 5, 2, 12, 0, tzinfo=UTC)

    def now(self) -> datetime:
        self.at += timedelta(minutes=1)
        return self.at


@pytest.fixture
def clock() -> SetClock:
    return SetClock()


@pytest.fixture
def store(tmp_path: Path, clock: SetClock) -> Iterator[Store]:
    with Store.open(tmp_path, clock=clock) as opened:
        yield opened


@pytest.fixture
def another(tmp_path: Path, clock: SetClock) -> Iterator[Callable[[], Store]]:
    """`another()` opens the store of one more device."""
    opened: list[Store] = []

    def open_one() -> Store:
        opened.append(Store.open(tmp_path / f"device-{len(opened)}.db", clock=clock))
        return opened[-1]

    yield open_one
    for each in opened:
        each.close()


@pytest.fixture(scope="session")
def deck_text() -> str:
    return (DATA / "deck.json").read_text(encoding="utf-8")


@pytest.fixture
def deck_file(deck_text: str) -> dict[str, Any]:
    """The job file as a tree, the test's own."""
    tree = deepcopy(strict_json.read(deck_text))
    assert isinstance(tree, dict)
    return tree


@pytest.fixture
def span() -> Callable[..., dict[str, Any]]:
    """`span("A1", "41 1/2 in", at=3)`: a reading three minutes past ten."""

    def make(bay: str, value: str, by: str = "Mona", at: int = 0, **more: str) -> dict[str, Any]:
        return {"bay": bay, "what": "span", "value": value, "by": by, "at": f"2026-05-02T10:{at:02}:00Z", **more}

    return make
