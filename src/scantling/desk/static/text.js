// The text of a file: where the cursor stands, and going to where something is wrong.

const text = document.getElementById("text");
const where = document.getElementById("where");

function offset(line, character) {
  const lines = text.value.split("\n").slice(0, line - 1);
  return lines.reduce((sum, each) => sum + each.length + 1, 0) + character - 1;
}

function go(line, character = 1, length = 0) {
  const start = offset(line, character);
  text.focus();
  text.setSelectionRange(start, start + (length || (text.value.indexOf("\n", start) + 1 || text.value.length + 1) - start - 1));
  const height = parseFloat(getComputedStyle(text).lineHeight);
  text.scrollTop = Math.max(0, (line - 6) * height);
  tell();
}

function tell() {
  const before = text.value.slice(0, text.selectionStart).split("\n");
  where.textContent = `line ${before.length}, character ${before.at(-1).length + 1}`;
}

function goToTrouble() {
  const { atLine, atCharacter, atLength } = document.getElementById("text-trouble").dataset;
  go(Number(atLine), Number(atCharacter), Number(atLength));
}

document.addEventListener("click", event => {
  if (event.target.closest("[data-go]")) goToTrouble();
});
for (const each of ["keyup", "click", "focus"]) text.addEventListener(each, tell);
const wanted = text.dataset.line;
if (Number(wanted) && wanted === document.getElementById("text-trouble").dataset.atLine) goToTrouble();
else if (Number(wanted)) go(Number(wanted));
