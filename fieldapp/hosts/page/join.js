"use strict";
(() => {
  const plates = [...document.querySelectorAll(".plates input")], name = document.getElementById("name");
  const go = document.getElementById("go"), told = document.getElementById("told"), plain = go.textContent;

  function fill(code, from) {
    const signs = [...code.toUpperCase()].filter((c) => /[A-Z0-9]/.test(c));
    signs.slice(0, plates.length - from).forEach((c, i) => { plates[from + i].value = c; });
    const next = plates[Math.min(from + signs.length, plates.length - 1)];
    if (from + signs.length >= plates.length) name.focus(); else next.focus();
  }
  plates.forEach((plate, at) => {
    plate.addEventListener("input", () => { const typed = plate.value; plate.value = ""; fill(typed, at); });
    plate.addEventListener("focus", () => plate.select());
    plate.addEventListener("keydown", (event) => { if (event.key === "Backspace" && !plate.value && at) plates[at - 1].focus(); });
  });

  // The code of a scanned address stands behind its #: that part never leaves the phone. It is taken out of the address at once.
  if (location.hash.length > 1) {
    fill(location.hash.slice(1, 20), 0);
    history.replaceState(null, "", location.pathname);
  }

  function show() {
    const role = document.querySelector(".tiles input:checked");
    told.textContent = role ? role.dataset.tell : "";
    const who = name.value.trim();
    go.textContent = role && who ? go.dataset.as.replace("{name}", () => who).replace("{role}", () => role.dataset.word) : plain;
  }
  document.querySelectorAll("input").forEach((one) => one.addEventListener("input", show));
  show();
})();
