/** A certificate or a bundle of a long build holds some 20,000 values, ten deep; its readings are one text. */
const mostValues = 1_000_000;
const mostDeep = 200;

const [quote, backslash, comma, open, close, openList, closeList] = Buffer.from('"\\,{}[]');

/**
 * JSON out of bytes that may come from anybody; undefined where they are none. A few kilobytes of packed brackets become
 * gigabytes of objects, and brackets deep enough end whoever walks through them, so that values and depth are counted before
 * anything is made of them.
 */
export function boundedJson(bytes: Uint8Array): unknown {
  if (holdsTooMuch(bytes)) return undefined;
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as unknown;
  } catch {
    return undefined;
  }
}

function holdsTooMuch(bytes: Uint8Array): boolean {
  let [values, deep, inText] = [1, 0, false];
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (inText) {
      if (byte === backslash) at += 1;
      else if (byte === quote) inText = false;
    } else if (byte === quote) inText = true;
    else if (byte === open || byte === openList) {
      deep += 1;
      values += 1;
    } else if (byte === close || byte === closeList) deep -= 1;
    else if (byte === comma) values += 1;
    if (values > mostValues || deep > mostDeep) return true;
  }
  return false;
}
