// The order of a start: one page only, all parts into the phone, Python in its worker, then the drawing, then the app's first view.
"use strict";
import { words, progress, parts, clearly, trouble, clear, gone } from "./page.js";
import { bringAll, check, draw, fresh, look, newerIsHere, take, watch } from "./ready.js";

const here = new URL("./", document.baseURI).pathname;
const MARK = `spanbook ${here}`;
const STEPS = { python: 0.05, unpack: 0.4, data: 0.5, app: 0.6 };
const LEAVING = 2000; // a page that is being left gives its place free within this time

function mark(change) {
  try {
    const said = { ...JSON.parse(localStorage.getItem(MARK) ?? "{}"), ...change };
    if (change?.look) localStorage.setItem("spanbook-look", change.look);
    if (change) localStorage.setItem(MARK, JSON.stringify(said));
    return said;
  } catch {
    return null; // refused: nothing is remembered outside the database
  }
}

// Resolves when this page is the only one of the app at this address; says so plainly while another one has it.
async function alone() {
  if (!navigator.locks) return;
  const have = (signal) => new Promise((yes, no) => {
    navigator.locks.request(MARK, { signal }, () => { yes(true); return new Promise(() => {}); }).catch(no);
  });
  try {
    await have(AbortSignal.timeout(LEAVING));
  } catch (e) {
    if (e.name !== "TimeoutError" && e.name !== "AbortError") return; // locks are refused: the store itself still tells
    trouble(words.other_tab_head, words.other_tab);
    await have(undefined);
    clear();
  }
}

function bring(src) {
  const script = document.createElement("script");
  script.src = src;
  script.onerror = () => stopped("parts", src);
  document.head.append(script);
}

function settings() {
  self.flet = { pyodide: true, multiView: false, noCdn: true, webRenderer: draw, routeUrlStrategy: "hash", entrypointBaseUrl: here, assetBase: here,
                canvasKitBaseUrl: `${here}canvaskit/`, fontFallbackBaseUrl: "assets/fonts/", appPackageUrl: "", pyodideUrl: "" };
  self.flet.flutterAppLoaded = new Promise((yes) => { self.flet.flutterAppResolve = yes; });
}

const state = {};
let worker, deliver = null;
const early = [];
let ready, failed;
const started = new Promise((yes, no) => { ready = yes; failed = no; });
started.catch(() => {});

function tell(change) {
  Object.assign(state, change);
  worker.postMessage({ state: change });
}

const TROUBLES = {
  busy: ["other_tab_head", "other_tab"], store: ["store_head", "store"], room: ["room_head", "room"], nowhere: ["nowhere_head", "nowhere"],
  parts: ["no_parts_head", "parts"], old: ["old_head", "old"], app: ["stopped_head", "stopped"], refused: ["refused_head", "refused"],
};

function stopped(kind, detail, text = "") {
  wait(false);
  const may = kind === "nowhere" || kind === "room"; // there the person may still go on
  if (!may) failed(new Error(kind));
  const [head, said] = TROUBLES[kind] ?? TROUBLES.app, actions = [[words.again, () => location.reload()]];
  if (may) actions.push([words.without_keeping, () => { clear(); worker.postMessage({ without: true }); }]);
  const tellIt = (further) => trouble(words[head], text || words[said], [...further, ...actions], detail);
  tellIt([]);
  if (kind !== "busy" && !may) newerIsHere().then((here) => here && tellIt([[words.take_newer, take]]), () => {});
}

const services = {
  persist: async () => (await navigator.storage?.persist?.()) ?? false,
  mark: async (change) => { mark(change); return true; },
  take: async () => { await take(); return true; },
  look: async () => { await look(); return true; },
  install: async () => {
    if (!offered) return false;
    offered.prompt();
    return (await offered.userChoice).outcome === "accepted";
  },
  reload: async () => location.reload(),
};

let offered = null;
addEventListener("beforeinstallprompt", (event) => {
  event.preventDefault();
  offered = event;
  if (worker) tell({ installable: true });
});

async function room() {
  const { usage = 0, quota = 0 } = (await navigator.storage?.estimate?.().catch(() => ({}))) ?? {};
  const persisted = (await navigator.storage?.persisted?.().catch(() => false)) ?? false;
  tell({ usage, quota, persisted });
}

async function serve({ ask, name, value }) {
  let said = null, refused = "";
  try {
    said = await services[name](value);
  } catch (e) {
    refused = String(e.message ?? e);
  }
  worker.postMessage({ answer: ask, said, refused });
}

// A step that takes this long may never end; the person may wait on or try again. The next step takes the words away.
const LONG = 30e3;
let patience = 0;
function wait(on) {
  clearTimeout(patience);
  if (on) patience = setTimeout(() => trouble(words.long_head, words.long, [[words.again, () => location.reload()]]), LONG);
}

function step(name) {
  clear();
  wait(true);
  performance.mark(`spanbook ${name}`);
  progress({ what: words.opening, share: STEPS[name] });
  const names = Object.keys(STEPS), at = names.indexOf(name);
  parts(names.map((one, i) => [words[`step_${one}`], i < at ? 1 : 0, i < at ? words.here : ""]));
  if (name === "unpack") draws(); // Python first: on two cores quicker than both at once
}

let drawing = false;
function draws() {
  if (!drawing) bring("flutter_bootstrap.js");
  drawing = true;
}

// Two frames after the first view was handed over it is painted: then the starting page may go.
function shown() {
  requestAnimationFrame(() => requestAnimationFrame(() => {
    performance.mark("spanbook shown");
    wait(false);
    gone();
    room();
    watch(tell);
  }));
}

function heard({ data }) {
  if (data instanceof Uint8Array) return deliver ? deliver(data) : early.push(data);
  if (data.step) return step(data.step);
  if (data.trouble) return stopped(data.trouble, data.detail, data.text);
  if (data.ask) return serve(data);
  if (data.room) return room();
  if (data.ready) return ready();
  if (data.shown) return started.then(shown);
}

// What Flutter calls; the names are Flet's.
function bridge() {
  self.jsConnect = async (app, args, receive) => {
    await started;
    deliver = receive;
    early.splice(0).forEach(receive);
  };
  self.jsSend = async (app, packet) => worker.postMessage(packet, [packet.buffer]);
  self.jsDisconnect = async () => {};
}

async function start() {
  performance.mark("spanbook page");
  const why = await bringAll();
  if (fresh.yes) clearly(words.ready_word, words.ready, words.ready_kept, words.ready_try);
  await alone();
  settings();
  bridge();
  Object.assign(state, {
    secure: isSecureContext, ready: !why && !!navigator.serviceWorker?.controller, why, newer: "", persisted: false, usage: 0, quota: 0, online: navigator.onLine,
    version: document.querySelector("meta[name=version]").content, installable: !!offered, share: !!navigator.canShare,
    standalone: matchMedia("(display-mode: standalone)").matches || navigator.standalone === true,
  });
  worker = new Worker(new URL("worker.js", document.baseURI), { type: "module" });
  worker.onmessage = heard;
  worker.onerror = (event) => stopped(event.message ? "app" : "parts", event.message ?? "worker.js");
  worker.postMessage({ start: { url: document.URL, place: MARK, mark: mark(), state } });
  check(tell);
}

for (const way of ["online", "offline"]) addEventListener(way, () => worker && tell({ online: navigator.onLine }));
addEventListener("pageshow", (event) => event.persisted && location.reload()); // a page brought back from memory holds dead handles
start().catch((e) => stopped("app", String(e.stack ?? e)));
