// Lays a tar archive out in Python's memory, straight from the bytes: quicker than unpacking it in Python.
"use strict";

const BLOCK = 512;
const text = new TextDecoder();

function field(header, from, length) {
  const bytes = header.subarray(from, from + length), end = bytes.indexOf(0);
  return text.decode(end < 0 ? bytes : bytes.subarray(0, end));
}

// The app's archive, whole.
export async function archive() {
  const answer = await fetch("app.tar.packed");
  if (!answer.ok) throw new Error(`app.tar.packed ${answer.status}`);
  return new Uint8Array(await new Response(answer.body.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer());
}

// archive: Uint8Array of a POSIX (ustar) archive; only plain files in it count
export function lay(fs, archive, folder) {
  const made = new Set();
  for (let at = 0; at + BLOCK <= archive.length && archive[at] !== 0; ) {
    const header = archive.subarray(at, at + BLOCK), size = parseInt(field(header, 124, 12), 8);
    const front = field(header, 345, 155), path = `${folder}/${front ? `${front}/` : ""}${field(header, 0, 100)}`;
    const parent = path.slice(0, path.lastIndexOf("/"));
    if (!made.has(parent)) made.add(parent), fs.mkdirTree(parent);
    fs.writeFile(path, archive.subarray(at + BLOCK, at + BLOCK + size), { canOwn: true });
    at += BLOCK + Math.ceil(size / BLOCK) * BLOCK;
  }
}
