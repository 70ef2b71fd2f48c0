// Keeping the screen on, where the browser lets a page do that; where not, that is said.

const awake = { lock: null, wanted: true, refused: !("wakeLock" in navigator) };

async function keepAwake() {
  if (!awake.wanted || awake.lock || document.visibilityState !== "visible") return;
  if (!("wakeLock" in navigator)) return;
  try {
    awake.lock = await navigator.wakeLock.request("screen");
    awake.refused = false;
    awake.lock.addEventListener("release", () => {
      awake.lock = null;
      sayAwake();
    });
  } catch {
    awake.refused = true;
  }
  sayAwake();
}

async function letSleep() {
  if (awake.lock) await awake.lock.release();
}

function sayAwake() {
  const place = document.getElementById("awake-says");
  if (awake.refused) place.textContent = say("screen_not_kept");
  else place.textContent = awake.lock ? say("screen_kept") : say("screen_free");
}
