"""Words of what two sides said differently, neither knowing of the other."""

WORDS = {
    "sides.title": "Said on two sides",
    "sides.row": "two sides",
    "sides.count": ("{n} thing was said differently on two sides.", "{n} things were said differently on two sides."),
    "sides.none": "Nothing is left to decide between two sides.",
    "sides.of_plan": "the plan",
    "sides.of_file": "as the file came",
    "sides.shown": "shown now",
    "sides.again": "Tape again: {place}",
    "sides.holds": "The plan of {by} holds",
    "sides.holds_file": "The plan as the file came holds",
    "sides.holds_reading": "{figure} of {by} holds",
    "sides.holds_at": "{holds} ({when})",
    "sides.who": "Who decides?",
    "sides.owner": "Which plan holds is said on the machine that shares the job.",
    "sides.taped": "Which figure holds is said by who tapes or reads back.",
    "sides.plan": "The plan was changed on two sides. {places} Say which one holds.",
}
