"""The screens, by name and address. How one is written:

1. `screens/walk_model.py`: what it knows and says, pure: takes a `LiveJob` (fieldapp.desk), returns frozen values with every
   string already worded (`fieldapp.words.say`) and every flag that enables something. No flet. All rules are tested there.
2. `screens/walk.py`: `class WalkScreen(Screen)`. `__init__(self, app, job, bay)` takes the address's parameters as text and must
   be cheap; raise a `SpanbookError` when there is no such thing. `view()` builds the controls once from `self.app.look`
   (parts/ has them); afterwards handlers set values on kept controls and call `self.update(control, …)`. Nothing updates by
   itself: auto-update is off in the whole app.
3. One line in `ROUTES` below: the name is what `app.go("walk", job=…, bay=…)` says. Static parts before parameters where two
   patterns could match. Words: a file in words/english/.

What the app gives (`self.app`):
- `desk` (fieldapp.desk.Desk): all jobs, orders, presets, settings. `desk.job(id)` is the `LiveJob`: reading it never touches
  the disk. `await desk.keep_…(id, …)` writes, flushes, and tells everybody else: say "kept" only after it returned.
- `look` (fieldapp.theme.Look), `host` (fieldapp.hosts.ports.Host: files, share, clock, connection), `signal` (two lines for a
  head), `person` (who holds this device; empty until said), `device.keep_person`, `device.other_unit` (show the other unit too).
- `go(name, **params)`, `back()`, `redraw()`, `update(*controls)`, `tell(sentence)` (a band on top that stays until closed).
- `run(coroutine_function, *args)`: background work and everything async that a part calls as a plain function (`Key` presses
  are plain: `press(name)` → `self.app.run(self._keep)`). An `async def` given as `on_click` of a control needs no `run`.
- `draft` / `keep_draft(text)` / `draft_of(name)`, `keep_draft_of(name, text)`: half-typed digits of this screen. Call at each
  key; it is written right after the packet left. Empty text forgets it. A screen reads its draft in `__init__`.
- `typing`: True while a text field has the keyboard. Give each field `on_focus=self.app.field_on, on_blur=self.app.field_off`,
  keep its text in `on_change` (a reload sends only what the server knows), and `on_key` stays away meanwhile.

No handler needs a guard of its own: whatever one raises arrives in `App.failed`, is logged and told in a band (a
`SpanbookError` by its own sentence), and the screen keeps what it holds. Two taps in a row start a handler twice: one that
awaits has to say itself that it is busy. `on_change(topics)` comes when another page, or the background, changed something;
own changes do not come back. Draw anew what changed and keep what the person was typing. Hardware keys come to
`on_key(event)`; `event.key` is `7`, `Numpad 7`, `Enter`, `Backspace`, `.`; keys of the keypad are Containers, so that Enter
does not press them twice.
"""

from __future__ import annotations

from fieldapp.screens.route import Route

ROUTES: dict[str, Route] = {
    "jobs": Route("/", "jobs:JobsScreen"),
    "bin": Route("/bin", "job_bin:JobBinScreen"),
    "job": Route("/jobs/{job}", "job_menu:JobMenuScreen"),
    "samples": Route("/samples", "samples:SamplesScreen"),
    "new": Route("/new", "new:NameScreen"),
    "new-system": Route("/new/system", "new_system:SystemScreen"),
    "new-sheet": Route("/new/sheet", "new_sheet:SheetScreen"),
    "new-figure": Route("/new/figure/{key}", "new_figure:FigureScreen"),
    "new-glass": Route("/new/glass", "new_glass:GlassScreen"),
    "new-words": Route("/new/words/{key}", "new_glass:WordsScreen"),
    "new-limits": Route("/new/limits", "new_glass:LimitsScreen"),
    "new-tape": Route("/new/tape", "new_tape:TapeScreen"),
    "new-head": Route("/new/head", "new_head:HeadScreen"),
    "new-turning": Route("/new/turning", "new_turning:TurningScreen"),
    "new-presets": Route("/new/kept/{kind}", "new_presets:PresetsScreen"),
    "new-preset": Route("/new/kept/{kind}/{name}", "new_presets:PresetScreen"),
    "new-runs": Route("/new/runs", "new_runs:RunsScreen"),
    "new-run": Route("/new/run/{number}", "new_run:RunScreen"),
    "new-ends": Route("/new/ends/{number}", "new_ends:EndsScreen"),
    "new-turn": Route("/new/turn/{number}", "new_ends:TurnScreen"),
    "new-face": Route("/new/face/{number}", "new_figure:WallFaceScreen"),
    "walk": Route("/job/{job}/walk/{bay}", "walk:WalkScreen"),
    "read": Route("/job/{job}/read/{bay}/{what}", "walk:WalkScreen"),
    "review": Route("/job/{job}/review", "review:ReviewScreen"),
    "bays": Route("/job/{job}/bays/{run}", "bays:BaysScreen"),
    "plan": Route("/job/{job}/plan", "change_plan:ChangePlanScreen"),
    "change-keep": Route("/job/{job}/plan/keep", "change_keep:KeepPlanScreen"),
    "change-earlier": Route("/job/{job}/plan/earlier", "change_earlier:EarlierPlansScreen"),
    "change-add-run": Route("/job/{job}/plan/add-run", "change_run:AddRunScreen"),
    "change-run": Route("/job/{job}/plan/run/{run}", "change_run:RunPlanScreen"),
    "change-post": Route("/job/{job}/plan/post/{post}", "change_post:PostPlanScreen"),
    "change-figure-of": Route("/job/{job}/plan/{kind}/{place}/figure/{key}", "change_figure:PlanFigureScreen"),
    "change-words-of": Route("/job/{job}/plan/{kind}/{place}/words/{key}", "change_figure:PlanWordsScreen"),
    "change-name": Route("/job/{job}/plan/name", "new:NameScreen"),
    "change-tape": Route("/job/{job}/plan/tape", "new_tape:TapeScreen"),
    "change-head": Route("/job/{job}/plan/head", "new_head:HeadScreen"),
    "change-system": Route("/job/{job}/plan/system", "new_system:SystemScreen"),
    "change-sheet": Route("/job/{job}/plan/sheet", "new_sheet:SheetScreen"),
    "change-turning": Route("/job/{job}/plan/turning", "new_turning:TurningScreen"),
    "change-glass": Route("/job/{job}/plan/glass", "new_glass:GlassScreen"),
    "change-limits": Route("/job/{job}/plan/limits", "new_glass:LimitsScreen"),
    "change-figure": Route("/job/{job}/plan/figure/{key}", "new_figure:FigureScreen"),
    "change-words": Route("/job/{job}/plan/words/{key}", "new_glass:WordsScreen"),
    "change-presets": Route("/job/{job}/plan/kept/{kind}", "new_presets:PresetsScreen"),
    "change-preset": Route("/job/{job}/plan/kept/{kind}/{name}", "new_presets:PresetScreen"),
    "readback": Route("/job/{job}/readback", "readback:ReadBackScreen"),
    "sides": Route("/job/{job}/sides", "sides:SidesScreen"),
    "ask": Route("/job/{job}/ask", "ask_letter:AskLetterScreen"),
    "letter": Route("/letter/{letter}", "answer_letter:AnswerLetterScreen"),
    "answer": Route("/answer/{letter}", "take_letter:TakeLetterScreen"),
    "share": Route("/job/{job}/share", "share:ShareScreen"),
    "both": Route("/job/{job}/both/{bay}", "both:BothScreen"),
    "say": Route("/job/{job}/say/{bay}", "say:SayScreen"),
    "order": Route("/job/{job}/order", "order:OrderScreen"),
    "issue": Route("/job/{job}/issue", "issue:IssueScreen"),
    "taken": Route("/job/{job}/taken/{bay}/{what}", "how_taken:HowTakenScreen"),
    "more": Route("/job/{job}/more/{bay}", "more:MoreScreen"),
    "stands": Route("/job/{job}/stands/{place}/{check}", "stands:StandsScreen"),
    "moved": Route("/job/{job}/moved/{bay}", "moved:MovedScreen"),
    "note": Route("/job/{job}/note/{bay}", "note:NoteScreen"),
    "history": Route("/job/{job}/history/{bay}", "history:HistoryScreen"),
    "settings": Route("/settings", "settings:SettingsScreen"),
    "phone": Route("/this-phone", "phone:PhoneScreen"),
    "phones": Route("/settings/phones", "phones:PhonesScreen"),
    "intake": Route("/settings/jobs-from-phones", "intake:IntakeScreen"),
    "office": Route("/job/{job}/office", "office:OfficeScreen"),
    "guide": Route("/guide/{page}", "guide:GuideScreen"),
    "person": Route("/settings/crew/{name}", "person:PersonScreen"),
}
