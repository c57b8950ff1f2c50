/**
 * The moving section: a sash that is opened on the page, its cord and its weight moving with it.
 *
 * It computes nothing of the window. Every moving group of the drawing says how far it shifts, or by
 * how much it grows, for each millimetre of travel, and every clearance what it is with the sash
 * shut: this module multiplies, writes the figures, and speaks up where something strikes.
 *
 *   <div data-moving-scope>                   optional: other drawings in it move along
 *     <figure data-moving-section> <svg class="drawing section" ...> </figure>
 *   </div>
 *
 * Controls are made here, since without scripts nothing would move. All words come from the drawing.
 */

const MM_PER_INCH = 25.4;
const SLACK_MM = 0.005; // half of what the drawing is written to
const STEP_MM = 10;
const FINE_MM = 1;
const GLIDE_MS = 600;
const TAP_PX = 4; // a finger that moves less has tapped

/** Print a length as the plan does: to 1/16 in, feet from two on, or to 1 mm. */
export function printLength(mm, system) {
  const sign = (steps) => (mm < 0 && steps ? "-" : "");
  if (system === "metric") {
    const steps = Math.round(Math.abs(mm));
    return `${sign(steps)}${steps} mm`;
  }
  const sixteenths = Math.round((Math.abs(mm) / MM_PER_INCH) * 16);
  const feet = Math.floor(sixteenths / 192);
  if (feet < 2) return `${sign(sixteenths)}${inches(sixteenths)} in`;
  const rest = sixteenths % 192;
  return `${sign(sixteenths)}${feet} ft${rest ? ` ${inches(rest)} in` : ""}`;
}

/** Print sixteenths of an inch as whole inches and a fraction in its lowest terms. */
function inches(sixteenths) {
  const whole = Math.floor(sixteenths / 16);
  let [top, bottom] = [sixteenths % 16, 16];
  if (!top) return `${whole}`;
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return whole ? `${whole} ${top}/${bottom}` : `${top}/${bottom}`;
}

/** Print a length in the house's own system, the other one in brackets. */
function printBoth(mm, own) {
  return `${printLength(mm, own)} (${printLength(mm, other(own))})`;
}

function other(system) {
  return system === "imperial" ? "metric" : "imperial";
}

/** What moves: the groups of the drawing itself, and those of other drawings of the same sash. */
function movingGroups(figure, svg) {
  const own = svg.querySelectorAll("[data-shift-per-mm], [data-stretch-per-mm]");
  const scope = figure.closest("[data-moving-scope]");
  const along = scope ? scope.querySelectorAll(`g[data-moves="${svg.dataset.moves}"]`) : [];
  return [...own, ...along];
}

function place(group, travel) {
  const { shiftPerMm, stretchFrom, stretchShut, stretchPerMm } = group.dataset;
  if (shiftPerMm !== undefined) {
    group.setAttribute("transform", `translate(0 ${Number(shiftPerMm) * travel})`);
    return;
  }
  const scale = Number(stretchShut) + Number(stretchPerMm) * travel;
  const fixed = Number(stretchFrom);
  group.setAttribute("transform", `translate(0 ${fixed}) scale(1 ${scale}) translate(0 ${-fixed})`);
}

/** A clearance of the drawing: what it is at a travel, how that stands, where it begins to strike. */
function clearanceOf(group) {
  const { clearance, shutMm, perMm, wantedMm, label, close, struck } = group.dataset;
  const [shut, per, wanted] = [shutMm, perMm, wantedMm].map(Number);
  const room = (travel) => shut + per * travel;
  return {
    group,
    name: clearance,
    label,
    words: { close, struck, clear: "" },
    room,
    state(travel) {
      if (room(travel) <= -SLACK_MM) return "struck";
      return room(travel) < wanted - SLACK_MM ? "close" : "clear";
    },
    strikesFrom: (travel) => (room(travel) < -SLACK_MM ? Math.max(0, -shut / per) : null),
  };
}

/** A new element with its attributes and its text. */
function element(tag, attributes = {}, text = "") {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.textContent = text;
  return made;
}

/** The slider, its two buttons, a line for each clearance, and a place to speak from. */
function controls(svg, clearances, id) {
  const words = svg.dataset;
  const label = element("label", { for: id, class: "moving-label" }, words.slider);
  const slider = element("input", {
    type: "range", id, class: "moving-slider", min: 0, max: words.travelMm, step: "any", value: 0,
  });
  const shut = element("button", { type: "button", class: "moving-button" }, words.shut);
  const open = element("button", { type: "button", class: "moving-button" }, words.open);
  const opened = element("span", { class: "moving-opened" });
  const figures = element("dl", { class: "moving-figures" });
  const rows = clearances.map((clearance) => {
    const figure = element("dd");
    figures.append(element("dt", {}, clearance.label), figure);
    return figure;
  });
  const status = element("p", { role: "status", "aria-live": "polite", class: "moving-status" });
  const bar = element("div", { class: "moving-bar" });
  bar.append(shut, slider, open);
  const panel = element("div", { class: "moving-controls" });
  panel.append(label, bar, opened, figures, status);
  return { panel, slider, shut, open, opened, rows, status };
}

/** What to say of the clearances at a travel: nothing while all is clear. */
function sayings(clearances, travel, whole, svg) {
  return clearances
    .filter((clearance) => clearance.state(travel) !== "clear")
    .map((clearance) => {
      const state = clearance.state(travel);
      const from = clearance.strikesFrom(whole);
      const where = state === "struck" && from
        ? ` ${svg.dataset.strikesFrom} ${printBoth(from, svg.dataset.own)}`
        : "";
      return state === "struck"
        ? `${clearance.words.struck}${where}`
        : `${clearance.label}: ${clearance.words.close}`;
    });
}

/** Bring one figure to life; give the function that opens its sash so far, in millimetres. */
export function movingSection(figure, id = "moving-1") {
  const svg = figure.querySelector("svg[data-travel-mm]");
  if (!svg || figure.dataset.movingReady) return null;
  figure.dataset.movingReady = "yes";
  const whole = Number(svg.dataset.travelMm);
  const { own } = svg.dataset;
  const groups = movingGroups(figure, svg);
  const clearances = [...svg.querySelectorAll("[data-clearance]")].map(clearanceOf);
  const panel = controls(svg, clearances, id);
  figure.append(panel.panel);
  let travel = 0;
  let gliding = 0;

  function show(wanted) {
    travel = Math.min(whole, Math.max(0, wanted));
    for (const group of groups) place(group, travel);
    clearances.forEach((clearance, row) => {
      const room = clearance.room(travel);
      const state = clearance.state(travel);
      clearance.group.dataset.state = state;
      panel.rows[row].textContent = state === "struck"
        ? `${svg.dataset.short} ${printBoth(-room, own)}`
        : printBoth(room, own);
      panel.rows[row].dataset.state = state;
      for (const text of clearance.group.querySelectorAll("[data-figure]")) {
        const system = text.dataset.figure.endsWith(" own") ? own : other(own);
        text.textContent = printLength(room, system);
      }
    });
    const opened = travel ? `${svg.dataset.opened} ${printBoth(travel, own)}` : svg.dataset.shut;
    panel.slider.value = travel;
    panel.slider.setAttribute("aria-valuetext", opened);
    panel.opened.textContent = opened;
    speak();
  }

  /** Said once, when it begins to hold: a voice that repeats itself at every millimetre is noise. */
  function speak() {
    const said = sayings(clearances, travel, whole, svg).join("; ");
    const isStruck = clearances.some((clearance) => clearance.state(travel) === "struck");
    figure.classList.toggle("is-struck", isStruck);
    figure.classList.toggle("is-close", Boolean(said) && !isStruck);
    if (panel.status.textContent !== said) panel.status.textContent = said;
  }

  function glide(to) {
    cancelAnimationFrame(gliding);
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) return show(to);
    const [from, began] = [travel, performance.now()];
    const step = (now) => {
      const part = Math.min(1, (now - began) / GLIDE_MS);
      show(from + (to - from) * (1 - (1 - part) ** 3));
      if (part < 1) gliding = requestAnimationFrame(step);
    };
    gliding = requestAnimationFrame(step);
    return undefined;
  }

  function jump(to) {
    cancelAnimationFrame(gliding);
    show(to);
  }

  panel.slider.addEventListener("input", () => jump(Number(panel.slider.value)));
  panel.slider.addEventListener("keydown", (event) => byKey(event, travel, whole, svg, jump));
  panel.shut.addEventListener("click", () => glide(0));
  panel.open.addEventListener("click", () => glide(whole));
  byDragging(svg, () => travel, jump);
  show(0);
  return jump;
}

/** Arrow keys: up and down move the sash that way, right opens, left shuts; with Shift by 1 mm. */
function byKey(event, travel, whole, svg, jump) {
  const step = event.shiftKey ? FINE_MM : STEP_MM;
  const up = svg.dataset.moves === "upper" ? -1 : 1;
  const to = {
    ArrowUp: travel + up * step,
    ArrowDown: travel - up * step,
    ArrowRight: travel + step,
    ArrowLeft: travel - step,
    PageUp: travel + up * 10 * step,
    PageDown: travel - up * 10 * step,
    Home: 0,
    End: whole,
  }[event.key];
  if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  jump(to);
}

/** Take hold of sash or weight and move it: whatever is held follows the finger. A tap stays a tap. */
function byDragging(svg, travelNow, jump) {
  let held = null;
  let hasMoved = false;
  svg.addEventListener("pointerdown", (event) => {
    const group = event.target.closest("[data-shift-per-mm]");
    hasMoved = false;
    if (!group || event.button > 0) return;
    const perMm = Number(group.dataset.shiftPerMm) * svg.getScreenCTM().d;
    held = { from: event.clientY, travel: travelNow(), perMm };
  });
  svg.addEventListener("pointermove", (event) => {
    if (!held) return;
    if (!hasMoved) {
      if (Math.abs(event.clientY - held.from) < TAP_PX) return;
      hasMoved = true;
      svg.setPointerCapture(event.pointerId);
    }
    jump(held.travel + (event.clientY - held.from) / held.perMm);
  });
  for (const end of ["pointerup", "pointercancel", "pointerleave"]) {
    svg.addEventListener(end, () => { held = null; });
  }
  svg.addEventListener("dragstart", (event) => event.preventDefault()); // of a link
  svg.addEventListener("click", (event) => {
    if (hasMoved) event.preventDefault();
  }, true);
}

let made = 0;

/** Bring every figure within a part of the page to life. */
export function bringToLife(root) {
  const figures = [...root.querySelectorAll("[data-moving-section]")];
  if (root.matches?.("[data-moving-section]")) figures.push(root);
  for (const figure of figures) movingSection(figure, `moving-${(made += 1)}`);
}

bringToLife(document);
// parts of the page that come later announce themselves
document.addEventListener("htmx:load", (event) => bringToLife(event.target));
