// Brings the whole app into the phone before it starts (once), keeps watch on it, and finds newer versions.
"use strict";
import { words, fill, progress, parts, trouble, clear } from "./page.js";

const EVERY_HOUR = 3600e3, MEGA = 1e6;

// Flutter's own choice of renderer, made here too, so that only the files of one are fetched.
function drawing() {
  const blink = navigator.vendor === "Google Inc." || navigator.userAgent.includes("Edg/");
  const codecs = typeof ImageDecoder !== "undefined" && typeof Intl.v8BreakIterator !== "undefined" && typeof Intl.Segmenter !== "undefined";
  const collects = WebAssembly.validate(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 95, 1, 120, 0])); // wasm with garbage collection
  const canvas = document.createElement("canvas");
  return blink && codecs && collects && (canvas.getContext("webgl2") ?? canvas.getContext("webgl")) ? "skwasm" : "canvaskit";
}

export const draw = drawing();

const megabytes = (bytes) => (bytes / MEGA).toFixed(1);

function settled(worker) {
  return new Promise((yes) => {
    const look = () => (worker.state === "activated" || worker.state === "redundant") && yes(worker.state === "activated");
    worker.addEventListener("statechange", look);
    look();
  });
}

// About how long it will still take, by what came so far; said only once that is known well enough.
function still(seen) {
  const took = (performance.now() - seen.begun) / 1000, left = Math.ceil((took * (seen.total - seen.got)) / seen.got / 5) * 5;
  return took > 3 && left > 5 ? fill(words.about, { n: left }) : words.leave_open;
}

// One line for each kind of part; groups: [bytes here, bytes in all] by kind.
function kinds(groups) {
  parts(Object.entries(groups).map(([kind, [got, all]]) => {
    const said = got >= all ? words.here : got ? `${megabytes(got)} / ${megabytes(all)} MB` : `${megabytes(all)} MB`;
    return [words[`part_${kind}`], got / all, said];
  }));
}

function heard(event, seen) {
  const { got, total, groups, failed, detail } = event.data ?? {};
  if (total) {
    Object.assign(seen, { got, total });
    const figure = fill(words.getting_part, { got: megabytes(got), total: megabytes(total) });
    progress({ what: words.getting, under: words.getting_under, figure, how: still(seen), share: got / total });
    kinds(groups);
  }
  if (failed) Object.assign(seen, { failed, detail });
}

async function asked(seen) {
  const script = new URL(`sw.js?draw=${draw}`, document.baseURI);
  const known = await navigator.serviceWorker.register(script, { scope: "./", updateViaCache: "none" });
  const worker = known.installing ?? known.waiting;
  return known.active ? true : worker ? settled(worker) : false;
}

// One try to bring everything here. true, or the reason it failed.
async function brought() {
  const seen = { got: 0, total: 0, failed: "", detail: "", begun: performance.now() };
  const listen = (event) => heard(event, seen);
  navigator.serviceWorker.addEventListener("message", listen);
  navigator.serviceWorker.startMessages();
  try {
    return (await asked(seen)) || seen;
  } catch (e) {
    return Object.assign(seen, { failed: seen.failed || e.name, detail: seen.detail || String(e.message) });
  } finally {
    navigator.serviceWorker.removeEventListener("message", listen);
  }
}

// The line was lost on the way: what came stays, and the person says when to go on.
function goOn({ got, total, detail }) {
  return new Promise((yes) => {
    const text = total ? fill(words.lost_part, { got: megabytes(got), total: megabytes(total) }) : words.lost;
    trouble(words.lost_head, text, [[words.go_on, () => yes(true)], [words.without_keeping_app, () => yes(false)]], detail);
    addEventListener("online", () => yes(true), { once: true });
  });
}

// What a full phone makes of bringing the app in: the keeper could not put a part away, or the browser the keeper itself.
const NO_ROOM = new Set(["NoRoom", "QuotaExceededError", "AbortError"]);

// On a full disk a browser may end the keeper before it can say why. So the parts' room is tried out with nothing in it.
const PIECES = 6, PIECE = 8e6;
async function hasRoom() {
  const name = "spanbook-room";
  try {
    const shelf = await caches.open(name);
    for (let i = 0; i < PIECES; i++) await shelf.put(`piece-${i}`, new Response(new Uint8Array(PIECE)));
    return true;
  } catch {
    return false;
  } finally {
    await emptied(name).catch(() => {});
  }
}

// Entry by entry: a cache that is dropped whole keeps its room as long as anybody holds it.
async function emptied(name) {
  const cache = await caches.open(name);
  for (const request of await cache.keys()) await cache.delete(request);
  await caches.delete(name);
}

// Half an app must not take the last room from the jobs. Names as in sw.js; once a version was chosen, it is whole.
async function dropHalf() {
  const scope = new URL("./", document.baseURI).pathname;
  if (await caches.has(`spanbook-choice ${scope}`)) return;
  for (const name of await caches.keys()) if (name.startsWith(`spanbook ${scope} `)) await emptied(name);
}

// Gives "" when every part is in the phone, else why not: "insecure", "refused", "room", "line". fresh.yes: they all came just now.
export const fresh = { yes: false };

export async function bringAll() {
  if (!isSecureContext) return "insecure";
  if (!("serviceWorker" in navigator)) return "refused";
  if (navigator.serviceWorker.controller) return "";
  progress({ what: words.opening, share: 0 });
  for (;;) {
    const how = await brought();
    if (how === true) {
      fresh.yes = true;
      return "";
    }
    if (how.failed ? NO_ROOM.has(how.failed) : !(await hasRoom())) {
      await dropHalf().catch(() => {});
      return "room";
    }
    if (how.failed === "SecurityError" || how.failed === "NotSupportedError") return "refused";
    if (!(await goOn(how))) return "line";
    clear();
  }
}

function ask(what, worker = navigator.serviceWorker.controller) {
  return new Promise((yes) => {
    const line = new MessageChannel();
    line.port1.onmessage = (event) => yes(event.data);
    if (worker) worker.postMessage({ ask: what }, [line.port2]);
    else yes({});
  });
}

async function state(tell, what = "state") {
  let said = await ask(what);
  if ((said.missing || !said.version) && navigator.onLine) said = await ask("mend");
  tellWhole(said, tell);
}

// Called ready only while every part is here. Also right at a start, before anybody reads it: parts may be gone since the last one.
function tellWhole({ version, newest, missing, failed }, tell) {
  const ready = Boolean(version) && !missing, why = ready ? "" : NO_ROOM.has(failed) ? "room" : "line";
  tell(version ? { ready, why, version, newer: newest !== version ? newest : "" } : { ready, why });
}

export async function check(tell) {
  if (navigator.serviceWorker?.controller) tellWhole(await ask("state"), tell);
}

let telling = () => {};
export async function look() {
  const known = await navigator.serviceWorker.getRegistration("./");
  if (!known) telling({ ready: false, why: "line" }); // a full or emptied browser forgets even that
  await known?.update();
}

// After the start: says how things stand, and again whenever a newer version has come whole. tell: gets an object.
export async function watch(tell) {
  if (!navigator.serviceWorker?.controller) {
    const claimed = await new Promise((yes) => {
      navigator.serviceWorker?.addEventListener("controllerchange", () => yes(true), { once: true });
      setTimeout(() => yes(false), 3000);
    });
    if (!claimed) return;
  }
  navigator.serviceWorker.addEventListener("controllerchange", () => state(tell));
  navigator.serviceWorker.addEventListener("message", (event) => event.data?.failed && tell({ newer_failed: event.data.failed }));
  navigator.serviceWorker.startMessages();
  telling = tell;
  await state(tell, "started");
  const quietly = () => look().catch(() => {}); // no signal is no trouble
  quietly();
  setInterval(quietly, EVERY_HOUR);
  addEventListener("online", quietly);
}

export async function take() {
  const known = await navigator.serviceWorker.getRegistration("./");
  await ask("take", known?.active); // the newest one, also where it does not serve this page yet
  location.reload();
}

// For a page on which the app did not start: true once a newer version lies here whole. It may be the one that was mended.
export async function newerIsHere() {
  const known = await navigator.serviceWorker?.getRegistration("./");
  if (!known?.active) return false;
  await known.update().catch(() => {}); // no signal is no trouble
  const coming = known.installing ?? known.waiting;
  if (coming) await settled(coming);
  const { version, newest } = await ask("state", known.active);
  return Boolean(version) && newest !== version;
}
