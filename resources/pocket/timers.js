// Timers: reckoned from the wall clock at each look, so none is off after sleep or a restart.

const SOON_S = 120;

function timersOf(live) {
  const timers = new Map();
  for (const each of live) {
    if (each.what !== "timer") continue;
    const { timer: id, does } = each.values;
    if (does === "start") {
      timers.set(id, {
        id,
        kind: each.values.kind,
        name: each.values.name,
        boil: each.values.boil,
        length: each.values.minutes * 60,
        ran: 0,
        since: each.wall,
        heard: new Set(),
      });
      continue;
    }
    const timer = timers.get(id);
    if (!timer) continue;
    if (does === "confirm") timer.heard.add(each.values.addition);
    else if (does === "stop") timers.delete(id);
    else turn(timer, does, each);
  }
  return [...timers.values()];
}

function turn(timer, does, entry) {
  const running = timer.since !== null;
  if (running) timer.ran += entry.wall - timer.since;
  timer.since = running ? entry.wall : null;
  if (does === "pause") timer.since = null;
  if (does === "resume") timer.since = entry.wall;
  if (does === "add") timer.length = Math.max(timer.length + entry.values.minutes * 60, 0);
  if (does === "move") timer.ran = timer.length - entry.values.to_left_min * 60;
  if (timer.ran < timer.length) timer.heard.delete(""); // an end that lies ahead again
}

function leftOf(timer, wall) {
  return timer.length - timer.ran - (timer.since === null ? 0 : wall - timer.since);
}

// What goes into a boil, the next first.
function additionsOf(timer) {
  if (timer.kind !== "boil") return [];
  return page.steps
    .filter((each) => each.boil === timer.boil && each.left_min !== null && !each.starts)
    .sort((one, other) => other.left_min - one.left_min);
}

// All that wants to be said now: {id, level: "soon" or "due", late, timer, step, heard}.
function announcements(day, wall) {
  const found = [];
  for (const timer of day.timers) {
    const left = leftOf(timer, wall);
    for (const step of additionsOf(timer)) {
      if (day.said.has(step.key)) continue;
      const until = left - Math.min(step.left_min * 60, timer.length);
      if (until > (timer.since === null ? 0 : SOON_S)) continue;
      const level = until > 0 ? "soon" : "due";
      const about = `heard ${level} ${step.key}`;
      found.push({ about, level, until, timer, step, heard: timer.heard.has(about) });
    }
    const ends = found.some((each) => each.timer === timer && each.step && each.step.left_min === 0);
    if (left <= 0 && !ends) {
      const heard = timer.heard.has("");
      found.push({ about: "", level: "due", until: left, timer, step: null, heard });
    }
  }
  return found.sort((one, other) => one.until - other.until);
}
