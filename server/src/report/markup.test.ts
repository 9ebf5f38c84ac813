import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escaped, markup, quoted, shortened } from './markup';
import { cssString, printedPage } from './record/printed-page';

const hostile = [
  '<script>',
  '</style>',
  '"',
  "'",
  '&lt;',
  '\u202e',
  '\u2066',
  '\u0000',
  '\n',
  '\ufeff',
  'é',
  '😀',
];
const anyText = fc
  .array(fc.oneof(fc.constantFrom(...hostile), fc.string({ unit: 'binary' })), { maxLength: 12 })
  .map((pieces) => pieces.join(''));

describe('text as data', () => {
  it('never opens a tag, ends an attribute, is an entity, or turns the page', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const written = escaped(text);
        expect(written).not.toMatch(/[<>"'\u0000-\u001f\u202a-\u202e\u2066-\u2069]/);
        expect(written.replace(/&(amp|lt|gt|quot|#39);/g, '')).not.toContain('&');
      }),
    );
  });

  it('reads as it was written', () => {
    expect(escaped(`a < b & "c" 'd' > é😀`)).toBe('a &lt; b &amp; &quot;c&quot; &#39;d&#39; &gt; é😀');
  });

  it('goes in as markup only where a template made it', () => {
    expect(markup`<p>${'<b>'}${markup`<i>${'x'}</i>`}${null}${[markup`<br>`, 'a&b']}${1.5}</p>`.markup).toBe(
      '<p>&lt;b&gt;<i>x</i><br>a&amp;b1.5</p>',
    );
    expect(quoted('שלום').markup).toBe('<bdi>שלום</bdi>');
  });

  it('is cut at a letter, not within one', () => {
    expect(shortened('abc', 3)).toBe('abc');
    expect(shortened('😀😀😀😀', 3)).toBe('😀😀…');
  });
});

describe('a string of a style sheet', () => {
  it('cannot end its string, its line or its sheet', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        expect(cssString(text)).toMatch(/^"([A-Za-z0-9]|\\[0-9a-f]{1,6} )*"$/);
      }),
    );
  });
});

describe('a printed page', () => {
  it('loads and runs nothing, and says so before anything else', () => {
    const page = printedPage('</title><script>', 'p{margin:0}', markup`<p>${'<script>'}</p>`);
    // SHA-256 of the style sheet, by another program: printf 'p{margin:0}' | openssl dgst -sha256 -binary | base64
    expect(page).toContain(
      `content="default-src 'none'; style-src 'sha256-QRQPRLGyxt3RJiKpYNjpkgHcmHU2PywsfL2e8oI0LQA='; base-uri 'none'; form-action 'none'"`,
    );
    expect(page).not.toContain('<script>');
    expect(page.indexOf('Content-Security-Policy')).toBeLessThan(page.indexOf('<title>'));
  });
});
