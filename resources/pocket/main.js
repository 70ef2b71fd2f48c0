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
  showBrewings();
  document.getElementById("not-kept").hidden = log.trouble === "";
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
    log.turnTo();
    refresh();
    window.scrollTo(0, 0);
  });
}

function showBrewings() {
  const choice = document.getElementById("brewings");
  const rows = log.brewings.map((brewing) => [brewing, log.entriesOf(brewing)[0]]);
  choice.replaceChildren(
    ...rows.map(([brewing, first]) => {
      const option = element("option", first ? new Date(first.wall * 1000).toLocaleString(page.language) : "");
      option.value = brewing;
      option.selected = brewing === log.brewing;
      return option;
    }),
  );
  document.getElementById("earlier").hidden = rows.length < 2;
}

document.documentElement.classList.add("js");
showCallButtons(null);
setUpSteps();
setUpReadings();
setUpFreeTimer();
setUpNotes();
setUpBringBack();
setUpTools();
document.getElementById("brewings").addEventListener("change", (event) => {
  log.turnTo(event.target.value);
  refresh();
});
refresh();
heedClockAtStart();
sayAwake();
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
