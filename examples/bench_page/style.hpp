#pragma once
/// @file
/// The style of the page: one column that fits a phone. It is light or dark as the reader's system is, and black on white
/// on paper.

namespace bench_sheet {

inline constexpr const char* page_style = R"(
:root { color-scheme: light dark; --ground: #fbfaf7; --sheet: #fff; --ink: #1d1c1a; --soft: #5c5953; --faint: #c4bfb5;
  --rule: #dcd8cf; --stop: #9c1c10; --stop-ground: #fdeeea; --mark: #1f5d57; }
@media (prefers-color-scheme: dark) { :root { --ground: #171614; --sheet: #201f1c; --ink: #ebe7df; --soft: #aaa498;
  --faint: #57534b; --rule: #3a3732; --stop: #ff9a8a; --stop-ground: #3a1d18; --mark: #7cc7be; } }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: var(--ground); color: var(--ink); font: 1rem/1.5 system-ui, sans-serif; }
main, header, footer { max-width: 46rem; margin: 0 auto; padding: 0 .9rem; overflow-wrap: break-word; }
header { padding-top: 1.4rem; }
h1 { font-size: 1.5rem; line-height: 1.25; margin: 0; }
h2 { font-size: 1.15rem; margin: 2rem 0 .6rem; padding-top: .5rem; border-top: 2px solid var(--ink); }
h3, summary { font-size: 1rem; font-weight: 600; margin: 0; }
p { margin: .4rem 0; }
.aside { color: var(--soft); font-size: .9rem; }
nav { display: flex; flex-wrap: wrap; gap: .25rem 1rem; margin: .8rem 0 0; font-size: .95rem; }
a { color: var(--mark); }
nav a { padding: .3rem 0; }
.cannot { background: var(--stop-ground); border-left: .35rem solid var(--stop); padding: .1rem .9rem .7rem; margin: 1.2rem 0; }
.cannot h2 { border: 0; margin: .3rem 0; }
.cannot b { color: var(--stop); }
.wide { overflow-x: auto; margin: .5rem 0; }
table { border-collapse: collapse; font-size: .88rem; font-variant-numeric: tabular-nums; }
th, td { padding: .28rem .55rem; text-align: right; vertical-align: baseline; border-bottom: 1px solid var(--rule); }
th:first-child, td:first-child { text-align: left; padding-left: 0; }
thead th { color: var(--soft); font-weight: 600; vertical-align: bottom; border-bottom: 1px solid var(--ink); }
tbody th { font-weight: 400; }
.cut td, .cut tbody th { font-size: 1rem; }
.cut td, .cut tbody th { white-space: nowrap; }
.steps { list-style: none; margin: 0; padding: 0; }
.steps > li { background: var(--sheet); border: 1px solid var(--rule); border-radius: .4rem; padding: .7rem .9rem; margin: .7rem 0; }
label { display: flex; gap: .7rem; align-items: baseline; font-weight: 600; cursor: pointer; }
input[type=checkbox] { flex: none; width: 1.25rem; height: 1.25rem; margin: 0; transform: translateY(.2rem); accent-color: var(--mark); }
.steps ul { margin: .4rem 0 .4rem 1.95rem; padding: 0; list-style: none; columns: 17rem 2; column-gap: 1.6rem; font-size: .93rem; }
.steps ul li { break-inside: avoid; padding: .08rem 0 .08rem .8rem; text-indent: -.8rem; }
.steps ul.short { columns: 8.6rem 4; white-space: nowrap; }
.steps p { margin: .3rem 0 .3rem 1.95rem; }
.said { margin: .4rem 0; padding-left: 1.1rem; }
.said li { margin: .3rem 0; }
figure { margin: 1rem 0 1.6rem; }
figcaption { font-weight: 600; margin-bottom: .4rem; }
figure svg { display: block; width: 100%; max-width: calc(1.35 * var(--wide)); height: auto; background: var(--sheet); border: 1px solid var(--rule); }
figure svg svg { border: 0; max-width: none; }
.maps { display: flex; flex-wrap: wrap; gap: 0 1.2rem; align-items: flex-start; }
.maps > figure { flex: 0 1 auto; width: calc(1.1 * var(--wide)); max-width: 100%; }
.maps svg { max-width: calc(1.1 * var(--wide)); }
details { border-bottom: 1px solid var(--rule); }
summary { cursor: pointer; padding: .6rem 0; }
caption { caption-side: top; text-align: left; font-weight: 600; padding: .6rem 0 .3rem; max-width: 40rem; }
details h3 { margin: .9rem 0 .2rem; font-size: .88rem; }
.every { font-size: .8rem; } .every td, .every th { padding: .18rem .45rem; white-space: nowrap; }
.every th:first-child { padding-left: 0; } .every thead th { white-space: normal; }
footer { margin-top: 2.2rem; padding-bottom: 2.5rem; }
footer p { border: 1px solid var(--rule); padding: .7rem .9rem; }
@media (max-width: 32rem) {
  .asked thead th:first-child { display: none; }
  .asked tr { display: grid; grid-template-columns: 1.3fr 1.3fr .8fr; white-space: nowrap; }
  .asked, .asked thead, .asked tbody { display: block; }
  .asked tbody th { grid-column: 1 / -1; border: 0; padding-bottom: 0; white-space: normal; }
  .asked thead th, .asked td { text-align: left; padding-left: 0; }
  .cut { width: 100%; }
}
@page { margin: 13mm; }
@media print {
  :root { color-scheme: light; --ground: #fff; --sheet: #fff; --ink: #000; --soft: #333; --faint: #bfbfbf; --rule: #bbb;
    --stop: #000; --stop-ground: #fff; --mark: #000; }
  body { font-size: 9.5pt; line-height: 1.35; }
  main, header, footer { max-width: none; padding: 0; }
  header { padding-top: 0; }
  nav, .screen { display: none; }
  h1 { font-size: 15pt; } h2 { font-size: 11.5pt; margin: 5mm 0 2mm; break-after: avoid; } h3, summary { font-size: 10pt; }
  table { font-size: 8.5pt; } .cut td, .cut tbody th { font-size: 9.5pt; } th, td { padding: .6mm 2mm; }
  .wide { overflow: visible; }
  tr, .steps > li, figure, .maps, footer p, .cannot { break-inside: avoid; }
  thead { display: table-header-group; }
  .steps > li { padding: 2mm 3mm; margin: 2mm 0; border-radius: 0; }
  input[type=checkbox] { appearance: none; -webkit-appearance: none; width: 4mm; height: 4mm; border: .35mm solid #000; background: #fff; }
  figure svg { border: 0; max-width: calc(.95 * var(--wide)); }
  .side { display: grid; grid-template-columns: 114mm 1fr; gap: 0 5mm; align-items: center; margin: 2mm 0 4mm; }
  .side figcaption { grid-column: 1 / -1; }
  .maps { gap: 0 8mm; } .maps > figure, .maps svg { max-width: calc(.95 * var(--wide)); width: calc(.95 * var(--wide)); }
  .steps ul { font-size: 9pt; margin-left: 6.5mm; columns: 70mm 2; } .steps ul.short { columns: 36mm 4; } .steps p { margin-left: 6.5mm; }
  .aside { font-size: 8.5pt; }
  #details:not(:has([open])) { display: none; }
  figcaption, summary { break-after: avoid; }
  .every { font-size: 6.5pt; } .every td, .every th { padding: .3mm 1mm; }
  details:not([open]) { display: none; }
}
)";

} // namespace bench_sheet
