"""The switch in the app: phones get in once it is on, and nobody from the network before or after."""

from __future__ import annotations

import asyncio
import socket

import httpx
import pytest
import uvicorn
from starlette.responses import PlainTextResponse

from fieldapp.hosts.network import Network
from fieldapp.hosts.phone_line import PhoneLine
from fieldapp.sharing import Sharing
from fieldapp.words import say
from measure.errors import SpanbookError
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened
from tests.two_people.conftest import PHONES


def listening(address: str, port: int) -> socket.socket:
    one = socket.socket()
    one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    one.bind((address, port))
    return one


def free_port() -> int:
    with listening(PHONES, 0) as one:
        return one.getsockname()[1]


def line_at(address: str) -> tuple[PhoneLine, int]:
    port = free_port()
    config = uvicorn.Config(PlainTextResponse("in"), log_config=None, lifespan="off")
    return PhoneLine(config, Network(), port, listening, address), port


def test_phones_are_answered_while_the_switch_is_on_and_at_no_other_time():
    async def steps():
        line, port = line_at(PHONES)
        async with httpx.AsyncClient() as client:
            for _ in range(2):
                with pytest.raises(httpx.ConnectError):
                    await client.get(f"http://{PHONES}:{port}/")
                address = await line.open()
                assert address == await line.open() == f"http://{PHONES}:{port}/"
                assert (await client.get(address)).text == "in"
                await line.close()
            with pytest.raises(httpx.ConnectError):
                await client.get(address)

    asyncio.run(steps())


def test_without_a_network_the_switch_says_so():
    async def steps():
        with pytest.raises(SpanbookError, match="no network"):
            await line_at("127.0.0.1")[0].open()

    asyncio.run(steps())


def test_the_owner_lets_phones_in_on_the_screen_and_shuts_them_out_again(tmp_path):
    async def steps(desk):
        job = await desk.add_job(deck_file())
        sharing = desk.sharing = Sharing(desk)
        sharing.line, port = line_at(PHONES)
        owner = await Phone(desk, Tray()).start(f"/job/{job}/share")

        async def tapped(words):
            await owner.tap(words)
            await asyncio.sleep(0.4)
            await owner.settle()

        await tapped(say("share.let_in"))
        assert owner.sees(f"http://{PHONES}:{port}/") and owner.marked("code")
        await tapped(say("share.shut"))
        assert owner.sees(say("share.off")) and sharing.code(job)

    with opened(tmp_path) as desk:
        asyncio.run(steps(desk))
