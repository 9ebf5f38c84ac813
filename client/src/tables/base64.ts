/** So many bytes at once: more arguments no call takes. */
const piece = 0x6000;

/** Bytes as the protocol's text can carry them; the same in Node and in a worker. */
export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += piece)
    text += String.fromCharCode(...bytes.subarray(at, at + piece));
  return btoa(text);
}
