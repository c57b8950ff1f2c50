// The page's side of going on without a connection: start the worker, say what is old, take along.

import { say } from "./say.js";

const root = document.documentElement;

/** Say that a page is shown as it was last seen, and when that was. */
function sayWhatIsOld() {
  if (!root.dataset.seen) return;
  const form = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });
  const seen = form.format(new Date(root.dataset.seen));
  say(`${root.dataset.seenWords} ${seen}. ${root.dataset.keptWords}`);
}

/** Offer to take a house along, once there is a worker to keep it. */
function offerToTake(button, worker) {
  const told = button.nextElementSibling;
  button.hidden = false;
  button.addEventListener("click", async () => {
    button.disabled = true;
    try {
      const answer = await fetch(button.dataset.takeAlong);
      worker.postMessage({ take: (await answer.json()).pages });
    } catch {
      told.textContent = `${button.dataset.short} 0`;
      button.disabled = false;
    }
  });
  navigator.serviceWorker.addEventListener("message", ({ data }) => {
    const isAll = data.taken === data.of;
    const how = data.stopped ?? (isAll ? "done" : "doing");
    told.textContent = `${button.dataset[how]} ${data.taken}/${data.of}`;
    button.disabled = how === "doing";
  });
}

async function begin() {
  sayWhatIsOld();
  if (!root.dataset.worker || !("serviceWorker" in navigator)) return;
  try {
    await navigator.serviceWorker.register(root.dataset.worker, { scope: "/" });
  } catch (fault) {
    console.info("evenhung: without a trusted certificate nothing is kept here", fault);
    return;
  }
  const { active } = await navigator.serviceWorker.ready;
  const button = document.querySelector("[data-take-along]");
  if (button) offerToTake(button, active);
}

begin();
