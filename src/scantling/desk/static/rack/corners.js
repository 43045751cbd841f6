// The four corners of a board in its photo: dragged, or moved with the arrow keys.

const frame = document.getElementById("corners");
if (frame) start(frame);

function start(frame) {
  const rings = [...frame.querySelectorAll(".corner")];
  const say = words => document.body.dispatchEvent(new CustomEvent("desk:say", {detail: {words}}));
  const corners = frame.dataset.corners ? JSON.parse(frame.dataset.corners) : [[0.08, 0.3], [0.92, 0.3], [0.92, 0.7], [0.08, 0.7]];
  let dragged = null;

  function show() {
    rings.forEach((ring, i) => {
      ring.style.left = `${corners[i][0] * 100}%`;
      ring.style.top = `${corners[i][1] * 100}%`;
    });
    frame.querySelector("polygon").setAttribute("points", corners.map(([x, y]) => `${x * 100},${y * 100}`).join(" "));
    document.querySelector("#cornerform [name=corners]").value = corners.flat().map(part => part.toFixed(5)).join(" ");
  }

  const limited = part => Math.min(1, Math.max(0, part));

  function put(i, x, y) {
    corners[i] = [limited(x), limited(y)];
    show();
  }

  rings.forEach((ring, i) => {
    ring.addEventListener("pointerdown", event => {
      if (!event.isPrimary) return;
      event.preventDefault();
      ring.focus();
      dragged = {id: event.pointerId, from: [event.clientX, event.clientY], was: corners[i]};
      ring.setPointerCapture(event.pointerId);
    });
    ring.addEventListener("pointermove", event => {
      if (event.pointerId !== dragged?.id) return;
      const box = frame.getBoundingClientRect();
      put(i, dragged.was[0] + (event.clientX - dragged.from[0]) / box.width, dragged.was[1] + (event.clientY - dragged.from[1]) / box.height);
    });
    ring.addEventListener("pointerup", () => { dragged = null; });
    ring.addEventListener("pointercancel", () => {
      if (dragged) put(i, ...dragged.was);
      dragged = null;
    });
    ring.addEventListener("keydown", event => {
      const move = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]}[event.key];
      if (!move) return;
      event.preventDefault();
      const far = event.shiftKey ? 10 : 1;
      put(i, corners[i][0] + move[0] * far / 400, corners[i][1] + move[1] * far / 400);
      say(`Corner ${i + 1}: ${(corners[i][0] * 100).toFixed(1)} % from the left, ${(corners[i][1] * 100).toFixed(1)} % from the top`);
    });
  });
  show();
}
