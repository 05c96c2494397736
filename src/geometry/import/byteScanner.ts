const [SPACE, LINE, POINT, PLUS, MINUS, ZERO, NINE] = [0x20, 0x0a, 0x2e, 0x2b, 0x2d, 0x30, 0x39];
/** Powers of ten that a double holds exactly. */
const EXACT_POWERS = Float64Array.from({ length: 23 }, (_, i) => 10 ** i);
const MOST_EXACT = 2 ** 53;

/**
 * Reads words and numbers out of the bytes of a text file without making strings of them: a scan's text has ten million
 * numbers. Bytes above 127 count as parts of words.
 */
export class ByteScanner {
  readonly bytes: Uint8Array;
  at: number;

  constructor(bytes: Uint8Array, at = 0) {
    this.bytes = bytes;
    this.at = at;
  }

  /** Over blanks and control characters, and with `lines` over line ends too. Every other byte belongs to a word. */
  skipBlanks(lines = false): void {
    const { bytes } = this;
    while (this.at < bytes.length) {
      const byte = bytes[this.at]!;
      if (byte > SPACE || (byte === LINE && !lines)) break;
      this.at++;
    }
  }

  /** To the start of the next line. */
  skipLine(): void {
    const end = this.bytes.indexOf(LINE, this.at);
    this.at = end < 0 ? this.bytes.length : end + 1;
  }

  isAtLineEnd(): boolean {
    return this.at >= this.bytes.length || this.bytes[this.at] === LINE;
  }

  /** Where the word that begins here ends. */
  wordEnd(): number {
    const { bytes } = this;
    let end = this.at;
    while (end < bytes.length && bytes[end]! > SPACE) end++;
    return end;
  }

  /** Whether the word that begins here is this one. */
  isWord(word: string): boolean {
    if (this.wordEnd() - this.at !== word.length) return false;
    for (let i = 0; i < word.length; i++) if (this.bytes[this.at + i] !== word.charCodeAt(i)) return false;
    return true;
  }

  /**
   * The number that begins here, as exactly as Number() reads it, to the first byte that is no part of it; NaN where there is none.
   * Up to 2⁵³ in its digits and 10²² in its power both are exact, and so is their one product or quotient (W. D. Clinger, "How to
   * read floating point numbers accurately", 1990); what has more is left to Number().
   */
  number(): number {
    const { bytes } = this;
    const start = this.at;
    let i = start;
    const isNegative = bytes[i] === MINUS;
    if (isNegative || bytes[i] === PLUS) i++;
    let digits = 0;
    let count = 0;
    let power = 0;
    for (; isDigit(bytes[i]); i++, count++) digits = digits * 10 + bytes[i]! - ZERO;
    if (bytes[i] === POINT) {
      for (i++; isDigit(bytes[i]); i++, count++, power--) digits = digits * 10 + bytes[i]! - ZERO;
    }
    if (count === 0) return this.rareNumber();
    if (bytes[i] === 0x65 || bytes[i] === 0x45) {
      let j = i + 1;
      const isSmall = bytes[j] === MINUS;
      if (isSmall || bytes[j] === PLUS) j++;
      if (isDigit(bytes[j])) {
        let exponent = 0;
        for (; isDigit(bytes[j]); j++) exponent = Math.min(9999, exponent * 10 + bytes[j]! - ZERO);
        power += isSmall ? -exponent : exponent;
        i = j;
      }
    }
    this.at = i;
    let value: number;
    if (digits <= MOST_EXACT && power === 0) value = digits;
    else if (digits <= MOST_EXACT && power > 0 && power <= 22) value = digits * EXACT_POWERS[power]!;
    else if (digits <= MOST_EXACT && power < 0 && power >= -22) value = digits / EXACT_POWERS[-power]!;
    else return Number(latin1(bytes.subarray(start, i)));
    return isNegative ? -value : value;
  }

  /** What has no digit: "nan", "inf" and what is no number at all. */
  private rareNumber(): number {
    this.at = this.wordEnd();
    return Number.NaN;
  }
}

function isDigit(byte: number | undefined): boolean {
  return byte !== undefined && byte >= ZERO && byte <= NINE;
}

function latin1(bytes: Uint8Array): string {
  return new TextDecoder("latin1").decode(bytes);
}
