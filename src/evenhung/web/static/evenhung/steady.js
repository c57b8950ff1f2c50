// Nothing moves under a finger or a mouse that is pressed: what an answer adds to the page waits.
// Else a button slides away between press and release, and the press does nothing.

const SETTLED = 50; // ms from a release to the click that belongs to it, with room to spare
const LOOKED_AGAIN = 500; // ms after which what waits looks whether anything is pressed at all

let isPressed = document.querySelector("body :active") !== null; // since before this was loaded
let waiting = [];
let looking = null;

function showWhatWaits() {
  if (isPressed) return; // pressed again meanwhile
  const shows = waiting;
  waiting = [];
  for (const { show } of shows) show();
}

/** Show something that moves what stands below it, once nothing is pressed. */
export function whenStill(show, place) {
  if (!isPressed) {
    show();
    return;
  }
  waiting = waiting.filter((one) => !place || one.place !== place); // only the newest of a place
  waiting.push({ show, place });
  looking ??= setInterval(lookAgain, LOOKED_AGAIN);
}

/** Not every release is told of: what waits must not wait for good. */
function lookAgain() {
  if (document.querySelector(":active") === null) release();
  if (isPressed) return;
  clearInterval(looking);
  looking = null;
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
  // A list or a menu that opens takes the release for itself: then the next sign of it counts.
  // (A field that is left tells of its change while the press on a button still lasts.)
  document.addEventListener("change", ({ target }) => {
    if (target.matches("select")) release();
  });
  document.addEventListener("keydown", release);
  document.addEventListener("pointermove", (event) => {
    if (isPressed && event.buttons === 0) release();
  });
  document.addEventListener("htmx:beforeSwap", ({ detail }) => {
    const isAskedFor = detail.requestConfig.elt.hasAttribute("hx-select");
    if (!isPressed || !detail.shouldSwap || isAskedFor) return;
    detail.shouldSwap = false;
    const { target, serverResponse } = detail;
    whenStill(() => {
      if (target.isConnected) window.htmx.swap(target, serverResponse, { swapStyle: "outerHTML" });
    }, target);
  });
}
