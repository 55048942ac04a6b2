/** What a tap adds to the fields of a form, and what the fields say of a plan. */

const STERILITY = {
  FEMALE: { plantsExamined: 1, plantsShedding: 0 },
  FEMALE_10: { plantsExamined: 10, plantsShedding: 0 },
  SHEDDER: { plantsExamined: 1, plantsShedding: 1 },
};

const BY_AREA = {
  AREA: { areaM2: 10, offTypePlants: 0 },
  OFF_TYPE: { offTypePlants: 1 },
};

const FEMALES_BESIDE_AREA = {
  FEMALE: { plantsInReceptiveFlower: 1, sheddingPlants: 0 },
  FEMALE_10: { plantsInReceptiveFlower: 10, sheddingPlants: 0 },
  SHEDDER: { plantsInReceptiveFlower: 1, sheddingPlants: 1 },
};

const BY_PLANTS = {
  PLANT: { plantsCounted: 1, offTypePlants: 0 },
  PLANT_10: { plantsCounted: 10, offTypePlants: 0 },
  OFF_TYPE: { plantsCounted: 1, offTypePlants: 1 },
};

/** A shedder is in flower, so it counts among the females in flower in any case. */
const SHEDDER_AMONG_PLANTS = {
  plantsCounted: 1, offTypePlants: 0, plantsInReceptiveFlower: 1, sheddingPlants: 1,
};

/**
 * What each tap adds, by its name; 0 says that something was looked for and not found.
 *
 * @param sheet INSPECTION or STERILITY_CHECK
 * @param byArea whether off-types are counted by area
 * @param part FEMALE, POLLEN_PARENT or WHOLE_CROP
 * @param receptive whether plants that are tapped are in receptive flower
 */
export function taps(sheet, byArea, part, receptive) {
  if (sheet === 'STERILITY_CHECK') {
    return STERILITY;
  }
  const female = part === 'FEMALE';
  if (byArea) {
    return female ? { ...BY_AREA, ...FEMALES_BESIDE_AREA } : BY_AREA;
  }
  if (!female) {
    return BY_PLANTS;
  }
  const flowering = (adds) => receptive
    ? { ...adds, plantsInReceptiveFlower: adds.plantsCounted, sheddingPlants: 0 }
    : adds;
  return {
    PLANT: flowering(BY_PLANTS.PLANT),
    PLANT_10: flowering(BY_PLANTS.PLANT_10),
    OFF_TYPE: BY_PLANTS.OFF_TYPE,
    SHEDDER: SHEDDER_AMONG_PLANTS,
  };
}

/** A number as typed; null where there is none. */
export function numberOf(text) {
  const plain = (text ?? '').trim().replace(',', '.');
  return /^-?\d{1,12}(\.\d{1,9})?$/.test(plain) ? Number(plain) : null;
}

/**
 * The fields after a tap.
 *
 * @returns values after it, and the steps that undo takes back
 */
export function tap(values, adds) {
  const after = { ...values };
  const steps = [];
  for (const [name, by] of Object.entries(adds)) {
    const before = numberOf(values[name]);
    steps.push({ name, by, wasEmpty: before === null });
    after[name] = String((before ?? 0) + by);
  }
  return { values: after, steps };
}

/** The fields after taking a tap back; what was typed by hand in between stays. */
export function untap(values, steps) {
  const after = { ...values };
  for (const { name, by, wasEmpty } of steps) {
    const left = Math.max(0, (numberOf(values[name]) ?? 0) - by);
    after[name] = wasEmpty && left === 0 ? '' : String(left);
  }
  return after;
}

/**
 * Where the count of a plan stands: what was counted before, and what the form holds.
 *
 * @returns units and bad over all; the same of this visit as the form has it, and of before
 */
export function standing(plan, values) {
  const here = (name) => numberOf(values[name]) ?? 0;
  const counted = {
    OFF_TYPES_BY_AREA: () => ({
      units: Math.round(here('areaM2') / plan.pieceM2), bad: here('offTypePlants'),
    }),
    OFF_TYPES_BY_PLANTS: () => ({ units: here('plantsCounted'), bad: here('offTypePlants') }),
    SHEDDING_FEMALES: () => ({
      units: here('plantsInReceptiveFlower'), bad: here('sheddingPlants'),
    }),
    SHEDDING_FEMALES_ALL_VISITS: () => ({
      units: here('plantsInReceptiveFlower'), bad: here('sheddingPlants'),
    }),
    FEMALE_STERILITY: () => ({ units: here('plantsExamined'), bad: here('plantsShedding') }),
  }[plan.quantity]();
  const before = plan.visit === 0 || plan.visit === here('visit')
    ? { units: plan.units, bad: plan.bad }
    : { units: 0, bad: 0 };
  return { units: before.units + counted.units, bad: before.bad + counted.bad, today: counted, before };
}
