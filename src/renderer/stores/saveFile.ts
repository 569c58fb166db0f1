/** Bytes that came as base64. */
export const bytesOf = (base64: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(base64), (letter) => letter.codePointAt(0) ?? 0);

/** Hands a file to the person: where it goes is for the browser or the desktop to ask. */
export function saveFile(name: string, bytes: Uint8Array<ArrayBuffer>): void {
  const place = document.createElement('a');
  place.href = URL.createObjectURL(new Blob([bytes]));
  place.download = name;
  place.click();
  URL.revokeObjectURL(place.href);
}
