// The log of a brewing: entries that only grow, kept by the browser at each event.
//
// Two pages of one recipe may be open at once: before each writing what lies in the browser is
// read again, and entries are joined by their ids.

const ROOM = `hobwort/${page.id}`;

class Log {
  constructor() {
    this.depot = new Depot();
    this.trouble = "";
    this.kept = "";
    this.pending = 0;
    this.onkept = () => {};
    this.entries = [];
    this._take(this._read(ROOM, null));
    this.entries = joined(this._stored());
  }

  // Take in what only the second keeping has: the browser was killed before it wrote the first.
  async recover() {
    await this.depot.open();
    const known = await this.depot.brewings(ROOM);
    if (known && known.turn >= this.turn) this._take(known);
    const found = await this.depot.entries(this._room());
    this.entries = joined(found, this._stored(), this.entries);
    if (found.length > 0) this._write(this._room(), this.entries);
    for (const each of this.entries) {
      if (!found.some((other) => other.id === each.id)) this._deposit(each);
    }
  }

  // Take another brewing up; without a name a new one begins.
  async turnTo(brewing = newToken()) {
    this.brewing = brewing;
    this.turn += 1;
    this.entries = joined(this._stored(), await this.depot.entries(this._room()));
    this._write(ROOM, this._brewings());
    this._deposit(null);
  }

  add(what, values = {}) {
    this.readAgain();
    if (this.entries.length === 0 && what !== "began") {
      const at = new Date();
      this.add("began", { start_min: 60 * at.getHours() + at.getMinutes(), shown: page.shown });
    }
    const number = 1 + Math.max(0, ...this.entries.map((each) => Number.parseInt(each.id, 10)));
    const id = `${String(number).padStart(6, "0")}-${this.brewing}`;
    const entry = { id, what, wall: Date.now() / 1000, values };
    this.entries.push(entry);
    if (!this.brewings.includes(this.brewing)) {
      this.brewings.push(this.brewing);
      this._write(ROOM, this._brewings());
    }
    this._write(this._room(), this.entries);
    this._deposit(entry);
    return entry;
  }

  // What another page of the same brewing has written meanwhile; true if there was anything.
  readAgain() {
    const before = `${this.brewing} ${this.entries.length}`;
    const known = this._read(ROOM, null);
    if (known && (known.turn > this.turn || this.entries.length === 0)) {
      if (known.brewing !== this.brewing) this.entries = [];
      this._take(known);
    }
    this.entries = joined(this._stored(), this.entries);
    return `${this.brewing} ${this.entries.length}` !== before;
  }

  // Whether nothing of what was ticked and typed would outlive this page.
  get isLoose() {
    const noDepot = this.depot.database === null || this.depot.trouble !== "";
    return this.trouble !== "" && noDepot;
  }

  async begunAt(brewing) {
    const room = `${ROOM}/${brewing}`;
    const found = joined(this._read(room, []), await this.depot.entries(room));
    return found.length > 0 ? found[0].wall : null;
  }

  _take(known) {
    const found = known || {};
    this.brewings = Array.isArray(found.brewings) ? found.brewings : [];
    this.brewing = typeof found.brewing === "string" ? found.brewing : newToken();
    this.turn = Number.isInteger(found.turn) ? found.turn : 0;
  }

  _brewings() {
    return { brewing: this.brewing, brewings: this.brewings, turn: this.turn };
  }

  _room() {
    return `${ROOM}/${this.brewing}`;
  }

  _stored() {
    const found = this._read(this._room(), []);
    return Array.isArray(found) ? found : [];
  }

  _deposit(entry) {
    this.pending += 1;
    this.depot.keep(ROOM, this._brewings(), entry, () => {
      this.pending -= 1;
      this.kept = clockTime(Date.now() / 1000);
      this.onkept();
    });
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

function joined(...many) {
  const all = new Map();
  for (const each of many.flat()) if (isEntry(each)) all.set(each.id, each);
  return [...all.values()].sort((one, other) => (one.id < other.id ? -1 : 1));
}

// What was damaged, or was written by something else, is passed over and stays where it lies.
function isEntry(found) {
  const { id, what, wall, values } = found || {};
  const texts = typeof id === "string" && typeof what === "string";
  return texts && /^\d+-/.test(id) && Number.isFinite(wall) && values instanceof Object;
}

function newToken() {
  const drawn = crypto.getRandomValues(new Uint8Array(5));
  return [...drawn].map((each) => each.toString(16).padStart(2, "0")).join("");
}
