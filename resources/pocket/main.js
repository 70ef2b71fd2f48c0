// Puts the page together, and lets it follow the clock and whoever looks at it again.

const log = new Log();
let day = foldedDay(log.entries);
const seen = { wall: Date.now(), up: performance.now() };

function refresh() {
  day = foldedDay(log.entries);
  showSteps();
  showTimers();
  showReadings();
  showNotes();
  showKept();
}

function showKept() {
  document.getElementById("not-kept").hidden = !log.isLoose;
  const [time, settled] = [log.kept, log.pending === 0 && !log.isLoose];
  document.getElementById("kept").textContent = time && settled ? say("kept", { time }) : "";
}

// The clock of the phone was put back, or went on while nothing ran: slept, or was set.
function heedClock() {
  const [wall, up] = [Date.now(), performance.now()];
  const jump = (wall - seen.wall - (up - seen.up)) / 1000;
  Object.assign(seen, { wall, up });
  if (day.timers.length === 0 || Math.abs(jump) < 5) return;
  if (jump < 0) {
    log.add("clock", { shift_s: jump });
    notice(say("clock_back", { time: counted(-jump) }));
    refresh();
  } else if (jump > 60) {
    const taken = notice(say("clock_forth", { time: counted(jump) }));
    taken.append(buttonOf(say("clock_was_set"), () => {
      log.add("clock", { shift_s: jump });
      taken.remove();
      refresh();
    }));
  }
}

// Entries of later than now: the clock was put back while the page was shut, nobody knows how far.
function heedClockAtStart() {
  const last = day.live[day.live.length - 1];
  if (last && last.wall > Date.now() / 1000 + 5 && day.timers.length > 0) {
    notice(say("clock_back_closed"));
  }
}

function notice(text) {
  const made = element("div", "", "notice");
  made.append(element("p", text), buttonOf(say("good"), () => made.remove()));
  document.getElementById("notices").append(made);
  return made;
}

function lookAgain() {
  heedClock();
  if (log.readAgain()) refresh();
  else tick();
  keepAwake();
}

function setUpTools() {
  const switches = { sound: "sound-on", awake: "awake-on" };
  const [toneBox, awakeBox] = Object.values(switches).map((id) => document.getElementById(id));
  toneBox.addEventListener("change", () => {
    sound.wanted = toneBox.checked;
  });
  document.getElementById("sound-try").addEventListener("click", () => {
    wakeSound();
    setTimeout(() => {
      tone(2);
      const sounds = sound.context !== null && sound.context.state === "running";
      document.getElementById("sound-says").textContent = sounds
        ? say("sound_tried") : say("no_sound");
    }, 150);
  });
  awakeBox.addEventListener("change", () => {
    awake.wanted = awakeBox.checked;
    if (awake.wanted) keepAwake();
    else letSleep();
  });
  document.getElementById("new-brew").addEventListener("click", () => {
    if (log.entries.length > 0 && !window.confirm(say("new_brew_asks"))) return;
    turnTo();
    window.scrollTo(0, 0);
  });
}

async function turnTo(brewing) {
  await log.turnTo(brewing);
  refresh();
  await showBrewings();
}

// All brewings of this recipe, the last begun first; one that is new is not begun yet.
async function showBrewings() {
  const choice = document.getElementById("brewings");
  const others = log.brewings.filter((each) => each !== log.brewing).reverse();
  const options = [];
  for (const brewing of [log.brewing, ...others]) {
    const wall = await log.begunAt(brewing);
    const text = wall === null
      ? say("new_brew") : new Date(wall * 1000).toLocaleString(page.language);
    const option = element("option", text);
    option.value = brewing;
    options.push(option);
  }
  choice.replaceChildren(...options);
  document.getElementById("earlier").hidden = others.length === 0;
}

function followPhone() {
  for (const event of ["pointerup", "keydown"]) {
    window.addEventListener(event, () => {
      wakeSound();
      keepAwake();
    });
  }
  document.addEventListener("visibilitychange", lookAgain);
  for (const event of ["focus", "pageshow"]) window.addEventListener(event, lookAgain);
  window.addEventListener("storage", lookAgain);
  setInterval(() => {
    heedClock();
    tick();
  }, 1000);
}

async function start() {
  await log.recover();
  day = foldedDay(log.entries);
  log.onkept = showKept;
  document.documentElement.classList.add("js");
  showCallButtons(null);
  setUpSteps();
  setUpReadings();
  setUpFreeTimer();
  setUpNotes();
  setUpBringBack();
  setUpTools();
  document.getElementById("brewings").addEventListener("change", (event) => {
    turnTo(event.target.value);
  });
  refresh();
  heedClockAtStart();
  sayAwake();
  followPhone();
  await showBrewings();
  goOnWhereLeft();
}

start();
