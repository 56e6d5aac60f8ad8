// Time charts that zoom and pan. The picture moves at once; the server then draws the stretch anew, so that there is one way of
// drawing for page, print and report. Without this script the links above the charts do the same, a page at a time.

const hour = 3600e3;
const section = document.querySelector("[data-over-time]");
if (section) overTime(section);

function overTime(section) {
  const whole = { from: Number(section.dataset.from), to: Number(section.dataset.to) };
  const least = Math.min(hour, whole.to - whole.from);
  const charts = [...section.querySelectorAll("figure[data-chart] .plot")].map(plot => ({
    plot, path: plot.closest("figure").dataset.chart, near: false, asking: null,
  }));
  if (charts.length === 0) return;
  const isWide = matchMedia("(min-width: 768px)");
  const shown = readRange(drawingOf(charts[0]));
  let settle = 0;

  section.querySelector("[data-hint]").hidden = false;
  const words = section.querySelector("output");

  function sizeName() { return isWide.matches ? "wide" : "phone"; }
  function drawingOf(chart) { return chart.plot.querySelector("svg." + sizeName()); }

  function show(from, to) {
    const length = Math.min(Math.max(to - from, least), whole.to - whole.from);
    // Zooming keeps its middle when the least or the whole stretch is reached.
    const start = Math.min(Math.max((from + to - length) / 2, whole.from), whole.to - length);
    if (start === shown.from && start + length === shown.to) return;
    shown.from = start;
    shown.to = start + length;
    for (const chart of charts) moveAtOnce(drawingOf(chart), shown);
    clearTimeout(settle);
    settle = setTimeout(() => {
      rememberInAddress(shown, whole);
      for (const chart of charts) if (chart.near) redraw(chart);
    }, 140);
  }

  function zoom(factor, at = (shown.from + shown.to) / 2) {
    show(at - (at - shown.from) * factor, at + (shown.to - at) * factor);
  }

  function pan(share) {
    const length = shown.to - shown.from;
    const from = Math.min(Math.max(shown.from + share * length, whole.from), whole.to - length);
    show(from, from + length);
  }

  async function redraw(chart) {
    const drawing = drawingOf(chart), drawn = readRange(drawing);
    if (drawn.from === Math.round(shown.from) && drawn.to === Math.round(shown.to)) return;
    chart.asking?.abort();
    chart.asking = new AbortController();
    const ask = new URLSearchParams({ from: iso(shown.from), to: iso(shown.to), size: sizeName() });
    try {
      const answer = await fetch(`${chart.path}?${ask}`, { signal: chart.asking.signal });
      if (!answer.ok) return;
      const fresh = new DOMParser().parseFromString(await answer.text(), "image/svg+xml").documentElement;
      if (fresh.localName !== "svg") return;
      const adopted = document.importNode(fresh, true);
      drawing.replaceWith(adopted);
      moveAtOnce(adopted, shown);
      words.textContent = adopted.dataset.words;
    } catch (fault) {
      // A newer question took this one's place, or the server is away: the moved picture stays.
      if (fault.name !== "AbortError") console.warn(fault.message);
    }
  }

  const seen = new IntersectionObserver(entries => {
    for (const entry of entries) {
      const chart = charts.find(c => c.plot === entry.target);
      chart.near = entry.isIntersecting;
      if (chart.near) redraw(chart);
    }
  }, { rootMargin: "200px" });

  isWide.addEventListener("change", () => {
    for (const chart of charts) {
      moveAtOnce(drawingOf(chart), shown);
      if (chart.near) redraw(chart);
    }
  });

  for (const chart of charts) {
    seen.observe(chart.plot);
    const name = drawingOf(chart).querySelector("title").textContent;
    chart.plot.tabIndex = 0;
    chart.plot.setAttribute("role", "group");
    chart.plot.setAttribute("aria-label", `${name}: arrow keys move along the log, plus and minus zoom, nought shows it whole`);
    byKeys(chart.plot, { zoom, pan, all: () => show(whole.from, whole.to) });
    byPointers(chart.plot, { shown, show, zoom, timeAt: x => timeAt(drawingOf(chart), x, shown) });
  }

  const steps = {
    earlier: () => pan(-0.5), later: () => pan(0.5), closer: () => zoom(0.5), wider: () => zoom(2),
    whole: () => show(whole.from, whole.to),
  };
  for (const link of section.querySelectorAll("a[data-step]")) {
    link.addEventListener("click", event => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      steps[link.dataset.step]();
    });
  }
}

function byKeys(plot, { zoom, pan, all }) {
  plot.addEventListener("keydown", event => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const far = event.shiftKey ? 0.5 : 0.125;
    const act = {
      ArrowLeft: () => pan(-far), ArrowRight: () => pan(far), "+": () => zoom(0.5), "=": () => zoom(0.5),
      "-": () => zoom(2), "_": () => zoom(2), "0": all, Home: all,
    }[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  });
}

function byPointers(plot, { shown, show, zoom, timeAt }) {
  // The wheel belongs to the page until a chart was chosen, so that nobody gets stuck scrolling past one.
  plot.addEventListener("wheel", event => {
    if (!event.ctrlKey && document.activeElement !== plot) return;
    event.preventDefault();
    zoom(Math.exp(Math.sign(event.deltaY) * Math.min(Math.abs(event.deltaY), 120) / 300), timeAt(event.clientX));
  }, { passive: false });

  const held = new Map();
  plot.addEventListener("pointerdown", event => {
    if (event.button !== 0) return;
    held.set(event.pointerId, { x: event.clientX, time: timeAt(event.clientX) });
    plot.setPointerCapture(event.pointerId);
  });
  plot.addEventListener("pointermove", event => {
    const finger = held.get(event.pointerId);
    if (!finger || Math.abs(event.clientX - finger.x) < 1) return;
    finger.x = event.clientX;
    plot.classList.add("dragging");
    const [a, b] = [...held.values()];
    if (b) {
      // Two fingers: the moments under them stay under them.
      const scale = (b.time - a.time) / ((b.x - a.x) || 1);
      const box = plot.getBoundingClientRect(), left = timeAt(box.left), right = timeAt(box.right);
      const share = { from: (shown.from - left) / (right - left), to: (shown.to - left) / (right - left) };
      if (scale <= 0) return;
      const start = a.time - (a.x - box.left) * scale;
      show(start + share.from * box.width * scale, start + share.to * box.width * scale);
    } else {
      const shift = finger.time - timeAt(finger.x);
      show(shown.from + shift, shown.to + shift);
    }
  });
  for (const end of ["pointerup", "pointercancel"]) {
    plot.addEventListener(end, event => {
      held.delete(event.pointerId);
      for (const finger of held.values()) finger.time = timeAt(finger.x);
      if (held.size === 0) plot.classList.remove("dragging");
    });
  }
  plot.addEventListener("dblclick", event => zoom(0.5, timeAt(event.clientX)));
}

function readRange(drawing) {
  return { from: Number(drawing.dataset.from), to: Number(drawing.dataset.to) };
}

function timeAt(drawing, clientX, shown) {
  const box = drawing.getBoundingClientRect(), data = drawing.dataset;
  const x = (clientX - box.left) * drawing.viewBox.baseVal.width / box.width;
  return shown.from + (x - data.left) / (data.right - data.left) * (shown.to - shown.from);
}

function moveAtOnce(drawing, shown) {
  const drawn = readRange(drawing), left = Number(drawing.dataset.left), width = Number(drawing.dataset.right) - left;
  const scale = (drawn.to - drawn.from) / (shown.to - shown.from);
  const shift = left * (1 - scale) + (drawn.from - shown.from) / (shown.to - shown.from) * width;
  for (const part of drawing.querySelectorAll(".move")) part.setAttribute("transform", `translate(${shift} 0) scale(${scale} 1)`);
}

function rememberInAddress(shown, whole) {
  const address = new URL(location.href);
  address.searchParams.delete("from");
  address.searchParams.delete("to");
  if (shown.from > whole.from || shown.to < whole.to) {
    address.searchParams.set("from", iso(shown.from));
    address.searchParams.set("to", iso(shown.to));
  }
  history.replaceState(null, "", address);
}

function iso(time) { return new Date(Math.round(time)).toISOString(); }
