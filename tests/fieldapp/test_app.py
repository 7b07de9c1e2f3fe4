"""The app on a phone, without network: going about, looking, mishaps, half-typed words, several phones on one desk."""

import asyncio

import flet as ft
import pytest

from fieldapp.screens import ROUTES
from fieldapp.screens.route import Route
from fieldapp.screens.screen import Screen
from fieldapp.words import say
from measure.errors import SpanbookError
from tests.fieldapp.harness import Phone, Tray, opened, walk

SETTINGS, NAME = say("jobs.settings"), say("settings.name")


class ProbeScreen(Screen):
    """A page with a key for everything that can go wrong."""

    title = "Probe"

    def __init__(self, app, what):
        super().__init__(app)
        if what == "missing":
            raise SpanbookError("There is no such probe.")
        self.what, self.counted, self.heard, self.keys = what, 0, [], []

    def view(self):
        if self.what == "undrawable":
            raise ZeroDivisionError
        self.count = ft.Text(f"count {self.counted}")
        acts = {"change": self.change, "add": self.add, "refuse": self.refuse, "break": self.broken, "break later": self.broken_later, "run": self.run_broken}  # fmt: skip
        return ft.Column([self.count, *(ft.Button(content=ft.Text(name), on_click=act) for name, act in acts.items())])

    def add(self):
        self.counted += 1
        self.count.value = f"count {self.counted}"
        self.app.keep_draft(str(self.counted))
        self.update(self.count)

    async def change(self):
        await self.app.desk.keep_setting("crew", [])

    def refuse(self, event):
        raise SpanbookError("That cannot be read.")

    def broken(self):
        raise ZeroDivisionError

    async def broken_later(self, event):
        await asyncio.sleep(0)
        raise ZeroDivisionError

    def run_broken(self):
        async def work():
            raise ZeroDivisionError

        self.app.run(work)

    def on_change(self, topics):
        self.heard.append(topics)

    def on_key(self, event):
        self.keys.append(event.key)


@pytest.fixture(autouse=True)
def probe(monkeypatch):
    monkeypatch.setitem(ROUTES, "probe", Route("/probe/{what}", "probe:ProbeScreen"))
    monkeypatch.setattr(Route, "load", lambda self, load=Route.load: ProbeScreen if self.pattern == "/probe/{what}" else load(self))


def on_phones(folder, steps, count=2):
    """Steps on several phones of one desk."""

    async def run():
        with opened(folder) as desk:
            await steps(*[await Phone(desk, Tray(), device=f"phone {n}").start() for n in range(count)])

    asyncio.run(run())


# ---- going about -----------------------------------------------------------------------------------------------------------
def test_a_phone_starts_at_the_list_of_jobs(tmp_path):
    async def steps(phone):
        assert (phone.address, phone.page.title) == ("/", say("app.name"))
        assert phone.sees(say("jobs.none_served"))

    walk(steps, tmp_path)


def test_going_and_coming_back_moves_the_address_along(tmp_path):
    async def steps(phone):
        await phone.tap(SETTINGS)
        assert (phone.address, phone.page.route) == ("/settings", "/settings")
        assert phone.page.title == f"{say('settings.title')} · {say('app.name')}"
        await phone.tap(say("app.back"))
        assert (phone.address, phone.page.route) == ("/", "/")

    walk(steps, tmp_path)


def test_back_on_a_page_that_was_opened_by_its_address_leads_one_up(tmp_path):
    async def steps(phone):
        await phone.tap(say("app.back"))
        assert phone.address == "/settings"
        await phone.tap(say("app.back"))
        assert phone.address == "/"

    walk(steps, tmp_path, route="/settings/crew/%2B")


def test_nobody_walks_in_circles_however_often_two_screens_lead_to_one_another(tmp_path):
    async def steps(phone):
        for _ in range(3):
            phone.app.go("settings")
            phone.app.go("person", name="+")
            phone.app.go("settings")
            phone.app.go("samples")
        await phone.settle()
        phone.app.back()
        assert phone.address == "/settings"
        phone.app.back()
        assert phone.address == "/"

    walk(steps, tmp_path)


def test_what_was_wrong_on_one_screen_is_not_said_on_the_next_but_good_news_is(tmp_path):
    async def steps(phone):
        phone.app.tell("That cannot be read.")
        phone.app.go("settings")
        assert not phone.app._told.sentence
        phone.app.tell("Everything is there.", "clear")
        phone.app.go("jobs")
        assert phone.app._told.sentence == "Everything is there."

    walk(steps, tmp_path)


def test_the_browsers_back_is_a_step_back(tmp_path):
    async def steps(phone):
        await phone.tap(SETTINGS)
        await phone.wire.went("/")
        await phone.settle()
        assert phone.address == "/"
        await phone.wire.went("/settings")
        await phone.settle()
        assert phone.address == "/settings"
        await phone.tap(say("app.back"))
        assert phone.address == "/"

    walk(steps, tmp_path)


@pytest.mark.parametrize("route", ["/nowhere", "/job/none/review", "/probe/missing"])
def test_an_address_that_leads_nowhere_shows_the_jobs_and_says_so(tmp_path, route):
    async def steps(phone):
        assert (phone.address, phone.page.route) == ("/", "/")
        assert phone.sees(say("jobs.start"))
        assert phone.app._told.sentence

    walk(steps, tmp_path, route=route)


def test_a_device_opens_where_it_was_left_and_another_one_at_the_jobs(tmp_path):
    async def steps(one, other):
        await one.tap(SETTINGS)
        again = await Phone(one.desk, Tray(), device="phone 0").start()
        new = await Phone(one.desk, Tray(), device="phone 9").start()
        assert (again.address, again.page.route, new.address, other.address) == ("/settings", "/settings", "/", "/")

    on_phones(tmp_path, steps)


def test_an_address_goes_before_the_place_where_the_device_was_left(tmp_path):
    async def steps(phone):
        await phone.tap(SETTINGS)
        again = await Phone(phone.desk, Tray()).start("/samples")
        assert again.address == "/samples"

    walk(steps, tmp_path)


# ---- looking ---------------------------------------------------------------------------------------------------------------
def test_a_chosen_look_is_drawn_at_once_and_stays_with_the_device(tmp_path):
    async def steps(one, other):
        await one.tap(SETTINGS)
        await one.tap(say("settings.shade"), say("settings.letters_2.0"), say("settings.left"), say("settings.keys_True"))
        look = one.app.look
        assert (look.theme, look.text, look.hand, look.large_keys) == ("shade", 2.0, "left", True)
        assert (one.page.bgcolor, one.page.theme_mode) == (look.paper, ft.ThemeMode.DARK)
        again = await Phone(one.desk, Tray(), device="phone 0").start()
        assert again.app.look == look
        assert other.app.look.theme == "sun"

    on_phones(tmp_path, steps)


def test_the_theme_turns_on_the_list_of_jobs(tmp_path):
    async def steps(phone):
        await phone.tap(say("jobs.to_shade"))
        assert phone.app.look.theme == "shade"
        await phone.tap(say("jobs.to_sun"))
        assert phone.app.look.theme == "sun"

    walk(steps, tmp_path)


def test_a_new_width_draws_the_page_anew_a_keyboard_that_slides_in_does_not(tmp_path):
    async def steps(phone):
        shown = phone.app._slot.content
        phone.app.typing = True
        await phone.resize(390, 500)
        assert phone.app._slot.content is shown
        await phone.resize(1280, 800)
        assert phone.app._slot.content is not shown and phone.app.look.wide

    walk(steps, tmp_path)


# ---- mishaps ---------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("key", ["break", "break later", "run"])
def test_a_mishap_is_told_in_a_band_and_the_page_keeps_what_it_holds(tmp_path, key, caplog):
    async def steps(phone):
        await phone.tap("add", "add", key)
        assert phone.sees("count 2")
        assert phone.marked("told").content.value == say("app.mishap", what="ZeroDivisionError")
        await phone.tap("add")
        assert phone.sees("count 3")
        await phone.tap(say("app.close"))
        assert not phone.sees("ZeroDivisionError")

    walk(steps, tmp_path, route="/probe/it")
    assert "ZeroDivisionError" in caplog.text


@pytest.mark.parametrize("route", ["/probe/undrawable", "/"])
def test_a_page_that_cannot_be_drawn_leaves_the_way_back_to_the_jobs(tmp_path, route):
    async def steps(phone):
        if route == "/":
            phone.app.go("probe", what="undrawable")
            await phone.settle()
        assert phone.sees("ZeroDivisionError")
        await phone.tap(say("app.to_jobs"))
        assert phone.address == "/" and phone.sees(say("jobs.start"))

    walk(steps, tmp_path, route=route)


def test_a_refusal_is_told_by_its_own_sentence(tmp_path):
    async def steps(phone):
        await phone.tap("refuse")
        assert phone.marked("told").content.value == "That cannot be read."

    walk(steps, tmp_path, route="/probe/it")


def test_a_press_sends_its_packet_and_nothing_else(tmp_path):
    async def steps(phone):
        await phone.tap("add")
        before = len(phone.packets)
        await phone.tap("add")
        sent = phone.packets[before:]
        assert len(sent) == 1
        assert len(phone.wire.packed([sent[0].action, sent[0].body])) < 80

    walk(steps, tmp_path, route="/probe/it")


# ---- the keyboard, half-typed words ----------------------------------------------------------------------------------------
def test_a_real_keyboard_reaches_the_page_unless_a_field_has_it(tmp_path):
    async def steps(phone):
        await phone.key("7", "Enter")
        phone.app.field_on(None)
        await phone.key("8")
        phone.app.field_off(None)
        await phone.key("9")
        assert phone.app.screen.keys == ["7", "Enter", "9"]

    walk(steps, tmp_path, route="/probe/it")


def test_half_typed_words_are_there_after_a_new_start_on_the_same_device_only(tmp_path):
    async def steps(one, other):
        await one.app.page.push_route("/settings/crew/%2B")
        await one.settle()
        await one.type(NAME, "Mar")
        again = await Phone(one.desk, Tray(), device="phone 0").start("/settings/crew/%2B")
        elsewhere = await Phone(one.desk, Tray(), device="phone 1").start("/settings/crew/%2B")
        values = [next(c for c in p.controls() if isinstance(c, ft.TextField)).value for p in (again, elsewhere)]
        assert values == ["Mar", ""]

    on_phones(tmp_path, steps)


def test_a_kept_name_leaves_nothing_half_typed(tmp_path):
    async def steps(phone):
        await phone.tap(say("settings.add"))
        await phone.type(NAME, "Mara")
        await phone.tap(say("settings.save"))
        assert phone.address == "/settings" and phone.sees("Mara")
        assert phone.desk.drafts("here") == {}

    walk(steps, tmp_path, route="/settings")


# ---- several phones, cut lines ---------------------------------------------------------------------------------------------
def test_a_change_reaches_the_other_phone_and_does_not_come_back_to_the_one_that_made_it(tmp_path):
    async def steps(one, other):
        for phone in (one, other):
            phone.app.go("probe", what="it")
            await phone.settle()
        await one.tap("change")
        assert (one.app.screen.heard, other.app.screen.heard) == ([], [frozenset({"settings"})])

    on_phones(tmp_path, steps)


def test_a_new_name_stands_on_the_other_phones_settings(tmp_path):
    async def steps(one, other):
        await other.tap(SETTINGS)
        await one.tap(SETTINGS)
        before = len(other.packets)
        await one.tap(say("settings.add"))
        await one.type(NAME, "Mara")
        await one.tap(say("settings.save"))
        assert other.sees("Mara")
        assert len(other.packets) > before

    on_phones(tmp_path, steps)


def test_a_phone_that_was_away_shows_the_truth_when_it_is_back(tmp_path):
    async def steps(one, other):
        await other.tap(SETTINGS)
        await other.drop()
        await one.desk.keep_setting("crew", [{"name": "Mara", "role": "tape"}])
        await one.settle()
        assert not other.sees("Mara")
        await other.come_back()
        assert other.sees("Mara")

    on_phones(tmp_path, steps)


def test_a_closed_page_hears_nothing_more(tmp_path):
    async def steps(one, other):
        other.session.close()
        await other.settle()
        await one.desk.keep_setting("crew", [])
        assert len(one.desk._listeners) == 1

    on_phones(tmp_path, steps)
