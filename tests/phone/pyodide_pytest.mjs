// node pyodide_pytest.mjs <pyodide.mjs> <project> <wheels folder> [pytest arguments]: the project's tests on the phone's own Python.
// The wheels folder holds the unpacked packages of wheels.txt and wheels-test.txt (see test_on_the_phones_python.py).
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const [, , pyodide, project, wheels, ...given] = process.argv;
const { loadPyodide } = await import(pathToFileURL(pyodide));
const python = await loadPyodide({ env: { HOME: "/home/pyodide", PYDANTIC_DISABLE_PLUGINS: "__all__", LANG: "C.UTF-8" } });
for (const [at, root] of [["/project", project], ["/wheels", wheels]]) {
  python.FS.mkdir(at);
  python.FS.mount(python.FS.filesystems.NODEFS, { root }, at);
}
python.globals.set("given", python.toPy(given));
const script = join(dirname(fileURLToPath(import.meta.url)), "pyodide_pytest.py");
try {
  process.exit(python.runPython(readFileSync(script, "utf8")));
} catch (e) {
  console.error(String(e.message ?? e)); // node itself would print a megabyte of source before it
  process.exit(3);
}
