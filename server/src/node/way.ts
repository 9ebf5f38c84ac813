import { lstatSync, readlinkSync } from 'node:fs';
import { dirname, isAbsolute, join, parse, resolve, sep } from 'node:path';
import { realPath } from './list';

const mostLinks = 40;

/** The links on the way to a path and where it leads in the end, be there a file or not; each by a path without links before its last name. */
export function wayTo(path: string): string[] {
  // most paths lead through none
  if (realPath(path) === path) return [path];
  const links: string[] = [];
  let at = parse(path).root;
  let names = path.slice(at.length).split(sep);
  while (names.length > 0) {
    const [name, ...rest] = names;
    const next = join(at, name);
    const target = links.length < mostLinks ? targetOf(next) : null;
    if (target === null) {
      at = next;
      names = rest;
      continue;
    }
    links.push(next);
    const to = isAbsolute(target) ? target : resolve(dirname(next), target);
    at = parse(to).root;
    names = [...to.slice(at.length).split(sep), ...rest];
  }
  return [...links, at];
}

function targetOf(path: string): string | null {
  try {
    return lstatSync(path).isSymbolicLink() ? readlinkSync(path) : null;
  } catch {
    return null;
  }
}
