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
    const timer = boil ? `${name} ${boil}` : name;
    log.add("timer", { timer, does: "start", minutes, name, boil: name === "boil" ? boil : 0,
      step: step.key, with: entry.id });
  }
  const boiled = day.timers.find((each) => each.boil && each.boil === step.boil);
  if (step.left_min === 0 && boiled) {
    log.add("timer", { timer: boiled.id, does: "stop", with: entry.id });
  }
  refresh();
}

// A step whose timer runs takes the timer with it: that is asked.
function untick(step, box) {
  const entry = day.said.get(step.key);
  const runs = day.timers.some((each) => step.starts && each.id.startsWith(step.starts.name));
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
    log.add("left out", { step: step.key, reason: why.value.trim() });
    form.remove();
    refresh();
    goOn();
  });
  item.querySelector(".act").after(form);
  why.focus();
}

// To the step that is now the one to do.
function goOn() {
  const item = stepItems().find((each) => each.classList.contains("now"));
  if (!item) return;
  item.querySelector(".act .main").focus({ preventScroll: true });
  const calm = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
  item.scrollIntoView({ block: "start", behavior: calm ? "auto" : "smooth" });
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
    item.querySelector(".came").textContent = said === undefined ? "" : howItCame(said);
  }
  const count = page.steps.filter((each) => day.said.has(each.key)).length;
  document.getElementById("progress").textContent = day.now
    ? say("progress", { number: count + 1, count: page.steps.length })
    : say("all_done");
}

function howItCame(said) {
  const time = clockTime(said.wall);
  if (said.what === "done") return say("done_at", { time });
  const { reason } = said.values;
  return reason ? say("left_out_because", { time, reason }) : say("left_out_at", { time });
}
