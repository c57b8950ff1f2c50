// One line above a page that says what has just happened.

export function say(text) {
  const place = document.getElementById("told");
  place.textContent = text;
  place.hidden = false;
}
