"""Words of the list of a run's bays."""

WORDS = {
    "bays.row": "All bays of run {run}",
    "bays.under": ("{n} bay, {first} to {last}", "{n} bays, {first} to {last}"),
    "bays.no_run": "There is no run {run} in {job}.",
    "bays.says": "{tag}, {word}. {told}",
    "bays.nothing": "Nothing read yet.",
    "bays.way_through": "A gate or a way through: no panel.",
    "bays.span": "Span {span}.",
    "bays.both": "Span {span}, rise {rise}.",
    "bays.panel": "Panel {size}.",
}
