"""Words of choosing a name."""

WORDS = {
    "name.own": "or another name",
    "name.first": "your name",
    "name.hint": "as it will stand on the order",
}
