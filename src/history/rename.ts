// One id of a compiled book replaced wherever it is named.

/** Kinds of parts that have an id. */
export type NameKind =
  | 'adjuster'
  | 'bundle'
  | 'event'
  | 'hazard'
  | 'header'
  | 'instrument'
  | 'machine'
  | 'option'
  | 'procedure'
  | 'rule'
  | 'state'
  | 'step'
  | 'tool'
  | 'value'
  | 'worksheet';

interface Wanted {
  readonly kind: NameKind;
  readonly before: string;
  readonly after: string;
  readonly within?: string;
}

/**
 * Where the ids of a kind stand: keys whose text or texts are ids, keys of lists of parts (or of one part) whose `id` is one,
 * keys of maps by id, and keys of formulas that name them.
 */
interface Places {
  readonly texts?: readonly string[];
  readonly parts?: readonly string[];
  readonly maps?: readonly string[];
  readonly formulas?: readonly string[];
}

const places: Readonly<Record<NameKind, Places>> = {
  adjuster: { texts: ['adjust'], parts: ['adjusters'] },
  bundle: { texts: ['bundle'], parts: ['conditions'] },
  event: { texts: ['voidedBy'], parts: ['events'] },
  hazard: { texts: ['hazard', 'hazards'], parts: ['hazards'] },
  header: { texts: ['header', 'headers', 'keys'], parts: ['headers'] },
  instrument: { parts: ['instrument', 'instruments'] },
  machine: { texts: ['machine', 'keys'], parts: ['machines'] },
  option: { texts: ['keys'], parts: ['options'], maps: ['options'] },
  procedure: { texts: ['run'], parts: ['procedure', 'run'] },
  rule: { parts: ['rules'] },
  state: { texts: ['state', 'unchanged', 'gives'], parts: ['states'] },
  step: { texts: ['go', 'anyOrder', 'step'], parts: ['steps'] },
  tool: { parts: ['tools'] },
  value: {
    texts: ['measure', 'stale', 'moves', 'watch', 'inputs', 'value'],
    parts: ['values'],
    formulas: ['from'],
  },
  worksheet: { texts: ['measure', 'write'], parts: ['worksheets'] },
};

/** The same data with the new id. What belongs to another procedure or machine than `within` stays as it is. */
export function renamed<T extends object>(of: T, wanted: Wanted): T {
  return rewrite(of, '', { wanted, places: places[wanted.kind], inside: isInside(of, wanted) }) as T;
}

interface Rewriting {
  readonly wanted: Wanted;
  readonly places: Places;
  /** Whether this is a part of what the rename is within. */
  readonly inside: boolean;
}

// a procedure that was handed over alone is what it is within
function isInside(of: object, { within }: Wanted): boolean {
  return within === undefined || ('id' in of && of.id === within);
}

function rewrite(value: unknown, key: string, how: Rewriting): unknown {
  const { wanted, inside } = how;
  if (typeof value === 'string') return inside ? rewriteText(value, key, how) : value;
  if (Array.isArray(value)) return value.map((part) => rewrite(part, key, how));
  if (typeof value !== 'object' || value === null) return value;
  const entered = wanted.within === undefined ? how : { ...how, inside: enters(value, key, how) };
  const isMap = entered.inside && how.places.maps?.includes(key) === true && !('id' in value);
  return Object.fromEntries(
    Object.entries(value).map(([name, part]) => {
      const isId = name === 'id' && part === wanted.before && entered.inside && how.places.parts?.includes(key);
      if (isId) return [name, wanted.after];
      return [isMap && name === wanted.before ? wanted.after : name, rewrite(part, name, entered)];
    }),
  );
}

/** Whether what stands in an object is a part of what the rename is within. */
function enters(value: object, key: string, { wanted, inside }: Rewriting): boolean {
  if ((key === 'procedure' || key === 'run') && 'id' in value) return value.id === wanted.within;
  if (wanted.kind !== 'option') return inside;
  if (key === 'machines' && 'id' in value) return value.id === wanted.within;
  if (key === 'applies' && 'machine' in value) return value.machine === wanted.within;
  return inside;
}

function rewriteText(text: string, key: string, { wanted, places: where }: Rewriting): string {
  if (where.texts?.includes(key)) return text === wanted.before ? wanted.after : text;
  if (!where.formulas?.includes(key)) return text;
  const pieces = text.split(/(?<![\w.])(?=[a-z_])|(?<=\w)(?![\w.])/i);
  return pieces.map((piece) => (piece === wanted.before ? wanted.after : piece)).join('');
}
