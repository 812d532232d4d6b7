// The preview: follows the spec, and keeps the place that is being read when a new print comes.
"use strict";

const said = document.getElementById("preview-said");
let shown = document.documentElement.dataset.version;
let wanted = shown;
let working = false;
// Whether the reader wants the messages open; null until they are opened or folded by hand.
let chosen = null;

// Headings by what they say, number apart: that stays when steps and marks are counted anew.
function headings() {
  const met = new Map();
  let part = "";
  return [...document.querySelectorAll("#preview-print :is(h1, h2, h3, h4)")].map((at) => {
    if (at.matches("h2")) part = at.id;
    const words = part + " " + at.textContent.replace(/[^\p{L}]+/gu, " ");
    met.set(words, (met.get(words) || 0) + 1);
    return { part: part, name: words + met.get(words), at: at, top: at.getBoundingClientRect().top };
  });
}

// The heading that is read under: the lowest in the upper half of the window, or above it.
function place() {
  const above = headings().filter((h) => h.top <= window.innerHeight / 2);
  return { heading: above.at(-1), y: window.scrollY };
}

function goTo(kept) {
  const now = headings();
  const same = kept.heading && (now.find((h) => h.name === kept.heading.name) || now.find((h) => h.part === kept.heading.part));
  window.scrollTo(0, same ? window.scrollY + same.top - kept.heading.top : kept.y);
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
    const messages = fresh[0].querySelector("details");
    if (messages && chosen !== null) messages.open = chosen;
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

document.addEventListener("click", (event) => {
  const messages = event.target.closest("#preview-said summary")?.parentElement;
  if (messages) chosen = !messages.open;
});

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
