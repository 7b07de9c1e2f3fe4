// Times of one tap, on the page's own clock: `down` when the finger touched, `painted` when the engine first handed over a
// picture in which every watched region differs from before. The text that a screen reader hears changes earlier: it proves nothing.
(() => {
  const bench = window.spanbookBench = { rects: [], which: [], down: 0, painted: 0, pictures: [] };
  const SIDE = [96, 64], board = new OffscreenCanvas(...SIDE).getContext("2d", { willReadFrequently: true });
  let before = [], last = [], changed = [];

  function mark(picture, [x, y, w, h]) {
    board.clearRect(0, 0, ...SIDE);
    board.drawImage(picture, x, y, w, h, 0, 0, ...SIDE);
    return board.getImageData(0, 0, ...SIDE).data.reduce((sum, v) => Math.imul(sum ^ v, 16777619), 7);
  }

  bench.watch = (rects) => { bench.rects = rects; };
  bench.arm = (which) => { before = last.slice(); changed = which.map(() => false); bench.which = which; bench.down = bench.painted = 0; };
  addEventListener("pointerdown", (event) => { bench.down ||= event.timeStamp; }, true);

  const kind = ImageBitmapRenderingContext.prototype, show = kind.transferFromImageBitmap;
  kind.transferFromImageBitmap = function (picture) {
    if (picture && picture.width > 100) {
      if (bench.rects.length) {
        last = bench.rects.map((rect) => mark(picture, rect));
        changed = bench.which.map((of, i) => changed[i] || (bench.down > 0 && last[of] !== before[of]));
        if (changed.length && changed.every(Boolean)) bench.painted ||= performance.now();
      } else {
        bench.pictures.push([performance.now(), mark(picture, [0, 0, picture.width, picture.height])]);
      }
    }
    return show.call(this, picture);
  };
})();
