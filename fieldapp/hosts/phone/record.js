// The second way to keep: the whole database as one record of IndexedDB, for browsers that refuse file handles.
// Written with strict durability and awaited. A stamp stands beside it, so that of two pages only one can write.
"use strict";

const SHELF = "kept", KEY = "database", ASIDE = "before";

function done(request) {
  return new Promise((yes, no) => {
    request.onsuccess = () => yes(request.result);
    request.onerror = () => no(request.error);
  });
}

async function opened(place) {
  const request = indexedDB.open(place, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(SHELF);
  return done(request);
}

export class Record {
  // place: name of the IndexedDB database. Throws the browser's own error where IndexedDB is refused.
  static async open(place) {
    const record = new Record();
    record.place = place;
    record.shelf = await opened(place);
    const found = await done(record.shelf.transaction(SHELF).objectStore(SHELF).get(KEY));
    record.stamp = found?.stamp ?? 0;
    record.bytes = found?.bytes ?? null;
    return record;
  }

  // bytes: Uint8Array, a whole database; before: what was set aside of an older one, or null. Resolves once they are on the disk.
  async keep(bytes, before = null) {
    try {
      await this.put(bytes, before);
    } catch (e) {
      if (e.name !== "InvalidStateError") throw e;
      this.shelf = await opened(this.place); // the browser lets go of its database after an error of the disk
      await this.put(bytes, before);
    }
  }

  put(bytes, before) {
    return new Promise((yes, no) => {
      const act = this.shelf.transaction(SHELF, "readwrite", { durability: "strict" }), shelf = act.objectStore(SHELF);
      let why = null;
      act.oncomplete = () => { this.stamp += 1; yes(); };
      act.onabort = () => no(why ?? act.error);
      const look = shelf.get(KEY);
      look.onsuccess = () => {
        if (!look.result || look.result.stamp === this.stamp) { // none: the browser threw it away, the whole is here
          if (before) shelf.put({ stamp: this.stamp, bytes: before }, ASIDE);
          return shelf.put({ stamp: this.stamp + 1, bytes }, KEY);
        }
        why = new DOMException("another page has kept since", "NoModificationAllowedError");
        act.abort();
      };
    });
  }
}
