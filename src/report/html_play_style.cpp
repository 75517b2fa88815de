// The style of a report whose games are played through. `scripted` is set by the script on the
// root, `in-use` on a game whose board was moved on. In a wide window the board stands beside the
// game and goes with the reader; in a narrow one it is a part of the text, and stays in sight above
// it while it is in use.
#include "html_play.hpp"

namespace kairos::report {

namespace {

constexpr std::string_view style = R"css(
.score{line-height:1.75;max-width:44rem;text-wrap:pretty}
.score sup,.legend sup{line-height:0;margin-left:.1em}
.ply,.named{white-space:nowrap}
.scripted .ply{cursor:pointer}
.scripted .ply:hover{text-decoration:underline}
.ply[aria-current]{background:var(--ink);color:var(--paper);padding:.05em .25em;
border-radius:.15em;outline:1px solid var(--ink)}
.ply:focus-visible{outline:3px solid var(--mark);outline-offset:2px}
.player:focus-visible{outline:3px solid var(--mark);outline-offset:-3px}
.named{cursor:pointer;text-decoration:underline dotted 1px;text-underline-offset:.2em}
.named:hover{text-decoration-style:solid}
.scripted .graph{cursor:pointer}
.graph .cursor{stroke:var(--mark);stroke-width:2.5;pointer-events:none}
.heard{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.player{margin:.8rem 0;padding:.4rem;background:var(--paper)}
.player .dia{margin:0 auto;max-width:24rem}
.where{min-height:2.9em;line-height:1.4;margin:.2em 0}
.keys{display:flex;flex-wrap:wrap;gap:.35rem}
.keys button{font:.95rem/1.3 "Liberation Sans",sans-serif;color:var(--ink);
background:var(--card);border:1px solid var(--rule);border-radius:.3em;padding:.35em .6em;
cursor:pointer}
.keys button:focus-visible{outline:3px solid var(--mark);outline-offset:1px}
.keys button[aria-disabled=true]{opacity:.45}
.keys [data-key=Escape]{display:none}
@media screen and (min-width:60.1rem){
.scripted body{max-width:96rem;padding:1rem 1.5rem}
.scripted article{--side:min(38rem,38vw,100vh - 9.5rem);display:grid;gap:0 2rem;
grid-template:auto auto auto 1fr/minmax(0,1fr) var(--side)}
.scripted article>h2,.scripted article>p{grid-column:1/3}
.opening,.told{grid-column:1}
.player{grid-area:3/2/5/3;position:sticky;top:.5rem;align-self:start;margin:0}
.player .dia{max-width:none}
.scripted .said{max-width:44rem}
.scripted .moment{grid-template-columns:minmax(0,13rem) minmax(0,1fr)}
}
@media screen and (max-width:60rem){
.graph text{font-size:19px}
.player .dia{max-width:min(100%,40vh)}
.keys{gap:.25rem}
.keys button{padding:.35em .45em;font-size:.85rem}
.in-use .player{position:sticky;top:0;z-index:1;border-bottom:2px solid var(--rule);margin:0}
.in-use .where{min-height:0}
.in-use .keys [data-key=Escape]{display:inline-block}
.in-use .moment,.in-use .ply{scroll-margin-top:calc(var(--seen,60vh) + .4rem)}
}
@media print{.player,.cursor{display:none}
.ply[aria-current]{all:unset}
.named{text-decoration:none}}
)css";

}  // namespace

std::string_view play_style() {
  return style;
}

}  // namespace kairos::report
