"""The whole app in this process: real session, page, differences and packing; only the phone and the network are missing.

    async def steps(phone):
        await phone.tap("Settings")
        assert phone.sees("Crew")
    walk(steps)

A `Phone` records every packet. Two phones on one desk show what reaches the other one: look at its `packets`, not at its tree.
"""

from __future__ import annotations

import asyncio
import dataclasses
from collections.abc import Awaitable, Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import flet as ft
import msgpack
from flet.controls.base_control import BaseControl
from flet.controls.context import _context_page, context
from flet.messaging.connection import Connection
from flet.messaging.protocol import Message, MessageAction, configure_encode_object_for_msgpack
from flet.messaging.session import Session
from flet.pubsub.pubsub_hub import PubSubHub

from fieldapp.app import App
from fieldapp.desk import Desk
from fieldapp.hosts.ports import Host, OnPicked, PickedFile, Place, Went
from measure.store import Store

_SETTLED = 24
"""Turns of the loop after which everything that one tap starts has happened."""


class Wire(Connection):
    """A connection to nobody: packs like the real one, keeps every message, answers what the page would answer."""

    def __init__(self, loop: asyncio.AbstractEventLoop) -> None:
        super().__init__()
        self.loop, self.executor = loop, ThreadPoolExecutor(1)
        self.pubsubhub = PubSubHub(loop=loop, executor=self.executor)
        self.page_url = "http://phone.test"
        self.packets: list[Message] = []
        self.asked: list[tuple[str, Any]] = []
        self.session: Session | None = None

    def packed(self, what: object) -> bytes:
        """As it goes over the line. Packing also notes the values that later differences start from."""
        return msgpack.packb(what, default=configure_encode_object_for_msgpack(BaseControl))

    def send_message(self, message: Message) -> None:
        self.packed([message.action, message.body])
        self.packets.append(message)
        if message.action == MessageAction.SESSION_CRASHED:
            raise AssertionError(f"the red card over the page: {message.body.message}")
        if message.action == MessageAction.INVOKE_METHOD:
            self.asked.append((message.body.name, message.body.args))
            self.loop.create_task(self._answer(message.body))

    async def _answer(self, call: Any) -> None:
        assert self.session is not None
        self.session.handle_invoke_method_results(call.control_id, call.call_id, None, None)
        if call.name == "push_route":
            await self.went(call.args["route"])

    async def went(self, route: str) -> None:
        """The address in the browser changed."""
        assert self.session is not None
        self.session.apply_page_patch({"route": route})
        await self.session.dispatch_event(self.session.page._i, "route_change", {"route": route})

    def dispose(self) -> None:
        self.session = None


class StillClock:
    """A clock that moves a second at each look."""

    def __init__(self) -> None:
        self.at = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)

    def now(self) -> datetime:
        self.at += timedelta(seconds=1)
        return self.at


class Tray:
    """Files in and out: what was saved, what will be picked, what was shared."""

    def __init__(self) -> None:
        self.saved: list[PickedFile] = []
        self.shared: list[PickedFile] = []
        self.to_pick: list[PickedFile] = []
        self.goes: Went = "none"
        self.pickings: list[OnPicked] = []

    async def save(self, name: str, data: bytes) -> None:
        self.saved.append(PickedFile(name, data))

    async def pick(self, *endings: str) -> Sequence[PickedFile]:
        return self.to_pick

    async def dropped(self) -> Sequence[PickedFile]:
        return self.to_pick

    def picking(self, then: OnPicked, *endings: str, several: bool = False) -> ft.ClientAction:
        self.pickings.append(then)
        return ft.PickFiles(ft.FilePicker())

    def forget(self) -> None:
        self.pickings.clear()

    async def share(self, files: Sequence[PickedFile], text: str) -> Went:
        self.shared += files or [PickedFile("", text.encode())]
        return self.goes


class Phone:
    """One open page. Texts and names are what a person reads or hears; `controls()` is for what has neither."""

    def __init__(self, desk: Desk, tray: Tray, device: str = "here", width: float = 390, height: float = 844, **ports: Any) -> None:
        """ports: further ones of `Host`, by their names."""
        self.tray, self.desk, self._ports = tray, desk, ports
        self.wire = Wire(asyncio.get_running_loop())
        self.session = Session(self.wire)
        self.wire.session = self.session
        self.page = self.session.page
        self._size, self._device = (width, height), device

    async def start(self, route: str = "/") -> Phone:
        _context_page.set(self.page)
        width, height = self._size
        self.session.apply_page_patch({"route": route, "width": width, "height": height, "web": True})
        self.wire.packed(self.session.get_page_patch())
        context.reset_auto_update()
        host = Host(self.tray, self.tray, StillClock(), Place("served", device=self._device), **self._ports)
        self.app = App(self.page, host, self.desk)
        await self.app.start()
        await self.session.after_event(self.page)
        await self.settle()
        _context_page.set(None)
        return self

    async def settle(self) -> None:
        for _ in range(_SETTLED):
            await asyncio.sleep(0)

    # ---- what is there -------------------------------------------------------------------------------------------------
    @property
    def address(self) -> str:
        return self.app.address

    @property
    def packets(self) -> list[Message]:
        return self.wire.packets

    def controls(self, root: object = None) -> Iterator[BaseControl]:
        """Every visible control in the order of the page."""
        stack: list[object] = [root if root is not None else self.page.views[0]]
        seen: set[int] = set()
        while stack:
            one = stack.pop(0)
            if isinstance(one, (list, tuple)):
                stack = [*one, *stack]
            elif isinstance(one, BaseControl) and id(one) not in seen and getattr(one, "visible", True):
                seen.add(id(one))
                yield one
                stack = [*self._inside(one), *stack]

    @staticmethod
    def _inside(one: BaseControl) -> list[object]:
        named = (f.name for f in dataclasses.fields(one) if not f.name.startswith("_") and not f.metadata.get("skip"))
        values = (getattr(one, name) for name in named if name not in ("data", "ref", "shapes"))
        return [v for v in values if isinstance(v, (BaseControl, list))]

    def texts(self) -> list[str]:
        """Every text on the page, as read."""
        found = []
        for one in self.controls():
            if isinstance(one, ft.Text):
                found.append(one.value or "".join(s.text or "" for s in one.spans or []))
        return found

    def sees(self, words: str) -> bool:
        """Whether the words stand somewhere on the page."""
        return any(words in text for text in self.texts())

    def names(self, root: BaseControl) -> list[str]:
        """What a person hears for a control: spoken names, else its texts."""
        found: list[str] = []
        for one in self.controls(root):
            label = getattr(one, "semantics_label", None)
            label = label if label is not None else getattr(one, "label", None) if isinstance(one, ft.Semantics) else None
            if isinstance(label, str):
                found += [label] if label else []
            elif isinstance(one, ft.Text):
                found.append(one.value or "".join(s.text or "" for s in one.spans or []))
        return found

    def marked(self, identifier: str) -> ft.Semantics:
        """The part with this identifier: `entry`, `verdict`, `told` …"""
        return next(c for c in self.controls() if isinstance(c, ft.Semantics) and c.identifier == identifier)

    def tappable(self, name: str) -> BaseControl:
        """What a tap on this name hits. LookupError tells all that can be tapped."""
        names = {}
        for one in self.controls():
            if getattr(one, "on_click", None) is not None:
                heard = self.names(one)
                names[id(one)] = heard
                if name in heard or name == " ".join(heard):
                    return one
        for one in self.controls():  # a button that is spoken by the part around it
            if isinstance(one, ft.Semantics) and one.label == name:
                inner = next((c for c in self.controls(one.content) if getattr(c, "on_click", None) is not None), None)
                if inner is not None:
                    return inner
        raise LookupError(f"nothing to tap is called {name!r}; there are {list(names.values())}")

    # ---- what a person does --------------------------------------------------------------------------------------------
    async def tap(self, *names: str) -> None:
        """Tap one after the other."""
        for name in names:
            await self.fire(self.tappable(name), "click")

    async def type(self, label: str, text: str) -> None:
        """Write into the field that is spoken so."""
        field = next(c for c in self.controls() if isinstance(c, ft.TextField) and c.label == label)
        await self.fire(field, "focus")
        self.session.apply_patch(field._i, {"value": text})
        await self.fire(field, "change", text)

    async def key(self, *keys: str) -> None:
        """Press keys of a real keyboard."""
        for key in keys:
            data = {"key": key, "shift": False, "ctrl": False, "alt": False, "meta": False}
            await self.fire(self.page, "keyboard_event", data)

    async def resize(self, width: float, height: float) -> None:
        self.session.apply_page_patch({"width": width, "height": height})
        await self.fire(self.page, "resize", {"width": width, "height": height})

    async def fire(self, control: BaseControl, event: str, data: object = None) -> None:
        # Each event has a context of its own, as over a real line: whose page it is must not leak into the next one.
        await asyncio.create_task(self.session.dispatch_event(control._i, event, data))
        await self.settle()

    # ---- the line ------------------------------------------------------------------------------------------------------
    async def drop(self) -> None:
        """The line is cut."""
        await self.session.disconnect(3600)

    async def come_back(self) -> None:
        """The line is there again, as after the page started anew."""
        self.wire = Wire(asyncio.get_running_loop())
        self.wire.session = self.session
        self.wire.packed(self.page)
        await asyncio.create_task(self.session.connect(self.wire))
        await self.settle()


def walk(steps: Callable[[Phone], Awaitable[None]], folder: Path, route: str = "/", **phone: Any) -> None:
    """Run steps on one fresh phone, on a store in this folder."""

    async def run() -> None:
        with opened(folder) as desk:
            await steps(await Phone(desk, Tray(), **phone).start(route))

    asyncio.run(run())


class opened:
    """A desk on the store of a folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def __enter__(self) -> Desk:
        self._store = Store.open(self._folder)
        return Desk(self._store, StillClock())

    def __exit__(self, *_: object) -> None:
        self._store.close()
