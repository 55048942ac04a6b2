/** Reads a form into a fact, as the server does, and says what is wrong with single fields. */

const NUMBER = /^-?\d{1,12}(?:[.,]\d{1,9})?$/;
const THOUSANDS = /^-?[1-9]\d{0,2}[.,]\d{3}$/;
const CORNER = /^(-?\d{1,3}(?:\.\d{1,9})?)[;, \t]+(-?\d{1,2}(?:\.\d{1,9})?)$/;

/** Counts that are part of another. */
const WHOLE_OF = {
  offTypePlants: 'plantsCounted',
  sheddingPlants: 'plantsCounted',
  plantsInReceptiveFlower: 'plantsCounted',
  otherCerealPlants: 'plantsCounted',
  hardToSeparatePlants: 'plantsCounted',
  wildOatPlants: 'plantsCounted',
  smutPlants: 'plantsCounted',
  plantsShedding: 'plantsExamined',
  baggedEarsWithSeed: 'baggedEars',
};

/** The fields of a form that go into the fact. */
export function fieldsOf(form) {
  return Array.from(form.elements).filter((element) => element.dataset.kind);
}

/** What is typed, by the name of the field. */
export function valuesOf(form) {
  return Object.fromEntries(fieldsOf(form).map((field) => [field.name, field.value]));
}

/** Fills a text: words in braces are replaced. */
export function filled(text, words) {
  return text.replace(/\{(\w+)\}/g, (whole, name) => words[name] ?? whole);
}

function placed(fact, name, value) {
  const element = /^(\w+)\[(\d+)]\.(\w+)$/.exec(name);
  if (element) {
    const list = (fact[element[1]] ??= []);
    (list[Number(element[2])] ??= {})[element[3]] = value;
    return;
  }
  const [first, second] = name.split('.');
  if (second) {
    fact[first][second] = value;
  } else {
    fact[first] = value;
  }
}

/**
 * @param texts of the page, by name
 * @returns the fact without its id, and faults as {field, text}
 */
export function read(form, person, texts) {
  const fact = { type: form.dataset.type, header: { recordedBy: person } };
  const faults = [];
  const labels = {};
  for (const field of fieldsOf(form)) {
    const text = field.value.trim();
    const fault = (name, words = {}) =>
      faults.push({ field: field.name, text: filled(texts[name], { value: text, ...words }) });
    labels[field.name] = field.labels?.[0]?.firstChild?.textContent.trim() ?? '';
    if (text === '') {
      if (field.required) {
        fault('required');
      }
      continue;
    }
    const value = valueOf(field, text, fault);
    if (value !== undefined) {
      placed(fact, field.name, value);
    }
  }
  // a lot left out between two others leaves no hole
  for (const [name, value] of Object.entries(fact)) {
    if (Array.isArray(value)) {
      fact[name] = Array.from(value, (one) => one ?? {});
    }
  }
  for (const [part, whole] of Object.entries(WHOLE_OF)) {
    if (fact[part] > fact[whole]) {
      faults.push({
        field: part,
        text: filled(texts.moreThanWhole, {
          value: fact[part], whole: labels[whole], limit: fact[whole],
        }),
      });
    }
  }
  if (fact.type === 'FieldInspection'
    && fact.areaM2 === undefined
    && fact.plantsCounted === undefined
    && !faults.some(({ field }) => field === 'areaM2' || field === 'plantsCounted')) {
    faults.push({ field: 'areaM2', text: texts.areaOrPlants });
  }
  return { fact, faults };
}

function valueOf(field, text, fault) {
  switch (field.dataset.kind) {
    case 'WHOLE':
    case 'DECIMAL':
      return number(field, text, fault);
    case 'FLAG':
      return text === 'true';
    case 'TIME': {
      const time = new Date(text);
      if (Number.isNaN(time.getTime())) {
        fault('notATime');
        return undefined;
      }
      return time.toISOString();
    }
    case 'CORNERS':
      return corners(text, fault);
    default:
      return text;
  }
}

/** What stands before the decimals of a number in the language of the page. */
function decimalMark() {
  return new Intl.NumberFormat(document.documentElement.lang)
    .formatToParts(0.5)
    .find(({ type }) => type === 'decimal').value;
}

function number(field, text, fault) {
  if (!NUMBER.test(text)) {
    fault('notANumber');
    return undefined;
  }
  const { kind, least, most } = field.dataset;
  const mark = decimalMark();
  if (THOUSANDS.test(text) && (kind === 'WHOLE' || !text.includes(mark))) {
    fault(kind === 'WHOLE' ? 'thousandsParted' : 'ambiguousNumber', {
      grouped: text.replace(/[.,]/, ''), decimal: text.replace(/[.,]/, mark),
    });
    return undefined;
  }
  const value = Number(text.replace(',', '.'));
  if (kind === 'WHOLE' && !Number.isInteger(value)) {
    fault('notWhole');
  } else if (least !== undefined && value < Number(least)) {
    fault('tooSmall', { limit: Number(least) });
  } else if (most !== undefined && value > Number(most)) {
    fault('tooLarge', { limit: Number(most) });
  } else {
    return value;
  }
  return undefined;
}

function corners(text, fault) {
  const found = [];
  for (const line of text.split('\n').map((one) => one.trim()).filter((one) => one !== '')) {
    const corner = CORNER.exec(line);
    if (!corner) {
      fault('notACorner', { value: line });
      return undefined;
    }
    found.push({ lon: Number(corner[1]), lat: Number(corner[2]) });
  }
  return found;
}

/** The moment now as a field of day and time takes it, in the time zone of the phone. */
export function localMinute(now = new Date()) {
  const local = new Date(now.getTime() - now.getTimezoneOffset() * 60_000);
  return local.toISOString().slice(0, 16);
}
