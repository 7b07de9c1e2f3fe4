// Python's memory as it is after its first imports, kept in the phone: later starts lay it back instead of building it anew.
// Made once a version, in a thread of its own after a start, by a Python that has done nothing else: no job, no name is in it.
"use strict";
import { loadPyodide } from "./pyodide/pyodide.mjs";
import createPyodideModule from "./pyodide/pyodide.asm.mjs";
import { archive, lay } from "./tar.js";

const FOLDER = "/app", KEY = "memory";

// What is imported beforehand: all that a start needs, but for modules that bring machine code of their own (it is not part of the
// memory) and for ours, which need those.
const REMEMBER = `
import importlib, sys

class Later(Exception):
    """Not ImportError: a package that can do without a module must not learn to."""

class Stop:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in {"msgpack", "pydantic_core", "fieldapp", "measure", "entry", "flet_js", "spanbook_phone", "js", "pyodide_js"}:
            raise Later(name)

stop = Stop()
sys.meta_path.insert(0, stop)
sys.path[:0] = ["/app", "/app/wheels"]
for name in modules:
    try:
        importlib.import_module(name)
    except (Later, ImportError, AttributeError):
        pass
sys.meta_path.remove(stop)
del modules, name, stop, Stop, Later
`;

export const cacheOf = (place, version) => `spanbook-memory ${place.replace("spanbook ", "")} ${version}`;

// The memory of this version, or null.
export async function recalled(place, version) {
  if (!("caches" in self)) return null;
  const found = await caches.match(`/${KEY}`, { cacheName: cacheOf(place, version) });
  return found ? new Uint8Array(await found.arrayBuffer()) : null;
}

export async function forget(place, version) {
  if ("caches" in self) await caches.delete(cacheOf(place, version));
}

// A Python that begins with a memory. Its own loader makes room for a memory of the first size only, so room is made here.
export function begin(memory, options) {
  return loadPyodide({
    ...options,
    _loadSnapshot: memory,
    createPyodideModule: async (settings) => {
      const module = await createPyodideModule(settings);
      if (module.HEAP8.length < memory.length) module._malloc(memory.length);
      return module;
    },
  });
}

async function make({ place, version, modules }) {
  const python = await loadPyodide({ _makeSnapshot: true });
  lay(python.FS, await archive(), FOLDER);
  python.globals.set("modules", python.toPy(modules));
  python.runPython(REMEMBER);
  const memory = python.makeMemorySnapshot();
  const cache = await caches.open(cacheOf(place, version));
  await cache.put(`/${KEY}`, new Response(memory, { headers: { "Content-Type": "application/octet-stream" } }));
  return memory.length;
}

// Asked as a worker of its own: { make: { place, version, modules } }.
self.addEventListener("message", ({ data }) => {
  if (data.make) make(data.make).then((made) => self.postMessage({ made }), (e) => self.postMessage({ failed: String(e) }));
});
