// A visitor's link carries its secret behind "#", which browsers send to nobody: put it in the form.

const form = document.getElementById("visit");

if (location.hash.length > 1) {
  form.elements.namedItem("token").value = location.hash.slice(1);
  history.replaceState(null, "", location.pathname);
  form.submit();
}
