// Arithmetic of bytes as polynomials over two elements, modulo x^8 + x^4 + x^3 + x^2 + 1 (ISO/IEC 18004).

function multiply(a: number, b: number): number {
  let product = 0;
  for (let bit = 7; bit >= 0; bit -= 1) {
    product = (product << 1) ^ (product & 0x80 ? 0x11d : 0);
    if ((b >> bit) & 1) product ^= a;
  }
  return product;
}

/** (x - 1)(x - 2)(x - 4)... of so many factors, highest power first, the leading 1 left out. */
function generator(count: number): number[] {
  let factors = [1];
  let root = 1;
  for (let factor = 0; factor < count; factor += 1) {
    const grown = [...factors, 0];
    factors.forEach((value, index) => {
      grown[index + 1] ^= multiply(value, root);
    });
    factors = grown;
    root = multiply(root, 2);
  }
  return factors.slice(1);
}

/** Check bytes: the remainder of the data, moved up by `count` places, by the generator. */
export function checkBytes(data: number[], count: number): number[] {
  const divisor = generator(count);
  const left = new Array<number>(count).fill(0);
  for (const byte of data) {
    const lead = byte ^ left.shift()!;
    left.push(0);
    divisor.forEach((value, index) => {
      left[index] ^= multiply(value, lead);
    });
  }
  return left;
}
