// Keeps whole versions of the app in the phone and serves one of them: the one the person took, until they take another.
// A version is served only when every file of it lies here and has the bytes that the build wrote down.
"use strict";

const VERSION = "$version";
// path: [sha-256 of the content, bytes on the line, 1 when the line carries it packed as path.packed, renderer that needs it]
const FILES = $files;
const DRAW = new URL(self.location).searchParams.get("draw");
const SCOPE = new URL(self.registration.scope).pathname;
const PREFIX = `spanbook ${SCOPE} `; // an origin has one set of caches for all its folders
const CHOICE = `spanbook-choice ${SCOPE}`;
const AT_ONCE = 4;
const TYPES = { html: "text/html; charset=utf-8", js: "text/javascript", mjs: "text/javascript", json: "application/json", wasm: "application/wasm",
                png: "image/png", svg: "image/svg+xml", ttf: "font/ttf", otf: "font/otf", woff2: "font/woff2", zip: "application/zip" };

const needed = Object.entries(FILES).filter(([, file]) => !file[3] || file[3] === DRAW);
const total = needed.reduce((sum, [, file]) => sum + file[1], 0);

// What a person sees come: the app, its drawing, Python, and all small things.
function kind(path) {
  if (path.startsWith("app.tar")) return "tool";
  if (/^(canvaskit|main\.dart)/.test(path)) return "drawing";
  return path.startsWith("pyodide/") ? "sums" : "signs";
}

async function hex(bytes) {
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(digest), (b) => b.toString(16).padStart(2, "0")).join("");
}

function stored(path, sha, bytes) {
  const type = TYPES[path.split(".").pop()] ?? "application/octet-stream";
  return new Response(bytes, { headers: { "Content-Type": type, "Content-Length": String(bytes.byteLength), "X-Sha256": sha } });
}

async function asked(path, packed, cache) {
  const answer = await fetch(SCOPE + path + (packed ? ".packed" : ""), { cache });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  const body = packed ? new Response(answer.body.pipeThrough(new DecompressionStream("gzip"))) : answer;
  return body.arrayBuffer();
}

// The bytes of one file, proved against the list. The browser need not put them away a second time itself. A stale copy on the way (a proxy, a half-copied folder) is asked for once more.
async function proved(path, [sha, , packed]) {
  const can = packed && "DecompressionStream" in self;
  for (const cache of ["no-store", "reload"]) {
    const bytes = await asked(path, can, cache);
    if (sha === (await hex(bytes))) return stored(path, sha, bytes);
  }
  throw new Error(`${path}: other bytes than this version has`);
}

// The same bytes lie here already: of another version, or of a try that was cut off. They are proved too: the phone may have died writing them.
async function fromOther(path, sha) {
  for (const name of await caches.keys()) {
    const hit = name.startsWith(PREFIX) && (await (await caches.open(name)).match(SCOPE + path).catch(() => null));
    const bytes = hit && hit.headers.get("X-Sha256") === sha && (await hit.arrayBuffer().catch(() => null));
    if (bytes && sha === (await hex(bytes))) return stored(path, sha, bytes);
  }
  return null;
}

// The bytes are here and only could not be put away: a full phone, whatever the browser calls it (seen: UnknownError, QuotaExceededError).
const NO_ROOM = "NoRoom";
function noRoom(e) {
  throw Object.assign(new Error(String(e)), { name: NO_ROOM });
}

async function tell(said) {
  for (const page of await self.clients.matchAll({ includeUncontrolled: true, type: "window" })) page.postMessage(said);
}

async function fillVersion() {
  const cache = await caches.open(PREFIX + VERSION).catch(noRoom), waiting = [...needed];
  const groups = { tool: [0, 0], signs: [0, 0], drawing: [0, 0], sums: [0, 0] };
  for (const [path, file] of needed) groups[kind(path)][1] += file[1];
  let got = 0;
  async function worker() {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const [path, file] = next, answer = (await fromOther(path, file[0])) ?? (await proved(path, file));
      await cache.put(SCOPE + path, answer).catch(noRoom);
      got += file[1];
      groups[kind(path)][0] += file[1];
      await tell({ got, total, groups, version: VERSION });
    }
  }
  const hands = Array.from({ length: AT_ONCE }, () => worker().catch((e) => { waiting.length = 0; throw e; }));
  const ends = await Promise.allSettled(hands); // all hands rest before it is called failed: no write comes late
  const failed = ends.filter((e) => e.status === "rejected").map((e) => e.reason);
  if (failed.length) throw failed.find((e) => e.name === NO_ROOM) ?? failed[0]; // one hand's full disk may be another's broken line
}

async function missing(version) {
  const cache = await caches.open(PREFIX + version), here = new Set((await cache.keys()).map((r) => new URL(r.url).pathname));
  return needed.filter(([path]) => !here.has(SCOPE + path)).length;
}

let chosen = null;
async function choice() {
  if (chosen) return chosen;
  const said = await (await caches.open(CHOICE)).match("choice");
  return (chosen = said ? await said.text() : null);
}
async function choose(version) {
  await (await caches.open(CHOICE)).put("choice", new Response(version));
  chosen = version;
}

async function dropOthers() {
  const taken = await choice();
  for (const name of await caches.keys())
    if (name.startsWith(PREFIX) && name !== PREFIX + taken && name !== PREFIX + VERSION) await caches.delete(name);
}

async function install() {
  try {
    await fillVersion();
    if (!(await choice())) await choose(VERSION).catch(noRoom);
  } catch (e) {
    // Half a version must not take the last room from the jobs; after a broken line what was fetched stays for the next try.
    if (e.name === NO_ROOM) await emptied(PREFIX + VERSION).catch(() => {});
    await tell({ failed: e.name, detail: String(e.message ?? e), version: VERSION });
    throw e; // the browser throws this worker away, the version in use is untouched
  }
  await self.skipWaiting(); // this worker serves the older version as well
}

// Entry by entry: a cache that is dropped whole keeps its room as long as anybody holds it.
async function emptied(name) {
  const cache = await caches.open(name);
  for (const request of await cache.keys()) await cache.delete(request);
  await caches.delete(name);
}

async function activate() {
  const taken = await choice();
  if (!taken || !(await caches.has(PREFIX + taken))) await choose(VERSION);
  await dropOthers();
  await self.clients.claim();
}

async function answer(event) {
  const { ask } = event.data ?? {}, taken = await choice();
  const said = {};
  if (ask === "mend" && (!taken || taken === VERSION)) await fillVersion();
  if (ask === "mend" && !taken) await choose(VERSION); // the browser threw the choice away too
  if (ask === "take") await choose(VERSION);
  if (ask === "started") await dropOthers();
  const now = await choice();
  Object.assign(said, { version: now, newest: VERSION, missing: now === VERSION ? await missing(now) : 0 });
  event.ports[0]?.postMessage(said);
}

async function served(request, path) {
  if (request.mode === "navigate" && path !== "" && path !== "index.html") return Response.redirect(SCOPE, 302);
  const name = request.mode === "navigate" ? "index.html" : path;
  const hit = await (await caches.open(PREFIX + (await choice()))).match(SCOPE + name);
  if (hit) return hit;
  if (path.includes("fonts/noto")) return new Response("", { status: 404 }); // signs that no font has: never there, ask nobody
  return fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => event.waitUntil(answer(event).catch((e) => event.ports[0]?.postMessage({ failed: e.name }))));
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin || !url.pathname.startsWith(SCOPE)) return;
  const path = decodeURIComponent(url.pathname.slice(SCOPE.length)), opens = event.request.mode === "navigate";
  if (opens ? !/\.\w+$/.test(path) || path === "index.html" : !path.endsWith(".packed") || path === "app.tar.packed")
    event.respondWith(served(event.request, path));
});
