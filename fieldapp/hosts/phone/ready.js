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
    if (how.failed === "QuotaExceededError") return "room";
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
  if (said.missing && navigator.onLine) said = await ask("mend");
  if (said.version) tell({ ready: !said.missing, why: said.missing ? "line" : "", version: said.version, newer: said.newest !== said.version ? said.newest : "" });
}

export async function look() {
  const known = await navigator.serviceWorker.getRegistration("./");
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
  navigator.serviceWorker.addEventListener("message", (event) => event.data?.failed && tell({ newer_failed: event.data.detail }));
  navigator.serviceWorker.startMessages();
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
