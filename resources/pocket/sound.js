// A short tone that the page makes itself, and the phone's buzz. Browsers let a page sound only
// after it was touched, so the first touch or key wakes the sound.

const sound = { context: null, touched: false, wanted: true, last: 0 };

function wakeSound() {
  sound.touched = true;
  const Context = window.AudioContext || window.webkitAudioContext;
  if (!Context) return;
  if (!sound.context) sound.context = new Context();
  if (sound.context.state !== "running") sound.context.resume().catch(() => {});
}

function tone(count) {
  if (!sound.wanted || !sound.touched) return;
  if (navigator.vibrate) navigator.vibrate(Array(2 * count - 1).fill(180));
  const context = sound.context;
  if (!context || context.state !== "running") return;
  for (let beat = 0; beat < count; beat += 1) {
    const start = context.currentTime + 0.4 * beat;
    const [wave, volume] = [context.createOscillator(), context.createGain()];
    wave.frequency.value = 880;
    volume.gain.setValueAtTime(0, start);
    volume.gain.linearRampToValueAtTime(0.5, start + 0.02);
    volume.gain.setValueAtTime(0.5, start + 0.2);
    volume.gain.linearRampToValueAtTime(0, start + 0.25);
    wave.connect(volume).connect(context.destination);
    wave.start(start);
    wave.stop(start + 0.26);
  }
}

// "soon" sounds once, "due" again and again until it was heard or done.
const rung = new Set();
function ring(calls, wall) {
  const open = calls.filter((each) => !each.heard);
  if (open.some((each) => each.level === "due")) {
    if (Math.abs(wall - sound.last) >= 4) {
      sound.last = wall;
      tone(3);
    }
    return;
  }
  for (const each of open) {
    if (!rung.has(each.about)) {
      rung.add(each.about);
      tone(2);
    }
  }
}
