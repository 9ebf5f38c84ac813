import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/**
 * The licence texts of all packages of which a bundle holds code, as one text: most licences ask for it.
 * `metafiles`: esbuild's, with inputs relative to `folder`.
 */
export const thirdPartyLicences = (metafiles, folder) => {
  const packages = new Map();
  for (const input of metafiles.flatMap((metafile) => Object.keys(metafile.inputs))) {
    const home = packageHome(path.resolve(folder, input));
    if (home) packages.set(home, JSON.parse(readFileSync(path.join(home, 'package.json'), 'utf8')));
  }
  const holders = new Map();
  for (const [home, { name, version, license }] of packages) {
    const file = readdirSync(home).find((entry) => /^(licen[cs]e|copying)(\.|$)/i.test(entry));
    const text = file ? readFileSync(path.join(home, file), 'utf8').trim() : `Licence: ${license}`;
    holders.set(text, (holders.get(text) ?? new Set()).add(`${name} ${version} (${license})`));
  }
  return [...holders]
    .map(([text, names]) => `${[...names].sort().join('\n')}\n\n${text}\n`)
    .sort()
    .join(`\n${'-'.repeat(80)}\n\n`);
};

/** The folder of the package that a file belongs to, or null where it is the project's own. */
const packageHome = (file) => {
  if (!file.includes(`${path.sep}node_modules${path.sep}`)) return null;
  for (let folder = path.dirname(file); ; folder = path.dirname(folder)) {
    const manifest = path.join(folder, 'package.json');
    if (existsSync(manifest) && JSON.parse(readFileSync(manifest, 'utf8')).version) return folder;
    if (path.basename(folder) === 'node_modules') return null;
  }
};
