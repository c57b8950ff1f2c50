// Steps that are done at the bench are ticked off; the ticks stay in this browser, by house and run.

for (const list of document.querySelectorAll("[data-ticks]")) {
  const name = `ticks/${list.dataset.ticks}`;
  const boxes = [...list.querySelectorAll("input[type=checkbox]")];
  const ticked = new Set(JSON.parse(localStorage.getItem(name) ?? "[]"));
  for (const box of boxes) {
    box.checked = ticked.has(box.value);
    box.addEventListener("change", () => {
      const done = boxes.filter((one) => one.checked).map((one) => one.value);
      localStorage.setItem(name, JSON.stringify(done));
    });
  }
}
