// Choices that hang on another choice: what can be seen of a sill is not what can be seen of glass.
// What is chosen already stays, so that nothing is lost; the server says where it does not fit.

function narrow(field, other) {
  const allowed = JSON.parse(field.dataset.allowed)[other.value];
  for (const option of field.options) {
    const fits = !allowed || option.value === "" || option.selected || allowed.includes(option.value);
    option.hidden = option.disabled = !fits;
  }
}

export function narrowChoices(fields) {
  for (const field of fields) {
    const other = field.form.elements.namedItem(field.dataset.narrowedBy);
    for (const changed of [field, other]) {
      changed.addEventListener("change", () => narrow(field, other));
    }
    narrow(field, other);
  }
}
