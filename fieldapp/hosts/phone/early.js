// Stands inside the page itself: it must speak even when no other part of the folder is found.
(() => {
  "use strict";
  const words = JSON.parse(document.getElementById("words").textContent);
  function trouble(head, text) {
    const box = document.querySelector("#start .trouble");
    const said = document.createElement("div");
    said.className = "said";
    [head, text].forEach((t, i) => {
      const p = said.appendChild(document.createElement("p")), b = p.appendChild(document.createElement(i ? "span" : "b"));
      b.textContent = t;
    });
    box.replaceChildren(said);
    box.parentNode.classList.add("troubled");
    box.classList.add("shown");
  }
  try { document.documentElement.classList.toggle("shade", localStorage.getItem("spanbook-look") === "shade"); } catch { /* refused: sun */ }
  if (location.protocol === "file:") return trouble(words.no_parts_head, words.from_file);
  const boot = document.createElement("script");
  boot.type = "module";
  boot.src = "boot.js";
  boot.onerror = () => {
    const asked = new URL("boot.js", document.baseURI).href, here = location.href.split(/[?#]/)[0];
    trouble(words.no_parts_head, words.no_parts.replace("{asked}", asked).replace("{here}", here));
  };
  document.head.append(boot);
})();
