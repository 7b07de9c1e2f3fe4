"""The desk: kept first, then taken, then told."""

import asyncio
import json
from datetime import UTC, datetime, timedelta

import pytest

from fieldapp.desk import Desk
from measure.documents import dump, read_words
from measure.errors import DocumentError, StoreError
from measure.store import Store
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import StillClock, opened

SPAN = {"bay": "A1", "what": "span", "value": "40 1/2 in"}


def at_desk(folder, steps):
    """Steps at a desk with one deck on it."""

    async def run():
        with opened(folder) as desk:
            id = await desk.add_job(deck_file())
            heard: list[frozenset[str]] = []
            desk.subscribe(heard.append)
            await steps(desk, id, heard)

    asyncio.run(run())


def kept_in(folder, id):
    """The job as another program finds it in the store."""
    with Store.open(folder, read_only=True) as store:
        return read_words(store.document(id)).job()


def test_a_reading_is_on_the_disk_before_anybody_hears_of_it(tmp_path):
    async def steps(desk, id, heard):
        desk.subscribe(lambda topics: told.append(len(kept_in(tmp_path, id).readings)))
        reading = await desk.keep_reading(id, "M", **SPAN)
        assert told == [1]
        assert heard == [frozenset({f"job {id}", f"bay {id} A1", f"bay {id} A2"})]
        assert kept_in(tmp_path, id).readings == (reading,) == desk.job(id).job.readings

    told: list[int] = []
    at_desk(tmp_path, steps)


@pytest.mark.parametrize(
    "words",
    [
        {**SPAN, "value": "40 1/3 in"},
        {**SPAN, "value": ""},
        {**SPAN, "bay": "Z9"},
        {**SPAN, "high": "left"},
        {**SPAN, "what": "width"},
        {**SPAN, "replaces": "nothing"},
    ],
)
def test_what_cannot_be_read_is_refused_and_nothing_is_kept(tmp_path, words):
    async def steps(desk, id, heard):
        with pytest.raises(DocumentError):
            await desk.keep_reading(id, "M", **words)
        assert (heard, desk.job(id).readings, kept_in(tmp_path, id).readings) == ([], [], ())

    at_desk(tmp_path, steps)


def test_what_was_typed_is_kept_letter_for_letter(tmp_path):
    async def steps(desk, id, heard):
        await desk.keep_reading(id, "M", **{**SPAN, "value": "40½"}, start=None, how="marks")
        (words,) = desk.words(id)["readings"]
        assert words | {"id": "", "at": ""} == {**SPAN, "value": "40½", "how": "marks", "by": "M", "id": "", "at": ""}

    at_desk(tmp_path, steps)


def test_what_is_said_last_counts_though_the_clock_says_otherwise(tmp_path):
    async def steps(desk, id, heard):
        ahead = datetime(2031, 1, 1, tzinfo=UTC)
        document = desk.words(id)
        document["readings"] = [{**SPAN, "by": "K", "at": ahead.isoformat().replace("+00:00", "Z")}]
        await desk.take_file(dump(document))
        assert desk.job(id).newest == ahead
        reading = await desk.keep_reading(id, "M", **{**SPAN, "value": "40 3/4 in"})
        assert reading.at == ahead + timedelta(milliseconds=1)
        assert desk.job(id).book.counting("bay", "A1", "span") == reading

    at_desk(tmp_path, steps)


def test_an_answer_counts_though_it_is_given_in_the_same_moment(tmp_path):
    class Stopped(StillClock):
        def now(self):
            return self.at

    async def run():
        with Store.open(tmp_path) as store:
            desk = Desk(store, Stopped())
            id = await desk.add_job(deck_file(read_back="no"))
            await desk.keep_reading(id, "M", **{**SPAN, "value": "41 1/2 in"})
            await desk.keep_reading(id, "M", bay="A1", what="rise", value="0")
            query = next(f for f in desk.job(id).findings_of_bay("A1") if f.verdict == "query")
            await desk.keep_answer(id, "M", bay="A1", check=query.check, reason="post set clear of a joist")
            assert next(f for f in desk.job(id).findings_of_bay("A1") if f.check == query.check).word == "answered"

    asyncio.run(run())


def test_a_moved_post_is_kept_and_both_its_bays_are_told(tmp_path):
    async def steps(desk, id, heard):
        moved = await desk.keep_moved(id, "M", "P2")
        assert kept_in(tmp_path, id).moved == (moved,)
        assert {f"bay {id} A1", f"bay {id} A2"} <= heard[-1]

    at_desk(tmp_path, steps)


def test_a_note_is_found_at_its_bay(tmp_path):
    async def steps(desk, id, heard):
        await desk.keep_note(id, "M", "A2", "Bolt head under the plate", "IMG_0042.jpg")
        (note,) = desk.notes(id, "A2")
        assert (note["text"], note["photo"], note["by"]) == ("Bolt head under the plate", "IMG_0042.jpg", "M")
        assert desk.notes(id, "A1") == []

    at_desk(tmp_path, steps)


def test_a_changed_plan_keeps_what_was_said_and_is_seen_at_once(tmp_path):
    async def steps(desk, id, heard):
        await desk.keep_reading(id, "M", **SPAN)
        words = desk.words(id)
        words["job"] = {**words["job"], "name": "Boathouse deck, east"}
        await desk.keep_plan(id, words, "M")
        live = desk.job(id)
        assert (live.name, len(live.readings)) == ("Boathouse deck, east", 1)
        assert heard[-1] == {"jobs", f"job {id}"}

    at_desk(tmp_path, steps)


def test_a_plan_that_cannot_be_is_refused_whole(tmp_path):
    async def steps(desk, id, heard):
        words = desk.words(id)
        words["bays"] = [{**bay, "right": "P9"} for bay in words["bays"]]
        with pytest.raises(DocumentError):
            await desk.keep_plan(id, words, "M")
        assert heard == [] and kept_in(tmp_path, id).bays == desk.job(id).job.bays

    at_desk(tmp_path, steps)


def test_another_copy_of_a_job_adds_to_it_and_is_seen_at_once(tmp_path):
    async def steps(desk, id, heard):
        copy = desk.words(id)
        await desk.keep_reading(id, "M", **SPAN)
        copy["readings"] = [{**SPAN, "bay": "A2", "by": "K", "at": "2026-05-02T09:31:00Z", "id": "k1"}]
        result = await desk.take_file(dump(copy))
        assert (result.job, result.added, result.readings) == (id, False, 1)
        assert {r.bay for r in desk.job(id).readings} == {"A1", "A2"}
        again = await desk.take_file(dump(copy))
        assert (again.readings, len(desk.jobs())) == (0, 1)

    at_desk(tmp_path, steps)


@pytest.mark.parametrize("data", [b"", b"{", b"[]", b"\xff\xfe", json.dumps({"format": "spanbook-job/1"}).encode(), b"9" * 5000])
def test_a_file_that_is_no_job_adds_nothing(tmp_path, data):
    async def steps(desk, id, heard):
        with pytest.raises(DocumentError):
            await desk.take_file(data)
        assert (heard, len(desk.jobs())) == ([], 1)

    at_desk(tmp_path, steps)


def test_a_job_goes_into_the_bin_and_comes_out_of_it(tmp_path):
    async def steps(desk, id, heard):
        await desk.keep_reading(id, "M", **SPAN)
        await desk.remove_job(id)
        assert desk.jobs() == []
        await desk.restore_job(id)
        assert [card.id for card in desk.jobs()] == [id] and len(desk.job(id).readings) == 1

    at_desk(tmp_path, steps)


def test_a_job_that_is_not_here_is_a_sentence(tmp_path):
    async def steps(desk, id, heard):
        with pytest.raises(StoreError, match="not here"):
            desk.job("none")

    at_desk(tmp_path, steps)


def test_a_listener_that_left_hears_nothing(tmp_path):
    async def steps(desk, id, heard):
        other: list[frozenset[str]] = []
        leave = desk.subscribe(other.append)
        leave()
        leave()
        await desk.keep_setting("crew", [])
        assert (other, heard) == ([], [frozenset({"settings"})])

    at_desk(tmp_path, steps)


def test_settings_presets_and_half_typed_words_are_there_in_the_next_run(tmp_path):
    async def steps(desk, id, heard):
        await desk.keep_setting("crew", [{"name": "Mara"}], tell=False)
        await desk.keep_preset("tape", "5 m", {"division": "1 mm"})
        await desk.keep_draft("here", "/x#", "40 7")
        await desk.keep_draft("here", "/y#", "1")
        await desk.keep_draft("here", "/y#", "")
        assert heard == [frozenset({"presets"})]

    at_desk(tmp_path, steps)
    with opened(tmp_path) as desk:
        assert (desk.setting("crew"), desk.presets("tape"), desk.drafts("here")) == ([{"name": "Mara"}], {"5 m": {"division": "1 mm"}}, {"/x#": "40 7"})
        assert desk.setting("none", 3) == 3
