"""The page around the app, with a stand-in for the module that only the phone's Python has."""

import asyncio
import sys
import types
from datetime import UTC, datetime

import pytest

from fieldapp.hosts.keeping import NEARLY_FULL, Keeping
from fieldapp.hosts.phone_page import PhonePage

STATE = {
    "ready": True, "why": "", "persisted": False, "usage": 10_000_000, "quota": 10_000_000_000, "newer": "", "version": "0123456789ab",
    "standalone": False, "installable": True, "share": False, "online": True,
}  # fmt: skip


class Plain(dict):
    """An object of the page: its fields by name, and as a dictionary."""

    __getattr__ = dict.get

    def to_py(self):
        return dict(self)


class Page:
    """Notes what is asked of the window."""

    def __init__(self, evicted=False, flush_fails=False, **mark):
        self.state, self.mark, self.evicted, self.changed = Plain(STATE), Plain(mark), evicted, None
        self.folder, self.base, self.before, self.kept = "/kept", "spanbook.db", "spanbook-before.db", "files"
        self.asked, self._flush_fails = [], flush_fails

    async def _answer(self):
        return True

    def ask(self, name, value):
        self.asked.append((name, value))
        return self._answer_now()

    def _answer_now(self):
        found = asyncio.get_running_loop().create_future()
        found.set_result(True)
        return found

    async def flush(self):
        if self._flush_fails:
            raise sys.modules["pyodide.ffi"].JsException("QuotaExceededError")

    def room(self):
        self.asked.append(("room", None))


@pytest.fixture(autouse=True)
def pyodide(monkeypatch):
    ffi = types.ModuleType("pyodide.ffi")
    ffi.JsException = type("JsException", (Exception,), {})
    ffi.to_js = lambda value, dict_converter: value
    js = types.ModuleType("js")
    js.Object = types.SimpleNamespace(fromEntries=dict)
    for name, module in {"pyodide": types.ModuleType("pyodide"), "pyodide.ffi": ffi, "js": js}.items():
        monkeypatch.setitem(sys.modules, name, module)


def opened(**page):
    js = Page(**page)
    return PhonePage(js, lambda f: f), js


def test_what_the_page_says_is_read_and_changes_are_told():
    phone, js = opened()
    heard = []
    leave = phone.subscribe(lambda: heard.append(phone.keeping.newer))
    js.state["newer"] = "ba9876543210"
    js.changed()
    leave()
    js.changed()
    assert heard == [True]
    assert (phone.keeping.how, phone.keeping.ready, phone.keeping.may_install) == ("files", True, True)


def test_a_write_that_the_phone_refuses_is_an_error_and_never_called_kept():
    phone, _ = opened(flush_fails=True)
    with pytest.raises(OSError, match="QuotaExceededError"):
        asyncio.run(phone.flush())


def test_kept_things_that_are_gone_stay_told_until_the_person_has_understood():
    async def go():
        phone, _ = opened(evicted=True, jobs=2, kept_at="2026-05-02T09:31:00+00:00")
        assert phone.keeping.gone == datetime(2026, 5, 2, 9, 31, tzinfo=UTC)
        phone.note(lambda: 0, datetime(2026, 5, 3, tzinfo=UTC))
        noted = phone._js.asked[-1][1]
        later, js = opened(**noted)
        assert later.keeping.gone == datetime(2026, 5, 2, 9, 31, tzinfo=UTC)
        await later.understood()
        assert later.keeping.gone is None and js.asked[-1] == ("mark", {"gone": None})

    asyncio.run(go())


@pytest.mark.parametrize("mark", [{}, {"jobs": 0, "kept_at": "2026-05-02T09:31:00+00:00"}, {"jobs": 1, "kept_at": "spoilt"}])
def test_an_empty_store_that_never_held_a_job_alarms_nobody(mark):
    phone, _ = opened(evicted=True, **mark)
    assert phone.keeping.gone is None


def test_the_note_beside_the_database_is_not_written_at_every_key():
    async def go():
        phone, js = opened()
        for second in range(59):
            phone.note(lambda: 1, datetime(2026, 5, 2, 9, 31, second, tzinfo=UTC))
        assert len(js.asked) == 1

    asyncio.run(go())


def test_the_first_job_is_noted_at_once():
    async def go():
        phone, js = opened()
        for second, jobs in enumerate([0, 0, 1, 1]):
            phone.note(lambda jobs=jobs: jobs, datetime(2026, 5, 2, 9, 31, second, tzinfo=UTC))
        assert [value["jobs"] for _, value in js.asked] == [0, 1]

    asyncio.run(go())


@pytest.mark.parametrize("used, room, full", [(0, 0, False), (1, NEARLY_FULL, True), (0, NEARLY_FULL, False), (0, NEARLY_FULL + 1, False)])
def test_nearly_full_is_said_by_what_is_left(used, room, full):
    assert Keeping("files", used=used, room=room).nearly_full is full
