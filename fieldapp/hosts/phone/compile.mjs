// node compile.mjs <pyodide.mjs> <bytecode.py> <folder>: byte-compile a folder with the very Python that will run it.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [, , pyodide, script, folder] = process.argv;
const { loadPyodide } = await import(pathToFileURL(pyodide));
const python = await loadPyodide({ stdout: () => {} });
python.FS.mkdir("/parts");
python.FS.mount(python.FS.filesystems.NODEFS, { root: folder }, "/parts");
python.runPython(readFileSync(script, "utf8"));
python.runPython("import pathlib; compile_folder(pathlib.Path('/parts'))");
process.exit(0);
