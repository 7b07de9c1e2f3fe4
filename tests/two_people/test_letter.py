"""Reading back by letter: two phones that share no network, one letter there and one back, by QR code or as text."""

from __future__ import annotations

import asyncio
import json
import subprocess
import tempfile
import zlib
from base64 import urlsafe_b64encode

import cv2
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.hosts.ports import PickedFile
from fieldapp.hosts.qr_reader import read_qr
from fieldapp.letter import MOST_BAYS, Answer, Ask, LetterError
from fieldapp.screens.share_model import qr
from fieldapp.words import say
from measure.errors import SpanbookError
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened

BAYS = {"A1": "40 7/16", "A2": "40 3/8"}


def apart(folder, steps):
    """Steps with the first phone, which has the job, and the second, which has none of it; each has a store of its own."""

    async def run():
        with opened(folder / "first") as one, opened(folder / "second") as other:
            job = await one.add_job(deck_file())
            for bay, value in BAYS.items():
                await one.keep_reading(job, "Mara", bay=bay, what="span", value=value)
            first = await Phone(one, Tray()).start(f"/job/{job}/ask")
            await steps(first, Phone(other, Tray()), job)

    asyncio.run(run())


def whole_letter(phone) -> str:
    """The letter as it stands on a screen, with the address before it."""
    return "".join(t.value for t in phone.controls(phone.marked("letter")) if getattr(t, "value", None))


def letter_on(phone) -> str:
    """The letter without the address before it."""
    return whole_letter(phone).rpartition("/")[2]


async def answered(first, second, figures) -> str:
    """The second phone opens the letter, says its name and its figures; its answer."""
    ask = Ask.read(letter_on(first))
    await second.start(f"/letter/{letter_on(first)}")
    await second.type(say("readback.who"), "Kit")
    await second.tap(say("readback.is_me"))
    for tag, _ in ask.bays:
        assert second.marked("place") and second.sees(tag)
        await second.tap(*figures[tag], "Keep")
    return letter_on(second)


async def taken_in(first, text):
    await first.type(say("letter.take"), text)
    await first.tap(say("letter.take_in"))
    await asyncio.sleep(0.05)
    await first.settle()


KEYS = {"A1": ("4", "0", "7/16"), "A2": ("4", "0", "6/16")}


def test_a_letter_asks_with_bays_and_no_figures(tmp_path):
    async def steps(first, second, job):
        text = letter_on(first)
        ask = Ask.read(text)
        assert {tag for tag, _ in ask.bays} == set(BAYS)
        plain = json.dumps([ask.job, ask.name, ask.units, ask.bays])
        assert "7/16" not in plain and "3/8" not in plain

    apart(tmp_path, steps)


def test_an_answer_comes_in_once_however_often_it_is_taken_in(tmp_path):
    async def steps(first, second, job):
        answer = await answered(first, second, KEYS)
        for expected in (say("letter.taken", n=2), say("letter.known")):
            await taken_in(first, answer)
            assert first.marked("told") and first.sees(expected) and first.app._told._verdict == "clear"
        backs = [(r.by, r.bay, r.text) for r in first.desk.job(job).readings if r.role == "read-back"]
        assert sorted(backs) == [("Kit", "A1", "40 7/16"), ("Kit", "A2", "40 3/8")]
        assert second.desk.jobs() == []
        assert first.sees(say("letter.ask_none"))

    apart(tmp_path, steps)


def test_a_figure_that_differs_is_a_hold_and_a_span_taped_anew_takes_no_old_answer(tmp_path):
    async def steps(first, second, job):
        answer = await answered(first, second, {**KEYS, "A2": ("4", "0", "12/16")})
        await first.desk.keep_reading(job, "Mara", bay="A1", what="span", value="40 1/2")
        await taken_in(first, answer)
        told = f"{say('letter.taken', n=1)} {say('letter.differ', n=1, bays='A2')} {say('letter.stale', bays='A1')}"
        assert first.sees(told) and first.app._told._verdict == "hold"
        assert [(r.bay, r.text) for r in first.desk.job(job).readings if r.role == "read-back"] == [("A2", "40 3/4")]
        assert any(f.check == "read-back" and f.verdict == "hold" for f in first.desk.job(job).findings_of_bay("A2"))

    apart(tmp_path, steps)


def test_an_answer_comes_in_from_a_picture_of_its_qr_code(tmp_path):
    async def steps(first, second, job):
        answer = await answered(first, second, KEYS)
        await first.tray.pickings[-1]([PickedFile("photo.png", photographed(answer))])
        await first.settle()
        assert len([r for r in first.desk.job(job).readings if r.role == "read-back"]) == 2
        assert first.sees(say("letter.ask_none"))
        for picture in (b"", b"no picture", photographed(answer)[:200], photographed("")):
            with pytest.raises(SpanbookError, match="QR code"):
                await read_qr(picture)

    apart(tmp_path, steps)


def photographed(text: str) -> bytes:
    """A QR code as a camera would have it: turned a little, on a grey ground. Without a text, a ground alone."""
    if not text:
        return cv2.imencode(".png", np.full((300, 300), 200, np.uint8))[1].tobytes()
    code = cv2.imdecode(np.frombuffer(qr(text), np.uint8), cv2.IMREAD_GRAYSCALE)
    side = code.shape[0]
    turn = cv2.getRotationMatrix2D((side / 2, side / 2), 6, 0.85)
    return cv2.imencode(".png", cv2.warpAffine(code, turn, (side, side), borderValue=200))[1].tobytes()


def test_an_answer_that_the_camera_opened_as_a_link_is_taken_in_by_one_tap(tmp_path):
    async def steps(first, second, job):
        answer = await answered(first, second, KEYS)
        assert whole_letter(second).startswith("http") and "/answer/B1" in whole_letter(second)
        first.app.go("answer", letter=answer)
        await first.settle()
        assert first.sees(say("letter.from", by="Kit", bays="A1 and A2")) or first.sees(say("letter.from", by="Kit", bays="A2 and A1"))
        await first.tap(say("letter.take_in"))
        await asyncio.sleep(0.05)
        await first.settle()
        assert first.address == f"/job/{job}/review" and first.sees(say("letter.taken", n=2))
        second.app.go("answer", letter=answer)  # a phone that has not the job
        await second.settle()
        assert second.sees(say("letter.other_job"))

    apart(tmp_path, steps)


def test_the_answer_to_another_job_is_refused(tmp_path):
    async def steps(first, second, job):
        await taken_in(first, Answer("another", "Kit", "2026-05-02T09:00:00Z", (("A1", "x", "40"),)).text())
        assert first.sees(say("letter.other_job"))
        await taken_in(first, "hello")
        assert first.sees(say("letter.unreadable"))
        assert len(first.desk.job(job).readings) == 2

    apart(tmp_path, steps)


def zbar(picture: bytes) -> str:
    """What zbar reads, a decoder that has nothing to do with ours."""
    with tempfile.NamedTemporaryFile(suffix=".png") as file:
        file.write(picture)
        file.flush()
        ended = subprocess.run(["zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file.name], capture_output=True, timeout=60)
    return ended.stdout.decode().rstrip("\n")


def test_the_longest_letter_fits_a_qr_code_that_three_readers_read():
    bays = tuple((f"LONG-{n}", f"{n:010x}") for n in range(MOST_BAYS))
    answer = Answer("f" * 32, "Ä" * 40, "2026-05-02T09:00:00.000Z", tuple((t, d, "3 ft 4 15/16 in") for t, d in bays))
    for letter in (Ask("f" * 32, "Ö" * 60, "in", bays).text(), answer.text()):
        text = f"https://spanbook.example/deck/#/letter/{letter}"
        assert len(letter) < 800
        assert zbar(qr(text)) == text
        assert asyncio.run(read_qr(qr(text))) == text
        assert cv2.QRCodeDetectorAruco().detectAndDecode(cv2.imdecode(np.frombuffer(qr(text), np.uint8), cv2.IMREAD_GRAYSCALE))[0] == text


@given(st.text(max_size=60), st.binary(max_size=60))
def test_nothing_that_comes_in_is_anything_but_a_letter_or_refused(words, data):
    for text in (words, "A1" + words, "B1" + urlsafe_b64encode(data).decode(), "A1" + urlsafe_b64encode(zlib.compress(data)).decode()):
        for kind in (Ask, Answer):
            with pytest.raises(LetterError):
                kind.read(text)


def test_a_letter_that_unpacks_to_very_much_is_refused_before_it_does():
    bomb = "A1" + urlsafe_b64encode(zlib.compress(b"[" + b" " * 1_000_000 + b"]", 9)).decode()
    with pytest.raises(LetterError):
        Ask.read(bomb)
    with pytest.raises(LetterError):
        Ask.read("A1" + urlsafe_b64encode(zlib.compress(b"[" * 7000)).decode())
