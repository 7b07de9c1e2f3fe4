"""Runs in the phone's own Python at packing time: turns every .py under /parts into a .pyc beside it, without docstrings.

Two folders lie there: `app`, and `python`, the sources of Python's own library.

Docstrings are a third of what the start has to read. A class keeps a blank one: a dataclass that has none computes its
signature as text at import, which is the dearest part of importing Flet.
"""

import ast
import importlib._bootstrap_external as external
import pathlib
import sys

PLACES = {"app": "/app/", "python": "/lib/python314.zip/"}
"""Where the folders lie on the phone, for what a mishap tells."""
FOLDERS = (ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef, ast.Module)


def _is_text(node: ast.stmt) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str)


def without_docstrings(tree: ast.Module) -> ast.Module:
    """The same code; asserts stay, and so does a text that stands anywhere but first."""
    for node in ast.walk(tree):
        if isinstance(node, FOLDERS) and node.body and _is_text(node.body[0]):
            blank = " " if isinstance(node, ast.ClassDef) else ""
            node.body[0].value.value = blank
    return tree


def compile_folder(root: pathlib.Path) -> int:
    """Bytes of all .py files that became .pyc. A file that this Python cannot read stays as it is."""
    done = 0
    for path in sorted(root.rglob("*.py")):
        source = path.read_bytes()
        try:
            tree = without_docstrings(ast.parse(source))
        except SyntaxError:
            continue
        top, _, inside = path.relative_to(root).as_posix().partition("/")
        code = compile(tree, PLACES[top] + inside, "exec", dont_inherit=True, optimize=0)
        packed = external._code_to_hash_pyc(code, b"\0" * 8, False)
        path.with_suffix(".pyc").write_bytes(packed)
        path.unlink()
        done += len(source)
    return done


if __name__ == "__main__":
    compile_folder(pathlib.Path(sys.argv[1]))
