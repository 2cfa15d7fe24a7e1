/** What a file packed by the first method of Rob Northen's packer holds: literals and copies, told by three tables of Huffman codes. */

const HEADER_BYTES = 18;

interface Code {
  bits: number;
  length: number;
  value: number;
}

/** @throws Error where the bytes are no such file, or a code stands in no table. */
export function unpackedRnc(packed: Uint8Array): Uint8Array {
  const view = new DataView(packed.buffer, packed.byteOffset, packed.byteLength);
  if (view.getUint32(0) !== 0x524e4301) throw new Error('Not packed by the first method.');
  const out = new Uint8Array(view.getUint32(4));
  let made = 0;
  let at = HEADER_BYTES;
  let held = 0;
  let count = 0;
  const word = () => (at + 1 < packed.length ? view.getUint16(at, true) : (packed[at] ?? 0));
  const takeWord = () => {
    held = (held | (word() * 2 ** count)) >>> 0;
    count += 16;
  };
  const bits = (wanted: number) => {
    const value = held & ((1 << wanted) - 1);
    held >>>= wanted;
    count -= wanted;
    if (count < 16) {
      at += 2;
      takeWord();
    }
    return value;
  };
  const table = (): Code[] => {
    const lengths = Array.from({ length: bits(5) }, () => bits(4));
    const codes: Code[] = [];
    let next = 0;
    for (let length = 1; length <= 16; length += 1) {
      lengths.forEach((one, value) => {
        if (one === length) codes.push({ bits: mirrored(next++, length), length, value });
      });
      next <<= 1;
    }
    return codes;
  };
  const number = (codes: Code[]) => {
    const code = codes.find(({ bits, length }) => (held & ((1 << length) - 1)) === bits);
    if (code === undefined) throw new Error('A code that stands in no table.');
    bits(code.length);
    return code.value < 2 ? code.value : (1 << (code.value - 1)) | bits(code.value - 1);
  };
  takeWord();
  bits(2);
  while (made < out.length) {
    const [literals, distances, lengths] = [table(), table(), table()];
    for (let left = bits(16); left > 0; left -= 1) {
      const plain = number(literals);
      if (plain > 0) {
        out.set(packed.subarray(at, at + plain), made);
        made += plain;
        at += plain;
        // The word that was read ahead was the first of the literals.
        count -= 16;
        held &= 2 ** count - 1;
        takeWord();
      }
      if (left === 1) break;
      const distance = number(distances) + 1;
      for (let copies = number(lengths) + 2; copies > 0; copies -= 1, made += 1)
        out[made] = out[made - distance] as number;
    }
  }
  return out;
}

function mirrored(bits: number, length: number): number {
  let turned = 0;
  for (let at = 0; at < length; at += 1) turned |= ((bits >> at) & 1) << (length - 1 - at);
  return turned;
}
