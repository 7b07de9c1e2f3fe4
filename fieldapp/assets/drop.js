// A file that is dragged over the page: where it can be let go is shown, and what is let go comes in by the file picker's own way.
// It serves the page of a server and the phone alone; files of any picker of job files are held to the same size and kind here.
"use strict";
(() => {
  const MOST = 30 * 1024 * 1024; // bytes of all files at once: they travel as one message
  const JOB_FILE = /\.json(\.txt)?$/i, KEY = "F24", PATIENCE = 10000, AWAY = 200;
  let waiting = null, late = 0, leaving = 0;

  function words() {
    const own = document.documentElement.dataset.drop;
    return own ?? JSON.parse(document.getElementById("words")?.textContent ?? "{}").drop ?? "";
  }

  // The app wears the theme that was chosen in it, whatever the device wears: its ground is looked up at a lower corner of its picture,
  // where nothing stands. A browser that lets nobody look gets the device's own.
  function inShade() {
    const board = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
    const roots = [document, ...[...document.querySelectorAll("flt-glass-pane")].map((pane) => pane.shadowRoot)].filter(Boolean);
    for (const picture of roots.flatMap((root) => [...root.querySelectorAll("canvas")])) {
      if (picture.width < 8 || picture.height < 8) continue;
      board.clearRect(0, 0, 1, 1);
      board.drawImage(picture, 2, picture.height - 3, 1, 1, 0, 0, 1, 1);
      const [red, green, blue, whole] = board.getImageData(0, 0, 1, 1).data;
      if (whole === 255) return red + green + blue < 384;
    }
    return matchMedia("(prefers-color-scheme: dark)").matches;
  }

  function wear(box) {
    const [ink, paper] = inShade() ? ["#F5F0E3", "#14181A"] : ["#14191C", "#FAF7EE"];
    Object.assign(box.style, { border: `4px dashed ${ink}`, outline: `8px solid ${paper}`, background: paper, color: ink });
  }

  function frame() {
    let box = document.getElementById("drop");
    if (box) return box;
    box = document.createElement("div");
    box.id = "drop";
    box.setAttribute("role", "status");
    box.setAttribute("aria-live", "assertive");
    Object.assign(box.style, {
      position: "fixed", inset: "8px", zIndex: "2147483646", display: "none", alignItems: "center", justifyContent: "center", textAlign: "center",
      padding: "24px", boxSizing: "border-box", pointerEvents: "none",
      font: "700 24px/1.3 Spanbook, sans-serif",
    });
    document.body.append(box);
    return box;
  }

  function show(on) {
    clearTimeout(leaving);
    if (!on && !document.getElementById("drop")) return;
    const box = frame();
    if ((box.style.display !== "none") === on) return;
    if (on) wear(box);
    box.style.display = on ? "flex" : "none";
    box.textContent = on ? words() : "";
  }

  const carriesFiles = (event) => Boolean(event.dataTransfer) && [...event.dataTransfer.types].includes("Files");

  // What cannot be a job file goes on by its name alone, empty: the app says so in its own words, and nothing large travels for nothing.
  function fitted(files, folders = new Set()) {
    const sent = new DataTransfer();
    let room = MOST;
    for (const file of files) {
      const fits = !folders.has(file) && JOB_FILE.test(file.name) && file.size <= room;
      if (fits) room -= file.size;
      sent.items.add(fits ? file : new File([], file.name));
    }
    return sent.files;
  }

  function dropped(transfer) {
    const files = [...transfer.files], folders = new Set();
    [...transfer.items].filter((item) => item.kind === "file").forEach((item, i) => {
      if (item.webkitGetAsEntry?.()?.isDirectory) folders.add(files[i]);
    });
    return fitted(files, folders);
  }

  // The app hears one key that no keyboard has, and asks its file picker for the files; the picker opens no window then.
  function tell() {
    for (const kind of ["keydown", "keyup"]) window.dispatchEvent(new KeyboardEvent(kind, { key: KEY, code: KEY, bubbles: true, cancelable: true }));
  }

  window.addEventListener("dragenter", (event) => { if (carriesFiles(event)) { event.preventDefault(); show(true); } }, true);
  window.addEventListener("dragover", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault(); // else the browser would open the file in place of the app
    event.dataTransfer.dropEffect = "copy";
    show(true);
  }, true);
  window.addEventListener("dragleave", () => { // from one part of the page to the next too: then the next "over" follows at once
    clearTimeout(leaving);
    leaving = setTimeout(() => show(false), AWAY);
  }, true);
  window.addEventListener("pointermove", () => show(false), true); // no pointer moves while something is dragged: the drag is over
  window.addEventListener("drop", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    show(false);
    waiting = dropped(event.dataTransfer);
    clearTimeout(late);
    late = setTimeout(() => { waiting = null; }, PATIENCE);
    tell();
  }, true);

  const plain = HTMLElement.prototype.click;
  HTMLInputElement.prototype.click = function () {
    if (this.type !== "file" || !this.accept.includes("json")) return plain.call(this);
    if (waiting === null) {
      this.addEventListener("change", () => { if (this.files.length) this.files = fitted(this.files); }, { capture: true });
      return plain.call(this);
    }
    this.files = waiting;
    waiting = null;
    setTimeout(() => this.dispatchEvent(new Event("change")));
  };
})();
