// The style of a stage. Classes of the body, set by the script: `showing` for an audience, `bare`
// of all but the board besides, `speaking` for the speaker's notes; `quiet` without text, `nokeys`
// without the line at the foot, `plain` squares, `shown` once the answer is. Without the script
// none holds and the page is a list like questions.html.
#include "html_stage.hpp"

namespace kairos::report {

namespace {

// Sizes follow the screen, not the reader's window: text is read across a room. The board has the
// whole height, the line of keys stands below the text alone.
constexpr std::string_view layout = R"css(
.no{color:var(--soft)}
.lines{list-style:none;padding:0;margin:.4em 0}
.lines li{margin:.3em 0;padding-left:.6em;border-left:.2em solid transparent}
.what{font-variant:small-caps;margin-right:.3em}
.worth{color:var(--soft);white-space:nowrap}
.ply{white-space:nowrap}
.ply[aria-current]{background:var(--ink);color:var(--paper);padding:0 .2em;border-radius:.15em}
.heard{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.showing{display:grid;height:100vh;height:100dvh;max-width:none;margin:0;padding:0;
overflow:hidden;font-size:clamp(16px,min(3vh,1.72vw),80px);line-height:1.35;
grid-template-columns:min(100vh,66vw) minmax(0,1fr);grid-template-rows:minmax(0,1fr) auto}
.showing main,.showing .question.now{display:contents}
.showing header,.showing footer,.speaking header,.speaking footer,
.showing .question:not(.now),.speaking .question:not(.now){display:none}
.showing .show{grid-area:1/1/3/2;padding:.6vh;display:grid;place-items:center;cursor:pointer}
.showing .text{grid-area:1/2/2/3;overflow-y:auto;padding:1.6vh 1.6vw .5vh .6vw}
.showing h2{font-size:1em;margin:0 0 .5em}
.showing .ask{font-size:2.1em;line-height:1.15;margin:0 0 .35em}
.showing.shown .ask{font-size:1.4em}
.showing .dots{margin:0}
.showing .from{font-size:.75em;margin:.2em 0 .8em}
.showing .said{font-size:.92em}
.showing details{border:0;padding:0;margin:0;font-size:1em}
.showing details:not([open]),.showing.shown .hint,.showing .fen,.showing .notes,
.showing .answer>summary{display:none}
.showing .hint>summary{display:block;list-style:none;pointer-events:none;font-size:.75em;
color:var(--soft);margin-top:.5em}
.showing .hint>p{margin:0}
.showing .lines li:not(.now) .ply~.ply,.showing .lines li:not(.now) .then{display:none}
.showing .whynot .lines li:not(.now) .ply:nth-of-type(3){display:inline}
.lines li.now{border-color:var(--mark)}
.showing .lines li.now{font-weight:600}
.showing .lines li.now .worth{font-weight:400}
)css";

// The line of keys, the notes, the bare board.
constexpr std::string_view parts = R"css(
.showing .foot,.speaking .foot{display:flex;flex-wrap:wrap;gap:.3em .35em;align-items:center;
grid-area:2/2;padding:.4em .6em;font:max(13px,.5em)/1.3 "Liberation Sans",sans-serif;
background:var(--paper);border-top:1px solid var(--rule)}
.foot button,.foot input{font:inherit;color:var(--ink);background:var(--card);
border:1px solid var(--rule);border-radius:.3em;padding:.25em .45em;cursor:pointer}
.foot button:focus-visible,.foot input:focus-visible,.text:focus-visible{
outline:3px solid var(--mark);outline-offset:1px}
.foot button[aria-disabled=true]{opacity:.45}
.foot kbd{font:600 1em "Liberation Mono",monospace;border-bottom:2px solid var(--mark);
margin-right:.3em}
.foot form{display:inline-flex;gap:.35em;align-items:center}
.foot form[hidden]{display:none}
.foot input{width:4.5em}
.sees{flex-basis:100%;margin:0;font-size:1.15rem;line-height:1.35}
@media (max-width:40rem){.foot kbd{display:none}
.showing .foot{gap:.35em;padding:.35em;justify-content:center}
.foot button{padding:.4em .5em;min-height:2.2em}}
.speaking{max-width:none;min-height:100vh;display:flex;flex-direction:column}
.speaking main{flex:1}
.speaking .question{min-height:0;padding:0;border:0;gap:0 1.5rem;
grid-template-columns:minmax(0,min(24rem,46vh)) minmax(0,1fr)}
.speaking .question .ask{font-size:1.3rem}
.speaking .question details{font-size:1rem;margin:.2em 0}
.speaking summary{pointer-events:none}
.speaking .lines li.now{background:var(--card)}
.speaking .foot{position:sticky;bottom:0}
@media (max-width:40rem){.speaking .question{grid-template-columns:minmax(0,1fr)}
.speaking .question .dia{max-width:min(100%,40vh)}}
.speaking .hint{border:0;padding:0}
.speaking .hint>summary{float:left;list-style:none;margin-right:.5em}
.speaking .answer{border:0;padding:0}
.speaking .answer>summary{display:none}
.speaking .text p{margin:.25em 0}
.plain .board{fill:url(#plain)}
.dark-square{fill:var(--hatch)}
:root:has(.bare){color-scheme:normal;background:transparent}
.bare{background:transparent}
.bare .co{display:none}
)css";

// What is left out, and other screens: these have the last word.
constexpr std::string_view screens = R"css(
.showing.quiet .text,.showing.quiet .foot,.showing.nokeys .foot{display:none}
.quiet.showing{grid-template-columns:minmax(0,1fr)}
.quiet .show{width:min(100vw,100vh);width:min(100vw,100dvh);justify-self:center}
@media (max-aspect-ratio:11/10){
.showing{font-size:clamp(16px,1.9vh,40px);grid-template-columns:minmax(0,1fr);
grid-template-rows:auto minmax(0,1fr) auto}
.showing .show{grid-area:1/1;width:min(100vw,60vh);justify-self:center;padding:.3vh}
.showing .text{grid-area:2/1;padding:.3em 1em}
.showing .from{margin:.1em 0 .4em}
.showing .said{font-size:1em;line-height:1.3}
.showing .foot{grid-area:3/1}
.showing .ask,.showing.shown .ask{font-size:1.3em}
.quiet.showing .show{grid-area:1/1/4/2;width:min(100vw,100vh);align-self:center}
}
@media (pointer:coarse){
.showing.nokeys .foot{display:flex}.showing.nokeys .foot button:not([data-key=k]){display:none}
.showing.quiet:not(.bare) .foot{display:flex;border:0;background:none;position:fixed;right:0;bottom:0}
.showing.quiet .foot button:not([data-key=x]){display:none}}
)css";

}  // namespace

std::string_view stage_style() {
  static const std::string all = std::string(layout) + std::string(parts) + std::string(screens);
  return all;
}

}  // namespace kairos::report
