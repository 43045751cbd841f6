// Plays a change over a moment; jumps where the maker asked for less motion.
const LONG = 350; // ms

const calm = matchMedia("(prefers-reduced-motion: reduce)");

/** Calls `at` with 0 < t <= 1 until done. Resolves when done; `signal` stops it where it is. */
export function play(at, signal) {
  if (calm.matches) {
    at(1);
    return Promise.resolve();
  }
  return new Promise(done => {
    const start = performance.now();
    const step = () => {
      if (signal?.aborted) return done();
      const t = Math.min(1, (performance.now() - start) / LONG);
      at(t * t * (3 - 2 * t));
      if (t < 1) requestAnimationFrame(step);
      else done();
    };
    requestAnimationFrame(step);
  });
}
