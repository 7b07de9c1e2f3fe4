"""Words of the page itself, before and beside the app."""

WORDS = {
    "page.opening": "Opening …",
    "page.no_connection": "No connection to Spanbook. What it kept is safe. Keys wait until it is back.",
    "page.shut": "Spanbook over there was ended, or lets no phones in just now. What you typed is kept there. "
    "This page goes on by itself once it is back.",
    "page.drop": "Let the job file go here: Spanbook takes it in.",
    "page.needs_script": "Spanbook needs JavaScript.",
}
