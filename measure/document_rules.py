"""What the parts of a job file owe one another: tags once, posts that exist, bays that follow each other in a straight line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from measure.figures import Problem, Words
from measure.json_path import shown
from measure.places import Places
from measure.plan import Bay, Post
from measure.reading import Answer, Moved, Reading
from measure.system import System
from measure.tag import same_tag, tag_trouble

STRAIGHT = 180


def post_problems(posts: Sequence[Post]) -> Iterator[Problem]:
    """Every post has a name of its own."""
    seen: dict[str, int] = {}
    for i, post in enumerate(posts):
        if post.id and seen.setdefault(post.id, i) != i:
            yield ("posts", i, "id"), f"Post {shown(post.id)} is there already, as posts[{seen[post.id]}]: give each post its own name."


def run_problems(runs: Sequence[Words], bays: Sequence[Bay]) -> Iterator[Problem]:
    """Every run has a name of its own that can be one, and a bay."""
    named = {bay.run for bay in bays}
    seen: dict[str, int] = {}
    for i, words in enumerate(runs):
        name = words.get("run")
        if name is None:
            continue
        place = ("runs", i, "run")
        if trouble := tag_trouble(name):
            yield place, trouble
        elif seen.setdefault(same_tag(name), i) != i:
            yield place, f"Run {shown(name)} is there already, as runs[{seen[same_tag(name)]}]: give each run its own name."
        elif name not in named:
            yield place, f"Run {shown(name)} has no bay: give a bay this run, or take the run out."


def bay_problems(bays: Sequence[Bay], posts: Sequence[Post]) -> Iterator[Problem]:
    """Every bay has a tag of its own, a run, and two posts that exist."""
    known = {post.id for post in posts}
    seen: dict[str, int] = {}
    spelled: dict[str, str] = {}
    for i, bay in enumerate(bays):
        if trouble := tag_trouble(bay.tag):
            yield ("bays", i, "tag"), trouble
        elif seen.setdefault(same_tag(bay.tag), i) != i:
            other = seen[same_tag(bay.tag)]
            as_what = "" if bays[other].tag == bay.tag else f", written {shown(bays[other].tag)}"
            yield ("bays", i, "tag"), f"Tag {shown(bay.tag)} is there already, as bays[{other}]{as_what}: give each bay its own tag."
        if bay.run not in spelled and (trouble := tag_trouble(bay.run)):
            yield ("bays", i, "run"), trouble
        elif spelled.setdefault(same_tag(bay.run), bay.run) != bay.run:
            yield ("bays", i, "run"), f"Run {shown(bay.run)} is written {shown(spelled[same_tag(bay.run)])} before: write it one way."
        spelled.setdefault(bay.run, bay.run)
        for side, post in (("left", bay.left), ("right", bay.right)):
            if post not in known:
                yield ("bays", i, side), f"No post has the id {shown(post)}: add it to the posts, or name one that is there."
        if bay.left and bay.left == bay.right:
            yield ("bays", i, "right"), f"Post {shown(bay.right)} is left and right of this bay: name the post at its other end."


def line_problems(bays: Sequence[Bay], posts: Sequence[Post]) -> Iterator[Problem]:
    """The bays of a run follow each other, each one's right post is the next one's left, the posts between them are straight."""
    by_id = {post.id: (i, post) for i, post in enumerate(posts)}
    uses: dict[str, int] = {}
    passed: dict[str, set[str]] = {}
    before: Bay | None = None
    for i, bay in enumerate(bays):
        follows = before is not None and before.run == bay.run
        if follows and before is not None:
            yield from _joint_problems(i, before, bay, by_id)
        elif bay.run in passed:
            yield ("bays", i, "run"), f"The bays of run {shown(bay.run)} do not follow each other: put them one behind the other."
        seen = passed.setdefault(bay.run, {bay.left})
        if bay.right in seen and bay.right != bay.left:
            yield ("bays", i, "right"), f"Run {shown(bay.run)} comes back to post {shown(bay.right)}: a run is one straight line."
        seen.add(bay.right)
        for side, post in (("left", bay.left), ("right", bay.right)):
            uses[post] = uses.get(post, 0) + 1
            if post and uses[post] == 3:
                yield ("bays", i, side), f"Post {shown(post)} has two bays already: a post holds two panels at most."
        before = bay


def _joint_problems(i: int, before: Bay, bay: Bay, by_id: Mapping[str, tuple[int, Post]]) -> Iterator[Problem]:
    if not before.right or not bay.left:
        return
    if before.right != bay.left:
        say = f"Run {shown(bay.run)} goes on from post {shown(before.right)}, the right one of bay {shown(before.tag)}"
        yield ("bays", i, "left"), f"{say}, not from {shown(bay.left)}: name that post, or begin a new run here."
    elif bay.left in by_id:
        at, post = by_id[bay.left]
        if post.turned_to != STRAIGHT:
            key = "kind" if post.angle is None else "angle"
            what = f"a {post.kind} post" if post.angle is None else f"at {float(post.angle):g}°"
            say = f"Post {shown(post.id)} stands inside run {shown(bay.run)} and is {what}; inside a run posts are straight (line, 180°)"
            yield ("posts", at, key), f"{say}: begin a new run there, or make it straight."


def planned_problems(bays: Sequence[Bay], posts: Sequence[Post], system: System) -> Iterator[Problem]:
    """A spacing leaves something between the two faces."""
    faces = {post.id: (post.face or system.post_face).nm for post in posts}
    for i, bay in enumerate(bays):
        if bay.spacing is not None and 2 * bay.spacing.nm <= faces.get(bay.left, 0) + faces.get(bay.right, 0):
            yield ("bays", i, "spacing"), "Between the two posts nothing is left: spacing runs from centre to centre. Check it."


def reading_problems(readings: Iterable[tuple[int, Reading]], places: Places) -> Iterator[Problem]:
    """Readings are of places that exist, ids stand once, and what is replaced is a reading of the same place."""
    several = []
    for i, reading in readings:
        if (trouble := places.trouble(reading)) is not None:
            yield ("readings", i, trouble[0]), trouble[1]
        if reading.id is not None:
            places.take_id(reading)
            if (sentence := places.id_trouble(reading)) is not None:
                yield ("readings", i, "id"), sentence
        if reading.replaces is not None:
            several.append((i, reading))
    for i, reading in several:
        if (sentence := places.replaces_trouble(reading)) is not None:
            yield ("readings", i, "replaces"), sentence


def moved_problems(moved: Iterable[tuple[int, Moved]], places: Places) -> Iterator[Problem]:
    """A moved post exists."""
    for i, one in moved:
        if (sentence := places.unknown("post", one.post)) is not None:
            yield ("moved", i, "post"), sentence


def answer_problems(answers: Iterable[tuple[int, Answer]], places: Places) -> Iterator[Problem]:
    """An answer is for a bay or a run that exists."""
    for i, one in answers:
        if one.bay is not None and (sentence := places.unknown("bay", one.bay)) is not None:
            yield ("answers", i, "bay"), sentence
        if one.run is not None and (sentence := places.unknown("run", one.run)) is not None:
            yield ("answers", i, "run"), sentence
