// The second editor that the language server is tried with.
import { existsSync } from 'node:fs';
import path from 'node:path';
import { installedProgram } from '../debian.mjs';

/** Path of Neovim, or undefined. */
export const neovimPath = () =>
  [
    process.env.NEOVIM,
    ...(process.env.PATH ?? '').split(path.delimiter).map((folder) => path.join(folder, 'nvim')),
  ].find((place) => place && existsSync(place));

/** Path of Neovim; where missing, installs Debian's if allowed to, else throws an error that says what to run. */
export const installedNeovim = () => installedProgram('Neovim', 'neovim', neovimPath);
