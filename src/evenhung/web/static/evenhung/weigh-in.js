// At the scale: a thumb writes a unit where the cursor is, and the caret goes to the end on arrival.

const field = document.querySelector(".scale input[name^='field.']");

document.querySelector(".to-weigh [aria-current]")?.scrollIntoView({ block: "nearest" });
window.scrollTo(0, 0);

if (field) {
  field.setSelectionRange(field.value.length, field.value.length);
  for (const button of document.querySelectorAll("[data-write]")) {
    button.addEventListener("click", () => {
      const [start, end] = [field.selectionStart, field.selectionEnd];
      const before = field.value.slice(0, start);
      const written = before.endsWith(" ") ? button.dataset.write.trimStart() : button.dataset.write;
      field.setRangeText(written, start, end, "end");
      field.dispatchEvent(new Event("input", { bubbles: true }));
      field.focus();
    });
  }
}
