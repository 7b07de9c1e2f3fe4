// The page that stands there until the app does: a pane that slides into its bay, a line of words, plain trouble.
"use strict";

export const words = JSON.parse(document.getElementById("words").textContent);
const BAY = 318; // width of the opening in the drawing, index.html

export function fill(text, values = {}) {
  return text.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

function part(selector) {
  return document.querySelector(`#start ${selector}`);
}

function put(selector, text) {
  const box = part(selector);
  if (box && box.textContent !== text) box.textContent = text;
}

// what: the sentence; how: the line under the drawing; share: 0 to 1, how far the pane is in
export function progress(what, how, share) {
  put(".what", what);
  put(".how", how);
  part(".pane")?.setAttribute("width", String(Math.round(BAY * Math.min(Math.max(share, 0), 1))));
}

export function clear() {
  const box = part(".trouble");
  box?.replaceChildren();
  box?.classList.remove("shown");
}

// actions: [label, function] pairs, the first is the main one; detail: text for whoever is asked for help
export function trouble(head, text, actions = [], detail = "") {
  const box = part(".trouble") ?? again();
  const made = [["b", head], ["span", text]].map(([tag, said]) => {
    const p = document.createElement("p");
    p.appendChild(document.createElement(tag)).textContent = said;
    return p;
  });
  if (detail) {
    const pre = document.createElement("pre");
    pre.textContent = detail;
    made.push(pre);
  }
  actions.forEach(([label, act], i) => {
    const key = document.createElement("button");
    key.textContent = label;
    if (!i) key.className = "main";
    key.onclick = act;
    made.push(key);
  });
  box.replaceChildren(...made);
  box.classList.add("shown");
}

let kept = null; // the page as it was, to bring it back when the app stops later on

export function gone() {
  kept = document.getElementById("start");
  kept?.remove();
}

function again() {
  document.body.append(kept);
  progress("", "", 0);
  return part(".trouble");
}
