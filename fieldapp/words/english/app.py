"""Words of the app around every screen."""

WORDS = {
    "app.name": "Spanbook",
    "app.what_it_is": "From post spans measured on site to a glass order that can be cut",
    "app.back": "Back",
    "app.close": "Close",
    "app.to_jobs": "To the jobs",
    "app.kept_here": "kept here",
    "app.no_signal": "no signal",
    "app.and": "{names} and {last}",
    "app.and_more": "{names} and {n} more",
    "app.mishap": "That did not work, and nothing was lost. What you typed is still here. Try again; if it stays so, tell "
    "the office: {what}.",
    "app.bay_todo": "{tag}, not taped yet",
    "app.bay_begun": "{tag}, span kept, rise still to come",
    "app.bay_clear": "{tag}, clear",
    "app.bay_query": "{tag}, query",
    "app.bay_hold": "{tag}, hold",
    "app.bay_gate": "{tag}, no glass",
    "app.no_such_job": "That job is not here. It may be on another phone.",
    "app.no_such_page": "There is no such page.",
}
