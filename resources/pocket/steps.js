// The steps to tick. They stand in the page as it was written; here they learn how they stand.

const open = new Set(); // keys of steps that were opened to read ahead, or shut

function stepItems() {
  return [...document.querySelectorAll(".step")];
}

function setUpSteps() {
  for (const item of stepItems()) {
    const step = stepOf.get(item.dataset.key);
    item.querySelector(".tick input").addEventListener("change", (event) => {
      if (event.target.checked) doStep(step);
      else untick(step, event.target);
    });
    item.querySelector(".what").addEventListener("click", () => {
      if (!open.delete(step.key)) open.add(step.key);
      showSteps();
    });
    const act = item.querySelector(".act");
    act.append(
      buttonOf(step.starts ? say("start_it", { minutes: minutesOf(step) }) : say("done"), () => {
        doStep(step);
        goOn();
      }, "main"),
      buttonOf(say("leave_out"), () => askWhy(item, step)),
    );
  }
}

function minutesOf(step) {
  return String(Math.round(step.starts.minutes));
}

function doStep(step) {
  if (day.said.has(step.key)) return;
  const entry = log.add("done", { step: step.key });
  if (step.starts) {
    const { name, minutes, boil } = step.starts;
    const timer = `${name} ${boil}`;
    log.add("timer", { timer, does: "start", kind: name, minutes, name: "", boil, with: entry.id });
  }
  for (const timer of day.timers.filter((each) => isEndedBy(step, each))) {
    log.add("timer", { timer: timer.id, does: "stop", with: entry.id });
  }
  endDay(entry);
  refresh();
}

// With the last step the day is over; taking that step's tick off takes the end back too.
function endDay(entry) {
  if (foldedDay(log.entries).now === null) log.add("finished", { with: entry.id });
}

function isEndedBy(step, timer) {
  const starts = step.starts ? step.starts.name : "";
  return step.ends.includes(timer.kind) && timer.kind !== starts && timer.boil === step.boil;
}

// A step whose timer runs takes the timer with it: that is asked.
function untick(step, box) {
  const entry = day.said.get(step.key);
  const runs = step.starts && timerOf(`${step.starts.name} ${step.starts.boil}`);
  if (runs && !window.confirm(say("untick_stops_timer"))) {
    box.checked = true;
    return;
  }
  log.add("takes back", { entry: entry.id });
  refresh();
}

function askWhy(item, step) {
  if (item.querySelector(".ask")) return;
  const form = element("form", "", "ask row");
  const label = element("label", say("why_left_out"));
  const why = element("input");
  why.type = "text";
  why.id = `why-${item.id}`;
  label.htmlFor = why.id;
  const leave = element("button", say("leave_it_out"), "main");
  form.append(label, why, leave, buttonOf(say("never_mind"), () => {
    form.remove();
    item.querySelector(".act button:last-of-type").focus();
  }));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    endDay(log.add("left out", { step: step.key, reason: why.value.trim() }));
    form.remove();
    refresh();
    goOn();
  });
  item.querySelector(".act").after(form);
  why.focus();
}

// To the step that is now the one to do.
function goOn() {
  const item = stepNow();
  if (!item) return;
  item.querySelector(".act .main").focus({ preventScroll: true });
  const calm = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
  bringIntoSight(item, calm ? "auto" : "smooth");
}

// Of a brew that is under way the step now is what is seen when the page is opened again.
function goOnWhereLeft() {
  const item = stepNow();
  if (item && day.live.some((each) => each.what === "done")) bringIntoSight(item, "auto");
}

function stepNow() {
  return stepItems().find((each) => each.classList.contains("now"));
}

function bringIntoSight(item, behavior) {
  const bar = document.getElementById("bar");
  document.documentElement.style.scrollPaddingTop = `${bar.offsetHeight + 8}px`;
  item.scrollIntoView({ block: "start", behavior });
}

function showSteps() {
  for (const item of stepItems()) {
    const { key } = item.dataset;
    const said = day.said.get(key);
    const isNow = day.now !== null && day.now.key === key;
    item.classList.toggle("done", said !== undefined && said.what === "done");
    item.classList.toggle("out", said !== undefined && said.what === "left out");
    item.classList.toggle("now", isNow);
    const shut = open.has(key) === isNow;
    item.classList.toggle("shut", shut);
    if (isNow) item.setAttribute("aria-current", "step");
    else item.removeAttribute("aria-current");
    item.querySelector(".what").setAttribute("aria-expanded", String(!shut));
    item.querySelector(".tick input").checked = said !== undefined && said.what === "done";
    item.querySelector(".came").textContent = said ? howItCame(said) : expected(key);
  }
  const count = page.steps.filter((each) => day.said.has(each.key)).length;
  document.getElementById("progress").textContent = day.now
    ? say("progress", { number: count + 1, count: page.steps.length })
    : say("all_done");
}

// When a step is expected, where the day runs some minutes early or late: those of a boil that runs
// go by its clock, all others follow the step done last.
function expected(key) {
  const step = stepOf.get(key);
  const last = day.live.filter((each) => each.what === "done").pop();
  const reached = last && stepOf.get(last.values.step);
  if (!reached || reached.on_day !== step.on_day) return "";
  const planned = last.wall + (step.minutes - reached.minutes) * 60;
  const boil = day.timers.find((each) => each.kind === "boil" && each.boil === step.boil);
  const held = boil && step.left_min !== null && step.fermenter === 0;
  const now = Date.now() / 1000;
  const wall = held ? now + leftOf(boil, now) - step.left_min * 60 : planned;
  return say("expected", { time: clockTime(wall) });
}

function howItCame(said) {
  const time = clockTime(said.wall);
  if (said.what === "done") return say("done_at", { time });
  const { reason } = said.values;
  return reason ? say("left_out_because", { time, reason }) : say("left_out_at", { time });
}
