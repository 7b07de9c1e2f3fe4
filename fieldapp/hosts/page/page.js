// What the page does itself, before and beside the app: settings of the client, the word when the connection is gone.
"use strict";

var flet = {
  pyodide: false, multiView: false, noCdn: true, webSocketEndpoint: "/ws", entrypointBaseUrl: "/", assetBase: "/",
  routeUrlStrategy: "path", canvasKitBaseUrl: "/canvaskit/", fontFallbackBaseUrl: "assets/fonts/", webRenderer: "auto",
};
flet.flutterAppLoaded = new Promise((resolve) => { flet.flutterAppResolve = resolve; });

(() => {
  const EVERY = 3000, PATIENCE = 2500, ENDED = 1012;
  const live = new Set();
  let opened = 0, asking = false, shut = false;

  function say(gone) {
    const band = document.getElementById("no-connection");
    if (!band || gone === band.classList.contains("shown")) return;
    band.classList.toggle("shown", gone);
    band.textContent = gone ? (shut ? band.dataset.shut : band.dataset.words) : "";
  }

  // A frozen network drops nothing and tells nobody, so the page asks. Short answers, never stored.
  async function ask() {
    if (asking) return;
    asking = true;
    const stop = new AbortController(), late = setTimeout(() => stop.abort(), PATIENCE);
    try {
      const answer = await fetch("/healthz", { cache: "no-store", signal: stop.signal });
      if (answer.status === 401) location.replace("/join"); // put out, or the code is a new one
      say(!answer.ok);
      // The client waits longer from try to try, up to minutes; whoever waits for it sees an empty page.
      if (answer.ok && opened && !live.size) location.reload();
    } catch {
      say(true);
    } finally {
      clearTimeout(late);
      asking = false;
    }
  }
  setInterval(ask, EVERY);
  window.addEventListener("offline", () => say(true));
  window.addEventListener("online", ask);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) ask(); });

  // The client stops painting after its socket came back, so a second opening starts the page anew. The session, and with
  // it the screen, is the server's; half-typed digits are in its store.
  const Plain = window.WebSocket;
  window.WebSocket = class extends Plain {
    constructor(...given) {
      super(...given);
      this.addEventListener("open", () => { live.add(this); if (++opened > 1) location.reload(); });
      this.addEventListener("close", (event) => {
        live.delete(this);
        shut ||= event.code === ENDED; // told so by the other side, not a network that broke
        ask();
      });
    }
  };

  // The drawing engine wants one of its parts, which the app does not use, from another host. Nothing here asks other hosts,
  // so it is told at once that there is none; the security policy would stop it too, later and louder.
  for (const insert of ["appendChild", "append", "prepend", "insertBefore"]) {
    for (const kind of [Element, Node]) {
      const plain = Object.hasOwn(kind.prototype, insert) && kind.prototype[insert];
      if (!plain) continue;
      kind.prototype[insert] = function (node, ...more) {
        if (node instanceof HTMLScriptElement && node.src && new URL(node.src, document.baseURI).origin !== location.origin) {
          setTimeout(() => node.dispatchEvent(new Event("error")));
          return node;
        }
        return plain.call(this, node, ...more);
      };
    }
  }

  // Two people's figures agree or differ: a short sound, by the sign with which the page's title begins. Browsers allow
  // sounds only after a tap.
  let ear = null, heard = "";
  function tone(hertz, from, long) {
    const voice = ear.createOscillator(), loud = ear.createGain(), at = ear.currentTime + from;
    voice.frequency.value = hertz;
    loud.gain.setValueAtTime(0.25, at);
    loud.gain.exponentialRampToValueAtTime(0.001, at + long);
    voice.connect(loud).connect(ear.destination);
    voice.start(at);
    voice.stop(at + long);
  }
  function listen() {
    const title = document.title, sign = title[0];
    if (title === heard) return;
    heard = title;
    if (!ear) return;
    if (sign === "✓") { tone(880, 0, 0.12); tone(1320, 0.12, 0.2); }
    if (sign === "≠") { tone(220, 0, 0.25); tone(220, 0.32, 0.35); }
  }
  // Some browsers count a finger that comes down, others only one that is lifted again, or a key.
  for (const touch of ["pointerdown", "pointerup", "keydown"])
    window.addEventListener(touch, () => { ear ??= new AudioContext(); if (ear.state === "suspended") ear.resume(); }, true);
  document.addEventListener("DOMContentLoaded", () => {
    new MutationObserver(listen).observe(document.head, { subtree: true, childList: true, characterData: true });
  });

  // Safari brings a page back from its cache with painting stopped.
  window.addEventListener("pageshow", (event) => {
    if (event.persisted && navigator.vendor && navigator.vendor.startsWith("Apple")) location.reload();
  });
})();
