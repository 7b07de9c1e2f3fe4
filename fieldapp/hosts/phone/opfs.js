// SQLite on the durable files of the browser: an Emscripten file system over synchronous access handles of the origin's private
// file system. A handle can only be opened asynchronously, so the names are fixed and all are opened before Python runs.
//
// SQLite asks for a sync with fdatasync(), which Emscripten answers itself without telling any file system. The order that a
// commit rests on is therefore kept here: before one file is changed, every other changed one is flushed. So the journal is on
// the disk before the database is touched, and the database before the journal is emptied; emptying the journal is the commit
// and is flushed at once. Needs the rollback journal (journal_mode=DELETE or TRUNCATE), never WAL.
"use strict";

const ENOENT = 44, EACCES = 2, EIO = 29, EINVAL = 28, ENOSPC = 51; // as Emscripten numbers them
const FOLDER = 0o040777, FILE = 0o100666;
const TRIES = 20, PAUSE = 100; // a page that is just being left holds its handles a moment longer

// Chromium never answers a request whose handle was collected meanwhile (seen in 5 of 13 first starts): every handle is held.
const held = [];
const hold = (handle) => (held.push(handle), handle);

async function opened(folder, name) {
  for (let left = TRIES; ; left--) {
    try {
      const file = hold(await folder.getFileHandle(name, { create: true }));
      return await file.createSyncAccessHandle();
    } catch (e) {
      if (e.name !== "NoModificationAllowedError" || left === 0) throw e;
      await new Promise((go) => setTimeout(go, PAUSE));
    }
  }
}

// place: a folder of its own for each address of the app on one origin. Throws the browser's own error.
export async function takeFiles(place, names) {
  const root = hold(await navigator.storage.getDirectory());
  const folder = hold(await root.getDirectoryHandle(place, { create: true }));
  const handles = new Map();
  try {
    for (const name of names) handles.set(name, await opened(folder, name));
  } catch (e) {
    for (const handle of handles.values()) handle.close();
    throw e;
  }
  return handles;
}

class Disk {
  constructor(fs) {
    this.fs = fs;
    this.changed = new Set();
    this.counts = { flushes: 0, writes: 0 };
  }
  // What the browser refuses becomes an error number: an exception through SQLite would end Python itself.
  guard(act) {
    try {
      return act();
    } catch (e) {
      throw new this.fs.ErrnoError(e.name === "QuotaExceededError" ? ENOSPC : EIO);
    }
  }
  flush(handle) {
    this.counts.flushes++;
    handle.flush();
    this.changed.delete(handle);
  }
  change(handle, act) {
    return this.guard(() => {
      for (const other of [...this.changed]) if (other !== handle) this.flush(other);
      this.changed.add(handle);
      return act();
    });
  }
  cut(handle, size) {
    this.change(handle, () => {
      handle.truncate(size);
      if (size === 0) this.flush(handle);
    });
  }
  flushAll() {
    this.guard(() => [...this.changed].forEach((handle) => this.flush(handle)));
  }
}

function nodeOps(disk, closed) {
  const { fs } = disk;
  return {
    getattr(node) {
      const at = new Date(node.at ?? 0), size = node.handle ? disk.guard(() => node.handle.getSize()) : 4096;
      return { dev: 1, ino: node.id, mode: node.mode, nlink: 1, uid: 0, gid: 0, rdev: 0, size,
               atime: at, mtime: at, ctime: at, blksize: 4096, blocks: Math.ceil(size / 512) };
    },
    setattr(node, wanted) {
      if (wanted.mode != null) node.mode = wanted.mode;
      if (wanted.size != null) disk.cut(node.handle, wanted.size);
      node.at = Date.now();
    },
    lookup() {
      throw new fs.ErrnoError(ENOENT); // whatever exists is in the table of names already
    },
    mknod(parent, name, mode) {
      const handle = closed.get(name);
      if (!handle) throw new fs.ErrnoError(EACCES);
      closed.delete(name);
      return made(disk, parent, name, mode, handle, this);
    },
    unlink(parent, name) {
      const node = fs.lookupNode(parent, name);
      disk.cut(node.handle, 0);
      closed.set(name, node.handle);
    },
    readdir(node) {
      return [".", "..", ...Object.values(node.contents ?? {})];
    },
  };
}

function streamOps(disk) {
  return {
    read: (stream, buffer, offset, length, position) =>
      disk.guard(() => stream.node.handle.read(buffer.subarray(offset, offset + length), { at: position })),
    write(stream, buffer, offset, length, position) {
      disk.counts.writes++;
      stream.node.at = Date.now();
      const { handle } = stream.node;
      return disk.change(handle, () => handle.write(buffer.subarray(offset, offset + length), { at: position }));
    },
    llseek(stream, offset, whence) {
      const from = [0, stream.position, whence === 2 ? stream.node.handle.getSize() : 0][whence];
      if (from + offset < 0) throw new disk.fs.ErrnoError(EINVAL);
      return from + offset;
    },
    fsync(stream) {
      disk.guard(() => disk.flush(stream.node.handle));
      return 0;
    },
  };
}

function made(disk, parent, name, mode, handle, ops) {
  return Object.assign(disk.fs.createNode(parent, name, mode, 0), { handle, node_ops: ops, stream_ops: streamOps(disk) });
}

// handles: of takeFiles. An empty file counts as absent. Gives { flushAll, counts }.
export function mountFiles(python, folder, handles) {
  const disk = new Disk(python.FS), closed = new Map(handles), ops = nodeOps(disk, closed);
  python.FS.mkdirTree(folder);
  python.FS.mount({ mount: () => made(disk, null, "/", FOLDER, null, ops) }, {}, folder);
  const root = python.FS.lookupPath(folder).node;
  for (const [name, handle] of handles)
    if (handle.getSize() > 0) {
      made(disk, root, name, FILE, handle, ops);
      closed.delete(name);
    }
  return disk;
}
