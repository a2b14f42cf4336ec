"use strict";
// Shows one screen at a time, keeps ticks, finds parts, and lets drawings be zoomed and moved.
// Without it the page is one long text with the same words, tables and drawings. All but the first screen wait as text
// in a <noscript>, and become part of the page when they are first shown or printed. This runs as soon as the first
// screen is there: a long page can be used while the rest of it is still being read.

const root = document.documentElement;
root.classList.add("scripted");
start();

function start() {
  const kept = keptValues(`nesting ${document.body.dataset.mark}`);
  setUpShade(kept);
  const ticks = setUpTicks(kept);
  const fill = filling(ticks);
  setUpFinder(fill);
  setUpScreens(fill);
  whenAllIsRead(() => {
    allScreens().forEach(ticks.count);
    root.classList.add("ready");
  });
}

function allScreens() {
  return [...document.querySelectorAll("main > section")];
}

function whenAllIsRead(act) {
  if (document.readyState !== "loading") act();
  else document.addEventListener("DOMContentLoaded", act);
}

// Hands on a screen as soon as it is there as a whole.
function whenRead(key, act) {
  const section = document.getElementById(key)?.closest("main > section");
  if (document.readyState !== "loading" || section?.nextElementSibling) act(section);
  else setTimeout(() => whenRead(key, act), 30);
}

// --- What outlives the page. A browser may refuse to keep anything for a file: then ticks last until it is closed.

function keptValues(name) {
  let values = {};
  let lasting = true;
  try {
    const read = JSON.parse(localStorage.getItem(name));
    if (read && typeof read === "object") values = read;
    localStorage.setItem(name, JSON.stringify(values));
  } catch {
    lasting = false;
  }
  return {
    lasting,
    get: (key) => values[key],
    set(key, value) {
      values[key] = value;
      if (!value) delete values[key];
      try {
        localStorage.setItem(name, JSON.stringify(values));
      } catch {
        // Nothing to be done: the tick still shows.
      }
    },
  };
}

// --- What a screen holds is put into it once, before it is first seen.

function filling(ticks) {
  const filled = new Set();
  return (section) => {
    if (filled.has(section)) return;
    filled.add(section);
    const waiting = section.querySelector(":scope > noscript");
    if (waiting) {
      waiting.insertAdjacentHTML("beforebegin", waiting.textContent);
      waiting.remove();
    }
    ticks.show(section);
    addPrinting(section);
    const field = section.querySelector("#find");
    if (field) field.closest("p").hidden = false;
  };
}

// --- Screens: one at a time, by the bar, by links, and by the browser's own back and forward.

function setUpScreens(fill) {
  const bar = document.querySelector(".bar");
  const choice = document.getElementById("screen");
  const [previous, next] = [document.getElementById("previous"), document.getElementById("next")];
  const first = document.querySelector("main > section");
  const links = [...first.querySelectorAll(".contents a")];
  const keys = [first.id, ...links.map((link) => link.hash.slice(1))];
  choice.add(new Option(first.dataset.short, first.id));
  for (const link of links) choice.add(new Option(link.dataset.short, link.hash.slice(1)));

  const place = () => keys.indexOf(choice.value);
  const show = (section) => {
    fill(section);
    document.querySelector(".current")?.classList.remove("current");
    section.classList.add("current");
    choice.value = section.id;
    previous.disabled = place() === 0;
    next.disabled = place() === keys.length - 1;
    section.querySelectorAll("figure:not([data-zooms])").forEach(setUpDrawing);
  };
  const follow = () => {
    const wanted = decodeURIComponent(location.hash.slice(1));
    if (!wanted) show(first);
    else whenRead(wanted, (section) => section && arrive(section, wanted));
  };
  const arrive = (section, wanted) => {
    if (wanted !== decodeURIComponent(location.hash.slice(1))) return; // another was chosen meanwhile
    show(section);
    scrollTo(0, 0);
    (section.querySelector("#find") || section.querySelector("h2")).focus({ preventScroll: true });
  };

  previous.addEventListener("click", () => { location.hash = keys[place() - 1]; });
  next.addEventListener("click", () => { location.hash = keys[place() + 1]; });
  choice.addEventListener("change", () => { location.hash = choice.value; });
  document.getElementById("to-finder").addEventListener("click", () => document.getElementById("find")?.focus());
  addEventListener("hashchange", follow);
  addEventListener("beforeprint", () => {
    if (!root.classList.contains("alone")) allScreens().forEach(fill);
  });
  bar.hidden = false;
  show(first);
  if (location.hash) follow();
}

function addPrinting(section) {
  const tools = document.createElement("div");
  tools.className = "tools";
  tools.append(button("Print this", "Print this screen alone", () => {
    root.classList.add("alone");
    addEventListener("afterprint", () => root.classList.remove("alone"), { once: true });
    print();
  }));
  section.append(tools);
}

function button(words, label, press) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = words;
  made.setAttribute("aria-label", label);
  made.addEventListener("click", press);
  return made;
}

// --- Dark or light: as the device has it, until the button says otherwise.

function setUpShade(kept) {
  const shade = document.getElementById("shade");
  const dark = () => root.classList.contains("dark")
    || (!root.classList.contains("light") && matchMedia("(prefers-color-scheme: dark)").matches);
  const paint = (name) => {
    root.classList.remove("dark", "light");
    if (name) root.classList.add(name);
    shade.setAttribute("aria-pressed", String(dark()));
  };
  paint(kept.get("shade"));
  shade.addEventListener("click", () => {
    const name = dark() ? "light" : "dark";
    kept.set("shade", name);
    paint(name);
  });
}

// --- Ticks: what is bought, cut, bevelled, glued.

function setUpTicks(kept) {
  const counts = new Map();
  const count = (section) => {
    if (!section.dataset.ticks) return;
    if (!counts.has(section)) counts.set(section, counting(kept, section));
    counts.get(section)();
  };
  const mark = (box, section) => {
    const shape = section.querySelector(`svg .piece > [data-name="${CSS.escape(box.dataset.tick.replace("piece ", ""))}"]`);
    box.closest("tr").classList.toggle("done", box.checked);
    if (shape) shape.parentNode.classList.toggle("done", box.checked);
  };
  document.addEventListener("change", ({ target: box }) => {
    if (!box.dataset.tick) return;
    const section = box.closest("main > section");
    kept.set(box.dataset.tick, box.checked);
    mark(box, section);
    count(section);
  });
  if (!kept.lasting) {
    const note = document.createElement("p");
    note.textContent = "This browser keeps nothing for this page: ticks last until it is closed.";
    document.querySelector("main > section").append(note);
  }
  return {
    count,
    show(section) {
      count(section);
      for (const box of section.querySelectorAll("input[data-tick]")) {
        box.checked = Boolean(kept.get(box.dataset.tick));
        if (box.checked) mark(box, section);
      }
    },
  };
}

function counting(kept, section) {
  const names = JSON.parse(section.dataset.ticks);
  const told = document.createElement("p");
  told.className = "progress";
  told.setAttribute("role", "status");
  section.querySelector("h2").after(told);
  const link = document.querySelector(`.contents a[href="#${CSS.escape(section.id)}"]`);
  const heading = link.textContent;
  return () => {
    const done = names.filter((name) => kept.get(name)).length;
    told.textContent = `${done} of ${names.length} done`;
    link.textContent = `${heading} (${done} of ${names.length})`;
  };
}

// --- The part finder.

function setUpFinder(fill) {
  document.addEventListener("input", ({ target: field }) => {
    if (field.id !== "find") return;
    const words = field.value.toLowerCase().split(/\s+/);
    for (const row of document.querySelectorAll("#pieces tbody tr")) {
      const text = row.textContent.toLowerCase();
      row.hidden = !words.every((word) => text.includes(word));
    }
  });
  document.addEventListener("click", ({ target }) => {
    const link = target.closest("a[data-shows]");
    if (!link) return;
    whenRead(decodeURIComponent(link.hash.slice(1)), (section) => {
      fill(section);
      pointOut(link.dataset.shows);
    });
  });
}

function pointOut(piece) {
  for (const other of document.querySelectorAll(".found")) other.classList.remove("found");
  const line = document.querySelector(`svg .piece > [data-name="${CSS.escape(piece)}"]`);
  if (line) line.parentNode.classList.add("found");
}

// --- Drawings: zoom by wheel, by two fingers, by buttons and keys; move by dragging and by arrow keys.

const CLOSEST = 16; // times as large as the whole
const STEP = 1.5; // one press of a button or key

let lastScroll = 0;
addEventListener("scroll", () => { lastScroll = Date.now(); }, { passive: true });

function setUpDrawing(figure) {
  const svg = figure.querySelector("svg");
  const frame = document.createElement("div");
  frame.className = "frame";
  frame.tabIndex = 0;
  frame.setAttribute("role", "group");
  frame.setAttribute("aria-label", "Drawing: plus and minus zoom, arrows move, 0 shows the whole");
  svg.before(frame);
  frame.append(svg);
  figure.dataset.zooms = "";

  const view = viewOf(svg, frame);
  const middle = () => {
    const box = svg.getBoundingClientRect();
    return [box.left + box.width / 2, box.top + box.height / 2];
  };
  const larger = () => view.zoom(STEP, ...middle());
  const smaller = () => view.zoom(1 / STEP, ...middle());
  const keys = {
    "+": larger, "=": larger, "-": smaller, 0: view.whole,
    ArrowLeft: () => view.move(60, 0), ArrowRight: () => view.move(-60, 0),
    ArrowUp: () => view.move(0, 60), ArrowDown: () => view.move(0, -60),
  };
  frame.addEventListener("keydown", (event) => {
    const act = keys[event.key];
    const arrow = event.key.startsWith("Arrow");
    if (!act || event.ctrlKey || event.altKey || event.metaKey || (arrow && !view.zoomed())) return;
    event.preventDefault();
    act();
  });
  frame.addEventListener("wheel", (event) => zoomByWheel(event, view), { passive: false });
  followFingers(frame, view);

  const tools = document.createElement("div");
  tools.className = "tools";
  tools.append(
    button("+", "Larger", larger), button("−", "Smaller", smaller), button("Whole", "Show the whole drawing", view.whole),
  );
  frame.after(tools);
}

function viewOf(svg, frame) {
  const box = svg.viewBox.baseVal;
  const all = { x: box.x, y: box.y, width: box.width, height: box.height };
  const now = { ...all };
  const between = (low, value, high) => Math.min(Math.max(value, low), high);
  const perPixel = () => now.width / svg.getBoundingClientRect().width;
  const draw = () => {
    now.x = between(all.x, now.x, all.x + all.width - now.width);
    now.y = between(all.y, now.y, all.y + all.height - now.height);
    svg.setAttribute("viewBox", `${now.x} ${now.y} ${now.width} ${now.height}`);
    frame.classList.toggle("zoomed", zoomed());
  };
  const zoomed = () => now.width < all.width * 0.999;
  return {
    zoomed,
    whole() {
      Object.assign(now, all);
      draw();
    },
    move(right, down) {
      now.x -= right * perPixel();
      now.y -= down * perPixel();
      draw();
    },
    zoom(factor, clientX, clientY) {
      const seen = svg.getBoundingClientRect();
      const [across, down] = [(clientX - seen.left) / seen.width, (clientY - seen.top) / seen.height];
      const width = between(all.width / CLOSEST, now.width / factor, all.width);
      const height = (width * all.height) / all.width;
      now.x += across * (now.width - width);
      now.y += down * (now.height - height);
      Object.assign(now, { width, height });
      draw();
    },
  };
}

// A wheel that is scrolling the page goes on scrolling it when the drawing comes under the pointer.
function zoomByWheel(event, view) {
  const turned = event.deltaY * (event.deltaMode === 1 ? 16 : 1);
  const scrolling = !event.ctrlKey && Date.now() - lastScroll < 250;
  if (scrolling || (turned > 0 && !view.zoomed() && !event.ctrlKey)) return;
  event.preventDefault();
  view.zoom(Math.exp(-turned / 400), event.clientX, event.clientY);
}

function followFingers(frame, view) {
  const fingers = new Map();
  const middle = () => {
    const at = [...fingers.values()];
    const mean = (axis) => at.reduce((sum, finger) => sum + finger[axis], 0) / at.length;
    const gap = at.length > 1 ? Math.hypot(at[0].x - at[1].x, at[0].y - at[1].y) : 0;
    return { x: mean("x"), y: mean("y"), gap };
  };
  const lift = (event) => fingers.delete(event.pointerId);
  frame.addEventListener("pointerdown", (event) => {
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  });
  frame.addEventListener("pointermove", (event) => {
    if (!fingers.has(event.pointerId)) return;
    const before = middle();
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    const after = middle();
    if (before.gap && after.gap) view.zoom(after.gap / before.gap, after.x, after.y);
    if (view.zoomed()) view.move(after.x - before.x, after.y - before.y);
  });
  for (const end of ["pointerup", "pointercancel"]) addEventListener(end, lift);
}
