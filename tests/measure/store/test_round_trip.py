"""Whatever a job file holds, the store gives back the same: letters, digits and order."""

from copy import deepcopy
from decimal import Decimal

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from measure import strict_json
from measure.documents import dump, read_job, read_words
from measure.store import Store

letters = st.characters(exclude_categories=("Cs", "Cc"), exclude_characters="\ufffe\uffff")
texts = st.text(letters, min_size=1, max_size=20).filter(str.strip)
bare = st.decimals("0.5", "90", places=3, allow_nan=False, allow_infinity=False)
typed = st.one_of(st.integers(1, 90), bare, st.sampled_from(["41 1/2 in", "3' 5½\"", "895 mm", "41,5 mm", "2 ft 11 in"]))
zones = st.sampled_from(["Z", ".125+02:00", "-08:00"])
moments = st.builds("2026-05-0{}T{:02}:{:02}:00{}".format, st.integers(1, 3), st.integers(0, 23), st.integers(0, 59), zones)
MORE = [{}, {"role": "second"}, {"taped": "along"}, {"how": "case", "case": Decimal("3.0")}, {"start": "0"}]


@st.composite
def readings(draw):
    words = {"bay": draw(st.sampled_from(["A1", "A2", "A4"])), "what": "span", "value": draw(typed)}
    words |= {"by": draw(texts), "at": draw(moments), **draw(st.sampled_from(MORE))}
    return {key: words[key] for key in draw(st.permutations(list(words)))}


answers = st.fixed_dictionaries({"bay": st.just("A2"), "check": st.just("lean"), "reason": texts, "by": texts, "at": moments})
notes = st.fixed_dictionaries({"bay": st.just("A3"), "text": texts, "by": texts, "at": moments}, optional={"photo": texts})


@st.composite
def heads(draw):
    said = draw(st.dictionaries(st.sampled_from(["site", "customer", "po", "contact", "deliver_to"]), texts | st.just("")))
    return {"name": draw(texts), "units": "in", **said}


@settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(head=heads(), said=st.lists(readings(), max_size=6), why=st.lists(answers, max_size=3), noted=st.lists(notes, max_size=3))
def test_a_job_comes_out_as_it_went_in(deck_file, head, said, why, noted):
    file = {**deepcopy(deck_file), "job": head, "readings": said, "answers": why, "notes": noted}
    read_words(file)
    with Store.open(":memory:") as store:
        job = store.add_job(file)
        assert strict_json.write(store.document(job)) == strict_json.write(file)
        # As bytes too, and once more through a second store.
        written = dump(store.document(job))
        with Store.open(":memory:") as other:
            assert dump(other.document(other.add_job(read_job(written)))) == written


@settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(said=st.lists(readings(), max_size=6), why=st.lists(answers, max_size=3))
def test_what_was_kept_one_by_one_comes_out_in_that_order(deck_file, said, why):
    with Store.open(":memory:") as store:
        job = store.add_job({**deck_file, "readings": [], "answers": []})
        kept = [store.add_reading(job, words) for words in said]
        for words in why:
            store.add_answer(job, words)
        document = store.document(job)
        assert strict_json.write(document["readings"]) == strict_json.write(kept)
        once = [words for i, words in enumerate(why) if words not in why[:i]]
        assert document["answers"] == once
        read_words(document)
        with Store.open(":memory:") as other:
            assert strict_json.write(other.document(other.add_job(document))) == strict_json.write(document)
