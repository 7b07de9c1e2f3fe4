"""Words of the page that stands there while the app alone in the phone starts. They go into that page, placeholders and all."""

WORDS = {
    "start.opening": "Opening",
    "start.step_python": "the sums",
    "start.step_unpack": "the tool",
    "start.step_data": "your jobs",
    "start.step_app": "the first page",
    "start.getting": "Getting ready for the site. Once, with signal; then it needs none.",
    "start.getting_part": "{got} of {total} MB. Leave this page open.",
    "start.lost_head": "The connection was lost.",
    "start.lost": "Nothing has come yet. Look for better signal, then go on.",
    "start.lost_part": "{got} of {total} MB are here and stay here. Look for better signal, then go on.",
    "start.go_on": "Go on",
    "start.without_keeping_app": "Open it now, with signal only",
    "start.other_tab_head": "Spanbook is open in another tab.",
    "start.other_tab": "Go on there, or close that tab or window. This page opens by itself as soon as it is closed.",
    "start.store_head": "The jobs on this phone cannot be reached.",
    "start.store": "They are still there, but the browser does not open its store. Close all its windows, or restart the phone, then try again. "
    "Do not clear the browser's data: that would throw the jobs away.",
    "start.nowhere_head": "This browser keeps nothing.",
    "start.nowhere": "This looks like a private window, or storage is forbidden for this page. Open it in an ordinary window. You may go on "
    "and look at it, but every job is lost when the page is closed.",
    "start.without_keeping": "Go on; nothing is kept",
    "start.no_parts_head": "Parts of Spanbook are missing at this address.",
    "start.no_parts": "Nothing is at {asked}. This page lies at {here}. Whoever put it there: copy the whole folder, or pack it again for "
    "this address with --base.",
    "start.from_file": "This page was opened as a file. It works from a web address only: let a web server hand out the folder.",
    "start.parts": "One part did not come. Look for better signal, then try again. If it stays so, tell whoever put the page there.",
    "start.old_head": "This browser is too old.",
    "start.old": "Update it, or take another one. Any Chromium, Firefox or Safari of the last two years will do.",
    "start.stopped_head": "Spanbook has stopped.",
    "start.stopped": "Every reading that was kept is safe. Start it again. If it stays so, show the lines below to the office.",
    "start.refused_head": "Spanbook cannot open its jobs.",
    "start.refused": "They are as they were.",
    "start.again": "Try again",
    "start.no_script_head": "Spanbook needs JavaScript.",
    "start.no_script": "It is forbidden for this page. Allow it in the browser's settings, then open the page again.",
}
