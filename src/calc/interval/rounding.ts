// Sums, products, quotients and roots of floats with their rounding error known exactly, hence rounded down or up.
// The engine is trusted with + - * / alone, which ECMAScript fixes to IEEE 754 round-to-nearest-even.

// Where a result is zero it is +0, so that no sign of nothing is ever shown: hence `0 - x` for `-x`.

const float = new Float64Array(1);
const bits = new BigInt64Array(float.buffer);

/**
 * 2^n by its bits, for a whole n from -1074 to 1023; 0 below, Infinity above. (ECMAScript lets `2 ** n` be approximate.)
 */
export function powerOfTwo(n: number): number {
  if (n > 1023) return Infinity;
  if (n < -1074) return 0;
  bits[0] = n >= -1022 ? BigInt(n + 1023) << 52n : 1n << BigInt(n + 1074);
  return float[0]!;
}

// u (1 + 2u) with u = 2^-53: between half a unit and one and a half of the last place of any normal float.
const STEP = 1.1102230246251568e-16;
const NORMAL = powerOfTwo(-900);

/**
 * The least float above `x`: `nextUp(0)` is 5e-324, `nextUp(MAX_VALUE)` Infinity, `nextUp(Infinity)` Infinity. Away from
 * the subnormals by one rounded sum (Rump, Zimmermann, Boldo, Melquiond, BIT 49, 2009), else by the bits.
 */
export function nextUp(x: number): number {
  const size = Math.abs(x);
  if (size > NORMAL && size < Infinity) return x + size * STEP;
  if (x === Infinity) return x;
  if (x === 0) return Number.MIN_VALUE;
  float[0] = x;
  bits[0]! += x > 0 ? 1n : -1n;
  return float[0]! + 0;
}

/** The largest float below `x`: the mirror of `nextUp`. */
export function nextDown(x: number): number {
  const size = Math.abs(x);
  return size > NORMAL && size < Infinity ? x - size * STEP : 0 - nextUp(-x);
}

/** a + b rounded towards minus infinity: exact where the sum is a float, otherwise the float next below it. */
export function addDown(a: number, b: number): number {
  const sum = a + b;
  const error = sumError(a, b, sum);
  if (error === 0) return sum;
  if (error < 0) return nextDown(sum);
  return error > 0 ? sum : addAtTheEdge(a, b, sum);
}

/** a + b rounded towards plus infinity. */
export function addUp(a: number, b: number): number {
  return 0 - addDown(-a, -b);
}

/** a - b rounded towards minus infinity. */
export function subDown(a: number, b: number): number {
  return addDown(a, -b);
}

/** a - b rounded towards plus infinity. */
export function subUp(a: number, b: number): number {
  return 0 - addDown(-a, b);
}

/**
 * What `sum` lacks of a + b (Knuth, The Art of Computer Programming 2, 4.2.2, theorem C): exact in round-to-nearest,
 * subnormals included, as long as nothing overflows; NaN otherwise.
 */
function sumError(a: number, b: number, sum: number): number {
  const virtual = sum - a;
  return a - (sum - virtual) + (b - virtual);
}

function addAtTheEdge(a: number, b: number, sum: number): number {
  if (!Number.isFinite(a) || !Number.isFinite(b)) return sum;
  if (sum === Infinity) return Number.MAX_VALUE;
  if (sum === -Infinity) return -Infinity;
  // A step of sumError overflowed though the sum did not: only next to the largest float, so one float is given away.
  return nextDown(sum);
}

/**
 * a * b rounded towards minus infinity. 0 times an infinity is 0: an infinite end is never reached, so the product
 * of the ends stands for products of finite numbers with 0.
 */
export function mulDown(a: number, b: number): number {
  if (a === 0 || b === 0) return 0;
  const product = a * b;
  if (isSafe(product) && Math.abs(a) < SAFE_HIGH && Math.abs(b) < SAFE_HIGH) {
    return productError(a, b, product) < 0 ? nextDown(product) : product;
  }
  return mulAtTheEdge(a, b, product);
}

/** a * b rounded towards plus infinity, 0 times an infinity being 0. */
export function mulUp(a: number, b: number): number {
  return 0 - mulDown(-a, b);
}

// Between these the halves of a split, their products and the error term neither overflow nor lose a bit:
// the error of a product above 2^-960 is a multiple of 2^-1066, and 2^990 times 2^27 + 1 is finite.
const SAFE_LOW = powerOfTwo(-960);
const SAFE_HIGH = powerOfTwo(990);
const SPLITTER = 134217729;

/** What `product` lacks of a * b, exactly (Dekker 1971, Veltkamp's split), within the safe range. */
function productError(a: number, b: number, product: number): number {
  const bigA = a * SPLITTER;
  const highA = bigA - (bigA - a);
  const lowA = a - highA;
  const bigB = b * SPLITTER;
  const highB = bigB - (bigB - b);
  const lowB = b - highB;
  return lowA * lowB - (product - highA * highB - lowA * highB - highA * lowB);
}

function mulAtTheEdge(a: number, b: number, product: number): number {
  if (!Number.isFinite(a) || !Number.isFinite(b)) return product;
  if (product === Infinity) return Number.MAX_VALUE;
  if (product === -Infinity) return -Infinity;
  const left = normalise(a);
  const right = normalise(b);
  const exact = left.fraction * right.fraction;
  const error = productError(left.fraction, right.fraction, exact);
  // `product` brought to the same scale is exact, for the scale is never below one.
  const scaled = scale(product, -(left.exponent + right.exponent));
  return exact - scaled + error < 0 ? nextDown(product) : product;
}

interface Normal {
  /** 1 <= |fraction| < 2 */
  readonly fraction: number;
  readonly exponent: number;
}

/** x = fraction * 2^exponent, exactly, for a finite x other than 0. */
function normalise(x: number): Normal {
  float[0] = x;
  const field = Number((bits[0]! >> 52n) & 0x7ffn);
  if (field === 0) {
    const up = normalise(x * powerOfTwo(64));
    return { fraction: up.fraction, exponent: up.exponent - 64 };
  }
  return { fraction: scale(x, 1023 - field), exponent: field - 1023 };
}

/** x * 2^by in steps that cannot overflow on the way; exact where the result is a normal float. */
function scale(x: number, by: number): number {
  let left = by;
  let result = x;
  for (; left > 1000; left -= 1000) result *= powerOfTwo(1000);
  for (; left < -1000; left += 1000) result *= powerOfTwo(-1000);
  return result * powerOfTwo(left);
}

/** a / b rounded towards minus infinity, for b other than 0; a finite number over an infinity is 0. */
export function divDown(a: number, b: number): number {
  const quotient = a / b;
  if (isSafe(quotient) && isSafe(a) && isSafe(b)) return remainder(a, b, quotient) < 0 ? nextDown(quotient) : quotient;
  return divAtTheEdge(a, b, quotient);
}

function isSafe(x: number): boolean {
  return (x > SAFE_LOW && x < SAFE_HIGH) || (x < -SAFE_LOW && x > -SAFE_HIGH);
}

function divAtTheEdge(a: number, b: number, quotient: number): number {
  if (a === 0 || !Number.isFinite(b)) return 0;
  if (!Number.isFinite(a)) return quotient;
  if (quotient === Infinity) return Number.MAX_VALUE;
  if (quotient === -Infinity) return -Infinity;
  const top = normalise(a);
  const bottom = normalise(b);
  const scaled = scale(quotient, bottom.exponent - top.exponent);
  return remainder(top.fraction, bottom.fraction, scaled) < 0 ? nextDown(quotient) : quotient;
}

/** a / b rounded towards plus infinity, for b other than 0. */
export function divUp(a: number, b: number): number {
  return 0 - divDown(-a, b);
}

/** A number with the sign of a / b - quotient: what is left of a is a float, for all three in the safe range. */
function remainder(a: number, b: number, quotient: number): number {
  const product = quotient * b;
  const rest = a - product - productError(quotient, b, product);
  return b > 0 ? rest : -rest;
}

/** The square root of x >= 0 rounded down; Infinity for Infinity. */
export function sqrtDown(x: number): number {
  return rootBelow(x).root;
}

/** The square root of x >= 0 rounded up. */
export function sqrtUp(x: number): number {
  const { root, exact } = rootBelow(x);
  return exact ? root : nextUp(root);
}

/** The largest float whose square is at most x. `Math.sqrt` only says where to begin: ECMAScript does not fix its rounding. */
function rootBelow(x: number): { readonly root: number; readonly exact: boolean } {
  if (isSafe(x)) return rootNear(x, Math.sqrt(x));
  if (x === 0 || x === Infinity) return { root: x, exact: true };
  const normal = normalise(x);
  const half = Math.floor(normal.exponent / 2);
  const square = normal.fraction * (normal.exponent - 2 * half === 1 ? 2 : 1);
  const { root, exact } = rootNear(square, Math.sqrt(square));
  return { root: scale(root, half), exact };
}

/** From a guess to the largest float whose square is at most `square`, which is in the safe range. */
function rootNear(square: number, guess: number): { readonly root: number; readonly exact: boolean } {
  let root = guess;
  while (squareGap(square, root) < 0) root = nextDown(root);
  while (squareGap(square, nextUp(root)) >= 0) root = nextUp(root);
  return { root, exact: squareGap(square, root) === 0 };
}

/** A number with the sign of square - root^2, for both in the safe range. */
function squareGap(square: number, root: number): number {
  const product = root * root;
  return square - product - productError(root, root, product);
}
