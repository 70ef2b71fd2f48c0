// What was measured, beside what was forecast; and notes.

function setUpReadings() {
  for (const place of document.querySelectorAll(".blank")) {
    const blank = page.blanks[place.dataset.blank];
    const [input, sample] = place.querySelectorAll("input");
    const keep = () => keepReading(place.dataset.blank, blank, input, sample);
    input.addEventListener("change", keep);
    if (sample) sample.addEventListener("change", keep);
    for (const each of [input, sample]) {
      if (each) each.addEventListener("keydown", (event) => takeByReturn(event, each));
    }
    for (const each of [input, sample]) {
      if (each) each.addEventListener("input", () => showDifference(place, blank, input, sample));
    }
  }
}

function takeByReturn(event, input) {
  if (event.key !== "Enter") return;
  event.preventDefault();
  input.blur();
}

function withUnit(typed, unit) {
  const text = typed.trim();
  return text && numberIn(text) !== null && unit ? `${text} ${unit}` : text;
}

function keepReading(id, blank, input, sample) {
  const kept = day.readings.get(id);
  const values = {
    blank: id,
    typed: withUnit(input.value, blank.unit),
    sample: sample ? withUnit(sample.value, page.degrees) : "",
  };
  const same = kept && kept.values.typed === values.typed && kept.values.sample === values.sample;
  if (same || (!kept && !values.typed)) return;
  if (!values.typed) log.add("takes back", { entry: kept.id });
  else if (kept) log.add("corrects", { entry: kept.id, values });
  else log.add("reading", { ...values, of: blank.of, step: blank.step });
  refresh();
}

// A gravity may be typed as 1.046, as 1046 or as 46.
function figureOf(blank, typed) {
  const number = numberIn(typed);
  if (number === null || blank.kind !== "gravity" || number < 2) return number;
  return number < 300 ? 1 + number / 1000 : number / 1000;
}

// What a reading is worth at the warmth of its sample, between the points of the page's table.
function atWarmth(shown, sample) {
  const { usual, temperatures, gravities, adds } = page.hydrometer;
  const warmth = numberIn(sample) ?? usual;
  const [low, up] = [placeIn(temperatures, warmth), placeIn(gravities, shown)];
  if (low === null || up === null) return shown;
  const across = (row) => row[up.at] + up.part * (row[up.at + 1] - row[up.at]);
  const [first, second] = [across(adds[low.at]), across(adds[low.at + 1])];
  return shown + first + low.part * (second - first);
}

// Between which points a value lies, and how far on; null beyond all of them.
function placeIn(points, value) {
  const at = points.findIndex((each, place) => each <= value && value <= points[place + 1]);
  return at < 0 ? null : { at, part: (value - points[at]) / (points[at + 1] - points[at]) };
}

function showDifference(place, blank, input, sample) {
  const said = place.querySelector(".diff");
  const typed = input.value.trim();
  const shown = figureOf(blank, typed);
  const figure = shown !== null && sample ? atWarmth(shown, sample.value) : shown;
  const odd = typed !== "" && figure === null && !/\d/.test(typed);
  input.setAttribute("aria-invalid", String(odd));
  if (odd) {
    said.textContent = say("no_number");
    return;
  }
  if (figure === null) {
    said.textContent = "";
    return;
  }
  const typedPlaces = (typed.split(/[.,]/)[1] || "").length;
  const places = blank.kind === "gravity" ? 3 : Math.max(blank.places, typedPlaces);
  const off = Number((figure - blank.value).toFixed(places));
  const sign = off < 0 ? "−" : "+";
  const told =
    off === 0 ? say("as_forecast") : `${sign}${written(Math.abs(off), places)} ${blank.unit}`;
  const moved = sample && Math.abs(figure - shown) >= 0.0005;
  said.textContent = moved ? `${say("corrected", { value: written(figure, 3) })} ${told}` : told;
}

function showReadings() {
  for (const place of document.querySelectorAll(".blank")) {
    const blank = page.blanks[place.dataset.blank];
    const kept = day.readings.get(place.dataset.blank);
    const [input, sample] = place.querySelectorAll("input");
    fill(input, kept ? kept.values.typed : "", blank.unit);
    if (sample) fill(sample, kept ? kept.values.sample : "", page.degrees);
    showDifference(place, blank, input, sample);
  }
}

// What is being typed is never written over.
function fill(input, typed, unit) {
  if (document.activeElement === input) return;
  const bare = unit && typed.endsWith(` ${unit}`) ? typed.slice(0, -unit.length - 1) : typed;
  if (input.value !== bare) input.value = bare;
}

function setUpNotes() {
  const form = document.getElementById("note-form");
  const text = form.elements.note;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (!text.value.trim()) return;
    log.add("note", { text: text.value.trim(), step: day.now ? day.now.key : "" });
    form.reset();
    refresh();
  });
}

function showNotes() {
  const list = document.getElementById("notes");
  list.replaceChildren(
    ...day.notes.map((each) => element("li", `${clockTime(each.wall)}  ${each.values.text}`)),
  );
}
