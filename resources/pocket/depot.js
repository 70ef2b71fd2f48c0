// A second keeping of the log. What a page puts into localStorage some browsers hold back for
// seconds (Chromium for up to five), and lose when they are killed; what a transaction of IndexedDB
// has completed is on the disk. Neither is certain to be there, so either is enough.

const WAIT_MS = 1500; // for a browser that never answers whether it keeps anything

class Depot {
  constructor() {
    this.database = null;
    this.trouble = "";
  }

  async open() {
    try {
      this.database = await inTime(
        new Promise((done, failed) => {
          const asked = indexedDB.open("hobwort", 1);
          asked.onupgradeneeded = () => {
            asked.result.createObjectStore("brewings");
            asked.result.createObjectStore("entries");
          };
          asked.onsuccess = () => done(asked.result);
          asked.onerror = () => failed(asked.error);
          asked.onblocked = () => failed(asked.error);
        }),
      );
      this.database.onversionchange = () => this.database.close();
    } catch (fault) {
      this.trouble = String(fault && fault.name);
    }
  }

  // What was kept of a recipe's brewings, and of the entries of one of them.
  async brewings(room) {
    return this._read("brewings", (store) => store.get(room), undefined);
  }

  async entries(room) {
    const all = IDBKeyRange.bound([room, ""], [room, "\uffff"]);
    return this._read("entries", (store) => store.getAll(all), []);
  }

  async _read(name, ask, otherwise) {
    if (this.database === null) return otherwise;
    try {
      return await inTime(
        new Promise((done, failed) => {
          const asked = ask(this.database.transaction(name).objectStore(name));
          asked.onsuccess = () => done(asked.result);
          asked.onerror = () => failed(asked.error);
        }),
      );
    } catch {
      return otherwise;
    }
  }

  // Keep an entry, and which brewings there are; `then` once both are on the disk.
  keep(room, brewings, entry, then) {
    if (this.database === null) {
      then();
      return;
    }
    try {
      const names = ["brewings", "entries"];
      const writing = this.database.transaction(names, "readwrite", { durability: "strict" });
      writing.objectStore("brewings").put(brewings, room);
      if (entry) {
        writing.objectStore("entries").put(entry, [`${room}/${brewings.brewing}`, entry.id]);
      }
      writing.oncomplete = () => {
        this.trouble = "";
        then();
      };
      writing.onabort = () => this._fail(writing.error, then);
    } catch (fault) {
      this._fail(fault, then);
    }
  }

  _fail(fault, then) {
    this.trouble = String((fault && fault.name) || "refused");
    then();
  }
}

function inTime(promise) {
  return Promise.race([
    promise,
    new Promise((done, failed) => setTimeout(() => failed(new Error("no answer")), WAIT_MS)),
  ]);
}
