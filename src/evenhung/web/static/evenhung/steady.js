// Nothing moves under a finger or a mouse that is pressed: what an answer adds to the page waits.
// Else a button slides away between press and release, and the press does nothing.

const SETTLED = 50; // ms from a release to the click that belongs to it, with room to spare

let isPressed = false;
let waiting = [];

function showWhatWaits() {
  if (isPressed) return; // pressed again meanwhile
  const answers = waiting;
  waiting = [];
  for (const { target, html } of answers) {
    if (target.isConnected) window.htmx.swap(target, html, { swapStyle: "outerHTML" });
  }
}

function release() {
  isPressed = false;
  setTimeout(showWhatWaits, SETTLED);
}

/** Let what comes unasked (how a figure is understood, how far a run is) wait while it is pressed. */
export function keepSteady() {
  document.addEventListener("pointerdown", () => {
    isPressed = true;
  });
  document.addEventListener("pointerup", release);
  document.addEventListener("pointercancel", release);
  document.addEventListener("htmx:beforeSwap", ({ detail }) => {
    const isAskedFor = detail.requestConfig.elt.hasAttribute("hx-select");
    if (!isPressed || !detail.shouldSwap || isAskedFor) return;
    detail.shouldSwap = false;
    waiting = waiting.filter(({ target }) => target !== detail.target); // only the newest of a place
    waiting.push({ target: detail.target, html: detail.serverResponse });
  });
}
