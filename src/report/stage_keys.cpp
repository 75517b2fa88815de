// The line of keys at the foot of a stage, and what a reader of the screen hears.
#include "html_stage.hpp"

namespace kairos::report {

namespace {

// Buttons, so that a finger, the Tab key and a screen reader have what the keys have. The plain
// squares are a pattern beside that of the hatched ones.
constexpr std::string_view keys = R"html(<svg class="defs" width="0" height="0" aria-hidden="true">
<defs><pattern id="plain" width="2" height="2" patternUnits="userSpaceOnUse"><path class="paper"
d="M0 0h2v2h-2z"/><path class="dark-square" d="M1 0h1v1h-1zM0 1h1v1h-1z"/></pattern></defs></svg>
<nav class="foot" aria-label="Keys" hidden>
<p class="sees" hidden></p>
<button type="button" data-key=" "><kbd>Space</kbd>Go on</button>
<button type="button" data-key="p"><kbd>p</kbd>Previous</button>
<button type="button" data-key="n"><kbd>n</kbd>Next</button>
<button type="button" data-key="h"><kbd>h</kbd>Hint</button>
<button type="button" data-key="a"><kbd>a</kbd>Answer</button>
<button type="button" data-key="ArrowLeft"><kbd>&larr;</kbd>Move back</button>
<button type="button" data-key="ArrowRight"><kbd>&rarr;</kbd>Move on</button>
<button type="button" data-key="t"><kbd>t</kbd>Try</button>
<button type="button" data-key="q"><kbd>q</kbd>Question</button>
<button type="button" data-key="g"><kbd>g</kbd>Go to</button>
<form class="jump" hidden><label for="jump">Question number</label>
<input id="jump" type="text" inputmode="numeric" autocomplete="off" size="4"></form>
<button type="button" data-key="o"><kbd>o</kbd>Other side</button>
<button type="button" data-key="s"><kbd>s</kbd>Squares</button>
<button type="button" data-key="x"><kbd>x</kbd>Text</button>
<button type="button" data-key="w"><kbd>w</kbd>Whole screen</button>
<button type="button" data-key="m"><kbd>m</kbd>My notes</button>
<button type="button" data-key="b"><kbd>b</kbd>Bare board</button>
<button type="button" data-key="k"><kbd>k</kbd>Keys</button>
</nav>
<p class="heard" aria-live="polite"></p>
)html";

}  // namespace

std::string_view stage_keys() {
  return keys;
}

}  // namespace kairos::report
