"""Whose page is drawn next, and when the server goes through its memory."""

from __future__ import annotations

import asyncio

from fieldapp.hosts.rest import LONGEST, QUIET, WORTH, Rest
from fieldapp.turns import Turns


def drawn(*steps):
    """What was drawn, in that order, while `steps` ran."""

    async def run() -> list[str]:
        turns, order = Turns(), []

        def draws(name: str):
            async def draw() -> None:
                order.append(name)

            return draw

        await asyncio.gather(*(step(turns, order, draws) for step in steps))
        for _ in range(40):
            await asyncio.sleep(0)
        return order

    return asyncio.run(run())


def test_pages_are_drawn_one_after_the_other_and_each_once():
    async def changes(turns, order, draws):
        for name in "ABCA":
            turns.wait(name, draws(name))

    assert drawn(changes) == ["A", "B", "C"]


def test_somebodys_own_answer_goes_before_the_pages_that_only_look_on():
    async def changes(turns, order, draws):
        for name in "ABCDEFGH":
            turns.wait(name, draws(name))

    async def keeps(turns, order, draws):
        for _ in range(2):
            await asyncio.sleep(0)
        await turns.own()
        order.append("own")

    order = drawn(changes, keeps)
    assert order.index("own") <= 2 and sorted(order) == [*"ABCDEFGH", "own"]


def test_between_two_answers_the_first_one_is_sent():
    async def keeps(turns, order, draws):
        await turns.own()
        order.append("drawn")
        asyncio.get_running_loop().call_soon(order.append, "sent")

    assert drawn(*[keeps] * 3) == ["drawn", "sent"] * 3


def test_a_page_that_is_gone_is_not_drawn():
    async def leaves(turns, order, draws):
        turns.wait("A", draws("A"))
        turns.leave("A")
        turns.wait("B", draws("B"))

    assert drawn(leaves) == ["B"]


def test_memory_is_gone_through_in_a_quiet_moment_and_in_any_case_after_a_while():
    now = [0.0]
    rest = Rest(lambda: now[0])
    rest.heard()
    assert not rest.due(WORTH)
    now[0] += QUIET
    assert rest.due(WORTH) and not rest.due(WORTH - 1)
    rest.sweep(WORTH)
    assert not rest.due(WORTH + 1)
    while now[0] < LONGEST + QUIET:
        now[0] += QUIET / 2
        rest.heard()
    assert rest.due(2 * WORTH)
