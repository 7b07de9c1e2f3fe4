// Python's own thread: files first, then the app, then packets to and fro. No app code runs before the store is open.
"use strict";
import { loadPyodide } from "./pyodide/pyodide.mjs";
import { takeFiles, mountFiles } from "./opfs.js";
import { Record } from "./record.js";
import { archive, lay } from "./tar.js";

const FOLDER = "/kept", BASE = "spanbook.db", BEFORE = "spanbook-before.db";
const FULL = "QuotaExceededError";
const NAMES = [BASE, `${BASE}-journal`, BEFORE, `${BEFORE}-journal`];
const flet_js = { documentUrl: "" };
const asked = new Map();
let without; // resolves when the person goes on though nothing will be kept

const phone = {
  folder: FOLDER, base: BASE, before: BEFORE, kept: "", state: {}, mark: {}, evicted: false, changed: null,
  flush: async () => {},
  counts: () => ({}),
  ask: (name, value) => new Promise((yes, no) => {
    const id = asked.size + 1 + Math.random();
    asked.set(id, { yes, no });
    self.postMessage({ ask: id, name, value });
  }),
  room: () => self.postMessage({ room: true }),
  shown: () => self.postMessage({ shown: true }),
  trouble: (kind, text, detail) => self.postMessage({ trouble: kind, text, detail }),
};

const step = (name) => self.postMessage({ step: name });

class Trouble extends Error {
  constructor(kind, cause) {
    super(String(cause?.stack ?? cause));
    this.kind = kind;
  }
}

// Nothing is kept yet and cannot be now: the person may make room, or go on all the same.
async function nowhere(kind, refused) {
  const go = new Promise((yes) => { without = yes; });
  phone.trouble(kind, "", refused);
  await go;
  return { kept: "nowhere" };
}

// Which way this browser keeps. Never another one than before: the person's jobs lie there. Nor for want of room: it would stay so for good.
async function store(place, before) {
  let refused;
  if (before !== "record") {
    try {
      return { kept: "files", handles: await takeFiles(place.replaceAll("/", "_"), NAMES) };
    } catch (e) {
      if (e.name === "NoModificationAllowedError") throw new Trouble("busy", e);
      if (before === "files") throw new Trouble("store", e);
      if (e.name === FULL) return nowhere("room", String(e));
      refused = e;
    }
  }
  try {
    return { kept: "record", record: await Record.open(place) };
  } catch (e) {
    if (before) throw new Trouble("store", e);
    return nowhere(e.name === FULL ? "room" : "nowhere", `${refused}\n${e}`);
  }
}

function mountRecord(python, record) {
  const path = `${FOLDER}/${BASE}`;
  python.FS.mkdirTree(FOLDER);
  if (record.bytes) python.FS.writeFile(path, record.bytes);
  let last = record.bytes, turn = Promise.resolve(), undone = null;
  record.bytes = null;
  let aside = `${FOLDER}/${BEFORE}`; // kept once, with the first entry after it
  async function keep(mine) {
    if (undone !== mine) throw undone; // this entry went with the one before it
    const bytes = python.FS.readFile(path), before = aside && python.FS.analyzePath(aside).exists ? python.FS.readFile(aside) : null;
    try {
      await record.keep(bytes, before);
    } catch (e) {
      undone = e;
      if (last) python.FS.writeFile(path, last); // what is not kept must not come back later: SQLite sees by its counter that the file changed
      throw e;
    }
    last = bytes;
    if (before) aside = "";
  }
  phone.flush = () => {
    const mine = undone;
    turn = turn.catch(() => {}).then(() => keep(mine));
    return turn;
  };
}

function mount(python, found) {
  phone.kept = found.kept;
  if (found.kept === "files") {
    const disk = mountFiles(python, FOLDER, found.handles);
    phone.flush = async () => disk.flushAll();
    phone.counts = () => disk.counts;
    phone.empty = found.handles.get(BASE).getSize() === 0;
  } else if (found.kept === "record") {
    phone.empty = !found.record.bytes;
    mountRecord(python, found.record);
  } else {
    phone.empty = true;
    python.FS.mkdirTree(FOLDER);
  }
  phone.evicted = phone.empty && Boolean(phone.mark.kept);
}

const ENVIRONMENT = { HOME: "/home/pyodide", PYDANTIC_DISABLE_PLUGINS: "__all__", FLET_APP_STORAGE_DATA: FOLDER };
const RUN = `
import sys
sys.path[:0] = ["/app", "/app/wheels"]
from entry import main
main()
`;

async function start({ url, place, mark, state }) {
  Object.assign(phone, { state, mark: mark ?? {} });
  step("python");
  if (!("DecompressionStream" in self)) throw new Trouble("old", "DecompressionStream");
  const parts = archive().catch((e) => { throw new Trouble("parts", e); }), found = store(place, phone.mark.kept);
  parts.catch(() => {}), found.catch(() => {}); // waited for below
  const python = await loadPyodide({ env: ENVIRONMENT });
  step("unpack");
  lay(python.FS, await parts, "/app");
  step("data");
  mount(python, await found);
  step("app");
  flet_js.documentUrl = url;
  flet_js.receive_callback = (packet) => {
    const bytes = packet.toJs();
    self.postMessage(bytes, [bytes.buffer]);
  };
  python.registerJsModule("flet_js", flet_js);
  python.registerJsModule("spanbook_phone", phone);
  await python.runPythonAsync(RUN);
  if (!flet_js.start_connection) return; // the app has told why it does not start
  await flet_js.start_connection(flet_js.receive_callback);
  self.postMessage({ ready: true });
}

function answered({ answer, said, refused }) {
  const { yes, no } = asked.get(answer);
  asked.delete(answer);
  if (refused) no(new Error(refused));
  else yes(said);
}

self.onmessage = ({ data }) => {
  if (data instanceof Uint8Array) return flet_js.send(data);
  if (data.start) return start(data.start).catch((e) => phone.trouble(e.kind ?? "app", "", String(e.message ?? e)));
  if (data.without) return without();
  if (data.answer) return answered(data);
  Object.assign(phone.state, data.state);
  phone.changed?.();
};
