"""The visible parts of the app, one noun a file. They take plain values, a `Look` and callbacks, and know no job and no check.

Every word comes in as an argument. A part that changes has `control` (put on the page once) and `show(…)`, which sets values
and makes nothing; the caller updates `control`, or the controls that `show` returns. Names that checks from outside look for are
set by the part that shows them: `place`, `question`, `entry`, `verdict`, `finding`.

Keys and drawings are built once. After a press update only what `WalkStage.show` returns: figure, echo, blade, the lit key.
Never update an ancestor of the keys for a press. Drawings are true to their scale and to the factor that they print.

    Pure, no flet:
    entry         Entry(units, form="", rise=False) · .press(key) .type(letters) → Entry
                  .text .value() .read() .on_blade .shown .lit .pad .empty · Entry.from_text(text, units, form, rise): a draft
    question      Question(tag, what, where, says, ask, shape, names, units, pad, …)
                  Typed(whole, fraction, unit, echo, says, value, lit, caret, problem)
    bay_shape     BayShape(span, left_face, right_face, tan, plate, level_top) · bay_lines(shape, w, h) · choose_factor
    blade_tiles   the scales of the blade; run it to write its pictures

    The walk:
    walk_stage    WalkStage(look, head, press, words, pick) · .ask(question, side) .show(typed) .show_side(side, question)
    question_lines  QuestionLines(look).show(tag, what, where)
    answer_page   AnswerPage(look, head).show(Answer(…)): the bay with its kept figure, the verdict band, actions at the foot
    keypad        Keypad(look, "inch"|"decimal", press, PadWords(…)) · .light(name) → controls · .keys .height
    key           Key and its makers; never a Button
    figure        Figure(look, room).show(whole, fraction, unit, says, caret) · still_figure(…)
    blade         Blade(look, unit, width, at).show(value) → controls · two_on_blade(look, unit, a, b, ("M", "K"), width)
    bay_picture   BayPicture(look, w, h, figure).show(shape, ask, BayNames(left, right, drawn), says)
    run_strip     RunStrip(look, bays, width, h, now, tags, on_bay, factor, scale).show(bays, now)
                  StripBay(tag, span, sign, rise, post, glass, says)
    slip_picture  a likely slip, drawn: hook_end(look, unit, width, start) · other_mark(look, unit, read, likely, words, width)
                  far_apart · case_left_out · tilted

    Verdicts (name: clear, query, hold, now, todo):
    verdict       sign(look, name, w, h) · verdict_band(look, verdict, word, sentence, body) · VerdictBand(look).show(…)
                  small_band · verdict_word · tally
    finding_row   finding_row(look, verdict, word, place, sentence, on_click)

    Drawings:
    panel_drawing panel_drawing(look, PanelShape, PanelWords, w, h, says) → control, factor
                  lengths_drawing (arrival) · turned_round · changed_panel
    order_leaf    OrderLeaf(look, turn, before_says, next_says).show(OrderPanel(name, count, shape, words, seen_from, …))
    run_block     run_block(look, name, under, bays, scale, on_bay, factor, lines, verdict, closing) · shared_scale(runs, width)
    plan_picture  PlanPicture(look, w, h, PlanWords, on_bay, signs).show(runs, says, lit, chosen, ghost, tags)
                  PlanRun(name, bays, turn, left, right) · PlanBay(tag, spacing, sign, glass, gate, says)
    post_section  section_picture(look, SystemFigures, ask, SectionWords, w, says) · section_height(ask) · section_shapes
    draw(look, w, h) → shapes, for tiles, rows and questions:
        taken_pictures (how a tape or level lay) · reading_pictures (the other readings) · post_pictures (posts, turns, panes)
        sample_pictures (settings, roles, scales) · guide_pictures
    stroke        pens, lines, words, hatch, dimension, mapped, drawing(shapes, w, h, says)
    tape_piece    tape_piece, laid (a span as it is taken), straightedge, ground, post

    Pages:
    page          page_sheet(look, controls, actions, scrolls, keys, ground, paper) · Spread(look, head, left, right).show(right)
                  mid_sheet (a column in the middle of a wide screen) · reached (scrolls where a phone lies on its side)
    head          WalkHead(look, back_says, on_back, strip_says, on_strip, signal).show(bays, now, what)
                  Signal(look, above, below).show(…) · title_head(look, name, under, back_says, on_back, tail)
                  tag_head(look, tag, what, count, back_says, on_back, under, tail)
    action        action(look, label, on_click, kind, icon) · main_action · small_action · side_by_side
                  sign_action(look, icon, says, on_click)
    tile          Tiles(look, [(value, word, draw)], now, pick, cols).show(now)
    choice        Choice(look, [(value, word)], now, pick).show(now)
    field         Field(look, label, value, hint) · .box is the TextField · .show(wrong)
    row           open_row(look, name, value, sentence, picture, on_click, least, lit)
    facts         facts(look, [(words, figure)], ink) · spelled(look, [(sign, word)]): a figure as it is said
    ledger        ledger(look, [LedgerLine(words, whole, fraction, mark)])
    table         Table(look, [Column(name, width, side)], on_row).show([TableRow(key, cells, verdict, word)], now)
    leaf          leaf · over_leaf · Plate(look, who, inner, h, covered) · badge · letter · quoted
    text          text(look, value, role, color, bold) · rich(look, ["plain", ("bold", True)]) · heading
    space         gap · rule · inset · column

    gallery       python -m fieldapp.parts.gallery: every part on invented values; python tests/shots.py FOLDER: pictures of it
"""
