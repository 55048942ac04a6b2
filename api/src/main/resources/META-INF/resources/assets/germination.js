// While a line is typed, shows what the server says that it comes to. Arrows lead up and down.

const form = document.querySelector('#lines');
const rows = [...document.querySelectorAll('[data-line]')];

const counts = (row) => [...row.querySelectorAll('.count input')];

const ask = async (row) => {
  const cell = row.querySelector('.why');
  const typed = new URLSearchParams();
  for (const field of row.querySelectorAll('input')) {
    typed.append(field.name.slice(field.name.indexOf('.') + 1), field.value);
  }
  for (const field of form.querySelectorAll('[name^="all."]')) {
    // what a line comes to can be seen before the report has a number
    typed.append(field.name, field.value || '-');
  }
  const asked = typed.toString();
  row.dataset.asked = asked;
  const answer = await fetch(`/laboratory/germination/line?${asked}`);
  if (answer.ok && row.dataset.asked === asked) {
    cell.innerHTML = await answer.text();
  }
};

for (const [at, row] of rows.entries()) {
  let waiting;
  row.addEventListener('input', () => {
    clearTimeout(waiting);
    row.dataset.asked = '';
    row.querySelector('.why').replaceChildren();
    if (counts(row).every((field) => field.value.trim() !== '')) {
      waiting = setTimeout(() => ask(row), 250);
    }
  });
  row.addEventListener('keydown', (event) => {
    const step = {ArrowUp: -1, ArrowDown: 1}[event.key];
    const column = counts(row).indexOf(event.target);
    if (step && column >= 0 && rows[at + step]) {
      event.preventDefault();
      counts(rows[at + step])[column].focus();
    }
  });
}

counts(rows[0] ?? document.createElement('tr'))[0]?.focus();
