import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';
import { escaped, type Markup } from '../markup';

/**
 * A page that stands alone: nothing is loaded, no script runs, and only the style sheet that was written here counts. Its policy names
 * that sheet by its hash (W3C Content Security Policy Level 3).
 */
export function printedPage(title: string, styles: string, body: Markup): string {
  const hash = btoa(String.fromCharCode(...sha256(utf8ToBytes(styles))));
  const policy = `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`;
  // the policy goes before anything that it is about; in an attribute in double quotes its own quotes may stay
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${styles}</style>
</head>
<body>
${body.markup}</body>
</html>
`;
}

/** Text of a file as a string of a style sheet (CSS Syntax Module Level 3, 4.3.7): whatever is no plain letter goes in as its number. */
export const cssString = (text: string): string =>
  `"${[...text].map((each) => (/[A-Za-z0-9]/.test(each) ? each : `\\${each.codePointAt(0)!.toString(16)} `)).join('')}"`;
