// The page that stands there until the app does: a pane that slides into its bay, a line of words, plain trouble.
"use strict";

export const words = JSON.parse(document.getElementById("words").textContent);
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

// what, under, figure, how: the large line, the one below it, what stands in the pane, the one at the foot; share: 0 to 1, how far the pane is in
export function progress({ what, under = "", figure = "", how = "", share }) {
  put(".what", what);
  put(".under", under);
  put(".figure", figure);
  put(".how", how);
  const pane = part(".pane");
  if (pane) pane.style.width = `${Math.round(100 * Math.min(Math.max(share, 0), 1))}%`;
}

function made(tag, text = "", kind = "") {
  const one = document.createElement(tag);
  one.textContent = text;
  one.className = kind;
  return one;
}

// list: [name, share from 0 to 1, words at the right] of each part; the first that is not whole is the one in hand
export function parts(list) {
  const now = list.findIndex(([, share]) => share < 1);
  part("ul")?.replaceChildren(...list.map(([name, share, said], i) => {
    const row = made("li", "", share >= 1 ? "here" : i === now || share > 0 ? "now" : "");
    const sign = made("i"), pane = made("b");
    pane.style.width = `${Math.round(share * 46)}px`;
    if (share > 0) sign.append(pane);
    row.append(sign, made("span", name), made("span", said, "share"));
    return row;
  }));
}

// Good news, in a band of its own while the rest goes on: the first line is the word beside the sign.
export function clearly(word, ...lines) {
  const box = part(".clear"), said = made("div", "", "said"), first = made("p");
  first.append(made("i"), made("span", word));
  said.append(first, ...lines.map((line, i) => { const p = made("p"); p.append(made(i ? "span" : "strong", line)); return p; }));
  box?.replaceChildren(said);
  box?.classList.add("shown");
}

export function clear() {
  const box = part(".trouble");
  box?.replaceChildren();
  box?.classList.remove("shown");
  part(".page")?.classList.remove("troubled");
}

// actions: [label, function] pairs, the first is the main one; detail: text for whoever is asked for help
export function trouble(head, text, actions = [], detail = "") {
  const box = part(".trouble") ?? again();
  const said = made("div", "", "said");
  for (const [tag, line] of [["b", head], ["span", text]]) said.appendChild(made("p")).append(made(tag, line));
  if (detail) said.append(made("pre", detail));
  const keys = actions.map(([label, act], i) => {
    const key = made("button", label, i ? "" : "main");
    key.onclick = act;
    return key;
  });
  box.replaceChildren(said, ...keys);
  box.classList.add("shown");
  part(".page").classList.add("troubled");
}

let kept = null; // the page as it was, to bring it back when the app stops later on

export function gone() {
  kept = document.getElementById("start");
  kept?.remove();
}

function again() {
  document.body.append(kept);
  progress({ what: "", share: 0 });
  parts([]);
  return part(".trouble");
}
