// A scanned code brings its secret after the `#`, which browsers do not send: it is taken out of the address
// and handed over once, as the form's answer.
const secret = location.hash.slice(1);
const form = document.querySelector("form");

if (secret && form) {
  history.replaceState(null, "", location.pathname + location.search);
  document.getElementById("link").value = secret;
  form.submit();
}
