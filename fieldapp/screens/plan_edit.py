"""Changes of the runs, posts and bays of a plan that is there, on the words of its job file. Pure.

What is read on site belongs to a bay by its tag and to a post by its id, so neither ever gets another one's name: a bay that is
added has a name that no bay had.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any, Literal

from fieldapp.words import listed, say
from measure.as_read import with_unit
from measure.errors import SpanbookError
from measure.layout import MOST_BAYS
from measure.length import Length
from measure.parse import parse_length
from measure.plan_version import PlanWords
from measure.rounding import plain_text
from measure.tag import same_tag, tag_trouble

Side = Literal["left", "right"]
_STRAIGHT = 180
_CORNER_FROM = 45
"""Degrees off the straight line from which a post that turns is a corner post."""


# ---- what is there ---------------------------------------------------------------------------------------------------------
def run_names(words: PlanWords) -> list[str]:
    """The runs in their order."""
    return list(dict.fromkeys(bay["run"] for bay in words["bays"]))


def run_bays(words: PlanWords, run: str) -> list[dict[str, Any]]:
    """The bays of a run, left to right."""
    return [bay for bay in words["bays"] if bay["run"] == run]


def bay_of(words: PlanWords, tag: str) -> dict[str, Any]:
    """Raises SpanbookError where there is no such bay."""
    found = next((bay for bay in words["bays"] if bay["tag"] == tag), None)
    if found is None:
        raise SpanbookError(say("change.no_bay", tag=tag))
    return found


def post_of(words: PlanWords, id: str) -> dict[str, Any]:
    """Raises SpanbookError where there is no such post."""
    found = next((post for post in words["posts"] if post["id"] == id), None)
    if found is None:
        raise SpanbookError(say("change.no_post", post=id))
    return found


def run_posts(words: PlanWords, run: str) -> list[str]:
    """The posts of a run, left to right."""
    bays = run_bays(words, run)
    return [bays[0]["left"], *(bay["right"] for bay in bays)] if bays else []


def bays_at(words: PlanWords, post: str) -> list[dict[str, Any]]:
    """The bays that a post stands beside."""
    return [bay for bay in words["bays"] if post in (bay["left"], bay["right"])]


def place_of(words: PlanWords, post: str) -> Literal["inside", "shared", "alone"]:
    """Inside a run, between two runs, or at the end of one alone."""
    runs = [bay["run"] for bay in bays_at(words, post)]
    if len(runs) < 2:
        return "alone"
    return "inside" if runs[0] == runs[1] else "shared"


def face_of(words: PlanWords, post: str) -> Length:
    """A post's face, its own or the system's."""
    own = post_of(words, post).get("face") or words["system"]["post_face"]
    return parse_length(str(own), words["job"]["units"])


def spacing_of(words: PlanWords, bay: Mapping[str, Any]) -> Length | None:
    """Middle of one face to the next, as planned; None where a bay without glass has none."""
    units = words["job"]["units"]
    if "spacing" in bay:
        return parse_length(str(bay["spacing"]), units)
    if "span" not in bay:
        return None
    faces = face_of(words, bay["left"]).nm + face_of(words, bay["right"]).nm
    return Length(parse_length(str(bay["span"]), units).nm + faces // 2)


def spacing_text(words: PlanWords, bay: Mapping[str, Any]) -> str:
    """The same as typed, or made from the planned span; empty where there is none."""
    units = words["job"]["units"]
    if "spacing" in bay:
        return with_unit(str(bay["spacing"]), units)
    found = spacing_of(words, bay)
    return "" if found is None else plain_text(found, units)


# ---- spacings --------------------------------------------------------------------------------------------------------------
def with_spacing(words: PlanWords, tags: Collection[str], text: str) -> PlanWords:
    """These bays with this spacing. Raises SpanbookError with what to do where it cannot be."""
    said = parse_length(text, words["job"]["units"])
    for bay in words["bays"]:
        if bay["tag"] in tags:
            _check_spacing(words, bay, said)
    return _with_bays(words, [_spaced(bay, text) if bay["tag"] in tags else bay for bay in words["bays"]])


def with_length(words: PlanWords, run: str, text: str) -> PlanWords:
    """A run with as many bays, equally spaced over this length from the middle of its first post to that of its last.

    Spacings are whole order steps, as in a new plan; the last takes what is left over. Raises SpanbookError.
    """
    units = words["job"]["units"]
    bays = run_bays(words, run)
    step = parse_length(str(words["job"].get("order_step") or ("1/16 in" if units == "in" else "1 mm")), units)
    steps, rest = divmod(parse_length(text, units).nm, step.nm)
    each, more = divmod(steps, len(bays))
    made = [Length((each + (i < more)) * step.nm + (rest if i == len(bays) - 1 else 0)) for i in range(len(bays))]
    texts = {}
    for bay, length in zip(bays, made, strict=True):
        _check_spacing(words, bay, length)
        texts[bay["tag"]] = plain_text(length, units)
    return _with_bays(words, [_spaced(bay, texts[bay["tag"]]) if bay["tag"] in texts else bay for bay in words["bays"]])


def run_length(words: PlanWords, run: str) -> Length | None:
    """From the middle of its first post to that of its last; None where a bay has no spacing."""
    found = [spacing_of(words, bay) for bay in run_bays(words, run)]
    return None if None in found else Length(sum(s.nm for s in found if s is not None))


def _check_spacing(words: PlanWords, bay: Mapping[str, Any], spacing: Length) -> None:
    units = words["job"]["units"]
    greatest = parse_length(str(words["system"]["greatest_spacing"]), units)
    faces = (face_of(words, bay["left"]).nm + face_of(words, bay["right"]).nm) // 2
    if spacing > greatest:
        raise SpanbookError(say("change.too_far", tag=bay["tag"], most=plain_text(greatest, units)))
    if spacing.nm <= faces:
        raise SpanbookError(say("change.too_near", tag=bay["tag"], least=plain_text(Length(faces), units)))


def _spaced(bay: Mapping[str, Any], text: str) -> dict[str, Any]:
    made = {("spacing" if k == "span" else k): v for k, v in bay.items()}
    return {**made, "spacing": text}


# ---- more bays, fewer bays -------------------------------------------------------------------------------------------------
def with_bay_added(words: PlanWords, run: str, side: Side, read: Collection[str] = (), taken: Collection[str] = ()) -> PlanWords:
    """One bay more at an end of a run, spaced as the one beside it, between the old end post and a new one.

    read: tags of bays that something was read of. taken: tags that readings wait for, and that no new bay may get.
    Where another run begins at that end it moves on to the new post; refused where its first bay was read already.
    """
    bays = run_bays(words, run)
    if len(words["bays"]) >= MOST_BAYS:
        raise SpanbookError(say("change.most_bays", most=MOST_BAYS))
    edge = bays[0] if side == "left" else bays[-1]
    old, tag, post = edge[side], _free_tag(words, run, taken), _free_post(words)
    _check_shared(words, edge, old, read, "change.add_shared")
    usual = {"spacing": spacing_text(words, edge)} if spacing_text(words, edge) else {}
    ends = (post, old) if side == "left" else (old, post)
    new = {"tag": tag, "run": run, "left": ends[0], "right": ends[1], **usual}
    at = words["bays"].index(edge) + (side == "right")
    others = [_moved_on(bay, run, old, post) for bay in words["bays"]]
    made = _with_bays(words, [*others[:at], new, *others[at:]])
    was = post_of(words, old)
    inner = {k: v for k, v in was.items() if k in ("id", "face", "height", "trimmed")} | {"kind": "line"}
    if was["kind"] == "wall":
        inner.pop("face", None)
    return _with_posts(made, [_named_first(inner) if p is was else p for p in words["posts"]] + [{**was, "id": post}])


def with_bay_back(was: PlanWords, now: PlanWords, run: str, side: Side) -> PlanWords | None:
    """The bay that was taken off this end, as it was with its posts; None where none was."""
    edge = run_bays(now, run)[0 if side == "left" else -1]
    line = [bay["tag"] for bay in run_bays(was, run)]
    at = line.index(edge["tag"]) + (-1 if side == "left" else 1) if edge["tag"] in line else -1
    if not 0 <= at < len(line) or any(bay["tag"] == line[at] for bay in now["bays"]):
        return None
    back, inner = bay_of(was, line[at]), edge[side]
    outer = back[side]
    if inner not in (back["left"], back["right"]) or any(post["id"] == outer for post in now["posts"]):
        return None
    stood = {bay["tag"]: bay for bay in was["bays"]}
    others = [{**bay, **{k: outer for k in ("left", "right") if bay[k] == inner and stood.get(bay["tag"], bay)[k] == outer}} for bay in now["bays"]]
    place = next(i for i, bay in enumerate(others) if bay["tag"] == edge["tag"]) + (side == "right")
    posts = [post_of(was, inner) if post["id"] == inner else post for post in now["posts"]]
    return _with_posts(_with_bays(now, [*others[:place], back, *others[place:]]), [*posts, post_of(was, outer)])


def with_bay_removed(words: PlanWords, run: str, side: Side, read: Collection[str] = ()) -> PlanWords:
    """A run without its bay at one end; the post before it becomes the end. What was read of the bay is kept aside.

    Raises SpanbookError where the run would have no bay, and where another run that was read begins at its post.
    """
    bays = run_bays(words, run)
    if len(bays) < 2:
        raise SpanbookError(say("change.one_bay", run=run))
    edge = bays[0] if side == "left" else bays[-1]
    gone, end = edge[side], edge["right" if side == "left" else "left"]
    _check_shared(words, edge, gone, read, "change.remove_shared")
    others = [_moved_on(bay, run, gone, end) for bay in words["bays"] if bay is not edge]
    was = post_of(words, gone)
    kept = {k: v for k, v in post_of(words, end).items() if k not in ("kind", "angle")}
    shared = place_of(words, gone) == "shared"
    turned = {k: v for k, v in was.items() if k in ("kind", "angle")} if shared else {"kind": "end"}
    posts = [_named_first({**kept, **turned}) if p["id"] == end else p for p in words["posts"] if p is not was]
    return _with_posts(_with_bays(words, others), posts)


def with_run_added(words: PlanWords, turn: str, taken: Collection[str] = ()) -> PlanWords:
    """One run more, of one bay, spaced as the last one. turn: degrees to the last run, whose end post they share; empty: alone."""
    name = next((n for n in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if n not in run_names(words)), None)
    if name is None:
        raise SpanbookError(say("change.most_runs"))
    last = words["bays"][-1]
    end, posts = last["right"], list(words["posts"])
    if turn:
        posts = [turned_post(p, int(turn)) if p["id"] == end else p for p in posts]
    else:
        end = _free_post(words)
        posts.append({"id": end, "kind": "end"})
    post = _free_post({**words, "posts": posts})
    posts.append({"id": post, "kind": "end"})
    bay = {"tag": _free_tag(words, name, taken), "run": name, "left": end, "right": post, "spacing": spacing_text(words, last)}
    runs = [*words["runs"], {"run": name}] if words.get("runs") else words.get("runs")
    return _with_posts(_with_bays({**words, **({"runs": runs} if runs else {})}, [*words["bays"], bay]), posts)


def with_run_removed(words: PlanWords, run: str) -> PlanWords:
    """The plan without a run; posts that it shared stay as ends of the others. Raises SpanbookError for the last one."""
    if len(run_names(words)) < 2:
        raise SpanbookError(say("change.one_run"))
    bays = [bay for bay in words["bays"] if bay["run"] != run]
    standing = {post for bay in bays for post in (bay["left"], bay["right"])}
    shared = set(run_posts(words, run)) & standing
    posts = [_alone(p) if p["id"] in shared else p for p in words["posts"] if p["id"] in standing]
    runs = [r for r in words.get("runs") or () if r["run"] != run]
    made = {k: v for k, v in words.items() if k != "runs"} | ({"runs": runs} if runs else {})
    return _with_posts(_with_bays({k: made[k] for k in words if k in made}, bays), posts)


def _check_shared(words: PlanWords, edge: Mapping[str, Any], post: str, read: Collection[str], key: str) -> None:
    other = [bay for bay in bays_at(words, post) if bay["run"] != edge["run"]]
    stuck = [bay["tag"] for bay in other if bay["tag"] in read]
    if stuck:
        raise SpanbookError(say(key, run=other[0]["run"], tag=stuck[0], bay=edge["tag"], post=post))


def _moved_on(bay: Mapping[str, Any], run: str, old: str, new: str) -> dict[str, Any]:
    """A bay of another run that stood at the old end post stands at the new one."""
    return dict(bay) if bay["run"] == run else {k: new if k in ("left", "right") and v == old else v for k, v in bay.items()}


def _free_tag(words: PlanWords, run: str, taken: Collection[str]) -> str:
    used = {same_tag(str(t)) for t in (*(bay["tag"] for bay in words["bays"]), *taken)}
    tags = (f"{stem}{n}" for stem in (run, f"{run}-", "N") for n in range(1, len(used) + 2))
    return next(tag for tag in tags if same_tag(tag) not in used and tag_trouble(tag) is None)


def _free_post(words: PlanWords) -> str:
    used = {str(post["id"]).casefold() for post in words["posts"]}
    return next(f"P{n}" for n in range(1, len(used) + 2) if f"p{n}" not in used)


# ---- posts, bays, runs -----------------------------------------------------------------------------------------------------
def turned_post(post: Mapping[str, Any], angle: int) -> dict[str, Any]:
    """A post between two runs at this angle on the deck side: a corner post, or a line post where it turns a little."""
    kind = "corner" if abs(angle - _STRAIGHT) > _CORNER_FROM else "line"
    return _named_first({**{k: v for k, v in post.items() if k not in ("kind", "angle")}, "kind": kind, "angle": angle})


def with_post(words: PlanWords, id: str, **said: Any) -> PlanWords:
    """A post with other words; an empty one takes its key out. An end post has no angle."""
    made = _entry(post_of(words, id), said)
    if made["kind"] == "end":
        made.pop("angle", None)
    return _with_posts(words, [made if p["id"] == id else p for p in words["posts"]])


def with_bay(words: PlanWords, tag: str, **said: Any) -> PlanWords:
    """A bay with other words; None takes its key out."""
    return _with_bays(words, [_entry(bay, said) if bay["tag"] == tag else bay for bay in words["bays"]])


def with_run(words: PlanWords, run: str, **said: Any) -> PlanWords:
    """What is said of a run as a whole; None takes its key out."""
    runs = list(words.get("runs") or ())
    if not any(r["run"] == run for r in runs):
        runs.append({"run": run})
    runs = [_entry(r, said) if r["run"] == run else r for r in runs]
    if "runs" in words or any(len(r) > 1 for r in runs):
        return {**words, "runs": runs}
    return words


def run_of(words: PlanWords, run: str) -> dict[str, Any]:
    """What is said of a run as a whole."""
    return next((r for r in words.get("runs") or () if r["run"] == run), {"run": run})


def named(tags: Sequence[str]) -> str:
    """`A3`, `A3 and B2`."""
    return listed(list(tags))


def _entry(entry: Mapping[str, Any], said: Mapping[str, Any]) -> dict[str, Any]:
    return {k: v for k, v in {**entry, **said}.items() if v is not None}


def _alone(post: Mapping[str, Any]) -> dict[str, Any]:
    if post["kind"] in ("corner", "line"):
        return {k: "end" if k == "kind" else v for k, v in post.items() if k != "angle"}
    return dict(post)


def _named_first(post: Mapping[str, Any]) -> dict[str, Any]:
    return {"id": post["id"], "kind": post["kind"], **{k: v for k, v in post.items() if k not in ("id", "kind")}}


def _with_bays(words: PlanWords, bays: list[dict[str, Any]]) -> PlanWords:
    return {**words, "bays": bays}


def _with_posts(words: PlanWords, posts: list[dict[str, Any]]) -> PlanWords:
    return {**words, "posts": posts}
