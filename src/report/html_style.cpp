// The style sheet of all pages: a printed tournament bulletin, in ink on paper, by night in chalk
// on slate. One accent colour, never the only sign of anything.
#include "html_page.hpp"

namespace kairos::report {

namespace {

// Colours, type, tables. Below 40 rem tables turn into lists, so nothing scrolls sideways.
constexpr std::string_view general = R"css(
:root{--paper:#f7f4ec;--ink:#1d1b1a;--soft:#5f5a54;--rule:#c9c1b2;--card:#fffdf7;--mark:#8c2f4e;
--sheet:#fffdf7;--board-ink:#1d1b1a;--hatch:#a59c8d}
@media (prefers-color-scheme:dark){:root{--paper:#191c20;--ink:#e8e3d8;--soft:#a8a297;
--rule:#454a51;--card:#22262b;--mark:#e795ae;--sheet:#e3dece;--hatch:#8f8777}}
*{box-sizing:border-box}
body{margin:0 auto;max-width:68rem;padding:1rem;background:var(--paper);color:var(--ink);
font:1rem/1.5 Charter,"Bitstream Charter","Liberation Serif",Georgia,serif;
overflow-wrap:anywhere}
h1,h2,h3{line-height:1.2;margin:1.6em 0 .4em}
h1{font-size:1.9rem;margin-top:.4em}
h2{font-size:1.35rem;border-bottom:3px double var(--rule);padding-bottom:.25em}
h3{font-size:1.08rem;margin:0 0 .35em}
p{margin:.4em 0}
a{color:var(--mark)}
a:focus-visible,summary:focus-visible{outline:3px solid var(--mark);outline-offset:2px}
.small{color:var(--soft);font-size:.9rem}
nav ul{list-style:none;margin:0;padding:0;display:flex;flex-wrap:wrap;gap:.3rem 1.2rem}
code{font:.85rem/1.4 "Liberation Mono",monospace;user-select:all}
details{margin:.4em 0;border-left:3px solid var(--rule);padding-left:.7em}
summary{cursor:pointer;color:var(--mark)}
footer{margin-top:3rem;border-top:1px solid var(--rule);color:var(--soft);font-size:.9rem}
.facts{display:grid;grid-template-columns:max-content 1fr;gap:.1rem 1rem;margin:.6em 0}
.facts dt{color:var(--soft)}
.facts dd{margin:0}
.warn{border:2px solid var(--mark);padding:.4em .8em}
table{border-collapse:collapse;width:100%}
th{overflow-wrap:normal}
th,td{text-align:left;vertical-align:top;padding:.25em .6em .25em 0}
thead th{border-bottom:2px solid var(--ink);font-weight:600}
tbody tr{border-bottom:1px solid var(--rule)}
th.n,td.n{text-align:right;padding-right:1.2em;font-variant-numeric:tabular-nums}
@media (max-width:40rem){
table.cards thead{position:absolute;clip-path:inset(50%);height:1px;overflow:hidden}
table.cards tr{display:block;padding:.5em 0}
table.cards td{display:inline;padding:0 .7em 0 0;text-align:left}
table.cards td.wide{display:block}
table.cards td.name{display:block;font-weight:600}
table.cards td[data-label]::before{content:attr(data-label) ": ";color:var(--soft)}
}
)css";

// The board keeps its paper by night, only darker: men are told apart by ink and paper.
constexpr std::string_view diagrams = R"css(
.defs{position:absolute}
.dia{display:block;width:100%;height:auto}
.paper{fill:var(--sheet)}
.hatch{stroke:var(--hatch);stroke-width:42;fill:none}
.board{fill:url(#squares);stroke:var(--board-ink);stroke-width:.06}
.cw{marker-start:url(#cw)}.cb{marker-start:url(#cb)}
.co{font:.36px "Liberation Sans",sans-serif;fill:var(--soft);text-anchor:middle;stroke:none}
.rim{fill:none;stroke:var(--sheet);stroke-width:34;stroke-linejoin:round}
.man{stroke:#1d1b1a;stroke-width:13;stroke-linejoin:round}
.man.w{fill:#fffdf7}.man.b{fill:#1d1b1a}
.det{fill:none;stroke-width:12}
.det.w{stroke:#1d1b1a}.det.b{stroke:#fffdf7}
.wp,.wn,.wb,.wr,.wq,.wk,.bp,.bn,.bb,.br,.bq,.bk{fill:none;stroke:none}
.wp{marker:url(#wp)}.wn{marker:url(#wn)}.wb{marker:url(#wb)}
.wr{marker:url(#wr)}.wq{marker:url(#wq)}.wk{marker:url(#wk)}
.bp{marker:url(#bp)}.bn{marker:url(#bn)}.bb{marker:url(#bb)}
.br{marker:url(#br)}.bq{marker:url(#bq)}.bk{marker:url(#bk)}
.came{fill:none;stroke:var(--board-ink);stroke-width:.09;stroke-dasharray:.22 .11}
.left{fill:var(--sheet);stroke:var(--board-ink);stroke-width:.06}
.played,.better,.avoided{fill:none;stroke:#8c2f4e;stroke-width:.11;opacity:.8}
.played{stroke-dasharray:.2 .1}
.avoided{stroke-dasharray:0 .2;stroke-linecap:round}
.ring{fill:none;stroke:#8c2f4e;stroke-width:.07}
.ringed{fill:none;stroke:none;marker:url(#ring)}
.tip{fill:#8c2f4e}
)css";

// `content-visibility` lets browsers leave out what is not in view, which is what makes a report of
// hundreds of games open at once.
constexpr std::string_view games = R"css(
article{margin-top:2.5rem;content-visibility:auto;contain-intrinsic-size:auto 60rem}
.graph{display:block;width:100%;max-width:46rem;height:auto;margin:.6em 0}
.graph text{font:14px "Liberation Sans",sans-serif;fill:var(--soft)}
.graph .axis{stroke:var(--rule);stroke-width:1;fill:none}
.graph .middle{stroke:var(--ink);stroke-width:1;stroke-dasharray:2 3}
.graph .above{fill:var(--sheet);stroke:none}
.graph .below{fill:var(--soft);fill-opacity:.45;stroke:none}
.graph .curve{fill:none;stroke:var(--ink);stroke-width:1.8;stroke-linejoin:round}
.graph .sign{fill:var(--mark);stroke:none}
.graph .hit{fill:transparent}
.graph .stem{fill:none;stroke:var(--mark);stroke-width:1;pointer-events:none}
.graph a:focus-visible{outline:none}
.graph a:focus-visible .hit,.graph a:hover .hit{fill:var(--card);stroke:var(--mark);stroke-width:2}
.graph .clock{fill:none;stroke:var(--ink);stroke-width:1.5}
.graph .clock.two{stroke-dasharray:4 3}
.moment{display:grid;grid-template-columns:minmax(0,17rem) minmax(0,1fr);gap:.4rem 1.6rem;
margin:1.6rem 0;padding-top:1.2rem;border-top:1px solid var(--rule)}
.moment:target{border-top:4px solid var(--mark)}
.said{font-size:1.08rem}
.kind{font-variant:small-caps;letter-spacing:.02em}
.thumbs{display:grid;grid-template-columns:repeat(auto-fill,minmax(9.5rem,1fr));gap:1rem;
padding:0;list-style:none}
.bar{display:block;width:100%;min-width:6rem;height:1rem}
.bar .span{stroke:var(--soft);stroke-width:3}
.bar .dot{fill:var(--mark)}
.bar .base{stroke:var(--rule);stroke-width:1}
.key{width:.9em;height:.9em;vertical-align:-.1em}
.key path{fill:var(--mark)}
.legend span{white-space:nowrap;margin-left:.6em}
@media (max-width:40rem){.moment{grid-template-columns:minmax(0,1fr)}
.moment .dia{max-width:21rem}}
)css";

// Questions fill a screen, big enough for a stream.
constexpr std::string_view other_pages = R"css(
.question{min-height:96vh;padding:1.5rem 0;border-bottom:1px solid var(--rule);
display:grid;grid-template-columns:minmax(0,min(38rem,82vh)) minmax(14rem,1fr);gap:1rem 2rem;
align-items:start;content-visibility:auto;contain-intrinsic-size:auto 96vh}
.question h2{margin-top:0}
.question .ask{font-size:1.5rem;margin:.2em 0 .6em}
.question details{font-size:1.15rem}
.grade{letter-spacing:.12em}
.sheet{display:grid;grid-template-columns:repeat(auto-fill,minmax(max(14rem,30%),1fr));
gap:1.2rem 1.6rem}
figure{margin:0}
figcaption{font-size:.95rem;margin:.1em 0 .3em}
.fill{display:flex;gap:.4rem 1rem;align-items:baseline}
.fill span{flex:1;border-bottom:1px solid var(--soft);min-width:4rem}
.fill span:first-child{flex:3}
.write{border-bottom:1px solid var(--soft);height:1.5rem;display:block}
.solutions li{margin:.35em 0}
.recap h2{break-after:avoid}
.recap .ask{font-size:1.3rem;color:var(--mark);margin:.1em 0 .5em}
@media screen and (min-width:40.1rem){
.recap .moment{grid-template-columns:minmax(0,21rem) minmax(0,1fr)}}
@media (max-width:52rem){.question{grid-template-columns:minmax(0,1fr);min-height:0}
.questions main .dia{max-width:82vh}}
)css";

// Black on white, without links to other pages. The lines that a report folds away are printed; the
// hints and answers of questions are not: those who solve on paper have the sheet. Titles and
// headings stay with what they head, and what is told of a place stays together.
constexpr std::string_view print = R"css(
@media print{
:root{--paper:#fff;--ink:#000;--soft:#333;--rule:#888;--card:#fff;--mark:#000;--sheet:#fff;
--hatch:#888}
@page{size:A4;margin:14mm}
body{max-width:none;padding:0;font-size:10.5pt}
nav,.screen{display:none}
a{color:inherit;text-decoration:none}
article,.question{content-visibility:visible}
p,li,dd{orphans:3;widows:3}
h1,h2,h3,thead,summary{break-after:avoid}
h2+p,.legend,.opening{break-before:avoid}
p:has(+ul,+ol,+dl,+table){break-after:avoid}
.opening{break-inside:avoid}
.score{break-before:avoid-page}
thead{display:table-header-group}
.moment,.question,figure,tr,li,.graph,.thumbs li{break-inside:avoid}
.report details::details-content{content-visibility:visible;block-size:auto}
.report summary{color:inherit;list-style:none}
.questions details{display:none}
.question{min-height:0;grid-template-columns:9cm 1fr}
.moment{grid-template-columns:5.4cm 1fr;margin:.8rem 0;padding-top:.7rem}
.moment code{font-size:.68rem}
.said{font-size:1rem}
.moment:target{border-top-width:1px}
.page{break-after:page}
.print-sheet h1,.print-sheet h2{margin:.2em 0}
.sheet{grid-template-columns:repeat(2,1fr);gap:4mm 12mm;break-after:page}
.sheet .dia{max-width:62mm;margin:0 auto}
.solutions{break-before:page}
.recap .game{break-after:page}
}
)css";

}  // namespace

std::string_view style_sheet() {
  static const std::string all = std::string(general) + std::string(diagrams) + std::string(games) +
                                 std::string(other_pages) + std::string(print);
  return all;
}

}  // namespace kairos::report
