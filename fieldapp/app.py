"""One `App` for every open page: which screen stands there, how it looks, and what happens when something goes wrong."""

from __future__ import annotations

import asyncio
import contextvars
import logging
import sys
from collections.abc import Awaitable, Callable, Coroutine
from concurrent.futures import Future

import flet as ft

from fieldapp.desk import EVERYTHING, Desk
from fieldapp.device import Device
from fieldapp.heard import Aloud, heard
from fieldapp.hosts.ports import Host
from fieldapp.parts.action import main_action
from fieldapp.parts.page import page_sheet
from fieldapp.parts.run_strip import Sign
from fieldapp.parts.told import To, Told
from fieldapp.screens import ROUTES
from fieldapp.screens.route import find
from fieldapp.screens.screen import Screen
from fieldapp.screens.take_in import take_in
from fieldapp.theme import FONT, Look
from fieldapp.words import say
from measure.errors import SpanbookError

log = logging.getLogger("spanbook")
ft.context.disable_auto_update()  # every change is sent on purpose, in packets as small as it is
FIRST = "jobs"
_MOST_STEPS = 50
DROPPED = "F24"
"""The key, found on no keyboard, by which the page says that files were let go over it (assets/drop.js)."""


class App:
    """look, host, desk, screen: see fieldapp.screens. All of it lives on the one loop; no thread touches it."""

    def __init__(self, page: ft.Page, host: Host, desk: Desk) -> None:
        self.page, self.host, self.desk = page, host, desk
        self.device = Device(desk, host.connection.device, self._soon)
        self.look = self.device.look(page.width or 390, page.height or 844)
        self.screen: Screen | None = None
        self.address = ""
        self.typing = False
        self._steps: list[str] = []
        self._url = clean(page.route or "/")
        self._expected: list[str] = []
        self._topics: frozenset[str] = frozenset()
        self._missed = False
        self._work: set[asyncio.Task[None]] = set()
        self._slot = ft.Container(expand=True)
        self._told = Told(self._slot, say("app.close"), self.update)
        self._aloud = Aloud(self)
        self._leave_desk = desk.subscribe(self._changed)

    async def start(self) -> None:
        """Show the screen of the page's address; at the bare address, the one where this device was left."""
        page = self.page
        page.session.error = self.failed  # what any handler raises ends there instead of covering the page
        page.padding, page.spacing = 0, 0
        page.theme = page.dark_theme = ft.Theme(font_family=FONT)
        page.on_route_change, page.on_resize, page.on_keyboard_event = self._went, self._resized, self._keyed
        page.on_connect, page.on_close, page.on_disconnect = self._connected, self._closed, self._away
        page.controls = [self._told.control]
        bare = self._url == ROUTES[FIRST].address()
        self._show((self.device.place if bare else "") or self._url)

    # ---- where ---------------------------------------------------------------------------------------------------------
    def go(self, name: str, /, **params: object) -> None:
        """Go to a screen by its name."""
        self._go(ROUTES[name].address(**params))

    def open_job(self, id: str) -> None:
        """Where this device was left in a job; the first time, its first bay that is not taped, or its review."""
        address = self.device.place_in(id)
        onward = self.desk.job(id).progress().onward
        if address:
            self._go(address)
        elif onward:
            self.go("walk", job=id, bay=onward)
        else:
            self.go("review", job=id)

    def _go(self, address: str) -> None:
        """On to another screen; to one that lies on the way back it is a way back, so that nobody walks in circles."""
        if address in self._steps:
            self._steps = self._steps[: self._steps.index(address)]
        elif address != self.address:
            self._steps = [*self._steps, self.address][-_MOST_STEPS:]
        self._show(address)

    def back(self) -> None:
        """Where the person came from; on a fresh page, one up."""
        if self._steps:
            self._show(self._steps.pop())
        elif self.screen is not None and self.screen.up is not None:
            name, params = self.screen.up
            self._show(ROUTES[name].address(**params))

    def up(self, name: str, /, leaving: str = "", **params: object) -> None:
        """A page above this one, never a step further on: Back leads from there to where it led before.

        leaving: the beginning of addresses that Back shall not lead to any more.
        """
        address, steps = ROUTES[name].address(**params), self._steps
        if address in steps:
            steps = steps[: len(steps) - 1 - steps[::-1].index(address)]
        while leaving and steps and steps[-1].startswith(leaving):
            steps = steps[:-1]
        self._steps = steps
        self._show(address)

    def follow(self, name: str, /, **params: object) -> None:
        """The screen that stands there goes on at another address: nothing is made or drawn anew, Back leads where it led."""
        self.address = ROUTES[name].address(**params)
        self.be_here()
        self._push()

    def _show(self, address: str) -> None:
        if self.screen is not None:
            self.screen.leave()
            self.host.files.forget()
        self._told.leave()
        self.typing = False
        self.screen = self._made(address)
        self.be_here()
        self.redraw()
        self._push()
        self.screen.shown()
        self._aloud.look()

    def be_here(self) -> None:
        """This device remembers where it is, and the others in the job see it."""
        self.device.be_at(self.address)
        place = self.host.connection
        self.desk.company.at(self, self.person, place.role, place.guest, self.address, self.screen.on_bay if self.screen else "")

    def _push(self) -> None:
        """The browser's address follows."""
        if self._url != self.address:
            self._url = self.address
            self._expected.append(self.address)
            self.run(self.page.push_route, self.address)

    def _made(self, address: str) -> Screen:
        """The screen of an address; where there is none, the first one, and the reason is told."""
        found = find(ROUTES, address)
        try:
            if found is None:
                raise SpanbookError(say("app.no_such_page"))
            name, params = found
            self.address = ROUTES[name].address(**params)
            return ROUTES[name].load()(self, **params)
        except SpanbookError as problem:
            log.warning("no screen at %s: %s", address, problem)
            self.tell(str(problem))
            self.address = ROUTES[FIRST].address()
            return ROUTES[FIRST].load()(self)

    async def _went(self, event: ft.RouteChangeEvent) -> None:
        """The address changed: by ourselves, by the browser's own back and forward, or by hand."""
        address = self._url = clean(event.route)
        if address in self._expected:
            del self._expected[: self._expected.index(address) + 1]
            self._url = self._expected[-1] if self._expected else address
            return
        if address == self.address:
            return
        if self._steps and self._steps[-1] == address:
            self._steps.pop()
        self._show(address)

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def redraw(self) -> None:
        """Draw the screen anew, from what it holds."""
        if self.screen is None:
            return
        page, look = self.page, self.look
        page.title = f"{self.screen.title} · {say('app.name')}" if self.screen.title else say("app.name")
        page.theme_mode = ft.ThemeMode.LIGHT if look.theme == "sun" else ft.ThemeMode.DARK
        page.bgcolor = self._slot.bgcolor = look.paper
        self._slot.content = self._drawn(self.screen)
        self._told.lie(self.screen.told_at)
        self._told.draw(look)
        page.update()

    def _drawn(self, screen: Screen) -> ft.Control:
        """The screen's view; where it cannot be drawn, the way back to the jobs."""
        try:
            return screen.view()
        except Exception:  # the page's own work, as in `run`
            self.failed()
            return page_sheet(self.look, [], [main_action(self.look, say("app.to_jobs"), lambda _: self.go(FIRST))])

    def update(self, *controls: ft.Control) -> None:
        """Send what changed in these controls; in none, nothing. A page that is away gets the whole when it is back."""
        if self.page.session.connection is None:
            self._missed = True
        elif controls:
            self.page.update(*controls)

    async def restyle(self, **look: object) -> None:
        """Another theme, size of letters, hand or keys for this device, drawn at once."""
        await self.device.keep_look(**look)
        self.look = self.device.look(self.look.width, self.look.height)
        self.redraw()

    def settled(self) -> None:
        """What the band on top asked for is done."""
        if self._told.sentence:
            self._told.close()

    @property
    def told(self) -> str:
        """What the band says; empty while there is none."""
        return self._told.sentence

    def tell(self, sentence: str, verdict: Sign = "hold", to: To | None = None, found: bool = False) -> None:
        """Say something in a band of the app's own, until it is closed or the next one comes. verdict: `clear` where it is good news.

        to: words of a button in it, and what it does. found: it tells what was found at bays, with its sign.
        """
        self._told.say(sentence, self.look, verdict, to, found)

    def sound(self, title: str) -> None:
        """A title for the browser's tab that begins with a sign which the page turns into a sound (page.js)."""
        self.page.title = title
        self.page.update()

    def _resized(self, event: ft.PageResizeEvent) -> None:
        before, self.look = self.look, self.look.on(event.width, event.height)
        if self.screen is None or (before.width, before.height) == (event.width, event.height):
            return
        if before.width != event.width or (self.screen.redraws_by_height and not self.typing) or self._far(before):
            self.screen.on_size()

    def _far(self, before: Look) -> bool:
        return before.low != self.look.low and not self.typing

    # ---- the keyboard --------------------------------------------------------------------------------------------------
    def field_on(self, event: ft.Event[ft.Control]) -> None:
        """A text field got the keyboard."""
        self.typing = True

    def field_off(self, event: ft.Event[ft.Control]) -> None:
        """A text field lost the keyboard."""
        self.typing = False

    def _keyed(self, event: ft.KeyboardEvent) -> None:
        if event.key == DROPPED:
            self.run(self._dropped)
        elif self.screen is not None and not self.typing:
            self.screen.on_key(event)

    async def _dropped(self) -> None:
        """Files were let go over the page."""
        await take_in(self, await self.host.files.dropped())

    # ---- half-typed ----------------------------------------------------------------------------------------------------
    @property
    def draft(self) -> str:
        """What was half-typed on this screen, on this device; empty where nothing was."""
        return self.draft_of("")

    def draft_of(self, name: str, address: str | None = None) -> str:
        """The same for one of several fields of a screen."""
        return self.device.draft(f"{self.address if address is None else address}#{name}")

    def keep_draft(self, text: str) -> None:
        """Keep what is half-typed on this screen. Cheap: it is written right after the packet of this press has left."""
        self.keep_draft_of("", text)

    def keep_draft_of(self, name: str, text: str, address: str | None = None) -> None:
        """The same for one of several fields of a screen, or of the screen at another address."""
        self.device.keep_draft(f"{self.address if address is None else address}#{name}", text)

    @property
    def signal(self) -> tuple[str, str]:
        """Two short lines for a page's head (parts/head.py `Signal`); empty where nothing is to be said."""
        return (say("app.no_signal"), say("app.kept_here")) if self.host.connection.no_signal else ("", "")

    @property
    def person(self) -> str:
        """Who holds this device; empty until somebody said so."""
        return self.device.person

    # ---- work, changes, mishaps ----------------------------------------------------------------------------------------
    def run(self, work: Callable[..., Awaitable[object]], *given: object) -> asyncio.Task[None]:
        """Do something in the background; whatever it raises is told in the band."""

        async def working() -> None:
            try:
                await work(*given)
            except Exception:  # with `failed`, the one place where nothing may get through
                self.failed()

        task = asyncio.get_running_loop().create_task(working())
        self._work.add(task)
        task.add_done_callback(self._work.discard)
        return task

    def _soon(self, work: Callable[[], Awaitable[object]]) -> None:
        """Do it once the packets of this press have left."""

        async def later() -> None:
            await asyncio.sleep(0)
            await work()

        self.run(later)

    def failed(self, message: str = "") -> None:
        """A handler raised: log it, tell the person, keep the screen and what it holds. Called while it is being handled."""
        problem = sys.exception()
        if isinstance(problem, SpanbookError):
            log.info("refused: %s", problem)
            self.tell(str(problem))
            return
        log.error("a handler failed at %s %s", self.address, "" if problem else message, exc_info=problem)
        self.tell(say("app.mishap", what=type(problem).__name__))

    def _changed(self, topics: frozenset[str]) -> None:
        """Something changed at the desk. Own changes are on the screen already."""
        if self.page.session.connection is None:
            self._missed = True
            return
        if _acting() is self.page:
            return
        read_back = [topic.split(" ", 2)[1:] for topic in topics if topic.startswith("read-back ")]
        if read_back:  # at once: both people wait for it
            self._as_own(self._hear, read_back)
        waiting, self._topics = bool(self._topics), self._topics | topics
        if not waiting:
            self.desk.turns.wait(self, self._turn)

    def _as_own(self, work: Callable[..., Coroutine[object, object, None]], *given: object) -> Future[None]:
        """Do something for this page. In a context of its own, or whoever is at work now would go on as this page."""
        return contextvars.copy_context().run(self.page.run_task, work, *given)

    async def _turn(self) -> None:
        """What came together since is drawn in one go."""
        if self.page.session.connection is None:
            self._missed, self._topics = True, frozenset()
        else:
            await asyncio.wrap_future(self._as_own(self._take))

    async def _hear(self, read_back: list[list[str]]) -> None:
        try:
            for job, bay in read_back:
                heard(self, job, bay)
        except Exception:  # the page's own work, as in `run`
            self.failed()

    async def _take(self) -> None:
        topics, self._topics = self._topics, frozenset()
        try:
            if self.screen is not None:
                self.screen.on_change(topics)
            self._aloud.look()
        except Exception:  # the page's own work, as in `run`
            self.failed()

    def _connected(self, event: ft.Event[ft.Page]) -> None:
        """The page is back, and was sent the screen as it stood: what changed meanwhile was never set there."""
        missed, self._missed, self._topics = self._missed or bool(self._topics), False, frozenset()
        self.be_here()
        if self.screen is not None and missed:  # drawn anew only then: a tap on what is just being replaced would be lost
            self.screen.on_change(EVERYTHING)

    def _away(self, event: ft.Event[ft.Page]) -> None:
        self.desk.company.gone(self)

    def _closed(self, event: ft.Event[ft.Page]) -> None:
        self.desk.company.gone(self)
        self.desk.turns.leave(self)
        self._leave_desk()


def clean(address: str) -> str:
    """An address in the one spelling that the routes write; as it is where no route knows it."""
    found = find(ROUTES, address)
    return ROUTES[found[0]].address(**found[1]) if found else address


def _acting() -> ft.Page | None:
    """The page whose handler is running."""
    try:
        return ft.context.page
    except RuntimeError:
        return None
