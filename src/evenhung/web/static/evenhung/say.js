// One line above a page that says what has just happened.

import { whenStill } from "./steady.js";

export function say(text) {
  const place = document.getElementById("told");
  whenStill(() => {
    place.textContent = text;
    place.hidden = false;
  });
}
