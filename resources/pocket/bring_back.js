// The log as a text that can be pasted: signs that no mail or message changes (A-Z and 2-7), their
// breaks and blanks without meaning, a check sum at the end, and which form it has in front.

const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

function base32(bytes) {
  let [held, bits, text] = [0, 0, ""];
  for (const byte of bytes) {
    held = (held << 8) | byte;
    bits += 8;
    while (bits >= 5) {
      bits -= 5;
      text += SIGNS[(held >>> bits) & 31];
    }
    held &= (1 << bits) - 1;
  }
  return bits > 0 ? text + SIGNS[(held << (5 - bits)) & 31] : text;
}

// CRC-32 as in ISO 3309 and ITU-T V.42.
function crc32(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
  }
  return (sum ^ 0xffffffff) >>> 0;
}

async function deflated(bytes) {
  const stream = new Blob([bytes]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// Times set right by later changes of the phone's clock, ids and order as they were written.
function brought(entries) {
  let shift = 0;
  const right = new Map();
  for (const each of [...entries].reverse()) {
    right.set(each.id, each.wall + shift);
    if (each.what === "clock") shift += each.values.shift_s;
  }
  return entries
    .filter((each) => each.what !== "clock")
    .map(({ id, what, values }) => [Number.parseInt(id, 10), right.get(id), what, values]);
}

async function pasteText() {
  const entries = brought(log.entries);
  const began = entries.length > 0 ? Math.floor(entries[0][1]) : 0;
  const rows = entries.map(([number, wall, what, values]) => {
    const named = { ...values };
    for (const key of ["entry", "with"]) if (key in named) named[key] = Number.parseInt(named[key], 10);
    return [number, Math.round((wall - began) * 10) / 10, what, named];
  });
  const { id: recipe, shown, document } = page;
  const all = { recipe, brewing: log.brewing, began, shown, rows, document };
  const plain = new TextEncoder().encode(JSON.stringify(all));
  const sum = crc32(plain);
  const packs = typeof CompressionStream === "function";
  const body = packs ? await deflated(plain) : plain;
  const bytes = new Uint8Array([...body, sum >>> 24, (sum >>> 16) & 255, (sum >>> 8) & 255, sum & 255]);
  const signs = `${packs ? "Z" : "P"}${base32(bytes)}`.replace(/.{30}/g, "$&\n");
  return `HOBWORT BREW 1\n${signs}\n0 END\n`;
}

function setUpBringBack() {
  const place = document.getElementById("code");
  document.getElementById("show-code").addEventListener("click", showCode);
  document.getElementById("copy-code").addEventListener("click", async () => {
    await showCode();
    place.focus();
    place.select();
    document.getElementById("code-says").textContent = (await copied(place.value))
      ? say("copied") : say("copy_by_hand");
  });
  document.getElementById("save-code").addEventListener("click", async () => {
    await showCode();
    const link = element("a");
    link.href = URL.createObjectURL(new Blob([place.value], { type: "text/plain" }));
    link.download = `${page.file}-${log.brewing}.txt`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    document.getElementById("code-says").textContent = say("saved");
  });
}

async function showCode() {
  const place = document.getElementById("code");
  place.value = await pasteText();
  place.closest(".coded").hidden = false;
}

// Only pages of a secure origin may use the clipboard by itself; others by what is marked.
async function copied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return document.execCommand("copy");
  }
}
