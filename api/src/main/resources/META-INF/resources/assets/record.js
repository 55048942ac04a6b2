// Adds rows to lists without asking the server. Where this script does not run, the same buttons do.

const mended = (text, row) => text.replace(/\[\d+]/, `[${row}]`).replace(/-\d+--/, `-${row}--`);

const blank = (field, row) => {
  const copy = field.cloneNode(true);
  for (const element of [copy, ...copy.querySelectorAll('*')]) {
    for (const name of ['id', 'name', 'for', 'data-field', 'aria-describedby']) {
      if (element.hasAttribute(name)) {
        element.setAttribute(
          name,
          element
            .getAttribute(name)
            .split(' ')
            .map((part) => mended(part, row))
            .join(' '));
      }
    }
    element.removeAttribute('aria-invalid');
    if ('value' in element && element.matches('input, select, textarea')) {
      element.value = '';
    }
  }
  copy.querySelector('.faults')?.replaceChildren();
  return copy;
};

for (const button of document.querySelectorAll('[data-more]')) {
  button.addEventListener('click', (event) => {
    const list = button.closest('fieldset');
    const columns = Number(list.dataset.columns);
    const fields = [...list.querySelectorAll('.field')];
    if (fields.length < columns) {
      return; // there is no row to copy yet: the server makes the first
    }
    event.preventDefault();
    const row = fields.length / columns;
    const added = fields.slice(-columns).map((field) => blank(field, row));
    list.querySelector('.fields').append(...added);
    added[0].querySelector('input, select, textarea').focus();
  });
}

const wrong = document.querySelector('#faults');
if (wrong) {
  wrong.focus();
} else {
  [...document.querySelectorAll('#sheet .field input, #sheet .field select, #sheet .field textarea')]
    .find((field) => field.required && field.value === '')
    ?.focus();
}
