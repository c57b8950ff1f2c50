// Away from any connection: pages are shown as they were last seen, and say so.
// The network always comes first; what is kept here is only for when it does not answer.
// So a device that is full, or refuses to keep, costs no page that the server gave: only its copy.

const KEPT = "evenhung-kept";
const NOT_SEEN = "/away/not-seen/";
const NOT_SAVED = "/away/not-saved/";
const SEEN = "x-evenhung-seen";
const LOG_IN = "/log-in/";
const LOG_OUT = "/log-out/";

self.addEventListener("install", (event) => {
  event.waitUntil(keepStandIns().then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(self.clients.claim());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (address.origin !== self.location.origin) return;
  if (request.mode === "navigate") {
    event.respondWith(request.method === "GET" ? page(request) : sent(request, address));
  } else if (request.method === "GET" && address.pathname.startsWith("/static/")) {
    event.respondWith(asset(request));
  }
});

// A page asks for others to be taken along; it is told how far that has come.
self.addEventListener("message", (event) => {
  if (event.data?.take) event.waitUntil(takeAlong(event.data.take, event.source));
});

async function keepStandIns() {
  const kept = await caches.open(KEPT);
  await kept.addAll([NOT_SEEN, NOT_SAVED]);
}

/** Where a page is kept: what only tells of a save is left out of its address. */
function placeOf(url) {
  const address = new URL(url);
  for (const name of ["saved", "also"]) address.searchParams.delete(name);
  address.hash = "";
  return address.href;
}

/** Do something with what is kept; where the device refuses, say so and go on without. */
async function ifItCan(what, doing) {
  try {
    return await doing(await caches.open(KEPT));
  } catch (fault) {
    console.warn(`evenhung: ${what}`, fault);
    return undefined;
  }
}

/** An asset's address changes with it, so one that is kept is the right one. */
async function asset(request) {
  const found = await ifItCan("nothing that was kept can be read", (kept) => kept.match(request));
  if (found) return found;
  const answer = await fetch(request);
  if (answer.ok) {
    await ifItCan("this device does not keep a file", (kept) => kept.put(request, answer.clone()));
  }
  return answer;
}

async function page(request) {
  let answer;
  try {
    answer = await fetch(request);
  } catch {
    return asSeen(request.url);
  }
  await ifItCan("this device does not keep a page", () => keep(request.url, answer.clone()));
  return answer;
}

/** Keep a page that was given; forget one that is not given any more. Refused where it is full. */
async function keep(url, answer) {
  const kept = await caches.open(KEPT);
  if (new URL(url).pathname === LOG_IN) {
    await forgetAll(); // whoever was here has gone
  } else if ([401, 403, 404, 410].includes(answer.status)) {
    await kept.delete(placeOf(url));
  } else if (answer.ok && answer.headers.get("content-type")?.startsWith("text/html")) {
    const headers = new Headers(answer.headers);
    headers.delete("content-encoding"); // the body is unpacked already
    headers.set(SEEN, new Date().toISOString());
    const body = await answer.blob();
    await kept.put(placeOf(url), new Response(body, { headers }));
  }
}

async function forgetAll() {
  await caches.delete(KEPT);
  await keepStandIns();
}

/** A page as it was last seen, marked so; else the page that says it never was. */
async function asSeen(url) {
  const kept = await caches.open(KEPT);
  const found = await kept.match(placeOf(url));
  if (!found) return kept.match(NOT_SEEN);
  const html = await found.text();
  const seen = found.headers.get(SEEN);
  const marked = html.replace("<html ", `<html data-seen="${seen}" `);
  return new Response(marked, { headers: found.headers });
}

/** A form goes to the server or not at all: what was typed waits in the page's own draft. */
async function sent(request, address) {
  let answer;
  try {
    answer = await fetch(request);
  } catch {
    const kept = await caches.open(KEPT);
    return kept.match(NOT_SAVED);
  }
  if (address.pathname === LOG_OUT) await ifItCan("what was kept here is not forgotten", forgetAll);
  return answer;
}

async function takeAlong(pages, asker) {
  let taken = 0;
  for (const path of pages) {
    const url = new URL(path, self.location.origin).href;
    let answer;
    try {
      // One after another: the server has others to answer.
      answer = await fetch(url, { redirect: "error" }); // oxlint-disable-line no-await-in-loop
      await keep(url, answer); // oxlint-disable-line no-await-in-loop
      taken += 1;
    } catch (fault) {
      console.warn("evenhung: not all was taken along", fault);
      asker.postMessage({ taken, of: pages.length, stopped: answer ? "full" : "short" });
      return;
    }
    asker.postMessage({ taken, of: pages.length });
  }
}
