"""The look of the printed order: black on white, A4 and Letter alike, no colour that carries meaning."""

from measure.markup import css_text


def style_sheet(footer: str) -> str:
    """footer: what every sheet of paper says at its foot, so that one that went astray is known."""
    return f"@page {{ @bottom-left {{ content: {css_text(footer)}; font: 8pt Arial, Helvetica, sans-serif; }} }}{_STYLE}"


_STYLE = """
@page { margin: 13mm 13mm 15mm;
  @bottom-right { content: counter(page) " of " counter(pages); font: 8pt Arial, Helvetica, sans-serif; } }
* { box-sizing: border-box; }
html { color: #000; background: #fff; }
body { font: 9.5pt/1.38 Arial, Helvetica, "Liberation Sans", sans-serif; margin: 0 auto; max-width: 184mm; padding: 4mm;
  font-variant-numeric: tabular-nums; overflow-wrap: break-word; }
h1 { font-size: 21pt; line-height: 1.1; margin: 0 0 1mm; letter-spacing: -.01em; }
h2 { font-size: 11.5pt; margin: 6mm 0 1.5mm; padding-bottom: .8mm; border-bottom: .6mm solid #000; break-after: avoid; }
h3 { font-size: 13pt; margin: 0; }
p { margin: 0 0 1.5mm; }
ul { margin: 0; padding-left: 4.5mm; }
li { margin: 0 0 .8mm; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .7mm 2mm .7mm 0; border-bottom: .2mm solid #999; }
thead th { border-bottom: .4mm solid #000; font-size: 8.5pt; }
tr { break-inside: avoid; }
td.n, th.n { text-align: right; white-space: nowrap; }
.head { display: grid; grid-template-columns: 1fr 1fr; column-gap: 8mm; margin-top: 3mm; }
.head table th { width: 27mm; font-weight: normal; color: #333; }
.totals { display: grid; grid-template-columns: repeat(4, 1fr); border: .6mm solid #000; margin: 5mm 0 0; }
.totals div { padding: 2mm 3mm; border-left: .2mm solid #999; }
.totals div:first-child { border-left: 0; }
.totals b { display: block; font-size: 15pt; line-height: 1.15; }
.rule { font-weight: bold; margin: 4mm 0 0; padding: 2mm 3mm; border: .3mm solid #000; }
.rule p:last-child { margin: 0; }
.sign { display: grid; grid-template-columns: 2fr 1fr; gap: 10mm; margin-top: 11mm; break-inside: avoid; }
.sign span { border-top: .3mm solid #000; padding-top: .8mm; font-size: 8.5pt; }
.panels { break-before: page; }
.panel { break-inside: avoid; border-top: .6mm solid #000; padding: 1.5mm 0 0; margin: 0 0 3mm; }
.panel header { display: flex; justify-content: space-between; align-items: baseline; gap: 4mm; }
.sheet { display: grid; grid-template-columns: 105mm 1fr; column-gap: 3mm; }
.sheet svg { display: block; width: 100%; height: auto; }
th[scope="row"] { white-space: nowrap; width: 1%; padding-right: 5mm; }
.left-out th[scope="row"] { white-space: normal; width: 30mm; }
.figures th[scope="row"] { font-weight: normal; font-size: 8pt; padding-right: 2mm; }
.figures td { font-size: 8.5pt; padding-right: 0; }
.figures td.n { padding-left: 1mm; }
.figures tr.cut th, .figures tr.cut td { font-weight: bold; }
.small { font-size: 8pt; line-height: 1.3; margin-top: 1mm; }
@media screen { .wide { overflow-x: auto; } }
@media screen and (max-width: 190mm) { .head, .sheet { grid-template-columns: minmax(0, 1fr); }
  .totals { grid-template-columns: 1fr 1fr; } .totals div { border-left: 0; } .panel header { flex-wrap: wrap; } }
@media print { body { padding: 0; max-width: none; } }
"""
