/** Numbers as text. A formatter is made once for each count of decimals: making one takes longer than a frame of
 * the playback has room for. */

const FORMATS = new Map<number, Intl.NumberFormat>();

/** A number with so many decimals and commas between thousands. */
export function numberText(value: number, decimals: number): string {
  let format = FORMATS.get(decimals);
  if (!format) {
    format = new Intl.NumberFormat('en-US', { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
    FORMATS.set(decimals, format);
  }
  return format.format(value);
}
