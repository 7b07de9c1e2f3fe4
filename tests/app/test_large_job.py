"""Two thousand bays: the review opens and scrolls, and a step of the walk costs what it costs on a small job."""

import asyncio
import json
from contextlib import contextmanager

import pytest

import fieldapp.live_job as live_job
from fieldapp.words import say
from measure.bench_job import bench_job
from tests.app.hand import SLOW, Hand
from tests.fieldapp.harness import Phone, Tray, opened

SMALL, LARGE = 40, 2000
"""Bays: one whole run, and fifty of them."""
MOST = 1.5


def untaped(bays):
    job = json.loads(bench_job(bays))
    return {**job, "readings": []}


@contextmanager
def counted():
    """How many bays and runs are judged meanwhile."""
    work = {"bays": 0, "runs": 0}
    judges = live_job.bay_findings, live_job.run_findings

    def bay(*given):
        work["bays"] += 1
        return judges[0](*given)

    def run(*given):
        work["runs"] += 1
        return judges[1](*given)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(live_job, "bay_findings", bay)
        patch.setattr(live_job, "run_findings", run)
        yield work


def step(folder, bays):
    """One span and one rise, keyed, kept and gone past: bytes and packets sent, bays and runs judged."""
    found = {}

    async def work():
        with opened(folder) as desk:
            job = await desk.add_job(untaped(bays))
            await desk.keep_setting("here person", "Mona")
            phone = await Phone(desk, Tray()).start(f"/job/{job}/walk/B0-1")
            phone.packets.clear()
            with counted() as judged:
                await phone.tap("4", "1", "7/16", "Keep", "Next", "right higher", "6/16", "Keep", "Next")
                await asyncio.sleep(0.05)
                await phone.settle()
            assert phone.address.endswith("/walk/B0-2")
            sent = [phone.wire.packed([m.action, m.body]) for m in phone.packets]
            found.update(judged, packets=len(sent), bytes=sum(map(len, sent)))

    asyncio.run(work())
    return found


def test_a_step_of_the_walk_costs_the_same_on_two_thousand_bays(tmp_path):
    small, large = step(tmp_path / "small", SMALL), step(tmp_path / "large", LARGE)
    assert small["bytes"] > 0 and small["bays"] > 0
    assert {name: n for name, n in large.items() if n > MOST * small[name]} == {}


def test_a_job_of_two_thousand_bays_opens_in_the_review_and_scrolls_to_its_end(tab, tmp_path):
    file = tmp_path / "long.json"
    file.write_bytes(bench_job(LARGE))
    hand = Hand(tab())
    hand.give(file)
    hand.tab.page.wait_for_url("**/review", timeout=4 * SLOW)
    hand.sees("Run R0")
    hand.tab.page.mouse.move(200, 400)
    last = hand.tab.page.get_by_text(f"Run R{LARGE // 40 - 1}").first
    for _ in range(60):
        if last.count() and last.is_visible() and last.bounding_box()["y"] < 800:
            break
        hand.tab.page.mouse.wheel(0, 3000)
        hand.tab.page.wait_for_timeout(150)
    assert last.bounding_box()["y"] < 800
    hand.tap(say("review.order_all"))
    hand.sees(say("order.files"))
