// Keeps an open page true: the host tells which parts have changed, and those alone are fetched and put in place.
// A lost connection is said in words and taken up again by itself; a page that nobody sees rests.

const root = document.querySelector("[data-live]");
if (root) keep(root);

function keep(root) {
  const lost = root.querySelector("[data-lost]"), wall = root.dataset.live === "wall" ? "&view=wall" : "";
  let source = null, heard = Date.now(), latest = null, busy = false;

  function open() {
    if (source) source.close();
    source = new EventSource("/now/changes");
    source.addEventListener("open", back);
    source.addEventListener("beat", back);
    source.addEventListener("marks", event => {
      back();
      latest = JSON.parse(event.data);
      refresh();
    });
    source.addEventListener("error", say);
  }

  function back() {
    heard = Date.now();
    lost.hidden = true;
  }

  function say() {
    if (document.hidden) return;
    const at = new Date(heard).toTimeString().slice(0, 5);
    lost.textContent = `No word from Runnel since ${at}. What stands here may be old; it tries again by itself.`;
    lost.hidden = false;
  }

  async function refresh() {
    if (busy || !latest) return;
    busy = true;
    try {
      const parts = [...document.querySelectorAll("[data-part]")].filter(p => latest[p.dataset.part] && latest[p.dataset.part] !== p.dataset.mark && !inUse(p));
      if (parts.length === 0) return;
      const answer = await fetch(`/now/parts?names=${parts.map(p => p.dataset.part).join(",")}${wall}`);
      if (!answer.ok) return;
      const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
      for (const part of parts) {
        const other = fresh.getElementById(part.id);
        if (other && !inUse(part)) part.replaceWith(document.importNode(other, true));
      }
      if (fresh.title) document.title = fresh.title;
    } catch { say(); } finally { busy = false; }
  }

  // What someone is about to press must not move away under the finger, nor an open answer close.
  function inUse(part) {
    return part.contains(document.activeElement) && document.activeElement !== document.body || part.querySelector("details[open]") !== null;
  }

  // Nothing for so long, not even a beat: the line is dead though nobody said so.
  setInterval(() => {
    if (document.hidden) return;
    refresh();
    if (Date.now() - heard > 40000) {
      say();
      open();
    }
  }, 10000);
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) open();
    else if (source) source.close();
  });
  open();
}
