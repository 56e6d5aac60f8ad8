// The drop form, better with script: files dropped anywhere on the page, progress while sending, a too large file refused before
// it is sent. And the nearest time zone chosen ahead from the device. All of it works without this script too.

const form = document.querySelector("form[data-drop]");
if (form) dropForm(form);
const zones = document.querySelector("select[data-zone]");
if (zones && zones.value === "") preselect(zones);

for (const entry of document.querySelectorAll("[data-step]")) stepper(entry);

// Big buttons beside an amount, for wet hands.
function stepper(entry) {
  const input = entry.querySelector("input"), step = Number(entry.dataset.step);
  for (const button of entry.querySelectorAll("[data-by]")) {
    button.hidden = false;
    button.addEventListener("click", () => {
      const now = Number(input.value.replace(",", ".")) || 0;
      input.value = String(Math.max(step, Math.round((now + Number(button.dataset.by) * step) * 100) / 100));
    });
  }
}

function dropForm(form) {
  const log = form.elements.log, area = log.closest(".drop");
  let depth = 0;
  addEventListener("dragenter", event => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    depth++;
    area.classList.add("over");
  });
  addEventListener("dragover", event => { if (carriesFiles(event)) event.preventDefault(); });
  addEventListener("dragleave", () => { if (--depth <= 0) leave(); });
  addEventListener("drop", event => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    leave();
    // Each file finds its own field by its name; what is left over is the log.
    for (const file of event.dataTransfer.files) {
      const field = /\.toml$/i.test(file.name) ? form.elements.place : /daybook/i.test(file.name) ? form.elements.daybook : log;
      const one = new DataTransfer();
      one.items.add(file);
      field.files = one.files;
    }
    if (log.files.length > 0) form.requestSubmit();
  });
  function leave() { depth = 0; area.classList.remove("over"); }

  form.addEventListener("submit", event => {
    event.preventDefault();
    const most = Number(form.dataset.most), file = log.files[0];
    if (file && file.size > most) {
      location.assign(form.action + "?problem=too-large");
      return;
    }
    send(form);
  });
}

function carriesFiles(event) { return event.dataTransfer?.types.includes("Files"); }

function send(form) {
  const line = form.querySelector("[data-progress]"), bar = line.querySelector("progress"), words = line.querySelector("span");
  const button = form.querySelector("button[type=submit]");
  const ask = new XMLHttpRequest();
  line.hidden = false;
  words.textContent = "Sending.";
  button.disabled = true;
  ask.upload.onprogress = event => {
    if (!event.lengthComputable) return;
    bar.value = event.loaded / event.total;
    words.textContent = event.loaded < event.total ? `Sent ${Math.floor(100 * event.loaded / event.total)} %.` : "Sent. Reading.";
  };
  ask.onload = () => {
    if (ask.status < 400 && ask.responseURL !== form.action) location.assign(ask.responseURL);
    else showAnswer(ask.responseText, form.action);
  };
  ask.onerror = () => {
    words.textContent = "The connection broke off. Nothing was kept; send it again.";
    button.disabled = false;
  };
  ask.open("POST", form.action);
  ask.send(new FormData(form));
}

// The server answered with the form again and its errors: show that answer in place.
function showAnswer(html, address) {
  const main = new DOMParser().parseFromString(html, "text/html").querySelector("main");
  if (!main) {
    location.assign(address);
    return;
  }
  document.querySelector("main").replaceWith(document.adoptNode(main));
  history.replaceState(null, "", address);
  document.querySelector(".errors")?.focus();
  const form = document.querySelector("form[data-drop]");
  if (form) dropForm(form);
}

function preselect(zones) {
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  if ([...zones.options].some(option => option.value === own)) zones.value = own;
}
