"""Words of changing a plan."""

WORDS = {
    "change.title": "Change the plan",
    "change.told": "Tap a bay. What was read there stays.",
    "change.row": "Change the plan",
    "change.row_told": "Gates, level tops, panels that are ordered or on site.",
    "change.who": "Who changes it?",
    "change.nothing": "Nothing is changed yet.",
    "change.keep": "Keep the changed plan",
    "change.glass_panel": "panel",
    "change.glass_none": "no glass",
    "change.status_to_order": "to order",
    "change.status_ordered": "ordered",
    "change.status_on_site": "on site",
    "change.shape_racked": "racked",
    "change.shape_level_top": "level top",
}
