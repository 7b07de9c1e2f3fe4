// node compile.mjs <pyodide.mjs> <bytecode.py> <folder>: byte-compile a folder with the very Python that will run it.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [, , pyodide, script, folder] = process.argv;
const { loadPyodide } = await import(pathToFileURL(pyodide));
const python = await loadPyodide({ stdout: () => {}, env: { PYTHONHASHSEED: "0", PYTHONNODEBUGRANGES: "1" } }); // as LEAN of pack_archive.py
python.FS.mkdir("/parts");
python.FS.mount(python.FS.filesystems.NODEFS, { root: folder }, "/parts");
python.globals.set("__name__", "bytecode");
python.runPython(readFileSync(script, "utf8"));
python.runPython("compile_folder(pathlib.Path('/parts'))");
process.exit(0);
