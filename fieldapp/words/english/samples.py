"""Words of the list of samples."""

WORDS = {
    "samples.title": "Samples",
    "samples.under": "invented places and people",
    "samples.told": "Tap one: it becomes a job of its own, to try everything on. Nothing in it is meant to be built.",
    "samples.fresh_name": "{name}, to try",
    "samples.row_clear": "{bays} bays in {units}, {taped} taped, all clear",
    "samples.row_to_look_at": "{bays} bays in {units}, {taped} taped, some to look at",
    "samples.row_untaped": "{bays} bays in {units}, nothing taped yet",
}
