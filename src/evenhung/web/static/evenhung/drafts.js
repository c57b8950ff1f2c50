// Drafts: what is typed into a form stays in this browser until the server has saved it.
// A reload, a back button, a dead battery or a lost connection loses nothing: it is offered again.

import { whenStill } from "./steady.js";

const PREFIX = "evenhung-draft:";

function typedIn(form) {
  const fields = {};
  for (const field of form.elements) {
    const isLeft = field.type === "hidden" || (field.type === "radio" && !field.checked);
    if (field.name.startsWith("field.") && !isLeft) {
      fields[field.name] = field.value;
    }
  }
  return fields;
}

// What the form was made from: a part by its revision, an item of a list by what it said.
function madeFrom(form) {
  return form.elements.namedItem("base") ?? form.elements.namedItem("was");
}

// What tells this showing of the form from the next: where an answer was lost and the same is sent
// again from another page, the server sees that it has been done already.
function markOf(form) {
  return (form.elements.namedItem("mark") ?? form.elements.namedItem("csrfmiddlewaretoken")).value;
}

function setMark(form, mark) {
  const field = form.elements.namedItem("mark") ?? document.createElement("input");
  field.type = "hidden";
  field.name = "mark";
  field.value = mark;
  form.append(field);
}

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(PREFIX + key));
  } catch {
    return null; // not written by us, or the browser keeps nothing
  }
}

function write(key, draft) {
  try {
    localStorage.setItem(PREFIX + key, JSON.stringify(draft));
  } catch (fault) {
    console.warn("evenhung: this browser keeps no drafts", fault);
  }
}

export function forgetDraft(key) {
  try {
    localStorage.removeItem(PREFIX + key);
  } catch (fault) {
    console.warn("evenhung: this browser keeps no drafts", fault);
  }
}

/** Tell whether the page gave a field something to begin with. */
function wasGiven(field) {
  if (field.type === "radio") return field.defaultChecked && field.value !== "";
  if (field.options) return [...field.options].some((one) => one.defaultSelected && one.value !== "");
  return field.defaultValue !== "";
}

/** Name what stands empty since somebody emptied it, on this page or on the one the draft is from. */
function emptiedIn(form, fields, before) {
  const given = [...form.elements].filter((field) => field.name in fields && wasGiven(field));
  const names = [...given.map((field) => field.name), ...(before?.emptied ?? [])];
  return names.filter((name) => fields[name] === "");
}

/** What of a draft is taken up: a field that was merely left empty clears nothing. */
function typedOf(draft) {
  return Object.entries(draft.fields).filter(([name, value]) => value || draft.emptied?.includes(name));
}

function differs(draft, fields) {
  return typedOf(draft).some(([name, value]) => name in fields && value !== fields[name]);
}

function offer(form, key, draft) {
  const place = form.querySelector(".draft-offer");
  if (!place) {
    return;
  }
  whenStill(() => {
    place.hidden = false;
  });
  place.querySelector("[data-take]").addEventListener("click", () => {
    for (const [name, value] of typedOf(draft)) {
      const field = form.elements.namedItem(name);
      if (field) {
        field.value = value; // of radio buttons too: it checks the one of that value
        (field[0]?.type === "radio" ? field[0] : field).dispatchEvent(new Event("change", { bubbles: true }));
      }
    }
    // What was typed goes against the revision it was typed on: if others have saved since, the
    // server sees it and asks.
    madeFrom(form).value = draft.base;
    if (draft.mark) setMark(form, draft.mark);
    place.hidden = true;
  });
  place.querySelector("[data-drop]").addEventListener("click", () => {
    forgetDraft(key);
    place.hidden = true;
  });
}

export function keepDrafts(forms) {
  for (const form of forms) {
    const key = form.dataset.draft;
    const draft = read(key);
    if (draft && differs(draft, typedIn(form))) {
      offer(form, key, draft);
    }
    form.addEventListener("input", () => {
      const fields = typedIn(form);
      const emptied = emptiedIn(form, fields, read(key));
      write(key, { base: madeFrom(form).value, fields, emptied, mark: markOf(form) });
    });
  }
}
