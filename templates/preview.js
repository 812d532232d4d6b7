// The preview: follows the spec, and keeps the place that is being read when a new print comes.
"use strict";

const said = document.getElementById("preview-said");
let shown = document.documentElement.dataset.version;
let wanted = shown;
let working = false;

// The last heading or step above the middle of the upper half, and how far from the top it stands.
function place() {
  let best = null;
  for (const at of document.querySelectorAll("#preview-print [id]")) {
    const top = at.getBoundingClientRect().top;
    if (top > window.innerHeight / 4) break;
    if (top || at.getClientRects().length) best = { id: at.id, top: top };
  }
  return { best: best, y: window.scrollY };
}

function goTo(kept) {
  const at = kept.best && document.getElementById(kept.best.id);
  window.scrollTo(0, at ? window.scrollY + at.getBoundingClientRect().top - kept.best.top : kept.y);
}

async function renew() {
  if (working || wanted === shown) return;
  working = true;
  try {
    const answer = await fetch("./");
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const fresh = ["preview-said", "preview-print"].map((id) => document.importNode(page.getElementById(id), true));
    // Drawings are read first: until then they have no height, and everything below them would jump.
    await Promise.all(fresh.flatMap((part) => [...part.querySelectorAll("img")]).map((img) => img.decode().catch(() => null)));
    const kept = place();
    for (const part of fresh) document.getElementById(part.id).replaceWith(part);
    const style = page.querySelector("head style");
    if (style) document.querySelector("head style").textContent = style.textContent;
    document.title = page.title;
    goTo(kept);
    shown = page.documentElement.dataset.version;
    document.documentElement.dataset.version = shown;
    state("");
  } finally {
    working = false;
  }
  if (wanted !== shown) setTimeout(renew, 200);
}

function state(words) {
  document.getElementById("preview-state").textContent = words;
}

const news = new EventSource("events");
news.addEventListener("busy", () => state("working it out …"));
news.addEventListener("version", (event) => {
  wanted = event.data;
  if (wanted === shown) state("");
  renew();
});
news.onerror = () => state("the preview has ended: this is how it stood");
