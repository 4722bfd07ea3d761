"""The style sheet of reports: light, dark, and paper.

Colours only repeat what a word and a sign say already. On paper, the foot of every page has the pump, the
procedure's revision, the check value and the page's number.
"""

from __future__ import annotations

from benchcheck.report.document import Document
from benchcheck.report.html_text import css_string

_SHEET = """
:root { color-scheme: light dark; --ground: #f7f5ef; --ink: #1a1d1f; --quiet: #545a5f; --line: #c9c6bd;
  --now: #0a4b78; --wrong: #9e1a12; --band: #e4e0d4; }
@media (prefers-color-scheme: dark) {
  :root { --ground: #15181b; --ink: #ece8e1; --quiet: #a8aeb3; --line: #454b51; --now: #f3c04b;
    --wrong: #ff8c7d; --band: #2a2f34; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--ink);
  font: 1rem/1.5 system-ui, sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 1rem 1.25rem 3rem; }
h1, h2, h3, h4 { line-height: 1.25; margin: 1.75em 0 0.5em; overflow-wrap: anywhere; }
h1 { font-size: 1.75rem; margin-top: 0.5em; }
article + article { border-top: 3px double var(--ink); margin-top: 3rem; padding-top: 1rem; }
section > h2, section > h3 { border-bottom: 1px solid var(--line); padding-bottom: 0.2em; }
.verdict { font-size: 1.5rem; margin: 0.5em 0; }
.verdict strong { border: 3px solid currentColor; padding: 0.15em 0.5em; display: inline-block; }
.bad { color: var(--wrong); }
.odd { font-style: italic; }
.spoken { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%);
  white-space: nowrap; }
dl { margin: 0.5em 0; }
dl > div { display: flex; gap: 1rem; padding: 0.15em 0; }
dt { flex: 0 0 6rem; color: var(--quiet); }
dd { margin: 0; overflow-wrap: anywhere; min-width: 0; }
.wide { overflow-x: auto; margin: 1em 0; position: relative; }
.wide:focus-visible, a:focus-visible { outline: 3px solid var(--now); outline-offset: 2px; }
a { color: var(--now); }
table { min-width: min(100%, 28rem); border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { text-align: start; font-weight: 600; padding: 0 0 0.4em; }
th, td { text-align: start; vertical-align: top; padding: 0.25em 0; padding-inline-end: 1.25em;
  border-bottom: 1px solid var(--line); }
thead th { color: var(--quiet); font-weight: 600; border-bottom: 2px solid var(--ink); white-space: nowrap; }
tbody th { font-weight: 400; }
th.n, td.n { text-align: end; }
time { white-space: nowrap; }
figure { margin: 1em 0; }
figcaption { color: var(--quiet); }
svg { display: block; max-width: 100%; height: auto; }
svg text { fill: var(--ink); font: 14px system-ui, sans-serif; font-variant-numeric: tabular-nums; }
svg .number { font-weight: 700; }
svg .small { font-size: 12px; }
svg .quiet { fill: var(--quiet); }
svg .hole { fill: var(--ground); stroke: var(--ink); stroke-width: 2; }
svg .bad .hole { stroke: var(--wrong); stroke-width: 4; }
svg text.bad, svg .bad text { fill: var(--wrong); font-weight: 700; }
svg .metal { fill: none; stroke: var(--line); stroke-width: 2; }
svg .datum { fill: var(--quiet); }
svg .band { fill: var(--band); stroke: var(--quiet); }
svg .target { stroke: var(--quiet); stroke-width: 1; }
svg .dot { fill: var(--now); }
svg .bad .dot { fill: var(--wrong); }
footer { margin-top: 2em; border-top: 1px solid var(--line); color: var(--quiet); overflow-wrap: anywhere; }
@media (max-width: 40rem) {
  th, td { padding-inline-end: 0.6em; }
  dt { flex-basis: 4.5rem; }
}
@page { margin: 15mm 15mm 18mm;
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 8pt system-ui, sans-serif; } }
@media print {
  :root { color-scheme: light; --ground: #ffffff; --ink: #000000; --quiet: #444444; --line: #aaaaaa;
    --now: #000000; --wrong: #000000; --band: #e6e6e6; }
  body { font-size: 10pt; }
  main { max-width: none; padding: 0; }
  .wide { overflow: visible; }
  article + article { border-top: 0; margin: 0; padding: 0; break-before: page; }
  h1, h2, h3, h4, caption { break-after: avoid; }
  thead { display: table-header-group; }
  tr, figure, dl > div, li, .short { break-inside: avoid; }
  tbody tr:first-child { break-before: avoid; }
  svg .band { print-color-adjust: exact; }
}
""".strip()


def sheet() -> str:
    """What all reports of a page share."""
    return _SHEET


def page_style(number: int, document: Document) -> str:
    """The foot of every printed page of one report."""
    left = css_string(f"{document.pump}, {document.issue}")
    right = css_string(f"{document.check}   page ")
    return "\n".join(
        [
            f".r{number} {{ page: r{number}; }}",
            f"@page r{number} {{",
            f"  @bottom-left {{ content: {left}; font: 8pt system-ui, sans-serif; }}",
            f'  @bottom-right {{ content: {right} counter(page) " of " counter(pages); '
            "font: 8pt system-ui, sans-serif; }",
            "}",
        ]
    )
