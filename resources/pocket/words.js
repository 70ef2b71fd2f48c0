// What the page holds of the recipe, and how words, times and numbers are written.

const page = JSON.parse(document.getElementById("recipe").textContent);

function say(id, parts = {}) {
  return page.words[id].replace(/\{(\w+)\}/g, (whole, name) => (name in parts ? parts[name] : whole));
}

const two = (number) => String(number).padStart(2, "0");

function clockTime(wall) {
  const at = new Date(wall * 1000);
  return `${two(at.getHours())}:${two(at.getMinutes())}`;
}

// A length of time as a clock counts it down: 2:42, 1:02:42. What is left is rounded up, so that
// 0:00 is the minute itself; below 0 it is how late it is, rounded down.
function counted(seconds) {
  const whole = seconds > 0 ? Math.ceil(seconds - 0.001) : Math.floor(-seconds);
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  return hours > 0 ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}

// The number that was typed, with a comma or a point; null where it is none.
function numberIn(typed) {
  const plain = typed.trim().replace(",", ".").replace("−", "-");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

function written(number, places) {
  const text = number.toFixed(places);
  return page.comma ? text.replace(".", ",") : text;
}

function element(kind, text = "", classes = "") {
  const made = document.createElement(kind);
  made.textContent = text;
  if (classes) made.className = classes;
  return made;
}

function buttonOf(text, act, classes = "") {
  const made = element("button", text, classes);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}
