// The timers at the head of the page, and what they call for.

const cards = new Map();
let called = "";

function timerName(timer) {
  const names = { boil: "boil", steep: "steep", stand: "stand", "kept hot": "kept_hot" };
  const name = timer.kind in names ? say(names[timer.kind]) : timer.name || say("timer");
  const several = day.timers.filter((each) => each.kind === timer.kind).length > 1;
  return several && timer.kind !== "free" ? `${name} ${timer.boil}` : name;
}

function cardOf(timer) {
  const card = element("div", "", "timer");
  const left = element("span", "", "left");
  left.setAttribute("role", "timer");
  const name = element("span", "", "of");
  const next = element("span", "", "next");
  const buttons = element("div", "", "row");
  buttons.hidden = true;
  const pause = buttonOf("", () => timerDoes(timer.id, runs(timer.id) ? "pause" : "resume"));
  const more = buttonOf(say("minute_more"), () => timerDoes(timer.id, "add", { minutes: 1 }));
  const set = buttonOf(say("set_it"), () => setTimer(timer.id));
  const stop = buttonOf(say("stop"), () => stopTimer(timer.id));
  const change = buttonOf("…", () => {
    buttons.hidden = !buttons.hidden;
    change.setAttribute("aria-expanded", String(!buttons.hidden));
  });
  change.setAttribute("aria-expanded", "false");
  buttons.append(more, set, stop);
  card.append(left, name, pause, change, next, buttons);
  document.getElementById("timers").append(card);
  return { card, left, name, next, buttons: [pause, change, more, set, stop] };
}

const timerOf = (id) => day.timers.find((each) => each.id === id);
const runs = (id) => timerOf(id).since !== null;

function timerDoes(id, does, values = {}) {
  log.add("timer", { timer: id, does, ...values });
  refresh();
}

function setTimer(id) {
  const left = numberIn(window.prompt(say("how_much_left"), "") || "");
  if (left !== null && left >= 0 && left <= 1440) timerDoes(id, "move", { to_left_min: left });
}

function stopTimer(id) {
  const left = leftOf(timerOf(id), Date.now() / 1000);
  if (left <= 0 || window.confirm(say("stop_timer", { name: timerName(timerOf(id)) }))) {
    timerDoes(id, "stop");
  }
}

// Cards follow the day: made and taken away when something was done, not each second.
function showTimers() {
  for (const [id, { card }] of cards) {
    if (!timerOf(id)) {
      card.remove();
      cards.delete(id);
    }
  }
  for (const timer of day.timers) {
    if (!cards.has(timer.id)) cards.set(timer.id, cardOf(timer));
    const card = cards.get(timer.id);
    const [pause, change, ...others] = card.buttons;
    const name = timerName(timer);
    card.name.textContent = name;
    pause.textContent = timer.since === null ? say("resume") : say("pause");
    change.setAttribute("aria-label", `${name}: ${say("change")}`);
    for (const each of [pause, ...others]) {
      each.setAttribute("aria-label", `${name}: ${each.textContent}`);
    }
  }
  tick();
}

// Each second, and whenever the page is seen again: only what counts is written anew.
function tick() {
  const wall = Date.now() / 1000;
  for (const timer of day.timers) showTimer(timer, cards.get(timer.id), wall);
  const calls = announcements(day, wall);
  showCall(calls, wall);
  ring(calls, wall);
  document.getElementById("bar").hidden = day.timers.length === 0;
}

function showTimer(timer, card, wall) {
  const left = leftOf(timer, wall);
  card.card.classList.toggle("over", left <= 0);
  card.left.textContent = left > 0 ? counted(left) : say("over", { time: counted(left) });
  card.next.textContent = underTimer(timer, left, wall);
}

function underTimer(timer, left, wall) {
  if (timer.since === null) return timer.kind === "boil" ? say("boil_paused") : say("paused");
  const next = additionsOf(timer).find((each) => !day.said.has(each.key));
  if (next && left > next.left_min * 60) {
    return say("next", { what: next.label, time: counted(left - next.left_min * 60) });
  }
  return left > 0 ? say("ends", { time: clockTime(wall + left) }) : "";
}

// What is called for is written once for each call, so that it is read out once.
function showCall(calls, wall) {
  const place = document.getElementById("call");
  const first = calls.find((each) => each.level === "due") || calls[0];
  const text = first ? callText(first) : "";
  const late = first && first.level === "due" && first.until < -30
    ? say("late", { time: counted(first.until) }) : "";
  document.title = first ? `${text} · ${page.title}` : page.title;
  const sign = `${text}|${first ? first.heard : ""}`;
  if (sign !== called) {
    called = sign;
    place.dataset.level = first ? first.level : "";
    place.textContent = text;
    showCallButtons(first);
  }
  document.getElementById("call-late").textContent = late;
}

function callText(call) {
  const name = timerName(call.timer);
  if (call.step === null) return say("time_is_up", { name });
  if (call.level === "due") return say("now", { what: call.step.label });
  return say("soon", { what: call.step.label, minutes: String(Math.ceil(SOON_S / 60)) });
}

function showCallButtons(call) {
  const place = document.getElementById("call-buttons");
  const late = element("span");
  late.id = "call-late";
  place.replaceChildren();
  if (call) addCallButtons(place, call);
  place.append(late);
}

function addCallButtons(place, call) {
  const { step, timer, about } = call;
  if (call.level === "due") {
    const act = step ? () => doStep(step) : () => timerDoes(timer.id, "stop");
    place.append(buttonOf(step ? say("done") : say("good"), act, "main"));
  }
  if (!call.heard) {
    place.append(buttonOf(say("heard"), () => timerDoes(timer.id, "confirm", { addition: about })));
  }
}

function setUpFreeTimer() {
  const form = document.getElementById("free-timer");
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const [minutes, name] = [form.elements.minutes, form.elements.name];
    const found = numberIn(minutes.value);
    const fine = found !== null && found > 0 && found <= 1440;
    minutes.setAttribute("aria-invalid", String(!fine));
    document.getElementById("free-timer-fault").textContent = fine ? "" : say("minutes_wanted");
    if (!fine) {
      minutes.focus();
      return;
    }
    const number = 1 + log.entries.filter((each) => each.values.does === "start").length;
    timerDoes(`free ${number}`, "start", {
      kind: "free",
      minutes: found,
      name: name.value.trim(),
      boil: 1,
    });
    form.reset();
  });
}
