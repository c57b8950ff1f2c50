// What every page does: keep drafts of forms, say what was saved, show the other system of a figure.

import "./away.js";
import { keepDrafts, forgetDraft } from "./drafts.js";
import { narrowChoices } from "./narrowing.js";
import { say } from "./say.js";
import { keepSteady } from "./steady.js";

keepSteady();

const told = new URLSearchParams(location.search);

// A page that was reached by a save is told so in its address. The page says it from the start, so
// that it pushes nothing away; it is said once more for whoever listens, and cleared.
if (told.has("saved")) {
  forgetDraft(told.get("saved"));
  say(document.getElementById("told").textContent);
  for (const name of ["saved", "also"]) told.delete(name);
  history.replaceState(null, "", `${location.pathname}${told.size ? `?${told}` : ""}`);
}

// Moments are kept in UTC and shown where the reader is.
function showLocalTimes(place) {
  const form = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });
  for (const time of place.querySelectorAll("time[datetime]")) {
    time.title = time.textContent;
    time.textContent = form.format(new Date(time.dateTime));
  }
}

showLocalTimes(document);
document.addEventListener("htmx:load", (event) => showLocalTimes(event.target));

narrowChoices(document.querySelectorAll("select[data-narrowed-by]"));
keepDrafts(document.querySelectorAll("form[data-draft]"));

// A figure shows its other system on a tap, for a phone has no hover, and on Enter.
function showOther(event) {
  const figure = event.target.closest(".figure");
  if (figure) [figure.textContent, figure.title] = [figure.title, figure.textContent];
}

document.addEventListener("click", showOther);
document.addEventListener("keydown", (event) => {
  if (event.key === "Enter") showOther(event);
});
