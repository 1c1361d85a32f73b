"use strict";
(() => {
  const page = document.documentElement;
  const all = (query, within = document) => [...within.querySelectorAll(query)];
  const plan = document.getElementById("plan");
  const card = document.getElementById("card");
  const figures = all("figure");
  const state = { level: figures[0].dataset.level, shows: "proof" };
  const homes = new Map();
  const views = new Map();

  // Views: each picture is seen through its viewBox, so that lines stay sharp however close it comes.
  for (const figure of figures) {
    const box = figure.querySelector("svg").viewBox.baseVal;
    homes.set(figure, { x: box.x, y: box.y, w: box.width, h: box.height });
    views.set(figure, { ...homes.get(figure) });
  }
  const current = () => figures.find((figure) => figure.dataset.level === state.level && figure.dataset.shows === state.shows);

  function see(figure, view) {
    const home = homes.get(figure);
    const w = Math.min(home.w, Math.max(home.w / 24, view.w));
    const h = (w * home.h) / home.w;
    const within = (start, length, first, whole) => Math.min(first + whole - length * 0.25, Math.max(first - length * 0.75, start));
    const seen = w === home.w ? home : { x: within(view.x, w, home.x, home.w), y: within(view.y, h, home.y, home.h), w, h };
    views.set(figure, { ...seen });
    const svg = figure.querySelector("svg");
    svg.setAttribute("viewBox", `${seen.x} ${seen.y} ${seen.w} ${seen.h}`);
    svg.classList.toggle("closer", w < home.w);
  }

  // How many units of the picture a pixel of the screen is, and which unit lies under a place of the screen.
  function spot(figure, x, y) {
    const matrix = figure.querySelector("svg").getScreenCTM().inverse();
    return { x: matrix.a * x + matrix.c * y + matrix.e, y: matrix.b * x + matrix.d * y + matrix.f, unit: matrix.a };
  }

  function zoom(figure, factor, at) {
    const view = views.get(figure);
    const middle = at || { x: view.x + view.w / 2, y: view.y + view.h / 2 };
    see(figure, { x: middle.x - (middle.x - view.x) / factor, y: middle.y - (middle.y - view.y) / factor, w: view.w / factor });
  }

  function show() {
    for (const figure of figures) figure.hidden = figure !== current();
    for (const button of all("[data-level]", plan)) if (button.matches("button")) button.setAttribute("aria-pressed", String(button.dataset.level === state.level));
    for (const button of all("button[data-shows]", plan)) button.setAttribute("aria-pressed", String(button.dataset.shows === state.shows));
  }

  // Fingers, pointer, wheel and keys on the plan.
  const down = new Map();
  let moved = 0;
  function gesture(figure) {
    const svg = figure.querySelector("svg");
    svg.addEventListener("pointerdown", (event) => {
      if (down.size === 0) moved = 0;
      down.set(event.pointerId, { x: event.clientX, y: event.clientY });
    });
    svg.addEventListener("pointermove", (event) => {
      const before = down.get(event.pointerId);
      if (!before) return;
      const now = { x: event.clientX, y: event.clientY };
      const others = [...down].filter(([id]) => id !== event.pointerId).map(([, place]) => place);
      moved += Math.hypot(now.x - before.x, now.y - before.y);
      if (moved > 6 && !svg.hasPointerCapture(event.pointerId)) svg.setPointerCapture(event.pointerId);
      const closer = svg.classList.contains("closer");
      if (others.length) {
        const apart = (place) => Math.hypot(place.x - others[0].x, place.y - others[0].y) || 1;
        zoom(figure, apart(now) / apart(before), spot(figure, (now.x + others[0].x) / 2, (now.y + others[0].y) / 2));
      } else if (closer && moved > 6) {
        const unit = spot(figure, 0, 0).unit;
        const view = views.get(figure);
        see(figure, { ...view, x: view.x - (now.x - before.x) * unit, y: view.y - (now.y - before.y) * unit });
      }
      down.set(event.pointerId, now);
    });
    for (const end of ["pointerup", "pointercancel", "lostpointercapture"]) svg.addEventListener(end, (event) => down.delete(event.pointerId));
    svg.addEventListener("wheel", (event) => {
      event.preventDefault();
      zoom(figure, Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.0016)), spot(figure, event.clientX, event.clientY));
    }, { passive: false });
    svg.addEventListener("dragstart", (event) => event.preventDefault());
    svg.addEventListener("click", (event) => {
      event.preventDefault();
      const thing = event.target.closest("[data-thing]")?.dataset.thing ?? event.target.closest("[data-device]")?.dataset.device ?? nearest(figure, event.clientX, event.clientY);
      if (!thing || moved > 8) return;
      card.classList.toggle("at-left", event.clientX > innerWidth / 2);
      if (innerWidth <= 600) figure.scrollIntoView({ block: "start" });
      tell(thing);
    });
  }

  // A finger is broader than a symbol seen from afar: the nearest thing within its breadth is meant.
  function nearest(figure, x, y) {
    let [best, least] = [undefined, 24];
    for (const tap of all(".taps a", figure)) {
      const box = tap.getBoundingClientRect();
      const away = Math.hypot(Math.max(box.left - x, 0, x - box.right), Math.max(box.top - y, 0, y - box.bottom));
      if (away < least) [best, least] = [tap.dataset.thing, away];
    }
    return best;
  }

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") { if (!card.hidden) shut(); else large(false); }
  });

  // Facts of a thing: whatever the tables say of it.
  function element(name, words = "", attributes = {}) {
    const made = document.createElement(name);
    made.textContent = words;
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    return made;
  }

  function rowsAbout(thing) {
    return all("tr[data-things]").filter((row) => row.dataset.things.split(" ").includes(thing));
  }

  function facts(row, thing) {
    const heads = all("thead th", row.closest("table"));
    const list = document.createElement("dl");
    [...row.cells].forEach((cell, i) => {
      const words = cell.textContent.trim();
      if (!words || words === "—" || words === thing) return;
      const line = document.createElement("div");
      line.append(element("dt", heads[i].textContent), element("dd", words));
      list.append(line);
    });
    return list;
  }

  function tell(thing) {
    const rows = rowsAbout(thing);
    const shut_ = element("button", "✕", { type: "button", class: "close", "aria-label": "Close" });
    shut_.addEventListener("click", shut);
    card.replaceChildren(element("h2", thing), shut_);
    const lines = new Map();
    for (const row of rows) {
      const table = row.closest("table");
      const title = row.closest("details").querySelector("summary span").textContent;
      const own = row.dataset.things.split(" ")[0] === thing || row.closest("details").id === "findings";
      if (own && table.hasAttribute("data-in-full")) card.append(element("h3", title), facts(row, thing));
      else lines.set(title, [...(lines.get(title) ?? []), row]);
    }
    for (const [title, found] of lines) {
      const said = [...new Set(found.map((row) => row.cells[0].textContent.trim()))];
      card.append(element("h3", title), element("p", said.slice(0, 12).join(", ") + (said.length > 12 ? ` and ${said.length - 12} more` : "")));
    }
    if (!rows.length) card.append(element("p", "The tables say nothing of it."));
    for (const tap of all(".taps a")) tap.classList.toggle("chosen", tap.dataset.thing === thing);
    for (const row of all("tr.chosen")) row.classList.remove("chosen");
    for (const row of rows) row.classList.add("chosen");
    card.hidden = false;
    card.scrollTop = 0;
    card.focus({ preventScroll: true });
  }

  function shut() {
    card.hidden = true;
    const chosen = current().querySelector(".taps a.chosen");
    for (const tap of all(".chosen")) tap.classList.remove("chosen");
    if (chosen) chosen.focus({ preventScroll: true });
  }

  function lead(thing) {
    const tap = all(".taps a").find((one) => one.dataset.thing === thing || one.dataset.thing.startsWith(`${thing}/`));
    if (tap) {
      state.level = tap.closest("figure").dataset.level;
      show();
      const figure = current();
      const box = tap.firstElementChild.getBBox();
      const w = homes.get(figure).w / 3;
      see(figure, { x: box.x + box.width / 2 - w / 2, y: box.y + box.height / 2 - (w * homes.get(figure).h) / homes.get(figure).w / 2, w });
      plan.scrollIntoView({ block: "start" });
    }
    tell(thing);
  }

  function large(on) {
    plan.classList.toggle("large", on);
    plan.querySelector('[data-view="large"]').setAttribute("aria-pressed", String(on));
  }

  function dark(on) {
    page.classList.toggle("dark", on);
    plan.querySelector('[data-view="dark"]').setAttribute("aria-pressed", String(on));
  }

  const acts = {
    in: () => zoom(current(), 1.5),
    out: () => zoom(current(), 1 / 1.5),
    fit: () => see(current(), homes.get(current())),
    large: () => large(!plan.classList.contains("large")),
    dark: () => dark(!page.classList.contains("dark")),
  };
  plan.querySelector(".bar").addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    if (button.dataset.view) acts[button.dataset.view]();
    if (button.dataset.level) state.level = button.dataset.level;
    if (button.dataset.shows) state.shows = button.dataset.shows;
    show();
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-show]");
    if (!link) return;
    event.preventDefault();
    lead(link.dataset.show);
  });

  // The finder: only the rows that hold every word.
  const finder = document.querySelector(".finder");
  const found = document.querySelector(".found");
  finder.querySelector("input").addEventListener("input", (event) => {
    const words = event.target.value.toLowerCase().split(/\s+/).filter(Boolean);
    let count = 0;
    for (const table of all("main details")) {
      let here = 0;
      for (const row of all("tbody tr", table)) {
        const text = row.textContent.toLowerCase();
        row.hidden = !words.every((word) => text.includes(word));
        if (!row.hidden) here += 1;
      }
      table.hidden = words.length > 0 && here === 0;
      if (words.length) table.open = here > 0;
      count += here;
    }
    found.textContent = words.length ? `${count} rows found` : "";
  });

  let opened = [];
  addEventListener("beforeprint", () => {
    opened = all("details:not([open])");
    for (const table of opened) table.open = true;
    for (const figure of figures) figure.querySelector("svg").setAttribute("viewBox", Object.values(homes.get(figure)).join(" "));
  });
  addEventListener("afterprint", () => {
    for (const table of opened) table.open = false;
    for (const figure of figures) see(figure, views.get(figure));
  });

  plan.classList.add("live");
  plan.querySelector(".bar").hidden = false;
  finder.hidden = false;
  if (all("button[data-level]", plan).length < 2) all("button[data-level]", plan)[0].parentElement.hidden = true;
  figures.forEach(gesture);
  dark(matchMedia("(prefers-color-scheme: dark)").matches);
  show();
})();
