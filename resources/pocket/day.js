// Where the brew stands, folded from its log and from nothing else.

const stepOf = new Map(page.steps.map((each) => [each.key, each]));

// Entries that count, corrected, their times set right where the phone's clock was changed.
function liveEntries(entries) {
  const taken = new Set();
  for (const each of [...entries].reverse()) {
    if (each.what === "takes back" && !taken.has(each.id)) taken.add(each.values.entry);
  }
  const corrections = new Map();
  const shifts = [];
  let shift = 0;
  for (const each of [...entries].reverse()) {
    shifts.unshift(shift);
    if (each.what === "clock") shift += each.values.shift_s;
  }
  const live = [];
  entries.forEach((each, place) => {
    if (taken.has(each.id) || taken.has(each.values.with) || each.what === "takes back") return;
    if (each.what === "corrects") {
      corrections.set(each.values.entry, each.values.values);
      return;
    }
    live.push({ ...each, wall: each.wall + shifts[place] });
  });
  return live.map((each) =>
    corrections.has(each.id)
      ? { ...each, values: { ...each.values, ...corrections.get(each.id) } }
      : each,
  );
}

function foldedDay(entries) {
  const live = liveEntries(entries);
  const said = new Map();
  const readings = new Map();
  const notes = [];
  for (const each of live) {
    if (each.what === "done" || each.what === "left out") said.set(each.values.step, each);
    if (each.what === "reading") readings.set(each.values.blank, each);
    if (each.what === "note") notes.push(each);
  }
  const now = page.steps.find((each) => !said.has(each.key)) || null;
  return { live, said, readings, notes, now, timers: timersOf(live) };
}
