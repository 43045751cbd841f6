// Lengths in the words the desk sent: `step` has the mm of a step, steps in a whole unit and the words below one.

/** A length to the nearest step: "6 1/2 in", "165 mm". */
export function lengthWords(mm, step) {
  return stepWords(Math.round(mm / step.mm), step);
}

/** So many steps, without a sign: "3/16 in". */
export function stepWords(steps, step) {
  const count = Math.abs(steps);
  const whole = Math.floor(count / step.whole);
  const rest = step.words[count % step.whole];
  return `${[whole || !rest ? whole : "", rest].filter(word => word !== "").join(" ")} ${step.unit}`;
}

/** "lid", "lid and tray", "lid, tray and door" */
export function listed(names) {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
