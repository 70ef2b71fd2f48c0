// The log of a brewing: entries that only grow, kept by the browser at each event.
//
// Two pages of one recipe may be open at once: before each writing what lies in the browser is
// read again, and entries are joined by their ids.

const ROOM = `hobwort/${page.id}`;

class Log {
  constructor() {
    this.entries = [];
    this.trouble = "";
    const known = this._read(ROOM, {});
    this.brewings = Array.isArray(known.brewings) ? known.brewings : [];
    this.brewing = this.brewings.includes(known.brewing) ? known.brewing : this._newToken();
    this.entries = this._stored();
  }

  // Take another brewing up; without a name a new one begins.
  turnTo(brewing = this._newToken()) {
    this.brewing = brewing;
    this.entries = this._stored();
    this._write(ROOM, { brewing, brewings: this.brewings });
  }

  add(what, values = {}) {
    this.entries = this._joined();
    const number = 1 + Math.max(0, ...this.entries.map((each) => Number.parseInt(each.id, 10)));
    const id = `${String(number).padStart(6, "0")}-${this.brewing}`;
    const entry = { id, what, wall: Date.now() / 1000, values };
    this.entries.push(entry);
    if (!this.brewings.includes(this.brewing)) {
      this.brewings.push(this.brewing);
      this._write(ROOM, { brewing: this.brewing, brewings: this.brewings });
    }
    this._write(this._room(), this.entries);
    return entry;
  }

  // What another page of the same brewing has written meanwhile; true if there was anything.
  readAgain() {
    const before = this.entries.length;
    this.entries = this._joined();
    return this.entries.length !== before;
  }

  entriesOf(brewing) {
    const found = this._read(`${ROOM}/${brewing}`, []);
    return Array.isArray(found) ? found : [];
  }

  _room() {
    return `${ROOM}/${this.brewing}`;
  }

  _stored() {
    return this.entriesOf(this.brewing);
  }

  _joined() {
    const all = new Map();
    for (const each of [...this._stored(), ...this.entries]) all.set(each.id, each);
    return [...all.values()].sort((one, other) => (one.id < other.id ? -1 : 1));
  }

  _newToken() {
    const drawn = crypto.getRandomValues(new Uint8Array(5));
    return [...drawn].map((each) => each.toString(16).padStart(2, "0")).join("");
  }

  _read(room, otherwise) {
    try {
      const text = localStorage.getItem(room);
      return text === null ? otherwise : JSON.parse(text);
    } catch (fault) {
      this.trouble = String(fault && fault.name);
      return otherwise;
    }
  }

  _write(room, values) {
    try {
      localStorage.setItem(room, JSON.stringify(values));
      this.trouble = "";
    } catch (fault) {
      this.trouble = String(fault && fault.name);
    }
  }
}
